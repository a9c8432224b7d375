"""An evening by voice: hearings from all sides in, turns told. All on the caller's thread but rendering, playing, capturing, preparing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Protocol

from companion.dialogue import VOICE_CHANGES, Turn, turns
from companion.live.health import Health
from companion.live.keyed_ear import KeyedEar
from companion.live.patience import AT_THE_EYEPIECE_SECONDS, Patience
from companion.live.session import Session
from companion.live.teller import Teller
from companion.messages import Heard, Hearing, Silence
from companion.speaking.speaker import Speaker
from companion.talk.answers import UniversalAnswer
from companion.talk.centring_phrases import WhileItSlews
from companion.talk.guidance_phrases import TryTheKey, Waiting
from companion.talk.live_phrases import VoiceAtItsLimit
from companion.talk.night_answers import TargetAnswer

_QUIET = (UniversalAnswer.WAIT, UniversalAnswer.STOP)
"""After these nobody wants to be reminded."""


class Source(Protocol):
    """A side from which something is heard."""

    def hearings(self) -> Iterator[Hearing]:
        """Yield what has come since, without waiting long; asked in turn with the other sources, many times a second."""
        ...


class SpokenSession:
    """Holds an evening by voice; ``assembly.spoken_session`` puts one together."""

    def __init__(
        self,
        session: Session,
        answers: Sequence[Source],
        *,
        ear: KeyedEar,
        teller: Teller,
        speaker: Speaker,
        health: Health,
        patience: Patience,
    ) -> None:
        """Take the dialogue, where answers come from, and who listens, tells, speaks, minds the devices and waits."""
        self._session = session
        self._sources = (*answers, health, patience)
        self._ear = ear
        self._teller = teller
        self._speaker = speaker
        self._health = health
        self._patience = patience

    def hold(self) -> bool:
        """Hold the evening; return whether it came to its end (else the lines ran out, and there is no microphone)."""
        try:
            self._health.tell_at_the_start()
            hearings = self._hearings()
            turn = self._session.begin()
            for heard, turn in turns(turn, lambda question: next(hearings, None), self._session.hear):  # noqa: B020 - the loop's own first turn
                self._teller.tell(turn, answering=heard, before=self._ear.key.invitation if heard is None else ())
                self._offer_the_key(turn)
                if heard is None:
                    self._ear.invite()
                self._wait_after(heard, turn)
            while self._speaker.is_speaking:
                self._ear.pass_over()
            if turn.finished:
                self._session.said_good_night()
            return turn.finished
        finally:
            self._teller.close()

    def _hearings(self) -> Iterator[Hearing]:
        """Yield what is heard from any side; what is asked of the voice is done first."""
        while not self._health.is_cut_off():
            for source in self._sources:
                for heard in source.hearings():
                    if isinstance(heard, Heard) and heard.command in VOICE_CHANGES and not self._speaker.change(heard.command):
                        self._teller.announce(VoiceAtItsLimit())
                    else:
                        yield heard

    def _offer_the_key(self, turn: Turn) -> None:
        """Say how the key is used, and let its next stroke count, where the dialogue has offered it."""
        if TryTheKey() in turn.sayings:
            self._ear.key.offer()
            self._teller.announce(self._ear.key.how)

    def _wait_after(self, heard: Hearing | None, turn: Turn) -> None:
        """Break the silence after a while, once, unless silence was asked for or the mount takes its time; at a target look up at times."""
        slewing = isinstance(turn.question, WhileItSlews)
        at_a_target = turn.question is not None and turn.question.expects is TargetAnswer
        if slewing or Waiting() in turn.sayings or (isinstance(heard, Heard) and heard.command in _QUIET):
            self._patience.wait_no_longer()
        elif at_a_target:
            self._patience.wait(AT_THE_EYEPIECE_SECONDS)
        elif isinstance(heard, Silence):
            self._patience.wait_no_longer()
        else:
            self._patience.wait()
