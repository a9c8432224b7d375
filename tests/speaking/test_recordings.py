"""The synthesised recordings and their manifest."""

from __future__ import annotations

import csv
import hashlib
import importlib.util
import shutil
import tomllib
from pathlib import Path
from types import ModuleType
from typing import Any

import numpy as np
import pytest
import soundfile

from companion.errors import BadRequest

FIXTURES = Path(__file__).parents[2] / "audio_fixtures"
WORDS = {"wav": "a.wav", "words": "it's in the finder", "voice": "hibari"}


@pytest.fixture(scope="module")
def recordings() -> ModuleType:
    """Load the script that makes the recordings."""
    spec = importlib.util.spec_from_file_location("make_recordings", FIXTURES / "make_recordings.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def manifest() -> list[dict[str, str]]:
    """Read the manifest."""
    with (FIXTURES / "manifest.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_the_manifest_names_every_recording_and_no_other(manifest: list[dict[str, str]]) -> None:
    """Each WAV has exactly one line, each line its WAV."""
    on_disk = sorted(file.relative_to(FIXTURES).as_posix() for file in FIXTURES.glob("*/*.wav"))
    assert sorted(line["file"] for line in manifest) == on_disk
    assert on_disk


def test_the_hashes_are_right_and_all_is_called_synthesised(manifest: list[dict[str, str]]) -> None:
    """No recording was changed after it was made, each is 16 kHz mono 16 bit, and none passes for a person."""
    for line in manifest:
        file = FIXTURES / line["file"]
        assert hashlib.sha256(file.read_bytes()).hexdigest() == line["sha256"], line["file"]
        about = soundfile.info(file)
        assert (about.samplerate, about.channels, about.subtype) == (16_000, 1, "PCM_16")
        assert line["how made"].startswith("synthesised")
        assert line["licence"]


def test_the_manifest_agrees_with_the_evenings(manifest: list[dict[str, str]]) -> None:
    """Words, command and voice of each line are those of the scenario's turn."""
    lines = {line["file"]: line for line in manifest}
    turns = 0
    for scenario in FIXTURES.glob("*/scenario.toml"):
        for turn in tomllib.loads(scenario.read_text(encoding="utf-8"))["turn"]:
            if "wav" in turn:
                turns += 1
                line = lines[f"{scenario.parent.name}/{turn['wav']}"]
                assert line["command"] == turn.get("command", "")
                if turn.get("kind") != "silence":
                    assert (line["words"], line["voice"]) == (turn["words"], turn["voice"])
    assert turns >= len(manifest)


@pytest.mark.parametrize("voice", ["hibari", "hibari 1.2", "espeak en-us", "espeak en-gb 150 40", "flite rms"])
def test_a_recording_is_the_same_every_time(recordings: ModuleType, voice: str) -> None:
    """The same turn gives the same samples: speech at -26 dB of full scale between quieter ends."""
    if voice.startswith("flite") and shutil.which("flite") is None:
        pytest.skip("flite is not installed")
    turn = WORDS | {"voice": voice}
    one, two = recordings.record(turn), recordings.record(turn)
    np.testing.assert_array_equal(one.samples, two.samples)
    assert one.rate_hz == 16_000
    assert 20 * np.log10(recordings.level(one.samples)) == pytest.approx(-26, abs=1)
    assert np.sqrt(np.mean(one.samples[:4800] ** 2)) == pytest.approx(10 ** (-66 / 20), rel=0.1)


@pytest.mark.parametrize("snr_db", [0, 6, 15])
def test_the_wind_is_as_strong_as_asked(recordings: ModuleType, snr_db: float) -> None:
    """Speech to wind is the asked ratio, and most of the wind's power lies below 1 kHz."""
    clean, windy = recordings.record(dict(WORDS)), recordings.record(WORDS | {"snr_db": snr_db})
    wind = windy.samples - clean.samples
    speech_rms = recordings.level(clean.samples)
    assert 20 * np.log10(speech_rms / np.sqrt(np.mean(wind**2))) == pytest.approx(snr_db, abs=0.7)
    power = np.abs(np.fft.rfft(wind)) ** 2
    assert power[: len(power) // 8].sum() > power.sum() / 2


def test_silence_is_faint_noise(recordings: ModuleType) -> None:
    """A silent turn is as long as asked and as quiet as a microphone's own noise."""
    quiet = recordings.record({"wav": "s.wav", "kind": "silence", "seconds": 2.0})
    assert quiet.seconds == 2.0
    assert 0 < np.sqrt(np.mean(quiet.samples**2)) < 0.001


@pytest.mark.parametrize("voice", ["", "Bob", "espeak", "espeak en-gb 1 2 3", "hibari 1 2"])
def test_other_voices_are_refused(recordings: ModuleType, voice: str) -> None:
    """A voice of none of the three kinds is a bad request that shows them."""
    with pytest.raises(BadRequest, match="give espeak VOICE"):
        recordings.record(WORDS | {"voice": voice})


@pytest.mark.parametrize("change", [None, "words", "missing"])
def test_only_what_changed_is_made(
    recordings: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, change: str | None, capsys: pytest.CaptureFixture[str]
) -> None:
    """A second run makes nothing, unless a turn's words changed or its file is gone."""
    made: list[dict[str, Any]] = []
    monkeypatch.setattr(recordings, "HERE", tmp_path)
    monkeypatch.setattr(recordings, "MANIFEST", tmp_path / "manifest.csv")
    record = recordings.record

    def note(turn: dict[str, Any]) -> Any:
        made.append(turn)
        return record({"wav": "quiet.wav", "kind": "silence", "seconds": 0.1})

    monkeypatch.setattr(recordings, "record", note)
    scenario = tmp_path / "evening" / "scenario.toml"
    scenario.parent.mkdir()
    scenario.write_text('[[turn]]\nwav = "1.wav"\nwords = "yes"\nvoice = "hibari"\nslots = {a = "b"}\n[[turn]]\ncommand = "typed"\n')
    recordings.make(everything=False)
    if change == "words":
        scenario.write_text(scenario.read_text().replace("yes", "no"))
    if change == "missing":
        (scenario.parent / "1.wav").unlink()
    recordings.make(everything=False)
    assert len(made) == (1 if change is None else 2)
    assert "evening/1.wav" in capsys.readouterr().out
    assert "a=b" in (tmp_path / "manifest.csv").read_text()
