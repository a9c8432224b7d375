"""Where something stands and how bright it looks, in words first and figures after; which band it falls into is decided by the sky."""

from __future__ import annotations

from companion.equipment import FIST_DEG
from companion.languages.ko.number_words import amount_of, count_of
from companion.sky import bands
from companion.sky.bands import BodyTurn, Brightness, CompassPoint, Height, Side

_POINTS = {
    CompassPoint.NORTH: "북쪽",
    CompassPoint.NORTH_EAST: "북동쪽",
    CompassPoint.EAST: "동쪽",
    CompassPoint.SOUTH_EAST: "남동쪽",
    CompassPoint.SOUTH: "남쪽",
    CompassPoint.SOUTH_WEST: "남서쪽",
    CompassPoint.WEST: "서쪽",
    CompassPoint.NORTH_WEST: "북서쪽",
}
_HEIGHTS = {
    Height.BELOW_HORIZON: "지평선 아래",
    Height.VERY_LOW: "아주 낮은 곳",
    Height.LOW: "낮은 곳",
    Height.A_THIRD_UP: "삼분의 일쯤 높이",
    Height.HALF_WAY_UP: "중간쯤 높이",
    Height.HIGH: "높은 곳",
    Height.OVERHEAD: "거의 머리 위",
}
_BRIGHTNESS = {
    Brightness.BRILLIANT: "눈부시게 밝아요",
    Brightness.VERY_BRIGHT: "아주 밝아요",
    Brightness.BRIGHT: "밝아요",
    Brightness.FAIRLY_BRIGHT: "꽤 밝아요",
    Brightness.NOT_VERY_BRIGHT: "그리 밝지 않아요",
    Brightness.FAINT: "어두워요",
    Brightness.UNSEEN: "너무 어두워서 맨눈에는 안 보여요",
}
_TURNS = {
    BodyTurn.LESS_THAN_A_QUARTER: "사분의 일 바퀴 조금 못 되게",
    BodyTurn.A_QUARTER: "사분의 일 바퀴",
    BodyTurn.MORE_THAN_A_QUARTER: "사분의 일 바퀴 조금 넘게",
    BodyTurn.HALF: "반 바퀴",
}
_QUARTERS = ("", "사분의 일 바퀴", "반 바퀴")

FEET_PER_METRE = 1 / 0.3048
"""The international foot of 1959, exact."""


def compass_point(azimuth_deg: float) -> str:
    """Return the nearest of the eight compass points."""
    return _POINTS[bands.compass_point(azimuth_deg)]


def height(altitude_deg: float) -> str:
    """Return how high something stands, in words."""
    return _HEIGHTS[bands.height(altitude_deg)]


def place_in_sky(altitude_deg: float, azimuth_deg: float) -> str:
    """Return "동쪽 하늘 낮은 곳", "거의 머리 위에서 북쪽으로 조금 치우친 곳", "서쪽 지평선 아래": a noun, so that 에 or 예요 may follow."""
    point, words = compass_point(azimuth_deg), height(altitude_deg)
    match bands.height(altitude_deg):
        case Height.OVERHEAD:
            return f"{words}에서 {point}으로 조금 치우친 곳"
        case Height.BELOW_HORIZON:
            return f"{point} {words}"
    return f"{point} 하늘 {words}"


def fists(angle_deg: float, fist_deg: float = FIST_DEG) -> str:
    """Return an angle in fists at arm's length, to the half: "주먹 두 개 반". Below half a fist, in fingers."""
    return half_fists(bands.half_fists(angle_deg, fist_deg))


def half_fists(halves: int) -> str:
    """Return so many half fists."""
    whole, half = divmod(halves, 2)
    if halves == 0:
        return "손가락 두 개"
    if whole == 0:
        return "주먹 반 개"
    return f"주먹 {count_of(whole, '개')}{' 반' if half else ''}"


def sweep(angle_deg: float, fist_deg: float) -> str:
    """Return a turn on one's feet: in fists while they can be counted, then in parts of a full turn."""
    turn = bands.body_turn(angle_deg)
    return fists(angle_deg, fist_deg) if turn is None else _TURNS[turn]


def turn_on_feet(angle_deg: float, fist_deg: float = FIST_DEG) -> str:
    """Return a turn of up to half a circle to the half fist, from the nearest quarter on: "사분의 일 바퀴보다 주먹 두 개 더"."""
    quarters = round(angle_deg / 90.0)
    if quarters == 0:
        return fists(angle_deg, fist_deg)
    more_deg = angle_deg - quarters * 90.0
    if abs(more_deg) < fist_deg / 4:
        return _QUARTERS[quarters]
    if more_deg > 0:
        return f"{_QUARTERS[quarters]}보다 {fists(more_deg, fist_deg)} 더"
    return f"{_QUARTERS[quarters]}보다 {fists(-more_deg, fist_deg)} 덜"


def side(where: Side) -> str:
    """Return "왼쪽", "위쪽", "오른쪽 아래"."""
    across = {1: "오른쪽", -1: "왼쪽"}.get(where.right)
    if across is None:
        return {1: "위쪽", -1: "아래쪽"}.get(where.up, "바로 옆")
    upright = {1: " 위", -1: " 아래"}.get(where.up, "")
    return f"{across}{upright}"


def brightness(magnitude: float) -> str:
    """Return how bright something of this magnitude looks; hand in the magnitude as dimmed by the air."""
    return _BRIGHTNESS[bands.brightness(magnitude)]


def degrees(angle_deg: float) -> str:
    """Return a whole number of degrees in words."""
    return amount_of(round(angle_deg), "도")


def sentence(text: str) -> str:
    """Return the text with a full stop last."""
    text = text.strip()
    return text + ("" if text.endswith((".", "?", "!")) else ".")
