"""A sound card for tests: a private PulseAudio with a microphone to speak into and a loudspeaker to listen to, no hardware.

PortAudio looks for devices once, when it is loaded, so whatever uses it runs in a process of its own with ``SoundCard.environment``.
Debian: ``apt install pulseaudio pulseaudio-utils libasound2-plugins libportaudio2``.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest

from companion.audio import Audio

NEEDED = ("pulseaudio", "pactl", "paplay", "parecord")
RATE_HZ = 48_000
ALSA_THROUGH_PULSE = "pcm.!default { type pulse }\nctl.!default { type pulse }\n"
READY_SECONDS = 20.0
HALF = 0.5


@dataclass(frozen=True)
class SoundCard:
    """A running sound server that belongs to the test."""

    environment: dict[str, str]
    """What a process needs in its environment to see this card and no other."""
    folder: Path
    """Private, gone afterwards."""
    command: tuple[str, ...] = ()
    """What starts its sound server."""

    def run(self, code: str, seconds_allowed: float = 120.0) -> str:
        """Run Python code that may use sounddevice; return what it printed. Raises CalledProcessError, with its stderr, when it fails."""
        done = subprocess.run(
            (sys.executable, "-c", code), env=self.environment, capture_output=True, text=True, timeout=seconds_allowed, check=False
        )
        if done.returncode:
            raise AssertionError(f"the code ended with {done.returncode}:\n{done.stdout}\n{done.stderr}")
        return done.stdout

    def start(self, code: str) -> subprocess.Popen[str]:
        """Start Python code that may use sounddevice, with pipes to talk to it."""
        pipe = subprocess.PIPE
        return subprocess.Popen((sys.executable, "-c", code), env=self.environment, stdin=pipe, stdout=pipe, stderr=pipe, text=True)

    def say_into_microphone(self, wav: Path) -> None:
        """Play a file to its end into what sounddevice sees as the microphone."""
        subprocess.run(("paplay", "-d", "mic", str(wav)), env=self.environment, check=True, timeout=120)

    @contextlib.contextmanager
    def listening(self, wav: Path) -> Iterator[None]:
        """Record everything the loudspeaker plays meanwhile to a WAV, 48 kHz mono 16 bit; it is whole when the block is left."""
        command = ("parecord", "-d", "ear.monitor", "--latency-msec=20", "--channels=1", f"--rate={RATE_HZ}", "--format=s16le", str(wav))
        with subprocess.Popen(command, env=self.environment) as recorder:
            try:
                wait_until(lambda: wav.exists() and wav.stat().st_size > 44)
                yield
                time.sleep(HALF)
            finally:
                recorder.terminate()

    def remember(self) -> None:
        """Have the companion know its devices from an earlier evening."""
        (self.folder / "profile.toml").write_text('[sound]\nmicrophone = "default"\nloudspeaker = "default"\n')

    def leak(self) -> None:
        """Let the microphone hear the loudspeaker from now on, as loud as it plays."""
        self.control("load-module", "module-loopback", "source=ear.monitor", "sink=mic", "latency_msec=60")

    def control(self, *words: str) -> None:
        """Tell the sound server something."""
        subprocess.run(("pactl", *words), env=self.environment, check=True, capture_output=True, timeout=20)

    @contextlib.contextmanager
    def serving(self) -> Iterator[subprocess.Popen[bytes]]:
        """Run the sound server: at first, or once more after it was killed."""
        for left_behind in (self.folder / "run" / "pulse").glob("*"):
            left_behind.unlink()
        with (
            (self.folder / "log").open("a") as log,
            subprocess.Popen(self.command, env=self.environment, stdout=log, stderr=log) as server,
        ):
            try:
                for wanted in (("set-default-sink", "ear"), ("set-default-source", "micsrc")):
                    wait_until(lambda wanted=wanted: succeeds(("pactl", *wanted), self.environment))
                yield server
            finally:
                server.terminate()

    def unplug_loudspeaker(self) -> None:
        """Take the whole sound server away, as a pulled plug does."""
        subprocess.run(("pactl", "exit"), env=self.environment, check=True, timeout=20)


def wait_until(true: object) -> None:
    """Poll the callable until it returns something true; fail after READY_SECONDS."""
    assert callable(true)
    deadline = time.monotonic() + READY_SECONDS
    while not true():
        if time.monotonic() > deadline:
            raise AssertionError("the sound server isn't ready")
        time.sleep(0.02)


def require_soundcard() -> None:
    """Skip the test where the programs aren't installed, but fail it in CI, where they must be."""
    missing = [program for program in NEEDED if shutil.which(program) is None]
    if missing and os.environ.get("CI") == "true":
        pytest.fail(f"CI must have {', '.join(missing)}: apt install pulseaudio pulseaudio-utils libasound2-plugins libportaudio2")
    if missing:
        pytest.skip(f"no virtual sound card: {', '.join(missing)} not installed")


@contextlib.contextmanager
def soundcard() -> Iterator[SoundCard]:
    """Start the sound server, wait until it answers, and end it afterwards."""
    with silent_soundcard() as card, card.serving():
        yield card


@contextlib.contextmanager
def silent_soundcard() -> Iterator[SoundCard]:
    """Prepare a card whose sound server hasn't been started yet."""
    require_soundcard()
    with tempfile.TemporaryDirectory(prefix="soundcard-") as name:
        folder = Path(name)
        (folder / "run").mkdir(mode=0o700)
        (folder / ".asoundrc").write_text(ALSA_THROUGH_PULSE)
        inherited = {key: value for key, value in os.environ.items() if not key.startswith(("PULSE_", "ALSA_", "XDG_", "DBUS_", "DISPLAY"))}
        environment = inherited | {"HOME": name, "XDG_RUNTIME_DIR": str(folder / "run"), "XDG_CONFIG_HOME": name, "COMPANION_HOME": name}
        modules = (
            "module-native-protocol-unix",
            f"module-null-sink sink_name=mic rate={RATE_HZ}",
            f"module-null-sink sink_name=ear rate={RATE_HZ}",
            "module-remap-source source_name=micsrc master=mic.monitor",
        )
        command = ("pulseaudio", "-n", "--exit-idle-time=-1", "--daemonize=no", *(word for module in modules for word in ("-L", module)))
        yield SoundCard(environment, folder, command)


def succeeds(command: tuple[str, ...], environment: dict[str, str]) -> bool:
    """Run a command quietly and return whether it ended well."""
    return subprocess.run(command, env=environment, capture_output=True, check=False, timeout=READY_SECONDS).returncode == 0


def found_in(heard: Audio, sent: Audio) -> tuple[float, int]:
    """Return how alike the best-fitting piece of a recording is to what was sent (1 is the same), and the sample it starts at."""
    wanted = sent.at_rate(heard.rate_hz).samples
    size = 1 << (len(heard.samples) + len(wanted)).bit_length()
    correlation = np.fft.irfft(np.fft.rfft(heard.samples, size) * np.conj(np.fft.rfft(wanted, size)), size)
    start = int(correlation[: len(heard.samples)].argmax())
    piece = heard.samples[start : start + len(wanted)]
    return float(np.corrcoef(piece, wanted[: len(piece)])[0, 1]), start
