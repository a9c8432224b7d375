"""What single commands print for a person, in Korean: times and directions as they are said in an evening."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from companion.languages.ko.clock_words import calendar_day, time_of_day, zone_name
from companion.languages.ko.direction_words import degrees
from companion.languages.ko.number_words import cardinal
from companion.languages.ko.spoken_names import constellation_name

_NAMES = {
    "sunset": "해넘이", "civil_dusk": "저녁 시민박명 끝", "nautical_dusk": "저녁 항해박명 끝", "astronomical_dusk": "저녁 천문박명 끝",
    "astronomical_dawn": "새벽 천문박명 시작", "nautical_dawn": "새벽 항해박명 시작", "civil_dawn": "새벽 시민박명 시작", "sunrise": "해돋이",
}  # fmt: skip
_NONE = "없음"


def night_lines(times: Mapping[str, datetime | None], zone: str) -> list[str]:
    """Return whose clock it is, and a line for each event of the night; None is one there is not."""
    return [f"{zone_name(zone)}:", *(f"{_NAMES[name]}: {_NONE if time is None else time_of_day(time)}" for name, time in times.items())]


def moon_line(lit: float, rises: datetime | None, sets: datetime | None) -> str:
    """Return the share of the Moon that is lit, 0..1, and its next rise and set."""
    return f"달은 {cardinal(round(100 * lit))} 퍼센트 밝아요. 다음에 뜨는 때: {_when(rises)}. 다음에 지는 때: {_when(sets)}."


def _when(time: datetime | None) -> str:
    return _NONE if time is None else f"{calendar_day(time)} {time_of_day(time)}"


def place_line(altitude_deg: float, azimuth_deg: float, constellation: str) -> str:
    """Return where something is; ``constellation``: its three letters."""
    height = f"{'높이' if altitude_deg >= 0 else '지평선 아래'} {degrees(abs(altitude_deg))}"
    return f"{constellation_name(constellation)}, 북쪽에서 동쪽으로 {degrees(azimuth_deg % 360)}, {height}"


def rehearsed(finished: bool, understood: tuple[int, int], refused: tuple[int, int]) -> list[str]:
    """Say how a rehearsal went: so many of so many answers, and of strange utterances."""
    return [
        "저녁 관측을 끝까지 마쳤어요." if finished else "저녁 관측을 끝까지 마치지 못했어요.",
        f"대답 {understood[1]}개 가운데 {understood[0]}개를 알아들었어요. 엉뚱한 말 {refused[1]}개 가운데 {refused[0]}개를 넘겼어요.",
    ]
