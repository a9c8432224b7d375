"""Where something stands and how bright it looks, in words first and figures after.

The thresholds stand here in one place. They are common practice among observers, no published source, but for the hand
measure: a fist at arm's length spans about ten degrees.
"""

from __future__ import annotations

from companion.equipment import FIST_DEG
from companion.languages.en.number_words import cardinal, count_of

_POINTS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
# Height words: the highest altitude, in degrees, that each still fits. "Half way up" is where people put 45 degrees.
_HEIGHTS = ((12.0, "very low"), (25.0, "low"), (38.0, "about a third of the way up"), (52.0, "about half way up"), (75.0, "high"))
_OVERHEAD = "almost overhead"
# Brightness words: the faintest magnitude, as dimmed by the air, that each still fits. A suburban sky shows about 4, a dark one 6.
_BRIGHTNESS = (
    (-2.5, "brilliant"),
    (1.0, "very bright"),
    (1.6, "bright"),
    (2.6, "fairly bright"),
    (3.6, "not very bright"),
    (6.0, "faint"),
)
_UNSEEN = "too faint for the eye alone"


def compass_point(azimuth_deg: float) -> str:
    """Return the nearest of the eight compass points."""
    return _POINTS[round(azimuth_deg / 45.0) % 8]


def height(altitude_deg: float) -> str:
    """Return how high something stands, in words; below 0 it is "below the horizon"."""
    if altitude_deg < 0:
        return "below the horizon"
    return next((word for top_deg, word in _HEIGHTS if altitude_deg < top_deg), _OVERHEAD)


def place_in_sky(altitude_deg: float, azimuth_deg: float) -> str:
    """Return "low in the east", "almost overhead, a little to the north", "below the horizon, in the west"."""
    point = compass_point(azimuth_deg)
    words = height(altitude_deg)
    if words == _OVERHEAD:
        return f"{words}, a little to the {point}"
    return f"{words}, in the {point}" if altitude_deg < 0 else f"{words} in the {point}"


def fists(angle_deg: float, fist_deg: float = FIST_DEG) -> str:
    """Return an angle in fists at arm's length, to the half: "two and a half fists". Below half a fist, in fingers."""
    halves = round(angle_deg / fist_deg * 2)
    whole, half = divmod(halves, 2)
    if halves == 0:
        return "two fingers"
    if whole == 0:
        return "half a fist"
    if half:
        return f"{cardinal(whole)} and a half fists"
    return count_of(whole, "fist")


def brightness(magnitude: float) -> str:
    """Return how bright something of this magnitude looks; hand in the magnitude as dimmed by the air."""
    return next((word for faintest, word in _BRIGHTNESS if magnitude < faintest), _UNSEEN)


def degrees(angle_deg: float) -> str:
    """Return a whole number of degrees in words."""
    return count_of(round(angle_deg), "degree")


def sentence(text: str) -> str:
    """Return the text with a capital first and a full stop last."""
    text = text.strip()
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")
