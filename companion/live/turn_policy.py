"""Whose turn it is: for each segment, once, what may be heard in it and what is then done. Pure: times come with the segments."""

from __future__ import annotations

import enum
from collections.abc import Callable
from dataclasses import dataclass

from companion.hearing import Scope
from companion.hearing.stream import Segment
from companion.live.barge_in import STOP, BargeIn
from companion.live.turn_history import TAIL_SECONDS, TurnHistory
from companion.messages import Heard, Hearing, NotUnderstood
from companion.speaking.speaker import Speech
from companion.vocabulary import Vocabulary

LAST_WORDS_SECONDS = 2.0
"""Who speaks so shortly before we end interrupts us, or answers too early."""
SURE = 0.8
"""Asked of what is heard while we speak. Judgement: a missed word is said again, a false one silences us in mid-sentence. What is left of
our own voice was taken for a halt at 0.4 to 0.77 mostly, now and then up to 0.86, shouts as loud as it at 0.8 and mostly 0.97 (read
roughly from the logs of some 48 rounds on the virtual card)."""
LONGEST_ANSWER_SECONDS = 6.0
"""Longer talk that is no answer isn't meant for us."""


class Action(enum.Enum):
    """What to do with an utterance."""

    ANSWER = "answer"
    """Give it to the dialogue."""
    BARGE_IN = "barge in"
    """Fall silent first, then give it to the dialogue."""
    CORRECT = "correct"
    """It answers the question before, which we took to be answered otherwise: go back there first."""
    IGNORE = "ignore"
    """Our own voice, or not meant for us."""
    INVITE = "invite"
    """It came too early, in our last words: pass it over, and give a sign that now we listen."""


@dataclass(frozen=True)
class Ruling:
    """What may be heard in a segment, and what is done with what is heard."""

    scope: Scope
    least_confidence: float
    """Words less sure are passed over."""
    replies: bool
    """Whether somebody who isn't understood is told so."""
    interrupts: bool
    """Whether we spoke, so that any of the words silences us."""
    taken: Heard | None = None
    """The answer we have already to the question this is said to, where another is open by now."""
    last_words: tuple[float, Speech] | None = None
    """When this began, and our last speech before it was judged."""

    def action(self, hearing: Hearing) -> Action:
        """Tell what is done with what was heard."""
        if not isinstance(hearing, Heard):
            return Action.ANSWER if self.replies else self._passed_over
        if hearing.confidence < self.least_confidence or (self.taken is not None and _same(hearing, self.taken)):
            return self._passed_over
        if self.taken is not None:
            return Action.CORRECT
        return Action.BARGE_IN if self.interrupts or hearing.command == STOP else Action.ANSWER

    @property
    def _passed_over(self) -> Action:
        if self.last_words is None:
            return Action.IGNORE
        began, speech = self.last_words
        early = speech.over is not None and speech.over - LAST_WORDS_SECONDS <= began <= speech.over + TAIL_SECONDS
        return Action.INVITE if early else Action.IGNORE


@dataclass(frozen=True, eq=False)
class Utterance:
    """Something was said, and it is all."""

    segment: Segment
    ruling: Ruling
    hearing: Hearing

    @property
    def action(self) -> Action:
        """What is done with it."""
        return self.ruling.action(self.hearing)


class TurnPolicy:
    """Segment in, ruling out."""

    def __init__(
        self, history: TurnHistory, vocabulary: Vocabulary, barge_in: BargeIn, mount_is_turning: Callable[[], bool] = lambda: False
    ) -> None:
        """Take what was said and asked so far, and the words for a question and for interrupting us.

        While ``mount_is_turning`` a "stop" needs no pause and, unless we speak ourselves, not to be sure: a false one costs a slew, a
        missed one perhaps a tube.
        """
        self._history = history
        self._vocabulary = vocabulary
        self._barge_in = barge_in
        self.mount_is_turning = mount_is_turning

    def rule(self, segment: Segment) -> Ruling:
        """Return what holds for a segment: while we speak only what interrupts us, else the answers to the question in mind."""
        return self._interrupting(segment) or self._answering(segment)

    def urgent(self, segment: Segment) -> Ruling | None:
        """Return what holds for words that need no pause after them, None where there are none: those that interrupt us, or a mount."""
        if (interrupting := self._interrupting(segment)) is not None or not self.mount_is_turning():
            return interrupting
        return Ruling(Scope(self._barge_in.while_turning), 0.0, replies=False, interrupts=True)

    def _interrupting(self, segment: Segment) -> Ruling | None:
        ours = self._history.overlapping_speech(segment.began, segment.voice_ended)
        if ours is None:
            return None
        scope = Scope(self._barge_in.while_turning if self.mount_is_turning() else self._barge_in.against(ours.text))
        return Ruling(scope, SURE, replies=False, interrupts=True, last_words=self._last_words(segment))

    def _answering(self, segment: Segment) -> Ruling:
        overlapped = self._history.overlapped(segment.began)
        standing = self._history.standing_at(segment.began)
        taken = None if standing is self._history.latest else standing.answer
        # What would be passed over anyway, unless it is an answer, isn't looked up among all that is known.
        replies = not overlapped and segment.voice_ended - segment.began <= LONGEST_ANSWER_SECONDS
        refused = standing.refused_shortly_before(segment.began) if replies else None
        scope = Scope(
            self._vocabulary.active(standing.question.expects).expecting(standing.expected),
            self._vocabulary.everything if replies else None,
            earlier=None if refused is None else refused.sound,
        )
        least_confidence = SURE if overlapped or taken is not None else 0.0
        return Ruling(scope, least_confidence, replies, interrupts=False, taken=taken, last_words=self._last_words(segment))

    def _last_words(self, segment: Segment) -> tuple[float, Speech] | None:
        ours = self._history.last_speech
        return None if ours is None else (segment.began, ours)

    def judged(self, utterance: Utterance) -> None:
        """Remember what was said to us and not understood: said again, it is heard together with that."""
        if isinstance(utterance.hearing, NotUnderstood) and utterance.action is Action.ANSWER:
            self._history.refused(utterance.segment)

    def speaks_at(self, time: float) -> bool:
        """Say whether our voice can be heard in what arrives at this time."""
        return self._history.overlapped(time)

    def is_stale(self, began: float, now: float) -> bool:
        """Say whether a voice that has been heard since ``began`` is to be forgotten: our own, up to a moment ago.

        It would only run on into the answer. What began in our last words is left: it is somebody's who interrupts.
        """
        speech = self._history.last_speech
        return (
            speech is not None
            and speech.begun is not None
            and speech.over is not None
            and speech.begun <= began < speech.over - LAST_WORDS_SECONDS
            and speech.over < now
        )


def _same(one: Heard, other: Heard) -> bool:
    return one.command == other.command and dict(one.slots) == dict(other.slots)
