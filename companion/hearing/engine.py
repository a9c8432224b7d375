"""The one small protocol every recogniser keeps, and asking one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
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


@runtime_checkable
class JudgesTogether(Protocol):
    """A recogniser that weighs an utterance together with one before it."""

    def recognise_again(self, audio: Audio, earlier: Audio, active: ActiveSet) -> Hearing:
        """Tell what an utterance says, taken together with one that was refused a moment before, which perhaps said the same."""
        ...


@runtime_checkable
class Glances(Protocol):
    """A recogniser that can do without a second hearing of what is in doubt."""

    def glance(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Tell what an utterance says, as soon as may be."""
        ...


@runtime_checkable
class Overhears(Protocol):
    """A recogniser that knows where what it found only begins a sentence."""

    def overhear(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Tell what an utterance says that nobody asked for: nothing where it goes on after the text found."""
        ...


@runtime_checkable
class HearsAlong(Protocol):
    """A recogniser that hears while somebody speaks, so that little is left to do at their pause."""

    def hear_along(self, so_far: Audio, active: ActiveSet) -> None:
        """Take an utterance as far as it has come, from its beginning each time; ``recognise`` goes on from there where it is the same."""
        ...


def glance(engine: Engine, audio: Audio, active: ActiveSet) -> Hearing:
    """Recognise where the answer is wanted sooner than surer."""
    return engine.glance(audio, active) if isinstance(engine, Glances) else engine.recognise(audio, active)


LIKELY_UNASKED = 0.7
"""What nobody asked for must be likelier right than an answer: most of what is found so far afield was said to somebody else. Of 100
everyday sentences one is then answered instead of two, and each of 60 wishes to go to another part is still taken, the least likely at
0.88 (voices that may be tuned on). Answers in words that aren't live are found there, too, at 0.73 the least likely of the rehearsals."""


@dataclass(frozen=True)
class Scope:
    """What an utterance may say."""

    active: ActiveSet
    """What is an answer."""
    everything: ActiveSet | None = None
    """What is known beside it: said now, it is NotNow. None where that doesn't matter, for to look it up takes a second."""
    earlier: Audio | None = None
    """What was said to the same question a moment ago and refused: perhaps the same words."""


def listen(engine: Engine, audio: Audio, scope: Scope) -> Hearing:
    """Recognise an utterance; one that is no answer now but well known is NotNow, where it is likely enough."""
    if scope.earlier is not None and isinstance(engine, JudgesTogether):
        hearing = engine.recognise_again(audio, scope.earlier, scope.active)
    else:
        hearing = engine.recognise(audio, scope.active)
    if scope.everything is None or not isinstance(hearing, NotUnderstood):
        return hearing
    known = engine.overhear(audio, scope.everything) if isinstance(engine, Overhears) else engine.recognise(audio, scope.everything)
    if isinstance(known, Heard) and known.confidence >= LIKELY_UNASKED and scope.active.parse(known.phrase) is None:
        return NotNow(known.phrase, known.command, known.slots, known.confidence, known.spelling)
    return hearing
