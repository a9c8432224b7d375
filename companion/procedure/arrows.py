"""Which arrow key brings a star to the middle, whatever the optics turn upside down or mirror. Pure."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from companion.equipment import LastKeys
from companion.talk.centring_phrases import OPPOSITE, ArrowKey

_DIRECTIONS = {
    "right": (1, 0),
    "top-right": (1, 1),
    "top": (0, 1),
    "top-left": (-1, 1),
    "left": (-1, 0),
    "bottom-left": (-1, -1),
    "bottom": (0, -1),
    "bottom-right": (1, -1),
}
_SLANT = math.cos(math.radians(67.5))
"""A key is worth pressing when it moves the star within 67.5 degrees of the way it has to go."""

Vector = tuple[float, float]


@dataclass(frozen=True)
class Arrows:
    """How a star moves in the view while a key is held: unit vectors, right and up positive."""

    on_right_key: Vector
    on_up_key: Vector

    @classmethod
    def from_one_press(cls, went: str, *, mirrored: bool) -> Arrows:
        """Learn from where a star went when the right key was pressed; ``mirrored`` where the optics show left and right exchanged.

        To the naked eye a right key moves the stars left and an up key moves them down, a quarter turn anticlockwise from left. Optics
        that only turn the view keep that sense, one mirror (a star diagonal) reverses it: geometry.
        """
        across, up = _unit(went)
        return cls((across, up), (up, -across) if mirrored else (-up, across))

    @classmethod
    def from_two_presses(cls, went_on_right: str, went_on_up: str) -> Arrows:
        """Learn from where a star went when the right key, and then the up key, was pressed."""
        return cls(_unit(went_on_right), _unit(went_on_up))

    def keys_to_centre(self, seen_at: str) -> tuple[ArrowKey, ...]:
        """Return the one or two keys that bring a star from that place of the view to its middle."""
        across, up = _unit(seen_at)
        keys: list[ArrowKey] = []
        ways: tuple[tuple[Vector, ArrowKey, ArrowKey], ...] = ((self.on_right_key, "right", "left"), (self.on_up_key, "up", "down"))
        for vector, forward, backward in ways:
            along = -(across * vector[0] + up * vector[1])
            if abs(along) > _SLANT:
                keys.append(forward if along > 0 else backward)
        return tuple(keys)


def last_keys(before: tuple[ArrowKey, ...], pressed: tuple[ArrowKey, ...]) -> tuple[ArrowKey, ...]:
    """Return with which arrows stars are finished: the first pressed of each pair, so that the slack is always taken up the same way."""
    return (*before, *(key for key in pressed if key not in before and OPPOSITE[key] not in before))


def keys_of(finish: LastKeys | None) -> tuple[ArrowKey, ...]:
    """Return the arrows that a profile names for the end; none where it names none."""
    named: Mapping[LastKeys, tuple[ArrowKey, ...]] = {
        "up-right": ("up", "right"),
        "up-left": ("up", "left"),
        "down-right": ("down", "right"),
        "down-left": ("down", "left"),
    }
    return () if finish is None else named[finish]


def _unit(direction: str) -> Vector:
    across, up = _DIRECTIONS[direction]
    length = math.hypot(across, up)
    return across / length, up / length
