"""From captured sound to what was said, stage by stage: echo removal, segments, urgent words, turn policy, recognition."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from companion.hearing import Engine, listen
from companion.hearing.endpoint import Endpointer
from companion.hearing.engine import HearsAlong
from companion.hearing.noise_floor import NoiseFloor
from companion.hearing.stream import Captured, PauseOver, Segment, SegmentExtent
from companion.live.echo_removal import EchoRemoval
from companion.live.stop_words import StopWordWatcher
from companion.live.turn_policy import TurnPolicy, Utterance
from companion.messages import Heard


class Listening:
    """Captured sound in, utterances out. Whatever comes in goes through each stage once."""

    def __init__(self, echo: EchoRemoval | None, endpointer: Endpointer, engine: Engine, policy: TurnPolicy, noise: NoiseFloor) -> None:
        """Take the stages; without echo removal our voice doesn't reach the microphone. ``noise`` is told what lies between utterances."""
        self._echo = echo
        self._endpointer = endpointer
        self._watcher = StopWordWatcher(engine, policy)
        self._engine = engine
        self._policy = policy
        self._noise = noise
        self._held: Utterance | None = None
        self._we_spoke = False

    @property
    def hears_voice(self) -> bool:
        """Whether somebody is speaking."""
        return self._endpointer.hears_voice

    def feed(self, captured: Captured) -> Iterator[Utterance]:
        """Take what was captured next and yield each utterance that ends in it. The iterator must be used up."""
        clean, echo = (captured, np.zeros_like(captured.samples)) if self._echo is None else self._echo.part(captured)
        if not len(clean.samples):
            return
        we_speak = self._policy.speaks_at(clean.at)
        if self._we_spoke and not we_speak:
            self._endpointer.begin_anew()
        self._we_spoke = we_speak
        if (
            we_speak
            and self._echo is not None
            and (interruption := self._watcher.beside_us(clean, echo, voice=self.hears_voice)) is not None
        ):
            yield from self._told(interruption)
        yield from self._utterances(self._endpointer.feed(clean))
        if not we_speak:
            self._hear_along(clean.at)
        self._noise.feed(clean.samples, voice=self.hears_voice or we_speak)
        if self.hears_voice and self._policy.is_stale(self._endpointer.began, clean.at):
            self.reset()

    def finish(self, at: float) -> Iterator[Utterance]:
        """Yield the utterance that is going on, if any: nothing more is listened to."""
        yield from self._utterances(self._endpointer.finish(at))

    def reset(self) -> None:
        """Forget the sound so far, as after a gap in the stream."""
        self._endpointer.reset()

    def speech_to_noise_db(self, utterance: Utterance) -> float | None:
        """Return how far an utterance stands out of the place, in dB; None while the place isn't known."""
        return self._noise.speech_to_noise_db(utterance.segment.sound)

    def _hear_along(self, now: float) -> None:
        """Let a recogniser that can begin with what is being said; what it is held to may still change, and then it begins anew."""
        if isinstance(self._engine, HearsAlong) and (segment := self._endpointer.so_far(now)) is not None:
            self._engine.hear_along(segment.sound, self._policy.rule(segment).scope.active)

    def _utterances(self, found: Iterator[Segment | PauseOver]) -> Iterator[Utterance]:
        for segment in found:
            match segment:
                case PauseOver():
                    utterance = self._held
                case Segment(extent=SegmentExtent.RUNNING):
                    utterance = self._watcher.watch(segment)
                case Segment():
                    utterance = self._recognised(segment)
            if utterance is not None:
                yield from self._told(utterance)

    def _told(self, utterance: Utterance) -> Iterator[Utterance]:
        self._held = None
        self._endpointer.cut()
        self._policy.judged(utterance)
        yield utterance

    def _recognised(self, segment: Segment) -> Utterance | None:
        """Return the utterance that ends here; one that is no whole answer is held until the pause is over."""
        ruling = self._watcher.doubted(self._policy.rule(segment), segment)
        utterance = Utterance(segment, ruling, listen(self._engine, segment.sound, ruling.scope))
        if segment.extent is SegmentExtent.OVER or isinstance(utterance.hearing, Heard):
            return utterance
        self._held = utterance
        return None
