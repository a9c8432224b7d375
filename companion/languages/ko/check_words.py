"""What is looked at to find a mistake, and what mends it, in words: where to look first, then what should be there."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Literal

from companion import places, sky
from companion.diagnosis import About, Cure
from companion.equipment import CompassKind
from companion.languages.ko import clock_words
from companion.languages.ko.number_words import amount_of, count_of, digits
from companion.languages.ko.pose_phrases import compass_shown
from companion.languages.ko.settings_phrases import key_the_latitude, key_the_longitude, key_the_time, key_the_zone, the_date
from companion.languages.ko.sight_words import direct, it_is, subject
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Scene

_SIDES = {"N": "북위", "S": "남위", "E": "동경", "W": "서경"}


def question_about(
    about: About, scene: Scene, star: str = "", instead: str = "", compass: CompassKind | Literal["unknown"] = "unknown"
) -> str:
    """Ask about one thing; ``star`` and ``instead`` only where it is about stars."""
    if about == "position":
        return _position(scene, star)
    if about == "heading":
        shown = _by_compass(scene, compass)
        return f"북쪽 목표물을 한 번 더 보세요. {shown.removesuffix('으로 ')}이 맞아요?" if shown else "북쪽 목표물이 확실해요?"
    if about in _OF_STARS:
        return _OF_STARS[about](spoken_name(star), spoken_name(instead))
    return _OF_SETTINGS[about](scene) if about in _OF_SETTINGS else _PLAIN[about]


def what_to_do(cure: Cure, scene: Scene, star: str, compass: CompassKind | Literal["unknown"]) -> str:
    """Say one thing that must be done again; of all but the hand control's settings it is always the same."""
    if cure == "star":
        return f"이번에는 꼭 {spoken_name(star)}인지 확인하세요."
    if cure == "north":
        return f"{_by_compass(scene, compass)}경통 앞쪽을 진북으로 돌리세요."
    return _SET_AGAIN[cure](scene) if cure in _SET_AGAIN else _DO_AGAIN[cure]


def found_in_words(found_wrong: Sequence[Cure]) -> str:
    """Say in a sentence each what was found not to be as it should."""
    if set(found_wrong) == {"latitude", "longitude"}:
        return "조종기의 장소가 틀렸어요."
    return " ".join(f"{_FOUND[cure]}." for cure in found_wrong)


def _position(scene: Scene, star: str) -> str:
    """Ask where the handset takes a star to be."""
    sight = sky.sight(sky.find(star), scene)
    below = "마이너스 " if round(sight.altitude_deg) < 0 else ""
    shown = f"고도 {below}{digits(abs(round(sight.altitude_deg)))}, 방위각 {digits(round(sight.azimuth_deg) % 360, 3)}"
    return f"조종기에서 {direct(spoken_name(star))} 찾아보세요. {shown}쯤으로 나와요?"


def _question(words: str) -> str:
    return f"{it_is(words)[:-1]}?"


def _date(scene: Scene) -> str:
    local = places.local_time(scene)
    day = f"해 {digits(local.year, 4)}, 달 {digits(local.month, 2)}, 날 {digits(local.day, 2)}"
    return f"조종기의 날짜를 보세요. {_question(day)}"


def _time(scene: Scene) -> str:
    return f"조종기의 시각을 보세요. {clock_words.time_of_day(places.local_time(scene))}쯤이에요?"


def _is_on(scene: Scene) -> bool:
    return places.mount_settings(scene).daylight_saving


def _time_zone(scene: Scene) -> str:
    hours = places.mount_settings(scene).standard_offset_hours
    whole, minutes = divmod(round(abs(hours) * 60), 60)
    amount = (count_of(whole, "시간") if whole else "영 시간") + (f" {amount_of(minutes, '분')}" if minutes else "")
    return f"조종기의 시간대가 {'마이너스' if hours < 0 else '플러스'} {_question(amount)}"


def _place(scene: Scene) -> str:
    """Ask for whole degrees as the handset shows them, not rounded: enough to find a mistake."""
    degrees = [f"{_SIDES[angle.side]} {digits(angle.degrees)} 도" for angle in (places.latitude(scene.site), places.longitude(scene.site))]
    return f"조종기의 장소를 보세요. {_question(', '.join(degrees))}"


def _to_the_minute(angle: places.Sexagesimal) -> str:
    return f"{_SIDES[angle.side]} {digits(angle.degrees)} 도 {digits(angle.minutes, 2)} 분"


def _by_compass(scene: Scene, compass: CompassKind | Literal["unknown"]) -> str:
    """Say what the compass at hand shows when the tube faces true north."""
    shown = compass_shown(scene, compass)
    if shown is None:
        return ""
    if compass == "needle":
        return f"바늘이 {shown} 위에 오는 쪽으로 "
    return f"나침반이 {direct(shown)} 가리키는 쪽으로 "


_OF_SETTINGS: Mapping[About, Callable[[Scene], str]] = {
    "date": _date,
    "time": _time,
    "daylight_saving": lambda scene: f"조종기에서 서머타임이 {'켜져' if _is_on(scene) else '꺼져'} 있어요?",
    "time_zone": _time_zone,
    "latitude": lambda scene: f"조종기의 위도가 {_question(_to_the_minute(places.latitude(scene.site)))}",
    "longitude": lambda scene: f"조종기의 경도가 {_question(_to_the_minute(places.longitude(scene.site)))}",
    "longitude_side": lambda scene: f"조종기의 경도가 {_question(_SIDES[places.longitude(scene.site).side])}",
    "place": _place,
}
_PLAIN: Mapping[About, str] = {
    "facing": "처음에 경통 앞쪽이 어느 쪽을 보고 있었어요? 북쪽, 동쪽, 남쪽, 서쪽?",
    "bubble": "받침의 기포를 보세요. 가운데에 있어요?",
    "base_level": "받침에 수평계를 가로세로로 놓아 보세요. 두 방향 다 수평이에요?",
    "altitude_circle": "처음에 고도 눈금이 수평을 가리켰어요?",
    "soft_ground": "삼각대가 잔디나 모래처럼 무른 땅에 서 있어요?",
    "knocked": "수평을 맞춘 뒤에 삼각대나 경통이 어디에 부딪혔어요?",
    "tube_gives": "경통을 옆으로, 위로 살짝 밀어 보세요. 그대로 있어요?",
    "tube_level": "처음에 수평계로 맞춘 경통이 수평이었어요?",
    "clamps": "경통을 붙잡고 고정 나사 두 개를 만져 보세요. 둘 다 단단해요?",
}
_OF_STARS: Mapping[About, Callable[[str, str], str]] = {
    "star": lambda star, instead: f"그 별이 이웃 별이 아니라 {subject(star)} 확실해요?",
    "double": lambda star, instead: f"{subject(star)} 아니라 {instead}일 수도 있어요?",
    "first_far": lambda star, instead: f"{direct(star)} 맞추기 전에는 한 주먹보다 멀리 있었어요?",
    "below_horizon": lambda star, instead: f"조종기에 {subject(star)} 지평선 아래라고 나와요?",
}
_SET_AGAIN: Mapping[Cure, Callable[[Scene], str]] = {
    "time": lambda scene: f"시각을 새로 넣으세요. {key_the_time(scene)}",
    "daylight_saving": lambda scene: f"서머타임을 {'켜고' if _is_on(scene) else '끄고'} 시각을 한 번 더 확인하세요.",
    "time_zone": lambda scene: f"시간대를 새로 넣으세요. {key_the_zone(scene)}",
    "date": lambda scene: f"날짜를 새로 넣으세요. {the_date(scene)}",
    "latitude": lambda scene: f"위도를 새로 넣으세요. {key_the_latitude(scene).removeprefix('위도예요. ')}",
    "longitude": lambda scene: f"경도를 새로 넣으세요. {key_the_longitude(scene).removeprefix('경도예요. ')}",
}
_FOUND: Mapping[Cure, str] = {
    "bubble": "받침이 수평이 아니에요",
    "north": "경통이 처음에 진북을 보고 있지 않았어요",
    "tube_level": "경통이 처음에 수평이 아니었어요",
    "time": "조종기의 시각이 틀렸어요",
    "daylight_saving": "조종기의 서머타임이 틀렸어요",
    "time_zone": "조종기의 시간대가 틀렸어요",
    "date": "조종기의 날짜가 틀렸어요",
    "latitude": "조종기의 위도가 틀렸어요",
    "longitude": "조종기의 경도가 틀렸어요",
    "star": "다른 별이었어요",
    "clamps": "고정 나사가 느슨해요",
}
_DO_AGAIN: Mapping[Cure, str] = {
    "bubble": "받침의 기포를 가운데로 맞추세요.",
    "tube_level": "수평계를 대고 경통을 수평으로 맞추세요.",
    "clamps": "경통을 붙잡고 고정 나사 두 개를 조이세요.",
    "none": "화살표 키로 가운데에 맞추세요.",
}
