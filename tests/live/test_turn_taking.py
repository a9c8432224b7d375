"""Whose turn it is: tables of what was said when, against what it may do."""

from __future__ import annotations

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.listener import Utterance
from companion.languages import load_language
from companion.live.barge_in import BargeIn
from companion.live.turn_taking import REMINDER_SECONDS, Action, Patience, TurnTaking
from companion.messages import Heard, Hearing, NotUnderstood
from companion.speaking.speaker import Speech
from companion.talk.pose_phrases import LevelTheBase, SayWhenItIsOn
from companion.vocabulary import load_vocabulary

FIRST, SECOND = LevelTheBase(), SayWhenItIsOn()
YES, NO = Heard("yes", "yes", confidence=0.95), Heard("no", "no", confidence=0.95)
STOP = Heard("stop", "stop", confidence=0.95)
UNSURE_STOP = Heard("stop", "stop", confidence=0.6)


def utterance(hearing: Hearing, began: float, voice_ended: float, seconds: float = 1.0) -> Utterance:
    """Return an utterance between two times."""
    return Utterance(
        Audio(np.zeros(round(seconds * SPEECH_RATE_HZ), np.float32), SPEECH_RATE_HZ), hearing, began, voice_ended, voice_ended + 0.5
    )


def turns(*, headset: bool = False, over: float | None = 5.0) -> TurnTaking:
    """Return turn-taking after a question spoken from 1 s to ``over``."""
    taking = TurnTaking(headset=headset)
    speech = Speech("Is the tripod level?", begun=1.0, over=over)
    taking.spoke(speech)
    taking.asked(FIRST, speech)
    return taking


@pytest.mark.parametrize(
    ("hearing", "voice", "over", "headset", "deed"),
    [
        (YES, (6.0, 6.4), 5.0, False, Action.ANSWER),
        (YES, (5.1, 5.6), 5.0, False, Action.ANSWER),
        (Heard("yes", "yes", confidence=0.6), (5.1, 5.6), 5.0, False, Action.IGNORE),
        (NotUnderstood(), (6.0, 6.4), 5.0, False, Action.ANSWER),
        (NotUnderstood(), (5.1, 5.6), 5.0, False, Action.IGNORE),
        (STOP, (3.0, 3.4), None, False, Action.BARGE_IN),
        (UNSURE_STOP, (3.0, 3.4), None, False, Action.IGNORE),
        (NotUnderstood(), (3.0, 3.4), None, False, Action.IGNORE),
        (NotUnderstood(), (3.0, 3.4), None, True, Action.ANSWER),
        (YES, (3.0, 3.4), None, True, Action.ANSWER),
        (STOP, (3.0, 3.4), None, True, Action.BARGE_IN),
        (STOP, (9.0, 9.4), 5.0, False, Action.BARGE_IN),
    ],
    ids=[
        "an answer", "right after we end", "an unsure one there", "no answer", "our echo", "stop while we speak", "an unsure stop",
        "our own voice", "a headset: somebody else's", "a headset: an answer while we speak", "a headset: stop", "stop in silence",
    ],
)  # fmt: skip
def test_what_an_utterance_may_do(hearing: Hearing, voice: tuple[float, float], over: float | None, headset: bool, deed: Action) -> None:
    """While we speak only what silences or repeats us counts, if it is sure; with a headset everything does."""
    assert turns(headset=headset, over=over).weigh(utterance(hearing, *voice)) is deed


def test_long_talk_is_not_meant_for_us() -> None:
    """Seven seconds of talk that is no answer are passed over; a long answer is taken."""
    taking = turns()
    assert taking.weigh(utterance(NotUnderstood(), 6.0, 13.0, seconds=7.0)) is Action.IGNORE
    assert taking.weigh(utterance(YES, 6.0, 13.0, seconds=7.0)) is Action.ANSWER


@pytest.mark.parametrize(("late", "deed"), [(YES, Action.IGNORE), (NO, Action.CORRECT), (Heard("no", "no", confidence=0.5), Action.IGNORE)])
def test_a_late_answer_is_to_the_question_before(late: Heard, deed: Action) -> None:
    """What began before our next words could be heard answers the question before: said twice it is nothing new, another one corrects."""
    taking = turns()
    taking.answered(YES)
    speech = Speech("Is it on?", begun=8.0, over=9.0)
    taking.spoke(speech)
    taking.asked(SECOND, speech)
    assert taking.question_at(7.5) == FIRST
    assert taking.question_at(9.5) == SECOND
    assert taking.weigh(utterance(late, 7.5, 7.9)) is deed


def test_a_voice_through_our_sentence_is_forgotten_at_its_end() -> None:
    """What has been heard since long before we ended is our own voice; what began in our last words is left to be judged."""
    taking = turns()
    assert not taking.is_stale(began=1.2, now=4.9)
    assert taking.is_stale(began=1.2, now=5.1)
    assert not taking.is_stale(began=4.5, now=5.1)
    assert not turns(headset=True).is_stale(began=1.2, now=5.1)
    assert taking.is_early_answer(utterance(NotUnderstood(), 4.8, 5.1))
    assert not taking.is_early_answer(utterance(NotUnderstood(), 2.0, 2.5))


def test_our_own_words_cannot_interrupt_us() -> None:
    """Phrases that occur in what is spoken are not live meanwhile; the same text gives the same set, so it is prepared once."""
    interruptions = BargeIn(load_vocabulary(load_language()), load_language().words_in)
    usual = interruptions.against("Is the tripod level?")
    assert usual.parse("stop") is not None
    assert usual.parse("say that again") is not None
    assert usual.parse("yes") is None
    assert interruptions.against("Say: stop. Or wait.").parse("stop") is None
    assert interruptions.against("It has stopped.").parse("stop") is not None
    assert interruptions.against("Is it on?") is usual


def test_patience_reminds_once() -> None:
    """A long silence is broken once; somebody's speaking puts it off; told to wait, it waits."""
    patience = Patience()
    assert not patience.is_over(1000.0)
    patience.wait_from(0.0)
    assert not patience.is_over(REMINDER_SECONDS - 1)
    patience.put_off(10.0)
    assert not patience.is_over(REMINDER_SECONDS + 5)
    assert patience.is_over(REMINDER_SECONDS + 10)
    patience.wait_no_longer()
    patience.put_off(20.0)
    assert not patience.is_over(1000.0)
