"""The first evening played through a (virtual) loudspeaker and recorded back: nothing of it is lost on the way."""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest

from companion.audio import Audio, read_wav, write_wav
from companion.cli import main
from tests.soundcard import found_in, soundcard

WHOLE = os.environ.get("COMPANION_FULL_SWEEP") == "1"
PLAY = """
from companion.audio import read_wav
from companion.speaking import Player
with Player() as player:
    print(player.play(read_wav({!r})).wait().value)
"""


@pytest.mark.alone
@pytest.mark.slow
def test_the_evening_is_whole_when_heard(tmp_path: Path) -> None:
    """Both sides of the evening come out of the loudspeaker as they were written: a seeded tenth, or all with COMPANION_FULL_SWEEP=1."""
    assert main(["rehearse", "--out", str(tmp_path)]) == 0
    evening = read_wav(tmp_path / "evening.wav")
    length = len(evening.samples) if WHOLE else len(evening.samples) // 10
    start = random.Random(2026).randrange(len(evening.samples) - length + 1)
    part = Audio(evening.samples[start : start + length], evening.rate_hz)
    write_wav(tmp_path / "part.wav", part)
    with soundcard() as card:
        with card.listening(tmp_path / "heard.wav"):
            assert card.run(PLAY.format(str(tmp_path / "part.wav")), seconds_allowed=part.seconds + 60).strip() == "finished"
        likeness, _ = found_in(read_wav(tmp_path / "heard.wav"), part)
    print(f"{part.seconds:.0f} of {evening.seconds:.0f} seconds played; likeness {likeness:.6f}")
    assert likeness > 0.99
