"""At power-on: no terminal, a sound server that starts after us, a clock that may have stood, and SIGTERM at the end."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
import time
import tomllib
from pathlib import Path

import pytest

from companion import devices
from companion.dialogue import read_journal
from companion.errors import MissingPart
from companion.live.own_clock import keeps_time
from companion.live.sound_at_power_on import WAIT_SECONDS, nobody_types, wait_for_sound
from tests.live.fakes import World
from tests.live.measure import spoken
from tests.live.test_field import until
from tests.live.test_sound_devices import Device, Shop
from tests.soundcard import ALSA_THROUGH_PULSE, silent_soundcard


@pytest.fixture
def _portaudio(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have a PortAudio to load, whether this machine does or not."""
    monkeypatch.setattr(devices, "sounddevice", lambda: None)


@pytest.mark.usefixtures("_portaudio")
def test_sound_that_comes_later_is_waited_for() -> None:
    """What is waited for is told once, and again when less of it is missing; then that it is there."""
    world, told = World(), []
    found = Shop([None, None, Device()], [None, Device(), Device()]).devices()
    wait_for_sound(found, told.append, clock=world.clock, rest=world.rest)
    assert told == [
        "waiting up to 60 seconds for a microphone and a loudspeaker",
        "waiting up to 60 seconds for a microphone",
        "sound is there",
    ]


@pytest.mark.usefixtures("_portaudio")
def test_sound_that_never_comes_is_waited_for_so_long() -> None:
    """The wait is bounded, and ends with the remedy."""
    world = World()
    with pytest.raises(MissingPart, match="no microphone and no loudspeaker; plug one in"):
        wait_for_sound(Shop().devices(), lambda _: None, clock=world.clock, rest=world.rest)
    assert WAIT_SECONDS <= world.now - 1000.0 <= WAIT_SECONDS + 5


def test_who_types() -> None:
    """Nobody at the null device; somebody may behind a pipe or a file."""
    with open(os.devnull) as nothing, open(__file__) as something:
        assert nobody_types(nothing)
        assert not nobody_types(something)


def test_a_clock_chip_or_a_clock_that_was_set(tmp_path: Path) -> None:
    """Either will do; a Linux machine with neither has a clock that may have stood."""
    chips, was_set = tmp_path / "rtc", tmp_path / "synchronized"
    assert not keeps_time(chips, was_set, "linux")
    assert keeps_time(chips, was_set, "win32")
    was_set.touch()
    assert keeps_time(chips, was_set, "linux")
    was_set.unlink()
    (chips / "rtc0").mkdir(parents=True)
    assert keeps_time(chips, was_set, "linux")


@pytest.mark.alone
@pytest.mark.slow
def test_started_before_the_sound_server_and_ended_by_the_system(tmp_path: Path) -> None:
    """An evening from power-on to SIGTERM, in a session without a terminal, standard input closed.

    It waits for the sound server, asks for a word, remembers the microphone that heard it, finds another when that is gone for good, and
    leaves its journal whole.
    """
    with contextlib.ExitStack() as stack:
        card = stack.enter_context(silent_soundcard())
        (card.folder / ".asoundrc").write_text(f"{ALSA_THROUGH_PULSE}pcm.boom {{\n type pulse\n device micsrc\n}}\n")
        yes, out, err = spoken(tmp_path, "yes"), card.folder / "out", card.folder / "err"
        printed, complained = stack.enter_context(out.open("w")), stack.enter_context(err.open("w"))
        place = ("--lat", "46.31", "--lon", "-67.52", "--at", "2026-10-15T20:00:00-03:00")
        closed = ("sh", "-c", 'exec "$@" <&-', "sh", sys.executable, "-m", "companion", "start", *place)
        started = subprocess.Popen(closed, env=card.environment, stdout=printed, stderr=complained, start_new_session=True)
        stack.callback(started.kill)
        time.sleep(5.0)
        until(lambda: started.poll() is not None or "waiting up to 60 seconds for a microphone and a loudspeaker" in err.read_text())
        assert started.poll() is None, err.read_text()

        stack.enter_context(card.serving())
        card.control("load-module", "module-null-sink", "sink_name=dead")
        card.control("set-default-source", "dead.monitor")
        until(lambda: "Can you hear me?" in out.read_text())
        while "Good evening" not in out.read_text():
            card.say_into_microphone(yes)
            time.sleep(1.5)
        assert tomllib.loads((card.folder / "profile.toml").read_text())["sound"] == {"microphone": "boom", "loudspeaker": "default"}

        os.kill(int((card.folder / "run" / "pulse" / "pid").read_text()), signal.SIGKILL)
        until(lambda: "The microphone is gone" in out.read_text())
        (card.folder / ".asoundrc").write_text(ALSA_THROUGH_PULSE)
        stack.enter_context(card.serving())
        until(lambda: "another microphone" in out.read_text())

        started.terminate()
        assert started.wait(15) == 128 + signal.SIGTERM
        assert "sound is there" in err.read_text()
        assert "Traceback" not in err.read_text()
        assert "waiting up to" in (card.folder / "companion.log").read_text()
        kept = read_journal(card.folder / "evening.jsonl")
        assert (kept.flaw, kept.records != ()) == (None, True)
