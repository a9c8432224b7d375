"""What a likely cause of a miss means, and the least that must be done again, in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from companion.diagnosis import COMPASS_POINTS, Cause, CauseFound
from companion.languages.ko.number_words import amount_of, decimal, native
from companion.languages.ko.spoken_names import spoken_name

_POINTS = dict(zip(COMPASS_POINTS, ("북쪽", "북동쪽", "동쪽", "남동쪽", "남쪽", "남서쪽", "서쪽", "북서쪽"), strict=True))
_NAMES: Mapping[Cause, str] = {
    "start_azimuth": "경통이 처음에 진북을 보고 있지 않았어요",
    "magnetic_declination": "나침반을 진북으로 고치는 값이 틀렸어요",
    "start_altitude": "경통이 처음에 수평이 아니었어요",
    "base_tilt": "받침이 수평이 아니에요",
    "hour": "시각이 틀렸어요",
    "date_day": "날짜의 날이 틀렸어요",
    "date_month": "날짜의 달이 틀렸어요",
    "latitude": "위도가 틀렸어요",
    "longitude": "경도가 틀렸어요",
    "site": "장소가 다른 곳으로 들어가 있어요",
    "wrong_star": "다른 별을 가운데에 넣었어요",
    "slipped": "별과 별 사이에 축이 미끄러졌어요",
    "reversed": "경통이 처음에 반대쪽을 보고 있었어요",
    "none": "흔한 오차이고 잘못된 것은 없어요",
}
_MEMBERS: Mapping[str, str] = {
    "daylight_saving": "서머타임",
    "time_zone": "시간대",
    "am_pm": "오전과 오후의 바뀜",
    "clock": "시계 자체",
    "sign": "북과 남, 또는 동과 서의 바뀜",
    "value": "숫자 자체",
    "month": "달 자체",
    "day_month_swapped": "날과 달의 바뀜",
    "not_applied": "고치지 않음",
    "applied_twice": "두 번 고침",
    "wrong_sign": "거꾸로 고침",
    **_POINTS,
}
# The least that must be done again: what was done well stays.
_REMEDIES: Mapping[Cause, str] = {
    "start_azimuth": "경통을 다시 수평과 진북에 맞추고 정렬을 새로 시작하세요. 설정은 그대로 두어도 돼요.",
    "magnetic_declination": "고친 나침반 값으로 경통을 진북에 맞추고 정렬을 새로 시작하세요.",
    "start_altitude": "수평계를 경통에 대고 수평을 맞춘 다음 정렬을 새로 시작하세요.",
    "base_tilt": "받침의 기포를 가운데로 맞추고 수평과 북쪽부터 정렬을 새로 시작하세요.",
    "hour": "서머타임과 시간대, 오전과 오후를 확인하세요. 고친 다음 수평과 북쪽부터 새로 시작하세요.",
    "date_day": "날짜의 날을 확인하세요. 고친 다음 정렬을 새로 시작하세요.",
    "date_month": "날짜의 달을 확인하고, 날과 달이 바뀌지 않았는지 보세요. 고친 다음 정렬을 새로 시작하세요.",
    "latitude": "위도와 그 북남을 확인하세요. 고친 다음 정렬을 새로 시작하세요.",
    "longitude": "경도와 그 동서를 확인하세요. 고친 다음 정렬을 새로 시작하세요.",
    "site": "위도와 경도가 지금 계신 곳과 맞는지 확인하세요. 고친 다음 정렬을 새로 시작하세요.",
    "wrong_star": "마운트가 말한 별을 가운데에 넣고, 첫 별부터 정렬을 새로 시작하세요.",
    "slipped": "먼저 경통을 손으로 받치고 고정 나사 두 개를 단단히 조이세요. 수평과 북쪽부터 새로 시작하세요.",
    "reversed": "경통을 돌려 진북을 보게 하고 정렬을 새로 시작하세요.",
    "none": "화살표 키로 가운데에 넣고 계속하세요.",
}
# What tells a cause from others, whether or not further stars could.
_DECIDES: Mapping[Cause, str] = {
    "start_azimuth": "경통이 처음에 보던 방향",
    "magnetic_declination": "나침반 값을 고친 방법",
    "start_altitude": "시작 자세의 경통에 댄 수평계",
    "base_tilt": "받침의 기포",
    "hour": "마운트에 나오는 시각과 시간대, 서머타임",
    "date_day": "마운트에 나오는 날짜",
    "date_month": "마운트에 나오는 날짜",
    "latitude": "마운트에 나오는 위도",
    "longitude": "마운트에 나오는 경도",
    "site": "마운트에 나오는 위도와 경도",
    "wrong_star": "가운데에 넣은 별의 색과 밝기, 이웃 별",
    "slipped": "고정 나사 두 개가 단단한지",
    "reversed": "북쪽을 보던 것이 경통의 어느 끝인지",
    "none": "별 하나 더",
}


def explain_cause(found: CauseFound) -> str:
    """Say what a cause means here, how large it is, and which others these misses can't be told from."""
    text = sum_up_cause(found)
    others = [*found.same_turn, *(cause for cause in found.fits_as_well if cause not in found.same_turn)]
    if others:
        text += f" 이 오차에 똑같이 맞는 원인이 더 있어요. {'. '.join(_NAMES[cause] for cause in others)}."
    return text


def sum_up_cause(found: CauseFound) -> str:
    """Say what a cause means here and how large it is, in one sentence."""
    parts = [_NAMES[found.cause]]
    if size := _size(found):
        parts.append(size)
    likeliest = [_MEMBERS[member] for member in found.members[:2]]
    if likeliest:
        parts.append(f"가장 그럴듯한 것은 {likeliest[0]}" + (f", 다음은 {likeliest[1]}" if len(likeliest) > 1 else ""))
    if found.cause == "wrong_star" and found.star and isinstance(found.value, str):
        parts.append(f"{spoken_name(found.star)} 대신 {spoken_name(found.value)}")
    return "; ".join(parts) + "."


def what_would_decide(causes: Sequence[CauseFound]) -> str | None:
    """Say what tells a few causes from one another; None where there is but one."""
    checks = dict.fromkeys(_DECIDES[found.cause] for found in causes)
    return f"이것을 보면 가릴 수 있어요: {'; '.join(checks)}." if len(causes) > 1 else None


def remedy_in_words(cause: Cause) -> str:
    """Return the least that must be done again for a cause."""
    return _REMEDIES[cause]


def cause_in_words(cause: Cause) -> str:
    """Return a cause as a sentence without its full stop."""
    return _NAMES[cause]


def _size(found: CauseFound) -> str:
    """Return how large an error is, told minus true, where it is a number."""
    if not isinstance(found.value, int | float):
        return ""
    amount, way = abs(found.value), "늦게" if found.value > 0 else "이르게"
    if found.cause == "hour":
        whole = round(amount)
        hours = native(whole) if whole == round(amount, 1) and whole else decimal(amount)
        return f"{hours} 시간쯤 {way} 들어갔어요"
    if found.cause in ("date_day", "date_month"):
        return f"{amount_of(round(amount), '일')}쯤 {way} 들어갔어요"
    if found.cause == "site":
        return f"{amount_of(round(amount), '도')}쯤 떨어져 있어요"
    if found.cause in ("none", "reversed", "wrong_star"):
        return ""
    return f"{amount_of(round(amount), '도')}쯤이에요"
