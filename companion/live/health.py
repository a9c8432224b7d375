"""What is wrong beside devices that go away: each trouble is told once, when it persists."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from companion.hearing.microphone import Captured
from companion.live.sound_devices import SoundDevices
from companion.messages import Heard, Hearing, NotUnderstood
from companion.speaking.speaker import Speaker
from companion.talk.live_phrases import (
    MicrophoneSilent,
    NoLoudspeaker,
    NoMicrophone,
    NoVoice,
    SoundDropped,
    TooNoisy,
    VoiceLost,
)
from companion.talk.saying import Say

PERSISTENT_OVERFLOWS = 5
FAILURES_IN_NOISE = 3
"""Utterances in a row, not understood and hardly above the noise, before we say so."""
HARD_TO_HEAR_DB = 3.0
"""Speech over noise below which answers fail too often: in pink noise 15 of 18 short answers of three synthesised voices were taken at
3 dB, 11 at 0 dB and 4 at -6 dB."""
SILENT_SECONDS = 30.0
"""A microphone that gives nothing but zeros for so long from its opening on is switched off. Later zeros may be a headset's own gate."""


class Health:
    """Counts what goes wrong."""

    def __init__(self) -> None:
        """Begin with nothing wrong."""
        self.had_microphone = False
        """Whether there was one at the start."""
        self._told: set[type[Say]] = set()
        self._failures = 0
        self._voices: int | None = None
        self._zeros_since: float | None = None
        self._has_sounded = False

    def at_start(self, sound: SoundDevices, speaker: Speaker) -> Iterator[Say]:
        """Yield what tells what is missing from the beginning."""
        self.had_microphone = sound.microphone is not None
        if not self.had_microphone:
            yield NoMicrophone()
        if sound.loudspeaker is None:
            yield NoLoudspeaker()
        self._voices = speaker.voices_left

    def heard(self, hearing: Hearing, speech_to_noise_db: float | None) -> bool:
        """Count an utterance; return whether it is time to say that the noise is too much."""
        if isinstance(hearing, Heard):
            self._failures = 0
        elif isinstance(hearing, NotUnderstood) and speech_to_noise_db is not None and speech_to_noise_db < HARD_TO_HEAR_DB:
            self._failures += 1
        return self._failures >= FAILURES_IN_NOISE and self._once(TooNoisy)

    def captured(self, captured: Captured) -> bool:
        """Look at what the microphone gave; return whether it is time to say that it gives no sound at all."""
        if self._has_sounded or np.any(captured.samples):
            self._has_sounded = True
            return False
        if self._zeros_since is None:
            self._zeros_since = captured.at
        return captured.at - self._zeros_since > SILENT_SECONDS and self._once(MicrophoneSilent)

    def news(self, sound: SoundDevices, speaker: Speaker) -> Iterator[Say]:
        """Yield what tells what has gone wrong since."""
        if sound.microphone is not None and sound.microphone.overflows >= PERSISTENT_OVERFLOWS and self._once(SoundDropped):
            yield SoundDropped()
        if self._voices is not None and speaker.voices_left < self._voices:
            self._voices = speaker.voices_left
            yield VoiceLost() if self._voices else NoVoice()

    def _once(self, trouble: type[Say]) -> bool:
        first = trouble not in self._told
        self._told.add(trouble)
        return first
