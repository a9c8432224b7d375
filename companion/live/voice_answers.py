"""From an utterance to what the dialogue hears: what its ruling says is done."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from companion.live.keyed_ear import KeyedEar
from companion.live.session import Session
from companion.live.teller import Teller
from companion.live.turn_policy import Action, Utterance
from companion.messages import Heard, Hearing, NotUnderstood
from companion.speaking import LISTENING
from companion.speaking.speaker import Speaker
from companion.talk.answers import UniversalAnswer
from companion.talk.live_phrases import TooNoisy

FAILURES_IN_NOISE = 3
"""Utterances in a row, not understood and hardly above the noise, before we say so."""
HARD_TO_HEAR_DB = 3.0
"""Speech over noise below which answers fail too often: in pink noise 15 of 18 short answers of three synthesised voices were taken at
3 dB, 11 at 0 dB and 4 at -6 dB."""


class VoiceAnswers:
    """Hears what is said to the microphone and meant for us."""

    def __init__(self, ear: KeyedEar, settled: Callable[[Hearing], Hearing], session: Session, speaker: Speaker, teller: Teller) -> None:
        """Take the ear, the dialogue, the voice that may have to fall silent, and who acknowledges what was heard.

        ``settled`` takes a phrase that the second search found for the answer it is to the open question, if it is one.
        """
        self._ear = ear
        self._settled = settled
        self._session = session
        self._speaker = speaker
        self._teller = teller
        self._failures = 0
        self._told_of_noise = False

    def hearings(self) -> Iterator[Hearing]:
        """Yield what was said since."""
        for utterance in self._ear.utterances():
            yield from self._acted_upon(utterance)
        if self._ear.hears_voice:
            self._speaker.wake()

    def _acted_upon(self, utterance: Utterance) -> Iterator[Hearing]:
        action = utterance.action
        if action is Action.INVITE and not self._speaker.is_speaking:
            self._speaker.sound(LISTENING)
        if action in (Action.INVITE, Action.IGNORE):
            return
        if action is Action.BARGE_IN or self._speaker.is_speaking:
            self._speaker.hush()
        self._teller.acknowledge(utterance.hearing)
        too_noisy = self._is_too_noisy(utterance)
        self._ear.key.utterance_over()
        if action is Action.CORRECT:
            self._session.command(UniversalAnswer.GO_BACK)
        yield self._settled(utterance.hearing)
        if too_noisy:
            self._ear.key.offer()
            self._teller.announce(TooNoisy(), self._ear.key.how)

    def _is_too_noisy(self, utterance: Utterance) -> bool:
        """Count an utterance; return whether it is time to say, once, that the noise is too much."""
        above_db = self._ear.speech_to_noise_db(utterance)
        if isinstance(utterance.hearing, Heard):
            self._failures = 0
        elif isinstance(utterance.hearing, NotUnderstood) and above_db is not None and above_db < HARD_TO_HEAR_DB:
            self._failures += 1
        if self._told_of_noise or self._failures < FAILURES_IN_NOISE:
            return False
        self._told_of_noise = True
        return True
