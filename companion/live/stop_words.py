"""A way of its own for words that need no pause: they are looked for as soon as the voice falls quiet, and while we speak at once."""

from __future__ import annotations

import math
from dataclasses import replace

from companion.audio import SPEECH_RATE_HZ
from companion.hearing import Engine, glance, listen
from companion.hearing.engine import Glances
from companion.hearing.stream import Captured, Segment, SegmentExtent
from companion.hearing.vad import FloatArray
from companion.live.barge_in import STOP
from companion.live.last_moment import LastMoment
from companion.live.turn_policy import Action, Ruling, TurnPolicy, Utterance
from companion.messages import Heard

INTERRUPTS = 0.98
"""So sure must a look be for a word to silence us without a pause after it, and what is no louder than what may be left of our voice.
Of 72 "stop"s 3 dB fainter than the echo, a kitchen 15 dB below that, 66 were taken, in wind 72 of 72 (voices that may be tuned on; clocks
50 to 200 ppm apart). False ones: DEVELOPERS.md."""

ECHO_IS_FOUND_SECONDS = 1.0
"""For so long our first words aren't looked at, unless some of our voice was taken out before: until its delay is found it is heard
whole, and with neighbours talking half a second of it was surely "stop". Into a headset nothing is ever taken out: hence the limit."""


class StopWordWatcher:
    """Sound or a segment that may still go on in; an utterance out where it is an urgent word, and surely."""

    def __init__(self, engine: Engine, policy: TurnPolicy) -> None:
        """Take the recogniser, and who knows which words can't wait."""
        self._engine = engine
        self._policy = policy
        self._last = LastMoment()
        self._not_looked_at_seconds = 0.0

    def watch(self, segment: Segment) -> Utterance | None:
        """Return the utterance that ends here at once, None where nothing urgent is said, or not surely."""
        urgent = self._policy.urgent(segment)
        if urgent is None:
            return None
        ruling = self.doubted(urgent, segment)
        if math.isinf(ruling.least_confidence):
            return None
        utterance = Utterance(segment, ruling, listen(self._engine, segment.sound, ruling.scope))
        return utterance if utterance.action is Action.BARGE_IN else None

    def doubted(self, ruling: Ruling, segment: Segment) -> Ruling:
        """Return a ruling that asks for more where what was heard while we speak is faint.

        Nothing that hardly stands out of the place (6 dB) interrupts us: before an echo's delay is first found a moment of our voice is
        left whole, and with a kitchen behind, one was surely "stop". What is no louder than what may be left of our voice must be as
        sure as a look at a voice that goes on: gusts of wind between our words, 15 to 20 dB below our echo, were "stop" at .86 and .89.
        While a mount turns nothing is too faint: a doubtful "stop" stops it.
        """
        if not ruling.interrupts or self._policy.mount_is_turning():
            return ruling
        if self._last.hardly_stands_out(segment.sound.samples):
            return replace(ruling, least_confidence=math.inf)
        if self._last.may_be_left_of_ours(segment.sound.samples):
            return replace(ruling, least_confidence=INTERRUPTS)
        return ruling

    def beside_us(self, clean: Captured, echo: FloatArray, *, voice: bool) -> Utterance | None:
        """Return what silences us in the last moment of what is heard while we speak; our voice is given apart.

        Without a ``voice`` in it nothing is looked at. What only repeats us isn't taken here: it has time, and of neighbours' talk such
        longer phrases were found most. While a mount turns, who watches that looks at the same sound, and needs the processor.
        Ears without a glance (Vosk) aren't asked: what they take for a word in a cut sound wasn't measured.
        """
        if not isinstance(self._engine, Glances):
            return None
        self._last.add(clean, echo)
        if not voice or self._may_be_our_own_voice(clean, echo):
            self._last.skip()
            return None
        sound = None if self._policy.mount_is_turning() else self._last.look(beside_us=True)
        if sound is None:
            return None
        segment = Segment(sound, clean.at - sound.seconds, clean.at, SegmentExtent.RUNNING)
        ruling = self._policy.urgent(segment)
        if ruling is None:
            return None
        hearing = glance(self._engine, sound, ruling.scope.active)
        if not isinstance(hearing, Heard) or hearing.confidence < INTERRUPTS or hearing.command != STOP:
            return None
        utterance = Utterance(segment, ruling, hearing)
        return utterance if utterance.action is Action.BARGE_IN else None

    def _may_be_our_own_voice(self, clean: Captured, echo: FloatArray) -> bool:
        """Say whether we speak for the first time, and none of our voice was taken out yet."""
        if echo.any():
            self._not_looked_at_seconds = ECHO_IS_FOUND_SECONDS
        elif self._not_looked_at_seconds < ECHO_IS_FOUND_SECONDS:
            self._not_looked_at_seconds += len(clean.samples) / SPEECH_RATE_HZ
            return True
        return False
