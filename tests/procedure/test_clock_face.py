"""Clock-face answers bring a star to the middle, in the finder and in the eyepiece, however each turns or mirrors the view."""

from __future__ import annotations

import math
import random

import pytest

from companion.messages import Heard
from companion.talk.answers import EyepieceAnswer, FinderAnswer, ViewAnswer
from companion.talk.centring_phrases import OPPOSITE, ArrowKey, ConfirmStar, IsItThereNow, PressRightOnce, PressTheseKeys, PressUpOnce
from companion.talk.saying import Answers
from tests.dialogue.test_jumps import Evening
from tests.english import VOCABULARY

HOURS = ("twelve", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven")
SIDES = ("top", "top-right", "right", "bottom-right", "bottom", "bottom-left", "left", "top-left")
KEYS: tuple[ArrowKey, ...] = ("right", "up", "left", "down")


def _side(hour: float) -> str:
    """Return the nearest of the eight sides; half way between two, either will do, and none is. A clock's hour is thirty degrees."""
    return SIDES[round(hour * 30.0 / 45.0) % 8]


@pytest.mark.parametrize("half", [False, True])
@pytest.mark.parametrize("hour", range(12))
def test_every_half_hour_is_a_side(hour: int, half: bool) -> None:
    """All twenty-four, in each of the three rules, as people say them: geometry of a clock."""
    said = f"half past {HOURS[hour]}" if half else HOURS[hour]
    forms = (said, f"at {said}", f"it's at {said}", *(() if half else (f"at {said} o'clock", f"{said} o'clock")))
    wanted: tuple[tuple[type[Answers], str, str], ...] = (
        (FinderAnswer, "at-side", "near_side"),
        (EyepieceAnswer, "just-off", "near_side"),
        (ViewAnswer, "view", "side"),
    )
    for rule, command, slot in wanted:
        for form in forms:
            heard = VOCABULARY.understand(form, rule)
            assert isinstance(heard, Heard), (form, rule)
            assert (heard.command, heard.slots[slot]) == (command, _side(hour + half / 2))


class View:
    """A star in a round view that turns and may mirror, and how far it goes for each press."""

    def __init__(self, turned_deg: float, *, mirrors: bool, choose: random.Random) -> None:
        """Put the star somewhere near the edge."""
        self._turned, self._mirrors = math.radians(turned_deg), mirrors
        way, out = choose.uniform(0, 2 * math.pi), choose.uniform(0.5, 0.9)
        self.at = complex(out * math.cos(way), out * math.sin(way))

    def press(self, keys: tuple[ArrowKey, ...], far: float) -> None:
        """Move the star: to the naked eye the right key moves it left and the up key down."""
        naked = {"right": complex(-1, 0), "left": complex(1, 0), "up": complex(0, -1), "down": complex(0, 1)}
        for key in keys:
            step = naked[key] * complex(math.cos(self._turned), math.sin(self._turned))
            self.at += far * (complex(-step.real, step.imag) if self._mirrors else step)

    @staticmethod
    def clock(at: complex) -> str:
        """Say where something is, or went, as a child would: the nearest whole hour, twelve at the top."""
        return HOURS[round(math.degrees(math.atan2(at.real, at.imag)) / 30.0) % 12]


@pytest.mark.parametrize("mirrors", [False, True])
def test_a_child_brings_the_star_in(mirrors: bool) -> None:
    """A dozen finders turned every way: by hours alone, told to the nearest, the star comes to the middle within eight presses.

    A press of a sensible length takes it a third of the way from the edge; steering ends where it is within a quarter of the middle.
    """
    choose = random.Random(11)
    for _ in range(6):
        view = View(choose.uniform(0, 360), mirrors=mirrors, choose=choose)
        evening = Evening("reference-stars")
        evening.says("my child looks for me")
        presses = 0
        while abs(view.at) > 0.25:
            turn = evening.says(f"at {view.clock(view.at)}")
            for key, question in (("right", PressRightOnce()), ("up", PressUpOnce())):
                if turn.question == question:
                    before = view.at
                    view.press((key,), 0.1)
                    turn = evening.says(view.clock(view.at - before))
            pressed = next(saying for saying in turn.sayings if isinstance(saying, PressTheseKeys))
            # Steered until it comes no nearer.
            best = abs(view.at)
            while True:
                view.press(pressed.keys, 0.05)
                if abs(view.at) >= best:
                    view.press(tuple(OPPOSITE[key] for key in pressed.keys), 0.05)
                    break
                best = abs(view.at)
            assert turn.question == IsItThereNow()
            presses += 1
            assert presses <= 8
        assert evening.says("yes").question is not None
        assert any(isinstance(saying, ConfirmStar) for saying in evening.says("in the middle").sayings)


def test_finder_and_eyepiece_are_learnt_apart() -> None:
    """What was learnt in the finder says nothing of the eyepiece, and nothing of how stars are finished."""
    evening = Evening("reference-stars")
    evening.says("at two o'clock", "at three o'clock", "at six o'clock")
    assert PressTheseKeys(("left", "up"), ()) in evening.turn.sayings
    assert evening.says("it's in the finder", "at two o'clock").question == PressRightOnce()
