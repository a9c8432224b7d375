"""Whose turn it is: what an utterance may do, by when it was said and what we said then. Pure: times are handed in, in seconds."""

from __future__ import annotations

import enum
from collections import deque
from dataclasses import dataclass

from companion.hearing.listener import Utterance
from companion.live.barge_in import STOP
from companion.messages import Heard
from companion.speaking.speaker import Speech
from companion.talk.saying import Answers, Ask

TAIL_SECONDS = 0.3
"""Our voice hangs in the room, and in the microphone's buffers, for so long after the loudspeaker has ended."""
LAST_WORDS_SECONDS = 2.0
"""Who speaks so shortly before we end interrupts us, or answers too early."""
SURE = 0.8
"""Asked of what is heard while we speak. Judgement: a missed word is said again, a false one silences us in mid-sentence."""
LONGEST_ANSWER_SECONDS = 6.0
"""Longer talk that is no answer isn't meant for us."""
REMINDER_SECONDS = 45.0
"""Hands are busy: silence is left alone for so long, and broken once."""
_REMEMBERED = 4


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


@dataclass
class Standing:
    """A question as the observer knows it."""

    question: Ask[Answers]
    speech: Speech
    """What asks it."""
    answer: Heard | None = None
    """What we took for its answer."""

    def is_known_at(self, time: float) -> bool:
        """Say whether its words had begun to be heard."""
        return self.speech.begun is not None and self.speech.begun <= time


class TurnTaking:
    """Keeps what was asked and spoken, and weighs utterances against it."""

    def __init__(self, *, headset: bool = False) -> None:
        """With a headset our voice doesn't reach the microphone, so that everything is live at any time."""
        self._headset = headset
        self._standings: deque[Standing] = deque(maxlen=_REMEMBERED)
        self._speeches: deque[Speech] = deque(maxlen=_REMEMBERED)

    def spoke(self, speech: Speech) -> None:
        """Take note of something that is being said."""
        self._speeches.append(speech)

    def asked(self, question: Ask[Answers], speech: Speech) -> None:
        """Take note of the question that is open from now on, and of the speech that asks it."""
        if not self._standings or self._standings[-1].question != question:
            self._standings.append(Standing(question, speech))

    def question_at(self, time: float) -> Ask[Answers]:
        """Return the question that somebody who begins to speak at this time has in mind."""
        return self._standing_at(time).question

    def overlapping_speech(self, began: float, voice_ended: float) -> Speech | None:
        """Return the speech of ours that an utterance may be an echo of.

        None when we were silent as it began, or when it went on after we and our echo had ended, or with a headset.
        """
        if self._headset:
            return None
        for speech in reversed(self._speeches):
            if speech.begun is None or speech.begun > began:
                continue
            if speech.over is None or (began <= speech.over + TAIL_SECONDS and voice_ended <= speech.over + TAIL_SECONDS):
                return speech
        return None

    def weigh(self, utterance: Utterance) -> Action:
        """Tell what an utterance does."""
        heard = utterance.hearing
        ours = self.overlapping_speech(utterance.began, utterance.voice_ended)
        if ours is not None:
            return Action.BARGE_IN if isinstance(heard, Heard) and heard.confidence >= SURE else Action.IGNORE
        if not isinstance(heard, Heard):
            return Action.ANSWER if self.deserves_a_reply(utterance.began, utterance.voice_ended) else Action.IGNORE
        if self._overlapped(utterance.began) and heard.confidence < SURE:
            return Action.IGNORE
        standing = self._standing_at(utterance.began)
        if standing is self._standings[-1] or standing.answer is None:
            return Action.BARGE_IN if heard.command == STOP else Action.ANSWER
        return self._late(heard, standing.answer)

    def is_stale(self, began: float, now: float) -> bool:
        """Say whether a voice that has been heard since ``began`` is to be forgotten: our own, up to a moment ago.

        It would only run on into the answer. What began in our last words is left: it is somebody's who interrupts.
        """
        if self._headset or not self._speeches:
            return False
        speech = self._speeches[-1]
        return (
            speech.begun is not None
            and speech.over is not None
            and speech.begun <= began < speech.over - LAST_WORDS_SECONDS
            and (speech.over < now)
        )

    def is_early_answer(self, utterance: Utterance) -> bool:
        """Say whether an utterance we passed over began in our last words, so that a sign is due: now we listen."""
        if self._headset or not self._speeches:
            return False
        speech = self._speeches[-1]
        return speech.over is not None and speech.over - LAST_WORDS_SECONDS <= utterance.began <= speech.over + TAIL_SECONDS

    def deserves_a_reply(self, began: float, voice_ended: float) -> bool:
        """Say whether somebody who isn't understood is told so: not in our echo, and not in talk too long to be meant for us."""
        return not self._overlapped(began) and voice_ended - began <= LONGEST_ANSWER_SECONDS

    def answered(self, heard: Heard) -> None:
        """Take note of what the open question was answered with."""
        self._standings[-1].answer = heard

    @staticmethod
    def _late(heard: Heard, answer: Heard) -> Action:
        """Weigh what was said before the new question could be heard, to a question that has its answer."""
        said_twice = heard.command == answer.command and dict(heard.slots) == dict(answer.slots)
        return Action.CORRECT if not said_twice and heard.confidence >= SURE else Action.IGNORE

    def _overlapped(self, began: float) -> bool:
        """Say whether an utterance began while we spoke, or in our echo."""
        if self._headset:
            return False
        return any(
            speech.begun is not None and speech.begun <= began and (speech.over is None or began <= speech.over + TAIL_SECONDS)
            for speech in self._speeches
        )

    def _standing_at(self, time: float) -> Standing:
        known = [standing for standing in self._standings if standing.is_known_at(time)]
        return known[-1] if known else self._standings[-1]


class Patience:
    """Leaves silence alone for a good while, breaks it once, and not again before somebody has spoken."""

    def __init__(self) -> None:
        """Begin with nothing to wait for."""
        self._since: float | None = None

    def wait_from(self, time: float) -> None:
        """Begin to wait for an answer."""
        self._since = time

    def put_off(self, time: float) -> None:
        """Begin the waiting anew, where there is any."""
        if self._since is not None:
            self._since = time

    def wait_no_longer(self) -> None:
        """Leave the silence alone: it was reminded of, or asked for."""
        self._since = None

    def is_over(self, time: float) -> bool:
        """Say whether it is time for the one reminder."""
        return self._since is not None and time - self._since >= REMINDER_SECONDS
