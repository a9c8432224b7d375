"""The talking key: held or tapped, by strokes on a clock of their own, and on a real pseudo-terminal."""

from __future__ import annotations

import io
import os
import pty
import resource
import signal
import subprocess
import sys
import termios
import time
from collections.abc import Callable
from itertools import chain
from pathlib import Path

import numpy as np
import pytest

from companion.live import Key
from companion.live.keyboard import Keyboard
from companion.live.push_to_talk import REPEAT_SECONDS
from companion.speaking import LISTENING
from tests.live.fakes import Night, quiet, voice
from tests.live.test_spoken_session import LONG, answers

PATIENCE_SECONDS = 5.0


def held(seconds: float, first_repeat: float = 0.5, every: float = 0.033) -> list[float]:
    """Return the strokes that a key held from 0 on sends: the first, and after a while its repeats."""
    return [0.0, *np.arange(first_repeat, seconds, every)]


@pytest.mark.parametrize("first_repeat", [0.25, 0.5, 0.66])
def test_a_held_key_keeps_the_ear_open(first_repeat: float) -> None:
    """Open from the first stroke on, through utterances, until the repeats have ceased; then closed at once."""
    key = Key(always_open=False)
    opened = [key.struck(at) for at in held(3.0, first_repeat)]
    assert opened == [True] + [False] * (len(opened) - 1)
    key.utterance_over()
    assert key.is_open
    assert not key.let_go(3.0)
    assert key.let_go(3.0 + 2 * REPEAT_SECONDS)
    assert not key.is_open
    assert not key.let_go(4.0)


def test_a_tap_opens_the_ear_for_one_answer() -> None:
    """One stroke without repeats: open until an utterance is over, or until the next tap."""
    key = Key(always_open=False)
    assert key.struck(1.0)
    assert not key.let_go(9.0)
    assert key.is_open
    key.utterance_over()
    assert not key.is_open
    assert key.struck(20.0)
    assert not key.struck(25.0)
    assert not key.is_open


def test_where_no_key_is_needed_it_does_nothing() -> None:
    """Somebody leans on the space bar: the ear stays open, and no utterance is cut."""
    key = Key(always_open=True)
    assert not any(key.struck(at) for at in held(2.0))
    assert not key.let_go(9.0)
    assert key.is_open


def test_an_offered_key_is_needed_from_its_first_stroke_on() -> None:
    """Before it the ear is open; held from then on it is open as long as it is held."""
    key = Key(always_open=True)
    key.offer()
    assert key.is_open
    assert key.struck(0.0)
    assert [key.struck(at) for at in held(2.0)[1:]].count(True) == 0
    assert key.let_go(3.0)
    assert not key.is_open


def test_only_what_is_said_while_the_key_is_held_counts(tmp_path: Path) -> None:
    """With people around: a "yes" before and after is nobody's answer, the one in between is ours, whole when the key is let go."""
    begun = LONG + 6.5
    said = chain(quiet(LONG), voice(1), quiet(6.0), voice(2, seconds=2.0), voice(3), quiet(LONG))
    night = Night(tmp_path, said, words=["that's right", "yes", "that's right"], struck=[begun + at for at in held(1.6)])
    night.hold(Key(always_open=False))
    assert answers(tmp_path) == ["yes"]
    assert [line for line in night.shown if line.startswith("you:")] == ["you: yes"]
    assert sum(sound is LISTENING for sound in night.mouth.sounds) == 1


def until(true: Callable[[], object]) -> None:
    """Wait for the reading thread."""
    deadline = time.monotonic() + PATIENCE_SECONDS
    while not true():
        assert time.monotonic() < deadline
        time.sleep(0.01)


def test_a_terminal_read_key_by_key() -> None:
    """Strokes of the space bar are stamped, lines with spaces in them are lines, mistakes are erased, and nothing else is echoed."""
    master, slave = pty.openpty()
    usual = termios.tcgetattr(slave)
    shown, times = io.StringIO(), iter(range(100))
    with os.fdopen(slave, "r") as terminal:
        keyboard = Keyboard(terminal, shown, clock=lambda: float(next(times)))
        os.write(master, b"   it's levex\x7fl\n\n ")
        until(lambda: keyboard._strokes.qsize() == 4)
        assert list(keyboard.strokes()) == [0.0, 1.0, 2.0, 3.0]
        assert list(keyboard.waiting()) == ["it's level", ""]
        assert shown.getvalue() == "it's levex\b \bl\n"
        os.write(master, b"\x04")
        until(lambda: keyboard.ended)
        keyboard.close()
        assert termios.tcgetattr(terminal) == usual
    os.close(master)


# Tests that run in the background of a script inherit an ignored SIGINT. The sleep is short, since a signal may come just before it.
HELD_OPEN = """
import contextlib, signal, sys, time
from companion.live import open_terminal
signal.signal(signal.SIGINT, signal.default_int_handler)
with contextlib.suppress(KeyboardInterrupt), contextlib.closing(open_terminal(sys.stdin)):
    print("open", flush=True)
    for _ in range(600):
        time.sleep(0.1)
"""


@pytest.mark.parametrize("ending", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_a_signal_leaves_the_terminal_as_it_was(ending: signal.Signals) -> None:
    """Interrupted, ended or hung up: letters are echoed again, and lines are lines."""
    master, slave = pty.openpty()
    usual = termios.tcgetattr(slave)
    with subprocess.Popen([sys.executable, "-c", HELD_OPEN], stdin=slave, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "open\n"
        assert termios.tcgetattr(slave) != usual
        process.send_signal(ending)
        assert process.wait(PATIENCE_SECONDS) == 0
    assert termios.tcgetattr(slave) == usual
    os.close(master)
    os.close(slave)


def test_quit_leaves_the_terminal_as_it_was() -> None:
    """Ended by SIGQUIT, as it asks, with the terminal as it was found; where hanging up is ignored, as nohup has it, it stays so."""
    master, slave = pty.openpty()
    usual = termios.tcgetattr(slave)
    with subprocess.Popen(
        [sys.executable, "-c", HELD_OPEN],
        stdin=slave,
        stdout=subprocess.PIPE,
        text=True,
        preexec_fn=_without_a_core_and_hanging_up,  # noqa: PLW1509
    ) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "open\n"
        process.send_signal(signal.SIGHUP)
        process.send_signal(signal.SIGQUIT)
        assert process.wait(PATIENCE_SECONDS) == -signal.SIGQUIT
    assert termios.tcgetattr(slave) == usual
    os.close(master)
    os.close(slave)


def _without_a_core_and_hanging_up() -> None:
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    signal.signal(signal.SIGHUP, signal.SIG_IGN)


def test_suspended_and_gone_on_with() -> None:
    """Stopped, the terminal is as it was; gone on with, keys are read singly again."""
    master, slave = pty.openpty()
    usual = termios.tcgetattr(slave)
    # In a group of its own, whose parent is of the same session: an orphaned group is never stopped.
    command = [sys.executable, "-c", HELD_OPEN]
    with subprocess.Popen(command, stdin=slave, stdout=subprocess.PIPE, text=True, process_group=0) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "open\n"
        process.send_signal(signal.SIGTSTP)
        until(lambda: termios.tcgetattr(slave) == usual)
        # The state letter of proc(5): T is stopped.
        until(lambda: Path(f"/proc/{process.pid}/stat").read_text().rsplit(")", 1)[1].split()[0] == "T")
        process.send_signal(signal.SIGCONT)
        until(lambda: termios.tcgetattr(slave) != usual)
        process.send_signal(signal.SIGTERM)
        assert process.wait(PATIENCE_SECONDS) == 0
    assert termios.tcgetattr(slave) == usual
    os.close(master)
    os.close(slave)
