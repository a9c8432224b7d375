"""All that may be offered to look at: the rated showpieces, the Moon, the planets and the observer's own objects, in one form."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from companion.observing.planets import planet_view
from companion.observing.showpieces import UNIFORM_SHARE, Showpiece, rated_showpieces
from companion.sky import MOON, PLANETS, Body, Moment

MOON_DIAMETER_ARCMIN = 31.0
OWN_RATING = 2
"""What an observer has put on a list of their own is worth the effort. Judgement."""

# What a planet gives where it shows well. Judgement, as are the discs from which Mars shows more than a dot.
_RATINGS = {"Jupiter": 3, "Saturn": 3, "Mars": 1, "Venus": 2, "Mercury": 1, "Uranus": 1, "Neptune": 1}
_FINEST = 3
_MARS_ARCSEC = ((12.0, 3), (8.0, 2))
_FROM_APERTURE_MM = {"Uranus": 80.0, "Neptune": 100.0}
_OWN_FIELD_ARCMIN, _OWN_FRAMING = 20.0, 1.5


def candidates(moment: Moment, own: Sequence[Body] = ()) -> list[Showpiece]:
    """Return every candidate; ``own`` are the observer's own objects, as ``own_objects`` reads them."""
    return [*rated_showpieces(), *_family(moment), *(_own(body) for body in own)]


def _family(moment: Moment) -> list[Showpiece]:
    """Return the Moon and the planets as they look at that moment."""
    lit = planet_view(MOON, moment).illuminated_fraction
    # Of a crescent only its width is light.
    moon = replace(MOON, size_arcmin=MOON_DIAMETER_ARCMIN, width_arcmin=max(0.5, MOON_DIAMETER_ARCMIN * lit))
    return [
        Showpiece("Moon", moon, 3, 40.0, 40.0, UNIFORM_SHARE, famous=True),
        *(
            Showpiece(
                key=planet.name,
                body=planet,
                rating=(rating := _rating(planet, moment)),
                from_aperture_mm=_FROM_APERTURE_MM.get(planet.name, 50.0),
                field_arcmin=10.0,
                inner_share=UNIFORM_SHARE,
                famous=rating == _FINEST,
            )
            for planet in PLANETS
        ),
    ]


def _rating(planet: Body, moment: Moment) -> int:
    """Return what a planet gives at that moment."""
    if planet.name != "Mars":
        return _RATINGS[planet.name]
    diameter_arcsec = planet_view(planet, moment).diameter_arcsec
    return next((rating for wide, rating in _MARS_ARCSEC if diameter_arcsec >= wide), _RATINGS["Mars"])


def _own(body: Body) -> Showpiece:
    """Return an object of the observer's own list."""
    field_arcmin = max(_OWN_FIELD_ARCMIN, _OWN_FRAMING * (body.size_arcmin or 0.0))
    return Showpiece(body.name, body, OWN_RATING, 1.0, field_arcmin, UNIFORM_SHARE)
