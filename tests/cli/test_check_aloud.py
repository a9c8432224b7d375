"""``companion check --aloud``: what is missing and what helps, for the ear."""

from __future__ import annotations

import json
import sys

import pytest

from companion.cli import main
from companion.commands import machine
from companion.doctor import PartChecked
from companion.languages import load_language
from companion.talk.command_phrases import MachinePart
from companion.talk.machine_phrases import EveryVoiceMissing, LoudspeakerMissing, MicrophoneMissing, NothingMissing, SpareVoiceMissing

WELL = PartChecked(MachinePart.SKY, True, True, "read", None, None)
NO_MICROPHONE = PartChecked(MachinePart.MICROPHONE, False, False, "not usable", "plug one in", MicrophoneMissing())
NO_LOUDSPEAKER = PartChecked(MachinePart.LOUDSPEAKER, False, False, "not usable", "plug one in", LoudspeakerMissing())
NO_SPARE = PartChecked(MachinePart.VOICE, False, False, "not usable", "install it", SpareVoiceMissing(), "pyttsx3")


def told(
    parts: list[PartChecked], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *options: str
) -> tuple[int, str, str]:
    """Check with these parts on a machine without a loudspeaker; return the exit code and what was printed."""
    monkeypatch.setattr(machine, "check_parts", lambda *_: parts)
    code = main(["check", "--aloud", *options])
    printed = capsys.readouterr()
    return code, printed.out, printed.err


@pytest.fixture(autouse=True)
def _no_loudspeaker(monkeypatch: pytest.MonkeyPatch, tmp_path: object) -> None:
    """Have a home of our own, and a machine that PortAudio isn't on."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    monkeypatch.setitem(sys.modules, "sounddevice", None)


def test_nothing_missing_is_said(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """One sentence says that all is there."""
    code, out, _ = told([WELL], monkeypatch, capsys)
    assert code == 0
    assert out.splitlines()[1] == f"it:  {load_language().plain_words(NothingMissing())}"


def test_each_thing_missing_is_said_with_what_helps_the_loudspeaker_first(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without a loudspeaker that is printed first, then the rest, none of it in words for a screen."""
    code, out, _ = told([WELL, NO_MICROPHONE, NO_LOUDSPEAKER, NO_SPARE], monkeypatch, capsys)
    spoken = [line for line in out.splitlines() if line.startswith("it:")]
    assert code == 0
    assert len(spoken) == 4
    assert "loudspeaker" in spoken[0]
    assert "microphone" in spoken[1]
    assert "printed above" in spoken[-1]
    assert not [line for line in spoken for sign in ("--", "/", "_", "pip ") if sign in line]


def test_the_document_stays_alone_on_standard_output(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """With --json what is said goes to standard error, and the document has the agreed fields and no others."""
    code, out, err = told([WELL, NO_MICROPHONE], monkeypatch, capsys, "--json")
    assert code == 0
    assert [set(part) for part in json.loads(out)] == [{"part", "ok", "required", "detail", "remedy"}] * 2
    assert "microphone" in err


def test_a_required_part_still_ends_it_with_three(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """It is said, and the last line is the one error."""
    voiceless = PartChecked(MachinePart.ANY_VOICE, False, True, "none of the voices speaks", "mend one", EveryVoiceMissing())
    code, out, err = told([voiceless], monkeypatch, capsys)
    assert code == 3
    assert "None of my voices works." in out
    assert err == "companion: error: a voice: mend one\n"
