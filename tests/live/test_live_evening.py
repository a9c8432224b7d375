"""A whole evening by voice on the virtual sound card: recordings in, speech out, in real time, with noise and our own echo."""

from __future__ import annotations

import os
import re
import time
from pathlib import Path

import pytest

from companion import sky
from companion.audio import Audio, read_wav
from companion.rehearsal import Scenario, find_scenario, load_scenario
from tests.live.field import Event, Field, delays, in_the_field
from tests.live.measure import spoken, told
from tests.open_ear import words_heard, words_of
from tests.soundcard import RATE_HZ, soundcard

WHOLE = os.environ.get("COMPANION_FULL_SWEEP") == "1"
RECORDINGS = 6
"""Of the scenario, when not all are played; then each part is left, to the end of the evening."""
MOST_PARTS = 16
_NAMED = [body.name for body in (*sky.named_stars(), *sky.deep_sky(), *sky.PLANETS) if body.name.isalpha()]
NAMES = re.compile(rf"\b({'|'.join(_NAMED)}|Moncton)\b")


def answer(field: Field, wav: Path, *, again: int = 2) -> list[Event]:
    """Wait for silence and answer; an answer that isn't taken is given again, as people do."""
    decided: list[Event] = []
    for _ in range(1 + again):
        field.wait_for_silence()
        if field.is_over:
            break
        decided += field.play(wav)
        if any(event["kind"] == "Heard" and event["action"] not in ("ignore", "invite") for event in decided):
            break
    return decided


def hold(field: Field, scenario: Scenario, folder: Path) -> list[tuple[str, list[Event]]]:
    """Answer with the scenario's recordings, all or the first few, and leave what remains; return what was decided on each."""
    recordings = [recording for recording in scenario.recordings if recording.kind != "silence"]
    decided = []
    for recording in recordings if WHOLE else recordings[:RECORDINGS]:
        decided.append((recording.words, answer(field, recording.wav, again=2 if recording.command else 0)))
    for _ in range(MOST_PARTS):
        field.wait_for_silence()
        if field.is_over:
            break
        decided.append(("leave this part", answer(field, spoken(folder, "leave this part"))))
    return decided


def wrong_figures(field: Field, heard: Audio, began: float) -> list[tuple[str, list[str]]]:
    """Return what was said whose figures an open listener did not get right from the loudspeaker's sound, and what it got."""
    said, wrong = field.said(), []
    ends = [at for at, _ in said[1:]] + [began + heard.seconds]
    for (at, words), end in zip(said, ends, strict=True):
        quiet = [event["at"] for event in field.events("quiet") if at < event["at"] < end]
        if not quiet:
            continue
        piece = heard.samples[max(0, round((at - began) * heard.rate_hz)) : round((quiet[-1] + 0.4 - began) * heard.rate_hz)]
        expected = [word for word in words_of(NAMES.sub("", words)) if word.isdigit()]
        got = words_heard(Audio(piece, heard.rate_hz))
        if expected != [word for word in got if word.isdigit()]:
            wrong.append((words, got))
    return wrong


@pytest.mark.alone
@pytest.mark.slow
def test_an_evening_by_voice(tmp_path: Path) -> None:
    """The evening comes to its end, and every figure it spoke is heard right: a few answers, or all with COMPANION_FULL_SWEEP=1."""
    scenario = load_scenario(find_scenario("first_evening"))
    place = ("--lat", f"{scenario.site.latitude_deg}", "--lon", f"{scenario.site.longitude_deg}", "--at", scenario.starts_at.isoformat())
    with soundcard() as card, card.listening(tmp_path / "heard.wav"):
        began = time.monotonic()
        with in_the_field(card, *place) as field:
            decided = hold(field, scenario, tmp_path)
            code = field.process.wait(30)
        lines, events = [line for _, line in field.lines], field.events()
    print("\n".join(lines))
    for words, made in decided:
        print(words, [(event["kind"], event["action"], event["phrase"]) for event in made])
    print(told(delays(events)))
    assert code == 0
    assert "good night" in lines[-1].lower()
    heard = read_wav(tmp_path / "heard.wav")
    assert heard.rate_hz == RATE_HZ
    assert wrong_figures(field, heard, began) == []
