"""Whose turn it is: tables of what was said when, against what may be heard in it and what is done."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.stream import Segment, SegmentExtent
from companion.languages import load_language
from companion.live.barge_in import BargeIn
from companion.live.turn_history import SAID_AGAIN_SECONDS, TurnHistory
from companion.live.turn_policy import LONGEST_ANSWER_SECONDS, Action, TurnPolicy, Utterance
from companion.messages import Heard, Hearing, NotUnderstood
from companion.speaking.speaker import Speech
from companion.talk.ground_phrases import CablesAndFrost, LegsAndGround
from companion.vocabulary import load_vocabulary
from tests.english import VOCABULARY

FIRST, SECOND = LegsAndGround(), CablesAndFrost()
YES, NO = Heard("yes", "yes", confidence=0.95), Heard("no", "no", confidence=0.95)
STOP = Heard("stop", "stop", confidence=0.95)
UNSURE_STOP = Heard("stop", "stop", confidence=0.6)


BARGE_IN = BargeIn(VOCABULARY, load_language().words_in)


def segment(began: float, voice_ended: float) -> Segment:
    """Return what somebody said between two times."""
    return Segment(Audio(np.zeros(SPEECH_RATE_HZ, np.float32), SPEECH_RATE_HZ), began, voice_ended, SegmentExtent.PAUSED)


@dataclass(frozen=True)
class Turns:
    """What was said so far, and who rules by it."""

    history: TurnHistory
    policy: TurnPolicy

    def action(self, hearing: Hearing, began: float, voice_ended: float) -> Action:
        """Return what is done with what was heard between two times."""
        return self.policy.rule(segment(began, voice_ended)).action(hearing)


def turns(*, headset: bool = False, over: float | None = 5.0) -> Turns:
    """Return the policy after a question spoken from 1 s to ``over``."""
    history = TurnHistory(headset=headset)
    speech = Speech("Is the tripod level?", begun=1.0, over=over)
    history.spoke(speech)
    history.asked(FIRST, speech)
    return Turns(history, TurnPolicy(history, VOCABULARY, BARGE_IN))


@pytest.mark.parametrize(
    ("hearing", "voice", "over", "headset", "action"),
    [
        (YES, (6.0, 6.4), 5.0, False, Action.ANSWER),
        (YES, (5.1, 5.6), 5.0, False, Action.ANSWER),
        (Heard("yes", "yes", confidence=0.6), (5.1, 5.6), 5.0, False, Action.INVITE),
        (NotUnderstood(), (6.0, 6.4), 5.0, False, Action.ANSWER),
        (NotUnderstood(), (5.1, 5.6), 5.0, False, Action.INVITE),
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
def test_what_an_utterance_may_do(hearing: Hearing, voice: tuple[float, float], over: float | None, headset: bool, action: Action) -> None:
    """While we speak only what silences or repeats us counts, if it is sure; with a headset everything does."""
    assert turns(headset=headset, over=over).action(hearing, *voice) is action


@pytest.mark.parametrize(
    ("voice", "over", "headset", "has", "looks_further"),
    [
        ((3.0, 3.4), None, False, {"stop"}, False),
        ((5.1, 5.2), 5.0, False, {"stop"}, False),
        ((5.1, 5.6), 5.0, False, {"stop", "i'm ready"}, False),
        ((6.0, 6.4), 5.0, False, {"stop", "i'm ready"}, True),
        ((6.0, 6.1 + LONGEST_ANSWER_SECONDS), 5.0, False, {"stop", "i'm ready"}, False),
        ((3.0, 3.4), None, True, {"stop", "i'm ready"}, True),
    ],
    ids=["while we speak", "in our echo", "on after our echo", "in silence", "long talk", "with a headset"],
)
def test_what_may_be_heard(voice: tuple[float, float], over: float | None, headset: bool, has: set[str], looks_further: bool) -> None:
    """While we speak only what interrupts us, else the answers; all that is known only where a reply to it would be due."""
    scope = turns(headset=headset, over=over).policy.rule(segment(*voice)).scope
    assert {words for words in ("stop", "i'm ready") if scope.active.parse(words)} == has
    assert (scope.everything is not None) is looks_further


def test_only_what_interrupts_us_is_urgent() -> None:
    """Words that need no pause are those live while we speak; in silence, and with a headset, there are none."""
    urgent = turns(over=None).policy.urgent(segment(3.0, 3.4))
    assert urgent is not None
    assert urgent.action(STOP) is Action.BARGE_IN
    assert turns().policy.urgent(segment(6.0, 6.4)) is None
    assert turns(headset=True, over=None).policy.urgent(segment(3.0, 3.4)) is None


def test_long_talk_is_not_meant_for_us() -> None:
    """Seven seconds of talk that is no answer are passed over; a long answer is taken."""
    taking = turns()
    assert taking.action(NotUnderstood(), 6.0, 13.0) is Action.IGNORE
    assert taking.action(YES, 6.0, 13.0) is Action.ANSWER


@pytest.mark.parametrize(
    ("late", "action"), [(YES, Action.IGNORE), (NO, Action.CORRECT), (Heard("no", "no", confidence=0.5), Action.IGNORE)]
)
def test_a_late_answer_is_to_the_question_before(late: Heard, action: Action) -> None:
    """What began before our next words could be heard answers the question before: said twice it is nothing new, another one corrects."""
    taking = turns()
    taking.history.answered(YES)
    speech = Speech("Is it on?", begun=9.0, over=12.0)
    taking.history.spoke(speech)
    taking.history.asked(SECOND, speech)
    assert taking.history.standing_at(8.5).question == FIRST
    assert taking.history.standing_at(9.5).question == SECOND
    assert taking.action(late, 8.5, 8.9) is action


def test_a_voice_through_our_sentence_is_forgotten_at_its_end() -> None:
    """What has been heard since long before we ended is our own voice; what began in our last words is left to be judged."""
    policy = turns().policy
    assert not policy.is_stale(began=1.2, now=4.9)
    assert policy.is_stale(began=1.2, now=5.1)
    assert not policy.is_stale(began=4.5, now=5.1)
    assert not turns(headset=True).policy.is_stale(began=1.2, now=5.1)


def test_who_answers_too_early_is_invited() -> None:
    """What began in our last words and is passed over gets a sign that now we listen; what began before is our own voice."""
    assert turns().action(NotUnderstood(), 4.8, 5.1) is Action.INVITE
    assert turns().action(NotUnderstood(), 2.0, 2.5) is Action.IGNORE
    assert turns(headset=True).action(NotUnderstood(), 4.8, 5.1) is Action.ANSWER


def test_a_sign_is_due_only_once_we_have_ended() -> None:
    """The speech may end between the judgement and the end of the pause: the ruling sees it."""
    taking = turns(over=None)
    ruling = taking.policy.rule(segment(4.8, 5.1))
    assert ruling.action(NotUnderstood()) is Action.IGNORE
    speech = taking.history.last_speech
    assert speech is not None
    speech.over = 5.0
    assert ruling.action(NotUnderstood()) is Action.INVITE


def test_our_own_words_cannot_interrupt_us() -> None:
    """Phrases that occur in what is spoken are not live meanwhile; the same text gives the same set, so it is prepared once."""
    usual = BARGE_IN.against("Is the tripod level?")
    assert usual.parse("stop") is not None
    assert usual.parse("say that again") is not None
    assert usual.parse("yes") is None
    assert BARGE_IN.against("Say: stop. Or wait.").parse("stop") is None
    assert BARGE_IN.against("It has stopped.").parse("stop") is not None
    assert BARGE_IN.against("Is it on?") is usual


def test_korean_words_that_we_quote_do_not_interrupt_us() -> None:
    """A particle is glued to what is quoted, and what is heard of it is the words all the same."""
    korean = load_language("ko")
    barge_in = BargeIn(load_vocabulary(korean), korean.words_in)
    for words in ("조용히 하세요", "한 번 더 말해 주세요"):
        assert barge_in.against("받침의 기포를 보세요.").parse(words) is not None
        assert barge_in.against(f"{words}라고 해 보세요.").parse(words) is None


def test_what_was_not_understood_is_heard_with_what_follows() -> None:
    """Until twenty seconds have passed, or another question is open; what is no answer, or was understood, is not kept."""
    between = turns()
    first = segment(6.0, 7.0)
    between.policy.judged(Utterance(first, between.policy.rule(first), YES))
    assert between.policy.rule(segment(9.0, 10.0)).scope.earlier is None
    between.policy.judged(Utterance(first, between.policy.rule(first), NotUnderstood(0.4)))
    assert between.policy.rule(segment(9.0, 10.0)).scope.earlier is first.sound
    assert between.policy.rule(segment(7.0 + SAID_AGAIN_SECONDS + 0.1, 29.0)).scope.earlier is None
    asked = Speech("Are the cables clear?", begun=8.0, over=8.5)
    between.history.spoke(asked)
    between.history.asked(SECOND, asked)
    assert between.policy.rule(segment(9.0, 10.0)).scope.earlier is None


def test_while_a_mount_turns_a_doubtful_stop_stops() -> None:
    """In silence, without a pause; while we speak it must be sure, for what is left of our voice sounds like one now and then.

    Answers are heard as ever once the pause has come.
    """
    turning = turns()
    policy = TurnPolicy(turning.history, VOCABULARY, BARGE_IN, lambda: True)
    assert policy.rule(segment(3.0, 3.4)).action(UNSURE_STOP) is not Action.BARGE_IN
    assert policy.rule(segment(3.0, 3.4)).action(STOP) is Action.BARGE_IN
    in_silence = policy.urgent(segment(9.0, 9.4))
    assert in_silence is not None
    assert in_silence.action(UNSURE_STOP) is Action.BARGE_IN
    assert in_silence.action(NotUnderstood()) is Action.IGNORE
    assert policy.rule(segment(9.0, 9.4)).action(YES) is Action.ANSWER
    assert turning.policy.urgent(segment(9.0, 9.4)) is None
