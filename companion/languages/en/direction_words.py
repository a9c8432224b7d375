"""Where something stands and how bright it looks, in words first and figures after; which band it falls into is decided by the sky."""

from __future__ import annotations

from companion.equipment import FIST_DEG
from companion.languages.en.number_words import cardinal, count_of
from companion.sky import bands
from companion.sky.bands import BodyTurn, Brightness, CompassPoint, Height, Side

_POINTS = {
    CompassPoint.NORTH: "north",
    CompassPoint.NORTH_EAST: "north-east",
    CompassPoint.EAST: "east",
    CompassPoint.SOUTH_EAST: "south-east",
    CompassPoint.SOUTH: "south",
    CompassPoint.SOUTH_WEST: "south-west",
    CompassPoint.WEST: "west",
    CompassPoint.NORTH_WEST: "north-west",
}
_HEIGHTS = {
    Height.BELOW_HORIZON: "below the horizon",
    Height.VERY_LOW: "very low",
    Height.LOW: "low",
    Height.A_THIRD_UP: "about a third of the way up",
    Height.HALF_WAY_UP: "about half way up",
    Height.HIGH: "high",
    Height.OVERHEAD: "almost overhead",
}
_BRIGHTNESS = {
    Brightness.BRILLIANT: "brilliant",
    Brightness.VERY_BRIGHT: "very bright",
    Brightness.BRIGHT: "bright",
    Brightness.FAIRLY_BRIGHT: "fairly bright",
    Brightness.NOT_VERY_BRIGHT: "not very bright",
    Brightness.FAINT: "faint",
    Brightness.UNSEEN: "too faint for the eye alone",
}
_TURNS = {
    BodyTurn.LESS_THAN_A_QUARTER: "less than a quarter turn",
    BodyTurn.A_QUARTER: "a quarter turn",
    BodyTurn.MORE_THAN_A_QUARTER: "more than a quarter turn",
    BodyTurn.HALF: "half a turn",
}

FEET_PER_METRE = 1 / 0.3048
"""The international foot of 1959, exact."""


def compass_point(azimuth_deg: float) -> str:
    """Return the nearest of the eight compass points."""
    return _POINTS[bands.compass_point(azimuth_deg)]


def height(altitude_deg: float) -> str:
    """Return how high something stands, in words."""
    return _HEIGHTS[bands.height(altitude_deg)]


def place_in_sky(altitude_deg: float, azimuth_deg: float) -> str:
    """Return "low in the east", "almost overhead, a little to the north", "below the horizon, in the west"."""
    point, words = compass_point(azimuth_deg), height(altitude_deg)
    match bands.height(altitude_deg):
        case Height.OVERHEAD:
            return f"{words}, a little to the {point}"
        case Height.BELOW_HORIZON:
            return f"{words}, in the {point}"
    return f"{words} in the {point}"


def fists(angle_deg: float, fist_deg: float = FIST_DEG) -> str:
    """Return an angle in fists at arm's length, to the half: "two and a half fists". Below half a fist, in fingers."""
    halves = bands.half_fists(angle_deg, fist_deg)
    whole, half = divmod(halves, 2)
    if halves == 0:
        return "two fingers"
    if whole == 0:
        return "half a fist"
    if whole == 1:
        return "a fist and a half" if half else "a fist"
    return f"{cardinal(whole)}{' and a half' if half else ''} fists"


def sweep(angle_deg: float, fist_deg: float) -> str:
    """Return a turn on one's feet: in fists while they can be counted, then in parts of a full turn."""
    turn = bands.body_turn(angle_deg)
    return fists(angle_deg, fist_deg) if turn is None else _TURNS[turn]


_QUARTERS = ("", "a quarter turn", "half a turn")


def turn_on_feet(angle_deg: float, fist_deg: float = FIST_DEG) -> str:
    """Return a turn of up to half a circle to the half fist, from the nearest quarter on: "a quarter turn and two fists"."""
    quarters = round(angle_deg / 90.0)
    if quarters == 0:
        return fists(angle_deg, fist_deg)
    more_deg = angle_deg - quarters * 90.0
    if abs(more_deg) < fist_deg / 4:
        return _QUARTERS[quarters]
    if more_deg > 0:
        return f"{_QUARTERS[quarters]} and {fists(more_deg, fist_deg)}"
    return f"{fists(-more_deg, fist_deg)} short of {_QUARTERS[quarters]}"


def side(where: Side) -> str:
    """Return "to the left", "above", "to the right and below"."""
    across = {1: "to the right", -1: "to the left"}.get(where.right)
    upright = {1: "above", -1: "below"}.get(where.up)
    return " and ".join(word for word in (across, upright) if word)


def brightness(magnitude: float) -> str:
    """Return how bright something of this magnitude looks; hand in the magnitude as dimmed by the air."""
    return _BRIGHTNESS[bands.brightness(magnitude)]


def degrees(angle_deg: float) -> str:
    """Return a whole number of degrees in words."""
    return count_of(round(angle_deg), "degree")


def sentence(text: str) -> str:
    """Return the text with a capital first and a full stop last."""
    text = text.strip()
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")
