"""What we said and asked, and when it was heard; what we took for the answers. Pure: times are seconds, handed in."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass

from companion.hearing.stream import Segment
from companion.messages import Heard, Prior
from companion.speaking.speaker import Speech
from companion.talk.saying import Answers, Ask

TAIL_SECONDS = 0.3
"""Our voice hangs in the room, and in the microphone's buffers, for so long after the loudspeaker has ended."""
SAID_AGAIN_SECONDS = 20.0
"""Who is told "I didn't get that" says the same words again within so long, or isn't heard together with them. Judgement."""
_REMEMBERED = 4


@dataclass
class Standing:
    """A question as the observer knows it."""

    question: Ask[Answers]
    speech: Speech
    """What asks it."""
    expected: Prior | None = None
    """What is known of the answer beforehand."""
    answer: Heard | None = None
    """What we took for its answer."""
    refused: Segment | None = None
    """What was said to it last and not understood."""

    def refused_shortly_before(self, time: float) -> Segment | None:
        """Return what was not understood a moment before somebody speaks again: perhaps the same words."""
        return self.refused if self.refused is not None and time - self.refused.voice_ended <= SAID_AGAIN_SECONDS else None

    def is_known_at(self, time: float) -> bool:
        """Say whether its words had begun to be heard."""
        return self.speech.begun is not None and self.speech.begun <= time


class TurnHistory:
    """Keeps the last few questions and speeches."""

    def __init__(self, *, headset: bool = False) -> None:
        """With a headset our voice doesn't reach the microphone: then what we say never overlaps with what is heard."""
        self._headset = headset
        self._standings: deque[Standing] = deque(maxlen=_REMEMBERED)
        self._speeches: deque[Speech] = deque(maxlen=_REMEMBERED)

    def spoke(self, speech: Speech) -> None:
        """Take note of something that is being said."""
        if not self._headset:
            self._speeches.append(speech)

    def asked(self, question: Ask[Answers], speech: Speech, expected: Prior | None = None) -> None:
        """Take note of the question that is open from now on, of the speech that asks it, and of what is known of the answer."""
        if not self._standings or self._standings[-1].question != question:
            self._standings.append(Standing(question, speech, expected))

    def answered(self, heard: Heard) -> None:
        """Take note of what the open question was answered with."""
        self._standings[-1].answer = heard

    def refused(self, segment: Segment) -> None:
        """Take note of what was said to the open question and not understood."""
        self._standings[-1].refused = segment

    @property
    def latest(self) -> Standing:
        """The question that is open."""
        return self._standings[-1]

    @property
    def last_speech(self) -> Speech | None:
        """What of ours the microphone may have heard last."""
        return self._speeches[-1] if self._speeches else None

    def standing_at(self, time: float) -> Standing:
        """Return the question that somebody who begins to speak at this time has in mind."""
        known = [standing for standing in self._standings if standing.is_known_at(time)]
        return known[-1] if known else self._standings[-1]

    def overlapping_speech(self, began: float, voice_ended: float) -> Speech | None:
        """Return the speech of ours that an utterance may be an echo of.

        None when we were silent as it began, or when it went on after we and our echo had ended.
        """
        for speech in reversed(self._speeches):
            if _had_begun(speech, began) and (speech.over is None or max(began, voice_ended) <= speech.over + TAIL_SECONDS):
                return speech
        return None

    def overlapped(self, began: float) -> bool:
        """Say whether an utterance began while we spoke, or in our echo."""
        return self.overlapping_speech(began, began) is not None


def _had_begun(speech: Speech, time: float) -> bool:
    return speech.begun is not None and speech.begun <= time
