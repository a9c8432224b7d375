"""English for the single commands, beside what they find and where they find nothing."""

from __future__ import annotations

from datetime import datetime

from companion import places
from companion.languages.en import clock_words
from companion.languages.en.number_words import decimal
from companion.languages.en.sight_words import SUN_CAUTION
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.sky import Moment
from companion.talk.sky_phrases import BetterLater, NoReferenceStarNow, NothingBrightThere, NothingWellPlaced, OutfitGuessed, SunIsUpNow


def outfit_guessed(scene: Scene, *, aperture_mm: float | None, focal_length_mm: float | None, eyepieces_mm: tuple[float, ...]) -> str:
    """Say which telescope is assumed."""
    parts = [
        f"{what} {decimal(figure)} millimetres."
        for what, figure in (("Aperture", aperture_mm), ("Focal length", focal_length_mm))
        if figure is not None
    ]
    if eyepieces_mm:
        parts.append(f"Eyepieces {' and '.join(decimal(figure) for figure in eyepieces_mm)} millimetres.")
    return f"Not all of your telescope is in the profile. I assume: {' '.join(parts)}"


def better_later(scene: Scene, *, target: str, since: datetime) -> str:
    """Tell of what stands at the top of the sky."""
    time = clock_words.time_of_day(places.local_time(Moment(scene.site, since)))
    return f"{spoken_name(target)} stands at the top of the sky, where it's hard to steer: better from {time}."


SKY = Chapter(
    phrases={
        NothingBrightThere: "Nothing bright stands there.",
        NoReferenceStarNow: "No alignment star is well placed now.",
        NothingWellPlaced: "Nothing is well placed now.",
        BetterLater: better_later,
        SunIsUpNow: f"The Sun is up. {SUN_CAUTION}",
        OutfitGuessed: outfit_guessed,
    },
)
