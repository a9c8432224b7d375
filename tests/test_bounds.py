"""Nothing is believed blindly: how much is read, of what kind, and how long, is bounded before it is read."""

from __future__ import annotations

import io
import json
import os
import struct
import tracemalloc
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import soundfile

from companion.audio import LONGEST_UTTERANCE_SECONDS, read_wav
from companion.cli import main
from companion.documents.fit_request import MOST_SIGHTINGS, MOST_TARGETS, read_fit_request
from companion.errors import AudioFileError, BadRequest, GrammarError
from companion.files import LARGEST_DOCUMENT_BYTES, read_file
from companion.hearing import load_grammar
from companion.hearing.grammar import LARGEST_BYTES
from companion.observing.own_objects import own_objects
from companion.profile import load_profile
from companion.rehearsal import load_scenario
from tests.documents.examples import FIT, SIGHTING


def _pipe(path: Path) -> None:
    os.mkfifo(path)


def _device(path: Path) -> None:
    path.symlink_to("/dev/zero")


@pytest.mark.parametrize("make", [_pipe, _device, Path.mkdir])
@pytest.mark.parametrize(
    ("name", "read"),
    [
        ("a.wav", read_wav),
        ("a.jsgf", load_grammar),
        ("a.toml", lambda path: load_profile(str(path))),
        ("scenario.toml", lambda path: load_scenario(path.parent)),
        ("objects.csv", lambda path: own_objects(path.parent)),
    ],
)
def test_what_is_no_file_is_refused(tmp_path: Path, make: Callable[[Path], None], name: str, read: Callable[[Path], object]) -> None:
    """A pipe nobody writes to and a device that never ends are refused at once, whoever would read them."""
    make(tmp_path / name)
    with pytest.raises((AudioFileError, BadRequest)):
        read(tmp_path / name)


@pytest.mark.parametrize("make", [_pipe, _device])
def test_a_request_is_a_file(tmp_path: Path, make: Callable[[Path], None], capsys: pytest.CaptureFixture[str]) -> None:
    """The same of a request for ``fit``, in one line."""
    make(tmp_path / "fit.json")
    assert main(["fit", str(tmp_path / "fit.json")]) == 2
    assert "not a file but a device or a pipe" in capsys.readouterr().err


def test_a_document_is_a_megabyte_at_most(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One byte more than the limit is one line; as much as the limit is read."""
    file = tmp_path / "fit.json"
    altair = {"star": "Altair", "time": "2026-10-15T22:40:00Z", "reported_azimuth_deg": 30, "reported_altitude_deg": 50}
    text = json.dumps(FIT | {"sightings": [altair], "find": []})
    file.write_text(text + " " * (LARGEST_DOCUMENT_BYTES - len(text)))
    assert len(read_file(file, LARGEST_DOCUMENT_BYTES)) == LARGEST_DOCUMENT_BYTES
    assert main(["fit", str(file)]) == 0
    with file.open("a") as opened:
        opened.write(" ")
    capsys.readouterr()
    assert main(["fit", str(file)]) == 2
    assert "larger than 1 MB" in capsys.readouterr().err


def test_a_fit_takes_so_many_sightings() -> None:
    """Sixty-four sightings are fitted; one more, or more names to be found than anybody reads, is refused."""
    assert len(read_fit_request(FIT | {"sightings": [SIGHTING] * MOST_SIGHTINGS}).sightings) == MOST_SIGHTINGS
    with pytest.raises(BadRequest, match="there are 65; give 64 at most"):
        read_fit_request(FIT | {"sightings": [SIGHTING] * (MOST_SIGHTINGS + 1)})
    with pytest.raises(BadRequest, match="at most at once"):
        read_fit_request(FIT | {"find": ["Vega"] * (MOST_TARGETS + 1)})


def _wav(rate_hz: int, channels: int, frames: int = 16) -> bytes:
    """Return a 16-bit PCM WAV by its published layout (RIFF/WAVE, Microsoft and IBM 1991)."""
    data = np.zeros(frames * channels, "<i2").tobytes()
    head = struct.pack("<4sIHHIIHH", b"fmt ", 16, 1, channels, rate_hz, (rate_hz * channels * 2) % 2**32, channels * 2 % 2**16, 16)
    body = b"WAVE" + head + struct.pack("<4sI", b"data", len(data)) + data
    return b"RIFF" + struct.pack("<I", len(body)) + body


@pytest.mark.parametrize(("rate_hz", "channels"), [(384_001, 1), (2**31 - 1, 1), (16_000, 33), (16_000, 1024), (0, 1), (16_000, 0)])
def test_impossible_sound_is_refused_by_its_head(tmp_path: Path, rate_hz: int, channels: int) -> None:
    """More samples a second or channels than any recorder writes, or none."""
    (tmp_path / "a.wav").write_bytes(_wav(rate_hz, channels))
    with pytest.raises(AudioFileError):
        read_wav(tmp_path / "a.wav", LONGEST_UTTERANCE_SECONDS)


def test_the_most_that_is_read_fits_into_memory(tmp_path: Path) -> None:
    """Five seconds of 32 channels at 384 kHz, 123 MB of them, are mono as they are read: a tenth of that as floats."""
    rate_hz, channels = 384_000, 32
    with soundfile.SoundFile(tmp_path / "a.wav", "w", rate_hz, channels, "PCM_16") as file:
        for _ in range(50):
            file.write(np.zeros((rate_hz // 10, channels), np.int16))
    tracemalloc.start()
    sound = read_wav(tmp_path / "a.wav", LONGEST_UTTERANCE_SECONDS)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert sound.seconds == 5
    assert peak < 60_000_000


def test_half_a_minute_is_the_longest(tmp_path: Path) -> None:
    """Thirty seconds are read, thirty and a sample are not: nor compressed ones, whose bytes are few."""
    sound = io.BytesIO()
    for samples, fits in ((30 * 8000, True), (30 * 8000 + 1, False)):
        for kind in ("WAV", "FLAC"):
            sound.seek(0)
            soundfile.write(tmp_path / "a.wav", np.zeros(samples), 8000, format=kind)
            if fits:
                assert read_wav(tmp_path / "a.wav", LONGEST_UTTERANCE_SECONDS).seconds == 30
            else:
                with pytest.raises(AudioFileError, match="longer than 30 seconds"):
                    read_wav(tmp_path / "a.wav", LONGEST_UTTERANCE_SECONDS)


@pytest.mark.parametrize("words", ["{}", '"{}"', "yes {} no", '"yes {}"'])
def test_a_word_has_so_many_letters(tmp_path: Path, words: str) -> None:
    """A word of 64 letters is a word, one of 65 a slip: bare, quoted and among others."""
    for letters, fits in ((64, True), (65, False)):
        (tmp_path / "a.jsgf").write_text(f"#JSGF V1.0;\ngrammar a;\npublic <a> = {words.format('x' * letters)};\n")
        if fits:
            assert load_grammar(tmp_path / "a.jsgf").public_rules == ("a",)
        else:
            with pytest.raises(GrammarError, match="3: the word xxxxxxxxxxxxxxxxxxxx… has 65 letters, at most 64"):
                load_grammar(tmp_path / "a.jsgf")


def test_a_grammar_file_has_so_many_bytes(tmp_path: Path) -> None:
    """256 kB are read, one byte more isn't."""
    text = "#JSGF V1.0;\ngrammar a;\npublic <a> = yes;\n"
    (tmp_path / "a.jsgf").write_text(text + "\n" * (LARGEST_BYTES - len(text)))
    assert load_grammar(tmp_path / "a.jsgf").public_rules == ("a",)
    (tmp_path / "a.jsgf").write_text(text + "\n" * (LARGEST_BYTES - len(text) + 1))
    with pytest.raises(GrammarError, match="larger than 256 kB"):
        load_grammar(tmp_path / "a.jsgf")


@pytest.mark.parametrize(
    "encoding", ["undefined", "idna", "punycode", "rot13", "base64", "zip", "utf-7", "a" * 5000, "unicode_escape", "0"]
)
def test_odd_encodings_of_a_grammar_are_one_line(tmp_path: Path, encoding: str) -> None:
    """Every codec Python knows may be named; whatever it makes of the file, we answer in our own words or read it."""
    (tmp_path / "a.jsgf").write_bytes(f"#JSGF V1.0 {encoding};\ngrammar a;\npublic <a> = yes".encode() + b"\\ud800\xff;\n")
    with pytest.raises(BadRequest):
        load_grammar(tmp_path / "a.jsgf")
