"""``companion check`` with devices: it speaks, listens, and understands a word."""

from __future__ import annotations

import json
import re
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio, read_wav, write_wav
from tests.live.measure import spoken
from tests.open_ear import words_heard
from tests.soundcard import soundcard


@pytest.mark.alone
@pytest.mark.slow
@pytest.mark.parametrize("answers", [True, False])
def test_check_speaks_and_listens(tmp_path: Path, answers: bool) -> None:
    """One sentence comes out of the loudspeaker; the noise is measured; a word said after it is named, or missed with a remedy.

    With ``--aloud`` the devices are chosen first, and remembered; then it says what is missing: an open listener hears it.
    """
    hiss = (0.003 * np.random.default_rng(3).standard_normal(60 * SPEECH_RATE_HZ)).astype(np.float32)
    write_wav(tmp_path / "hiss.wav", Audio(hiss, SPEECH_RATE_HZ))
    with soundcard() as card, card.listening(tmp_path / "heard.wav"):
        noise = subprocess.Popen(("paplay", "-d", "mic", str(tmp_path / "hiss.wav")), env=card.environment)
        command = (sys.executable, "-m", "companion", "check", "--json", *(["--aloud"] if answers else []))
        with subprocess.Popen(command, env=card.environment, stdout=subprocess.PIPE, text=True) as checking:
            while answers and checking.poll() is None:
                card.say_into_microphone(spoken(tmp_path, "yes"))
                time.sleep(1.5)
            printed, _ = checking.communicate(timeout=120)
        remembered = (card.folder / "profile.toml").read_text().splitlines()[1] if answers else None
        noise.terminate()
        noise.wait()
    parts = {part["part"]: part for part in json.loads(printed)}
    assert parts["loudspeaker"]["ok"]
    assert "spoke" in parts["loudspeaker"]["detail"]
    assert parts["microphone"]["ok"]
    if not answers:
        level = re.search(r"noise at (-\d+) dB", parts["microphone"]["detail"])
        assert level is not None
        assert int(level[1]) == pytest.approx(-50.5, abs=1.5)  # an RMS of 0.003
    assert parts["a word back"]["ok"] is answers
    assert parts["a word back"]["detail"].startswith("heard: yes" if answers else "none understood")
    assert np.abs(read_wav(tmp_path / "heard.wav").samples).max() > 0.1
    if answers:
        assert remembered in ('microphone = "default"', 'microphone = "pulse"')  # two names of the one there is
        assert {"nothing", "done"} <= set(words_heard(read_wav(tmp_path / "heard.wav")))
