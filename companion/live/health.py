"""What is wrong, told once when it persists: devices that go away and come back, and voices that fail."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from companion.live.barge_in import SAY_AGAIN
from companion.live.capture import Capture
from companion.live.keyed_ear import KeyedEar
from companion.live.sound_devices import SoundDevices
from companion.live.teller import Teller
from companion.live.terminal import Typing
from companion.messages import Heard, Hearing
from companion.speaking.speaker import Speaker
from companion.talk.live_phrases import (
    KeepOneEarFree,
    LoudspeakerBack,
    MicrophoneBack,
    MicrophoneLost,
    NoLoudspeaker,
    NoMicrophone,
    NoVoice,
    OtherLoudspeaker,
    OtherMicrophone,
    VoiceLost,
)
from companion.talk.saying import Say

_HOPE_SECONDS = 600.0
"""A microphone that was there and went away is looked for so long, where nobody can type either."""


class Health:
    """Minds devices and voices, and announces what changed."""

    def __init__(
        self,
        devices: SoundDevices,
        capture: Capture,
        speaker: Speaker,
        ear: KeyedEar,
        teller: Teller,
        *,
        typing: Typing,
        headset: bool,
        clock: Callable[[], float],
    ) -> None:
        """Take what may fail, who tells of it, where lines would still come from, what is worn, and the time in seconds."""
        self._devices = devices
        self._capture = capture
        self._speaker = speaker
        self._ear = ear
        self._teller = teller
        self._typing = typing
        self._headset = headset
        self._clock = clock
        self._had_microphone = devices.microphone is not None
        self._voices = speaker.voices_left
        self._cut_off_at: float | None = None

    def tell_at_the_start(self) -> None:
        """Announce what isn't there, and what a headset asks of who wears it."""
        if self._devices.microphone is None:
            self._teller.announce(NoMicrophone())
        if self._devices.loudspeaker is None:
            self._teller.announce(NoLoudspeaker())
        if self._headset:
            self._teller.announce(KeepOneEarFree())

    def hearings(self) -> Iterator[Hearing]:
        """Mend what can be mended and announce what changed; after a gap in our speech what was cut off is asked for again."""
        changes = self._devices.mend(self._clock(), busy=self._speaker.is_speaking or self._ear.hears_voice)
        self._speaker.loudspeaker = self._devices.loudspeaker
        has_another_microphone = MicrophoneBack() in changes or OtherMicrophone() in changes
        if MicrophoneLost() in changes or has_another_microphone:
            self._ear.reset()
        for news in (*self._capture.flaws(), *changes, *self._lost_voices()):
            self._teller.announce(news)
        if has_another_microphone:
            self._ear.invite()
        if LoudspeakerBack() in changes or OtherLoudspeaker() in changes:
            yield Heard("say that again", SAY_AGAIN)

    def is_cut_off(self) -> bool:
        """Say whether nobody can answer any more, and none of what is missing will come back."""
        if self._devices.microphone is not None or not self._typing.ended or self._speaker.is_speaking:
            self._cut_off_at = None
            return False
        self._cut_off_at = self._clock() if self._cut_off_at is None else self._cut_off_at
        return not self._had_microphone or self._clock() - self._cut_off_at >= _HOPE_SECONDS

    def _lost_voices(self) -> Iterator[Say]:
        if self._speaker.voices_left < self._voices:
            self._voices = self._speaker.voices_left
            yield VoiceLost() if self._voices else NoVoice()
