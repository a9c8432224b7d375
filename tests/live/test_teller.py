"""From a turn to its speech: what is spoken, shown, remembered and prepared."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from companion.dialogue import Journal
from companion.equipment import Equipment
from companion.hearing.noise_floor import NoiseFloor
from companion.languages import load_language
from companion.live import Session
from companion.live.barge_in import BargeIn
from companion.live.readiness import Readiness
from companion.live.teller import Teller
from companion.live.turn_history import TurnHistory
from companion.messages import Heard, NotUnderstood
from companion.speaking import HEARD, NOT_UNDERSTOOD
from tests.english import VOCABULARY
from tests.live.fakes import SITE, AtOnce, Loudspeaker, Mouth, ScriptedEar, World


class Told:
    """A teller and everything it tells to."""

    def __init__(self, journal: Journal) -> None:
        """Put it together from stand-ins."""
        world, barge_in = World(), BargeIn(VOCABULARY, load_language().words_in)
        self.mouth, self.ear, self.history, self.shown = Mouth(world, Loudspeaker()), ScriptedEar([]), TurnHistory(), list[str]()
        self.session = Session(SITE, world.date, journal, Equipment(), language=load_language())
        self.first = self.session.begin()
        readiness = Readiness(self.ear, VOCABULARY, barge_in, NoiseFloor(), AtOnce())
        self.teller = Teller(self.session, self.mouth, self.history, readiness, self.shown.append)


@pytest.fixture
def told(tmp_path: Path) -> Iterator[Told]:
    """Put a teller together."""
    with Journal(tmp_path / "evening.jsonl") as journal:
        yield Told(journal)


def test_a_turn_is_spoken_shown_and_remembered(told: Told) -> None:
    """The words go to the voice and the screen; its question is open; the ear is ready for an interruption and for the answer."""
    told.teller.tell(told.first)
    assert told.mouth.said == [words.removeprefix("it:  ") for words in told.shown]
    assert told.history.latest.question == told.first.question
    assert told.history.last_speech is not None
    assert told.history.last_speech.text == told.mouth.said[0]
    assert [active.parse("yes") is not None for active in told.ear.prepared] == [False, True]


def test_what_led_to_a_turn_answers_the_question_before(told: Told) -> None:
    """The answer is kept with the question it was given to, not with the one that follows it."""
    told.teller.tell(told.first)
    before = told.history.latest
    answer = Heard("yes", "yes")
    told.teller.tell(told.session.hear(answer), answering=answer)
    assert before.answer == answer
    assert told.history.latest is not before
    assert told.history.latest.answer is None


def test_it_acknowledges_what_was_heard(told: Told) -> None:
    """A rising sound and the words, or the low one and that there were none."""
    told.teller.acknowledge(Heard("yes", "yes"))
    told.teller.acknowledge(NotUnderstood())
    assert told.mouth.sounds == [HEARD, NOT_UNDERSTOOD]
    assert told.shown == ["you: yes", "you: (not understood)"]
