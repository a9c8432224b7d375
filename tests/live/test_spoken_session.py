"""An evening by voice with stand-ins for devices and clock: troubles, silence, keys, late and typed answers."""

from __future__ import annotations

from itertools import chain
from pathlib import Path

import numpy as np
import pytest

from companion.dialogue import VOICE_CHANGES, Journal, JournalError, Record, read_journal
from companion.live import Key
from companion.speaking import HEARD, LISTENING, NOT_UNDERSTOOD
from companion.speaking.speaker import FASTER, LOUDER_DB
from tests.live.fakes import FRAME, Loudspeaker, Microphone, Night, quiet, voice

LONG = 60.0
"""Seconds in which the longest thing we say is over."""


def answers(folder: Path) -> list[str]:
    """Return the commands that reached the journal."""
    return [record["command"] for record in read_journal(folder / "evening.jsonl").records if record["kind"] == "answer"]


def test_an_answer_by_voice(tmp_path: Path) -> None:
    """What is said in a pause is printed, acknowledged, answered and recorded; the ear is made ready for the next question."""
    night = Night(tmp_path, chain(quiet(LONG), voice(1), quiet(LONG)), words=["yes"])
    night.hold()
    assert answers(tmp_path) == ["yes"]
    assert "you: yes" in night.shown
    assert [sound for sound in night.mouth.sounds if sound in (HEARD, NOT_UNDERSTOOD)] == [HEARD]
    assert night.mouth.said[:2] == [line.removeprefix("it:  ") for line in night.shown if line.startswith("it:")][:2]
    assert len(night.engine.prepared) >= 2


def test_what_is_not_understood_is_said_so(tmp_path: Path) -> None:
    """Other words: the low tone, and a line that says so."""
    night = Night(tmp_path, chain(quiet(LONG), voice(1), quiet(LONG)), words=["what a lovely evening"])
    night.hold()
    assert answers(tmp_path) == []
    assert "you: (not understood)" in night.shown
    assert NOT_UNDERSTOOD in night.mouth.sounds


@pytest.mark.parametrize(
    ("words", "how", "reply"), [("slow down", "slower", "I'll speak like this."), ("talk faster", "faster", "I can't go further that way.")]
)
def test_the_voice_is_changed(tmp_path: Path, words: str, how: str, reply: str) -> None:
    """What is asked of the voice is done before we reply, and is no answer; where it can't be done, that is said."""
    night = Night(tmp_path, chain(quiet(LONG), voice(1), quiet(LONG)), words=[words])
    night.hold()
    assert night.mouth.changes == [how]
    assert any(said.startswith(reply) for said in night.mouth.said)
    assert answers(tmp_path) == []


def test_what_the_dialogue_leaves_to_the_voice_the_voice_can_do() -> None:
    """Both rooms mean the same words."""
    assert LOUDER_DB.keys() | FASTER.keys() == VOICE_CHANGES


@pytest.mark.parametrize(("words", "taken"), [("stop", True), ("yes", False)])
def test_while_we_speak_only_an_interruption_counts(tmp_path: Path, words: str, taken: bool) -> None:
    """In the middle of our first sentence "stop" silences us, "yes" does nothing."""
    night = Night(tmp_path, chain(quiet(3.0), voice(1), quiet(LONG)), words=[words])
    night.hold()
    assert (f"you: {words}" in night.shown) is taken
    assert bool(night.mouth.hushed) is taken
    assert answers(tmp_path) == []


def test_with_a_headset_an_answer_interrupts_us(tmp_path: Path) -> None:
    """In the middle of our first sentence "yes" is taken, and we fall silent."""
    night = Night(tmp_path, chain(quiet(3.0), voice(1), quiet(LONG)), words=["yes"], headset=True)
    night.hold()
    assert answers(tmp_path) == ["yes"]
    assert night.mouth.hushed == 1


def test_a_long_silence_is_broken_once(tmp_path: Path) -> None:
    """Ten minutes in which nobody speaks: one soft reminder."""
    night = Night(tmp_path, quiet(600.0))
    night.hold()
    assert [line for line in night.shown if "Take your time" in line] == ["it:  I'm here. Take your time."]


def test_told_to_wait_it_waits(tmp_path: Path) -> None:
    """After "hang on" not even the reminder is spoken."""
    night = Night(tmp_path, chain(quiet(LONG / 2), voice(1), quiet(600.0)), words=["hang on"])
    night.hold()
    assert not any("Take your time" in line for line in night.shown)


def test_without_devices_it_goes_on_in_writing(tmp_path: Path) -> None:
    """No microphone, no loudspeaker: both are told, and typed lines are answered."""
    night = Night(tmp_path, quiet(0), lines=[(1.0, "yes"), (2.0, "help")])
    night.microphone = night.loudspeaker = None
    night.hold()
    assert night.shown[:2] == [
        "it:  I can't find a microphone. Type your answers, one a line.",
        "it:  I can't find a loudspeaker. I'll go on in writing.",
    ]
    assert answers(tmp_path) == ["yes"]


def test_a_microphone_taken_away_and_given_back(tmp_path: Path) -> None:
    """It is announced, typed lines are taken meanwhile, and once it is back the next spoken answer counts."""
    night = Night(tmp_path, quiet(LONG), words=["that's right"], lines=[(LONG + 1, "yes"), (LONG + 40, "")])
    first, second = night.microphone, Microphone(night.world, chain(quiet(LONG), voice(1), quiet(5.0)))

    def microphone_at(self: Night) -> Microphone:
        return first if not first.lost else second

    class Plugged(Night):
        microphone = property(microphone_at, lambda self, value: None)

    night.__class__ = Plugged
    night.hold()
    told = [line for line in night.shown if "microphone is" in line]
    assert told[:2] == ["it:  The microphone is gone. Type your answers until it is back.", "it:  The microphone is back. I'm listening."]
    assert answers(tmp_path) == ["yes", "yes"]
    assert LISTENING in night.mouth.sounds


def test_a_loudspeaker_taken_away_and_given_back(tmp_path: Path) -> None:
    """It is announced in writing, and when it is back what was asked is said again."""
    night = Night(tmp_path, quiet(LONG))
    new = Loudspeaker()

    def lose(frames: int = 200) -> object:
        for number, frame in enumerate(quiet(LONG)):
            if number == frames:
                night.loudspeaker.lost = True
            if number == 2 * frames:
                night.loudspeaker = new
            yield frame

    night.microphone = Microphone(night.world, lose())
    night.hold()
    lines = [line for line in night.shown if line.startswith("it:")]
    assert lines[1:3] == ["it:  The loudspeaker is gone. I'll go on in writing.", "it:  The loudspeaker is back."]
    assert lines[3] == lines[0]
    assert night.mouth.loudspeaker is new


def test_a_microphone_that_is_switched_off_is_told_once(tmp_path: Path) -> None:
    """Two minutes of zeros from its opening on: one sentence. A single sample of sound, and it counts as switched on."""
    night = Night(tmp_path, quiet(120.0))
    night.hold()
    assert sum("no sound at all" in line for line in night.shown) == 1
    faint = np.zeros(FRAME, np.float32)
    faint[7] = 1e-5
    other = Night(tmp_path, chain([faint], quiet(120.0)))
    other.hold()
    assert not any("no sound at all" in line for line in other.shown)


def test_lost_sound_is_told_once(tmp_path: Path) -> None:
    """A microphone that runs over again and again: one sentence."""
    night = Night(tmp_path, quiet(LONG))
    night.microphone.overflows = 7
    night.hold()
    assert sum("I'm losing some of what you say" in line for line in night.shown) == 1


def test_a_dead_voice_is_told(tmp_path: Path) -> None:
    """The voice behind it is named as another one; with none left we go on in writing."""

    def dying() -> object:
        for number, frame in enumerate(quiet(LONG)):
            if number in (100, 200):
                night.mouth.voices_left -= 1
            yield frame

    night = Night(tmp_path, dying())
    night.hold()
    assert "it:  My usual voice doesn't answer. This is another one." in night.shown
    assert "it:  None of my voices answers. I'll go on in writing." in night.shown


def test_a_full_disk_ends_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the journal can't be written any more that is spoken with the answer, which still counts."""
    night = Night(tmp_path, chain(quiet(LONG), voice(1), quiet(LONG)), words=["yes"])

    def refuse(self: object) -> None:
        raise JournalError(tmp_path / "evening.jsonl", OSError(28, "No space left on device"))

    monkeypatch.setattr("companion.dialogue.journal.Journal.sync", refuse)
    night.hold()
    assert sum("can't write my journal" in line for line in night.shown) == 1
    assert "you: yes" in night.shown


def test_a_disk_full_for_a_while_costs_no_answer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is spoken when it begins and when it is over; what was answered meanwhile is in the journal then."""
    night = Night(tmp_path, chain(quiet(LONG), voice(1), quiet(LONG), voice(1), quiet(LONG)), words=["yes", "yes"])
    append, refused = Journal.append, list[object]()

    def full_at_first(self: Journal, record: Record) -> None:
        if record["kind"] == "answer" and len(refused) < 3:
            refused.append(record)
            raise JournalError(tmp_path / "evening.jsonl", OSError(28, "No space left on device"))
        append(self, record)

    monkeypatch.setattr("companion.dialogue.journal.Journal.append", full_at_first)
    night.hold()
    told = [said for said in night.mouth.said if "my journal" in said]
    assert [said.partition(".")[0] for said in told] == ["I can't write my journal", "I can write my journal again"]
    assert answers(tmp_path) == ["yes", "yes"]


def test_the_key_opens_the_ear_for_one_answer(tmp_path: Path) -> None:
    """Where the key is needed nothing is heard without it; after it a tone, one answer, and the ear is closed again."""
    said = chain(quiet(LONG), voice(1), quiet(5.0), voice(2), quiet(LONG), voice(3), quiet(LONG))
    night = Night(tmp_path, said, words=["yes", "yes", "that's right"], lines=[(LONG + 3.0, "")])
    night.hold(Key(always_open=False, can_be_held=False))
    assert night.shown[0].startswith("it:  With people around, I listen only with a key. Press the enter key,")
    assert answers(tmp_path) == ["yes"]
    assert sum(sound is LISTENING for sound in night.mouth.sounds) == 1


def test_too_much_noise_is_told_once_and_the_key_offered(tmp_path: Path) -> None:
    """Three failures hardly above the noise: one sentence; from then on the key works, and closes the ear for everything else."""
    hiss = np.random.default_rng(1)

    def noisy(frames: object) -> object:
        for frame in frames:
            loud = (0.05 * hiss.standard_normal(FRAME)).astype(np.float32)
            loud[:2] = frame[:2]
            yield loud

    failures = chain.from_iterable(chain(voice(1), quiet(15.0)) for _ in range(4))
    night = Night(tmp_path, noisy(chain(quiet(LONG), failures, quiet(5.0), voice(2), quiet(5.0))), words=["mumble", "yes"])
    night.hold()
    assert sum("too noisy here" in line for line in night.shown) == 1
    assert answers(tmp_path) == ["yes"]
