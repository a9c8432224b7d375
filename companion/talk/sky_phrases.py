"""What the single commands say of the sky beside what they find, and where they find nothing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from companion.talk.saying import Say


class NothingBrightThere(Say): ...


class NoReferenceStarNow(Say): ...


class NothingWellPlaced(Say): ...


class SunIsUpNow(Say): ...


@dataclass(frozen=True)
class BetterLater(Say):
    """Tell of what stands at the top of the sky, where it is hard to steer, and from when it is easier."""

    target: str
    since: datetime


@dataclass(frozen=True)
class OutfitGuessed(Say):
    """Say which telescope is assumed; what the profile tells is None, or empty."""

    aperture_mm: float | None
    focal_length_mm: float | None
    eyepieces_mm: tuple[float, ...]
