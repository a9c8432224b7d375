"""The one small protocol every recogniser keeps, and asking one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol, runtime_checkable

from companion.audio import Audio
from companion.hearing.active import ActiveSet
from companion.messages import Heard, Hearing, NotNow, NotUnderstood


class Engine(Protocol):
    """A recogniser of closed sets of phrases."""

    @property
    def name(self) -> str:
        """What it is called in settings and results."""
        ...

    def prepare(self, active: ActiveSet) -> None:
        """Get ready for a set. May take a second; an equal set again is free. May run in another thread while we speak."""
        ...

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Tell what an utterance of any rate says: Heard, NotUnderstood or Silence. Prepares the set if need be."""
        ...


@runtime_checkable
class MeasuresBackground(Protocol):
    """A recogniser that hears better when it knows the place's noise."""

    def set_background(self, clips: Sequence[Audio]) -> None:
        """Take recent sounds without speech, 1 to 4 s each, from the microphone in use."""
        ...


def listen(engine: Engine, audio: Audio, active: ActiveSet, everything: ActiveSet | None = None) -> Hearing:
    """Recognise an utterance; one that is no answer now but well known in ``everything`` is NotNow."""
    hearing = engine.recognise(audio, active)
    if everything is None or not isinstance(hearing, NotUnderstood):
        return hearing
    known = engine.recognise(audio, everything)
    if isinstance(known, Heard) and active.parse(known.phrase) is None:
        return NotNow(known.phrase, known.command, known.slots, known.confidence)
    return hearing
