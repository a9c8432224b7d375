"""Figures as single commands print them for a person, in Korean: figures stay figures, for a screen reader says them in either tongue."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.ko.spoken_names import constellation_name

_NAMES = {
    "sunset": "해넘이", "civil_dusk": "저녁 시민박명 끝", "nautical_dusk": "저녁 항해박명 끝", "astronomical_dusk": "저녁 천문박명 끝",
    "astronomical_dawn": "새벽 천문박명 시작", "nautical_dawn": "새벽 항해박명 시작", "civil_dawn": "새벽 시민박명 시작", "sunrise": "해돋이",
    "local_date": "날짜", "local_time": "시각", "utc_offset_hours": "세계시와의 차이(시간)", "standard_offset_hours": "서머타임을 뺀 시간대(시간)",
    "daylight_saving": "서머타임", "latitude_dms": "위도", "longitude_dms": "경도", "declination_deg": "자기 편각(도, 동쪽이 플러스)",
}  # fmt: skip
_NONE = "없음"


def table_lines(figures: Mapping[str, object]) -> list[str]:
    """Return a line for each named figure; None is one there is not."""
    return [f"{_NAMES[name]}: {_shown(figure)}" for name, figure in figures.items()]


def _shown(figure: object) -> str:
    if isinstance(figure, bool):
        return "켜짐" if figure else "꺼짐"
    return _NONE if figure is None else str(figure)


def moon_line(lit: float, rises: str | None, sets: str | None) -> str:
    """Return the share of the Moon that is lit, 0..1, and its next rise and set."""
    return f"달: {lit:.0%} 밝음, 다음에 뜨는 때 {rises or _NONE}, 다음에 지는 때 {sets or _NONE}"


def place_line(altitude_deg: float, azimuth_deg: float, constellation: str) -> str:
    """Return where something is; ``constellation``: its three letters."""
    return f"고도 {altitude_deg:.2f}도, 방위각 {azimuth_deg:.2f}도, {constellation_name(constellation)}"


def declination_line(declination_deg: float | None, model: str) -> str:
    """Return the magnetic declination, None where the model doesn't know it."""
    return "알 수 없어요" if declination_deg is None else f"{declination_deg:+.2f}도(동쪽이 플러스), {model}"
