"""What one looks with: telescope, eyepieces and eye, made of what the profile tells and of common guesses for what it doesn't."""

from __future__ import annotations

from collections.abc import Set
from dataclasses import dataclass, field
from typing import Literal

from companion.equipment import Eyepiece, Instrument, Observer
from companion.observing.eye import Eye
from companion.observing.sky_brightness import SiteSky, darkness_from_milky_way
from companion.observing.telescope import Telescope

USUAL_APERTURE_MM = 100.0
"""A telescope nobody has told about. Judgement."""
USUAL_FOCAL_RATIO = 7.0
"""Focal length over aperture where one of the two is unknown. Judgement."""
USUAL_EYEPIECES = (Eyepiece(25.0), Eyepiece(10.0))
"""What most telescopes come with: common practice, no published source."""
USUAL_SKY_MAG_ARCSEC2 = 20.0
"""The edge of a small town, where nobody has told. Judgement."""

_OBSTRUCTION = 0.25  # of a mirror telescope, where most wide ones are mirrors. Judgement
_LARGEST_LENS_MM = 110.0

Guess = Literal["aperture", "focal length", "eyepieces"]


@dataclass(frozen=True)
class Outfit:
    """A telescope with its eyepieces, and who looks through it."""

    telescope: Telescope
    eyepieces: tuple[Eyepiece, ...] = USUAL_EYEPIECES
    """At least one."""
    eye: Eye = field(default_factory=Eye)
    has_diagonal: bool | None = None
    """Whether one looks in from the side, by a mirror; None where that isn't known."""
    guessed: Set[Guess] = frozenset()
    """What nobody has told, so that it is a guess."""


def outfit_of(instrument: Instrument) -> Outfit:
    """Return the outfit of a profile; what it doesn't tell is usual, and named in ``guessed``."""
    aperture_mm, focal_length_mm = instrument.aperture_mm, instrument.focal_length_mm
    guessed: list[Guess] = []
    if aperture_mm is None:
        guessed.append("aperture")
        aperture_mm = USUAL_APERTURE_MM if focal_length_mm is None else focal_length_mm / USUAL_FOCAL_RATIO
    if focal_length_mm is None:
        guessed.append("focal length")
        focal_length_mm = aperture_mm * USUAL_FOCAL_RATIO
    if not instrument.eyepieces:
        guessed.append("eyepieces")
    obstruction = _OBSTRUCTION if aperture_mm > _LARGEST_LENS_MM else 0.0
    return Outfit(
        telescope=Telescope(aperture_mm, focal_length_mm, obstruction),
        eyepieces=instrument.eyepieces or USUAL_EYEPIECES,
        has_diagonal=instrument.has_diagonal,
        guessed=frozenset(guessed),
    )


def site_sky_of(observer: Observer) -> SiteSky:
    """Return how dark the observer's sky is: as measured or counted, else from whether they see the Milky Way there."""
    if observer.sky_mag_arcsec2 is not None:
        return SiteSky(observer.sky_mag_arcsec2)
    if observer.sees_milky_way is None:
        return SiteSky(USUAL_SKY_MAG_ARCSEC2)
    return SiteSky(darkness_from_milky_way("overhead" if observer.sees_milky_way else "unseen"))
