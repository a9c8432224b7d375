"""How a kind of thing looks in the eyepiece, and how large it is, in words."""

from __future__ import annotations

from companion.languages.en.number_words import cardinal, count_of
from companion.sky import Body

_LOOKS = {
    "planet": "Expect a small, sharp disc.",
    "moon": "Expect it bright: begin at the edge of the shadow.",
    "double star": "Expect one star at low power: more power splits it in two.",
    "star": "Expect a point, at any power.",
    "carbon star": "Expect a point, as orange as an ember.",
    "variable star": "Expect a point: compare it with its neighbours.",
    "open cluster": "Expect a loose knot of stars.",
    "globular cluster": "Expect a round, grainy glow, brighter in the middle.",
    "galaxy": "Expect a soft grey glow, brighter in the middle.",
    "nebula": "Expect a grey mist without an edge.",
    "planetary nebula": "Expect a small grey disc, like a star out of focus.",
    "star cloud": "Expect more stars than anywhere around.",
    "user": "I don't know how it looks.",
}
_MOON_ARCMIN = 31.0
_OF_THE_MOON = ((1.0, "Hardly larger than a star."), (3.0, "A twentieth of the Moon's width."), (6.0, "An eighth of the Moon's width."))
_UP_TO = (*_OF_THE_MOON, (11.0, "A quarter of the Moon's width."), (22.0, "Half the Moon's width."), (46.0, "About as wide as the Moon."))
"""Sizes in arcminutes up to which each is said."""


def expected(kind: str) -> str:
    """Return what to expect of a kind of thing: a sentence."""
    return _LOOKS[kind]


def size_in_words(body: Body) -> str:
    """Return how large it is, a sentence; of a double star how far apart. Nothing where the sky doesn't know, or it has no size."""
    if body.size_arcmin is None:
        return ""
    if body.kind == "double star":
        arcsec = round(body.size_arcmin * 60.0)
        return f"The two stand {count_of(max(1, arcsec), 'arcsecond')} apart."
    for up_to_arcmin, words in _UP_TO:
        if body.size_arcmin <= up_to_arcmin:
            return words
    return f"{cardinal(round(body.size_arcmin / _MOON_ARCMIN)).capitalize()} times as wide as the Moon."
