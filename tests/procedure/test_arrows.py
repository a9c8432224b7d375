"""Arrow keys and what optics make of them: learned from a press, tried out on a simulated view that turns and mirrors as it likes."""

from __future__ import annotations

import math

import pytest

from companion.procedure.arrows import Arrows

SIDES = ("right", "top-right", "top", "top-left", "left", "bottom-left", "bottom", "bottom-right")
KEY_MOVES_TUBE = {"right": (1.0, 0.0), "left": (-1.0, 0.0), "up": (0.0, 1.0), "down": (0.0, -1.0)}


def _side(across: float, up: float) -> str:
    return SIDES[round(math.degrees(math.atan2(up, across)) / 45) % 8]


def _seen(across: float, up: float, turned_deg: float, mirrored: bool) -> tuple[float, float]:
    """Return where optics that mirror left and right, then turn the view, show an offset on the sky."""
    across = -across if mirrored else across
    cos, sin = math.cos(math.radians(turned_deg)), math.sin(math.radians(turned_deg))
    return across * cos - up * sin, across * sin + up * cos


@pytest.mark.parametrize("turned_deg", range(0, 360, 45))
@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("presses", [1, 2])
def test_the_keys_named_bring_a_star_in(turned_deg: int, mirrored: bool, presses: int) -> None:
    """Pressing the keys that are named brings a star nearer to the middle from every side, whatever the view does."""

    def drift(key: str) -> tuple[float, float]:
        across, up = KEY_MOVES_TUBE[key]
        return _seen(-across, -up, turned_deg, mirrored)  # the tube goes one way, the stars the other

    if presses == 1:
        arrows = Arrows.from_one_press(_side(*drift("right")), mirrored=mirrored)
    else:
        arrows = Arrows.from_two_presses(_side(*drift("right")), _side(*drift("up")))
    for number, side in enumerate(SIDES):
        across, up = math.cos(math.radians(45 * number)), math.sin(math.radians(45 * number))
        keys = arrows.keys_to_centre(side)
        assert 1 <= len(keys) <= 2
        for key in keys:
            across, up = across + 0.7 * drift(key)[0], up + 0.7 * drift(key)[1]
        assert math.hypot(across, up) < 0.5, (side, keys)


def test_an_upside_down_view() -> None:
    """In a telescope that turns the view by half, a star at the top is below the middle on the sky: the down key brings it in."""
    arrows = Arrows.from_one_press("right", mirrored=False)
    assert arrows.keys_to_centre("top") == ("down",)
    assert arrows.keys_to_centre("left") == ("right",)
