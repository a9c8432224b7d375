"""Korean for the single commands, beside what they find and where they find nothing."""

from __future__ import annotations

from datetime import datetime

from companion import places
from companion.languages.ko import clock_words
from companion.languages.ko.look_for import millimetres
from companion.languages.ko.sight_words import SUN_CAUTION, it_is, topic
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.sky import Moment
from companion.talk.sky_phrases import BetterLater, NoReferenceStarNow, NothingBrightThere, NothingWellPlaced, OutfitGuessed, SunIsUpNow


def outfit_guessed(scene: Scene, *, aperture_mm: float | None, focal_length_mm: float | None, eyepieces_mm: tuple[float, ...]) -> str:
    """Say which telescope is assumed."""
    parts = [
        f"{what} {millimetres(figure)}" for what, figure in (("구경", aperture_mm), ("초점 거리", focal_length_mm)) if figure is not None
    ]
    if eyepieces_mm:
        parts.append(f"접안렌즈 {', '.join(millimetres(figure) for figure in eyepieces_mm)}")
    return f"프로필에 망원경이 다 적혀 있지 않아요. 이렇게 생각하고 말할게요. {it_is(', '.join(parts))}"


def better_later(scene: Scene, *, target: str, since: datetime) -> str:
    """Tell of what stands at the top of the sky."""
    time = clock_words.time_of_day(places.local_time(Moment(scene.site, since)))
    return f"{topic(spoken_name(target))} 지금 머리 바로 위라서 맞추기 어려워요. {time}부터가 나아요."


SKY = Chapter(
    phrases={
        NothingBrightThere: "거기에는 밝은 것이 없어요.",
        NoReferenceStarNow: "지금 자리가 좋은 정렬 별이 없어요.",
        NothingWellPlaced: "지금 자리가 좋은 대상이 없어요.",
        BetterLater: better_later,
        SunIsUpNow: f"해가 떠 있어요. {SUN_CAUTION}",
        OutfitGuessed: outfit_guessed,
    },
)
