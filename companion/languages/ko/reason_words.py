"""The sky's reason and warning codes in words."""

from __future__ import annotations

from collections.abc import Iterable

_REASONS = {
    "good-height": "높이가 알맞아요",
    "low": "조금 낮아요",
    "high": "하늘 높이 있어요",
    "very-bright": "아주 밝아요",
    "bright": "밝아요",
    "alone": "근처에 비슷한 별이 없어요",
    "rivals-near": "근처에 비슷한 별이 있어요",
    "well-apart": "다른 별들과 충분히 떨어져 있어요",
    "near-pole": "극에 가까워서 시계의 오차를 잘 알려 주지 않아요",
    "sky-too-bright": "하늘이 아직 너무 밝아요",
    "overhead": "거의 머리 위라서 마운트가 잘 따라가지 못해요",
    "at-its-best": "오늘 밤 가장 높이 떠 있어요",
    "better-later": "나중에 더 높이 올라와요",
    "faint": "망원경의 한계에 가까워요",
    "moonlight": "달빛에 묻혀요",
    "twilight": "하늘이 아직 어둡지 않아요",
    "sets-soon": "곧 너무 낮아지거나 가려져요",
    "large": "넓게 퍼져 있으니 저배율로 보세요",
}
_WARNINGS = {
    "outside-model-years": "자기장 모형이 이 날짜를 다루지 않아요. 북극성이나 지상 목표물로 북쪽을 찾으세요",
    "blackout-zone": "자극에 너무 가까워서 어떤 나침반도 믿을 수 없어요. 북극성이나 지상 목표물로 북쪽을 찾으세요",
    "caution-zone": "자극에 가까워서 나침반이 잘 맞지 않아요. 북극성이나 지상 목표물로 북쪽을 찾으세요",
}


def reasons_in_words(codes: Iterable[str]) -> list[str]:
    """Return each reason as a short phrase."""
    return [_REASONS[code] for code in codes]


def warning_in_words(code: str | None) -> str | None:
    """Return what a warning about the declination means, or None."""
    return None if code is None else _WARNINGS[code]
