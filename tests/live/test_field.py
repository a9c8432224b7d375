"""Health on the virtual sound card, and minutes of noise: the session goes on."""

from __future__ import annotations

import contextlib
import os
import signal
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.live import soak
from tests.live.field import PATIENCE_SECONDS, Field, in_the_field
from tests.live.measure import PLACE, spoken
from tests.soundcard import soundcard

SOAK_SECONDS = 600.0


def until(true: Callable[[], object]) -> None:
    """Wait for something to happen."""
    deadline = time.monotonic() + PATIENCE_SECONDS
    while not true():
        assert time.monotonic() < deadline
        time.sleep(0.1)


def decisions_on(field: Field, words: Path) -> list[str]:
    """Say something up to three times, until it is taken for an answer; return what it was taken for."""
    for _ in range(3):
        field.wait_for_silence()
        decided = [event["kind"] for event in field.play(words) if event["action"] == "answer"]
        if decided:
            return decided
    assert not field.is_over
    return []


@pytest.mark.alone
@pytest.mark.slow
def test_the_sound_server_is_killed_in_mid_sentence(tmp_path: Path) -> None:
    """Both devices are told to be gone, typed answers count; when the server is back, so are they, and a spoken answer counts."""
    with contextlib.ExitStack() as stack:
        card = stack.enter_context(soundcard())
        field = stack.enter_context(in_the_field(card, *PLACE, leaking=False))
        until(lambda: field.events("sound"))
        os.kill(int((card.folder / "run" / "pulse" / "pid").read_text()), signal.SIGKILL)
        until(lambda: any("The microphone is gone" in words for _, words in field.said()))
        until(lambda: any("The loudspeaker is gone" in words for _, words in field.said()))
        field.type("yes")
        until(lambda: len(field.events("told")) == 2)
        stack.enter_context(card.serving())
        until(lambda: any("The microphone is back" in words for _, words in field.said()))
        time.sleep(1.0)
        assert "Heard" in decisions_on(field, spoken(tmp_path, "that's right"))


@pytest.mark.alone
@pytest.mark.slow
def test_the_sound_server_hangs_in_mid_sentence(tmp_path: Path) -> None:
    """It answers nothing for a while, not even that a device is let go of: told and mended all the same, and the evening ends."""
    with contextlib.ExitStack() as stack:
        card = stack.enter_context(soundcard())
        field = stack.enter_context(in_the_field(card, *PLACE, leaking=False))
        until(lambda: field.events("sound"))
        server = int((card.folder / "run" / "pulse" / "pid").read_text())
        os.kill(server, signal.SIGSTOP)
        stack.callback(os.kill, server, signal.SIGCONT)
        until(lambda: any("The microphone is gone" in words for _, words in field.said()))
        field.type("yes")
        until(lambda: len(field.events("told")) == 2)
        os.kill(server, signal.SIGCONT)
        until(lambda: any("The microphone is back" in words for _, words in field.said()))
        time.sleep(1.0)
        assert "Heard" in decisions_on(field, spoken(tmp_path, "that's right"))
        field.type("good night")
        field.type("yes")
        until(lambda: field.is_over)


@pytest.mark.alone
@pytest.mark.slow
def test_minutes_of_noise_change_nothing() -> None:
    """Ten minutes of noise, talk and silence on a clock of their own: no answer, and memory grows by no more than a twentieth."""
    report = soak.virtual(SOAK_SECONDS)
    print(report)
    assert report.answers == []
    assert report.growth <= 0.05
