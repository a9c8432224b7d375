"""A talk key on any input device: what Linux tells of a key, read by evdev, and what the ear makes of it.

The stream is put together from the kernel's Documentation/input/event-codes.rst and input.rst (struct input_event: two native longs for
the time, type and code of 16 bits, a value of 32): a key sends its scan code, its own event, and a report; held, it repeats with the
value 2. It was not recorded from a device, and no virtual one can be made where the kernel has no uinput.
"""

from __future__ import annotations

import json
import os
import struct
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import chain
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from companion.cli import main
from companion.errors import BadRequest, MissingPart
from companion.live import Key, hand_key
from companion.live.hand_key import HandKey, NamedKey, next_key
from companion.live.push_to_talk import TAP_SECONDS
from companion.speaking import LISTENING
from tests.live.fakes import Night, quiet, voice
from tests.live.test_spoken_session import LONG, answers

evdev = pytest.importorskip("evdev", reason="evdev isn't installed, and where there is no wheel it needs a compiler: pip install '.[keys]'")
ecodes = evdev.ecodes

PATIENCE_SECONDS = 5.0


def events(*rows: tuple[int, int, int]) -> bytes:
    """Return rows of type, code and value as the kernel hands them out, each followed by a report."""
    return b"".join(struct.pack("llHHi", 0, 0, *row) + struct.pack("llHHi", 0, 0, ecodes.EV_SYN, ecodes.SYN_REPORT, 0) for row in rows)


def held(key: int, repeats: int = 3) -> bytes:
    """Return what a key sends that is held for a while."""
    scan, down, up = (ecodes.EV_MSC, ecodes.MSC_SCAN, 0x7004E), (ecodes.EV_KEY, key, 1), (ecodes.EV_KEY, key, 0)
    return events(scan, down, *[(ecodes.EV_KEY, key, 2)] * repeats, scan, up)


class Piped(evdev.InputDevice):
    """A device of evdev's whose file is a pipe of the test's."""

    def __init__(self, name: str, types: tuple[int, ...] = (ecodes.EV_SYN, ecodes.EV_KEY)) -> None:
        """Open the pipe."""
        self.fd, self.source = os.pipe()
        os.set_blocking(self.fd, False)
        self.name, self._types, self.gone = name, types, False

    def capabilities(self, *_: Any, **__: Any) -> dict[int, list[int]]:
        """Return what it can send."""
        return {kind: [] for kind in self._types}

    def read(self) -> Iterator[Any]:
        """Read as evdev does, but for a device that has gone away."""
        if self.gone:
            raise OSError(19, "No such device")
        return super().read()

    def sends(self, data: bytes) -> None:
        """Send something."""
        os.write(self.source, data)


def library(*devices: Piped) -> Any:
    """Return evdev with these devices."""
    known = {f"/dev/input/event{number}": device for number, device in enumerate(devices)}
    return SimpleNamespace(list_devices=lambda: list(known), InputDevice=known.__getitem__, ecodes=ecodes)


def until(true: Callable[[], object]) -> None:
    """Wait for the reading thread."""
    deadline = time.monotonic() + PATIENCE_SECONDS
    while not true():
        assert time.monotonic() < deadline
        time.sleep(0.01)


def test_a_key_goes_down_and_up() -> None:
    """Of all that devices send only the key's own two changes count: no repeat, no other key, no other device of another name."""
    pedal, keyboard = Piped("Pedal"), Piped("Keyboard")
    keyboard.sends(held(ecodes.KEY_B))
    pedal.sends(held(ecodes.KEY_A) + held(ecodes.KEY_B))
    key = HandKey(NamedKey("Pedal", "KEY_B"), library=library(keyboard, pedal))
    until(lambda: key._changes.qsize() == 2)
    assert [down for down, _ in key.changes()] == [True, False]
    key.close()
    assert not key._thread.is_alive()


def test_a_device_that_goes_away_lets_go_of_the_key(monkeypatch: pytest.MonkeyPatch) -> None:
    """It may never tell that the key came up; when it is back, the key works again."""
    monkeypatch.setattr(hand_key, "LOOK_SECONDS", 0.05)
    pedal, back = Piped("Pedal"), Piped("Pedal")
    devices = [pedal]
    found = SimpleNamespace(list_devices=lambda: ["it"], InputDevice=lambda _: devices[0], ecodes=ecodes)
    key = HandKey(NamedKey("Pedal", "KEY_B"), library=found)
    pedal.sends(events((ecodes.EV_KEY, ecodes.KEY_B, 1)))
    until(lambda: key._changes.qsize() == 1)
    devices[0], pedal.gone = back, True
    pedal.sends(events((ecodes.EV_KEY, ecodes.KEY_B, 0)))
    back.sends(held(ecodes.KEY_B))
    until(lambda: key._changes.qsize() == 4)
    assert [down for down, _ in key.changes()] == [True, False, True, False]
    key.close()


def test_the_key_that_is_pressed_is_chosen() -> None:
    """Whatever came up before was pressed for something else; of a button's several names the first is kept."""
    presenter, mouse, lid = Piped("Presenter"), Piped("Mouse"), Piped("Lid", (ecodes.EV_SW,))
    presenter.sends(events((ecodes.EV_KEY, ecodes.KEY_ENTER, 0)) + held(ecodes.KEY_PAGEDOWN))
    assert next_key(1.0, lambda: None, library(lid, mouse, presenter)) == NamedKey("Presenter", "KEY_PAGEDOWN")
    mouse = Piped("Mouse")
    mouse.sends(held(ecodes.BTN_LEFT))
    assert next_key(1.0, lambda: None, library(mouse)) == NamedKey("Mouse", "BTN_LEFT")
    with pytest.raises(MissingPart, match="no key was pressed"):
        next_key(0.01, lambda: None, library(Piped("Pedal")))
    with pytest.raises(MissingPart, match="usermod"):
        next_key(1.0, lambda: None, library(Piped("Lid", (ecodes.EV_SW,))))
    with pytest.raises(BadRequest, match="companion key choose"):
        HandKey(NamedKey("Pedal", "KEY_NONSENSE"), library=library())


def test_held_and_let_go_for_real() -> None:
    """Open while it is down, through utterances; closed when it comes up."""
    key = Key(always_open=False, is_own=True)
    assert key.went_down(10.0)
    assert not key.let_go(60.0)
    key.utterance_over()
    assert key.is_open
    assert key.went_up(60.0)
    assert not key.is_open
    assert not key.went_up(61.0)


def test_a_tap_opens_and_closes() -> None:
    """Up again at once: open for one answer, or until the next tap."""
    key = Key(always_open=False, is_own=True)
    for _ in range(2):
        assert key.went_down(10.0)
        assert not key.went_up(10.0 + TAP_SECONDS / 2)
        assert key.is_open
        key.utterance_over()
        assert not key.is_open
    key.went_down(20.0)
    key.went_up(20.1)
    assert not key.went_down(30.0)
    key.went_up(30.1)
    assert not key.is_open


def test_where_no_key_is_needed_it_does_nothing() -> None:
    """Until it is offered: from then on it is needed."""
    key = Key(always_open=True, is_own=True)
    assert not key.went_down(1.0)
    assert not key.went_up(3.0)
    assert key.is_open
    key.offer()
    assert key.went_down(5.0)
    assert key.went_up(7.0)
    assert not key.is_open


@dataclass
class Timed:
    """A key that goes down and up at given seconds of a night."""

    night: Night | None = None
    changing: list[tuple[bool, float]] = field(default_factory=list)

    def changes(self) -> Iterator[tuple[bool, float]]:
        """Yield what is due."""
        assert self.night is not None
        while self.changing and self.night.world.now - 1000.0 >= self.changing[0][1]:
            down, at = self.changing.pop(0)
            yield down, 1000.0 + at


def test_only_what_is_said_while_it_is_held_counts(tmp_path: Path) -> None:
    """With people around: a "yes" before and after is nobody's answer, the one in between is ours, whole when the key comes up."""
    said = chain(quiet(LONG), voice(1), quiet(6.0), voice(2, seconds=2.0), voice(3), quiet(LONG))
    pedal = Timed(changing=[(True, LONG + 6.5), (False, LONG + 8.3)])
    night = Night(tmp_path, said, words=["that's right", "yes", "that's right"], hand_key=pedal)
    pedal.night = night
    night.hold(Key(always_open=False, is_own=True))
    assert answers(tmp_path) == ["yes"]
    assert sum(sound is LISTENING for sound in night.mouth.sounds) == 1
    assert any("Hold your key while you talk" in line for line in night.shown)


def test_the_command_chooses_names_and_forgets(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """The key is kept in the profile under its device's and its own name."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    pedal = Piped("Pedal")
    pedal.sends(held(ecodes.KEY_B))
    monkeypatch.setattr(hand_key, "evdev", lambda: library(pedal))
    assert main(["key", "choose"]) == 0
    assert "KEY_B on Pedal" in capsys.readouterr().out
    assert '[keys]\ndevice = "Pedal"\nkey = "KEY_B"\n' in (tmp_path / "profile.toml").read_text()
    assert main(["key", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {"device": "Pedal", "key": "KEY_B"}
    assert main(["key", "forget"]) == 0
    assert main(["key", "show", "--json"]) == 0
    assert json.loads(capsys.readouterr().out.splitlines()[-1]) == {"device": None, "key": None}


def test_without_evdev_the_remedy_is_one_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """It isn't part of the main install."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    monkeypatch.setitem(__import__("sys").modules, "evdev", None)
    assert main(["key", "choose"]) == 3
    error = capsys.readouterr().err
    assert "dark-field-companion[keys]" in error
    assert error.count("\n") == 1
