"""Korean for the single commands, beside what they find and where they find nothing."""

from __future__ import annotations

from companion.languages.ko.look_for import millimetres
from companion.languages.ko.sight_words import SUN_CAUTION, it_is
from companion.languages.phrase import Chapter, Scene
from companion.talk.sky_phrases import NoReferenceStarNow, NothingBrightThere, NothingWellPlaced, OutfitGuessed, SunIsUpNow


def outfit_guessed(scene: Scene, *, aperture_mm: float | None, focal_length_mm: float | None, eyepieces_mm: tuple[float, ...]) -> str:
    """Say which telescope is assumed."""
    parts = [
        f"{what} {millimetres(figure)}" for what, figure in (("구경", aperture_mm), ("초점 거리", focal_length_mm)) if figure is not None
    ]
    if eyepieces_mm:
        parts.append(f"접안렌즈 {', '.join(millimetres(figure) for figure in eyepieces_mm)}")
    return f"프로필에 망원경이 다 적혀 있지 않아요. 이렇게 생각하고 말할게요. {it_is(', '.join(parts))}"


SKY = Chapter(
    phrases={
        NothingBrightThere: "거기에는 밝은 것이 없어요.",
        NoReferenceStarNow: "지금 자리가 좋은 정렬 별이 없어요.",
        NothingWellPlaced: "지금 자리가 좋은 대상이 없어요.",
        SunIsUpNow: f"해가 떠 있어요. {SUN_CAUTION}",
        OutfitGuessed: outfit_guessed,
    },
)
