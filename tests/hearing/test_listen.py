"""What an utterance may say: an answer, or what is known beside it."""

from dataclasses import dataclass

import pytest

from companion.audio import Audio, silence
from companion.hearing.active import ActiveSet
from companion.hearing.engine import LIKELY_UNASKED, Scope, listen
from companion.hearing.grammar import parse_grammar
from companion.messages import Heard, Hearing, NotNow, NotUnderstood

GRAMMAR = parse_grammar("#JSGF V1.0;\ngrammar t;\npublic <answer> = yes | no;\npublic <question> = what time is it;")
ANSWER, EVERYTHING = ActiveSet.of((GRAMMAR, "answer")), ActiveSet.every(GRAMMAR)


@dataclass(frozen=True)
class Sure:
    """Hears one phrase wherever it may be said, always as likely."""

    phrase: str
    confidence: float
    name: str = "sure"

    def prepare(self, active: ActiveSet) -> None:
        """Do nothing."""

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Return the phrase, or that it isn't understood."""
        phrase = active.parse(self.phrase)
        return Heard(phrase.words, phrase.command, phrase.slots, self.confidence) if phrase else NotUnderstood()


@pytest.mark.parametrize(("confidence", "kind"), [(LIKELY_UNASKED, NotNow), (LIKELY_UNASKED - 0.01, NotUnderstood)])
def test_what_nobody_asked_for_must_be_likelier(confidence: float, kind: type[Hearing]) -> None:
    """Everyday talk is found among all that is known now and then, but rarely as a likely one."""
    assert isinstance(listen(Sure("what time is it", confidence), silence(1.0, 16_000), Scope(ANSWER, EVERYTHING)), kind)


def test_an_answer_needn_t_be_so_likely() -> None:
    """What the engine takes for an answer is one."""
    assert isinstance(listen(Sure("yes", 0.6), silence(1.0, 16_000), Scope(ANSWER, EVERYTHING)), Heard)


@dataclass(frozen=True)
class OnlyBegins(Sure):
    """Knows that what it hears only begins a sentence, where it is asked to mind that."""

    def overhear(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Take nothing."""
        return NotUnderstood()


def test_the_beginning_of_a_sentence_is_no_question_to_us() -> None:
    """Nobody asked for it, and most of what begins like a phrase of ours is talk among people; an answer is taken as before."""
    scope = Scope(ANSWER, EVERYTHING)
    assert isinstance(listen(OnlyBegins("what time is it", 0.95), silence(1.0, 16_000), scope), NotUnderstood)
    assert isinstance(listen(OnlyBegins("yes", 0.95), silence(1.0, 16_000), scope), Heard)
