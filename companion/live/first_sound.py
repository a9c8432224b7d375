"""Which loudspeaker is heard and which microphone hears: tried in turn with the observer, by voice or by any key."""

from __future__ import annotations

import contextlib
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from companion.audio import Audio
from companion.devices import Device
from companion.errors import CompanionError
from companion.hearing.endpoint import Endpointer
from companion.hearing.noise_floor import NoiseFloor
from companion.hearing.stream import Segment, SegmentExtent
from companion.hearing.vad import VoiceDetector, best_detector
from companion.live.sound_devices import SoundIn
from companion.speaking import LISTENING
from companion.speaking.speaker import SoundOut, Speaker
from companion.talk.machine_phrases import CanYouHearMe, CanYouHearMeOrPress, SayYesOnceMore
from companion.talk.saying import Say

MOST_SECONDS = 45.0
"""No further loudspeaker is tried after so long: with the answers awaited, it stays under a minute."""
ANSWER_SECONDS = 5.0
MOST_MICROPHONES = 4
"""Listened to at once."""
_NAME_LETTERS = 31
"""One system shows one device several times, some of its names cut after so many letters (value from memory)."""
_ECHO_SECONDS = 0.3
"""What arrives so shortly after our own words may be they: they hold the answer, too."""
_OTHERS_SECONDS = 0.5
"""After one microphone heard the answer the others have so long to hear it better."""
AS_GOOD_DB = 3.0
"""Of two microphones that hear so nearly alike the system's own choice is taken."""
_TICK_SECONDS = 0.02

IsYes: TypeAlias = Callable[[Audio], bool]


@dataclass(frozen=True)
class Answered:
    """What answered."""

    loudspeaker: str
    microphone: str | None
    """None where only a key did."""


@dataclass(eq=False)
class _Ear:
    name: str
    microphone: SoundIn
    endpointer: Endpointer
    place: NoiseFloor

    def yes(self, is_yes: IsYes, after: float) -> float | None:
        """Take what has come; return how far a yes stood above the noise, in dB, None where there was none."""
        captured = self.microphone.read(_TICK_SECONDS)
        if captured is None or captured.at <= after:
            return None
        found = None
        for segment in self.endpointer.feed(captured):
            if isinstance(segment, Segment) and segment.extent is not SegmentExtent.RUNNING and is_yes(segment.sound):
                found = self.place.speech_to_noise_db(segment.sound) or 0.0
        self.place.feed(captured.samples, voice=self.endpointer.hears_voice)
        return found


class FirstSound:
    """Asks "can you hear me?" on one loudspeaker after the other and listens with all microphones meanwhile."""

    def __init__(
        self,
        speaker: Speaker,
        is_yes: IsYes,
        tell: Callable[[Say], str],
        *,
        open_microphone: Callable[[str], SoundIn],
        open_loudspeaker: Callable[[str], SoundOut],
        key_pressed: Callable[[], bool] | None = None,
        detector: Callable[[], VoiceDetector] = best_detector,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        """Take who speaks, what knows a yes, who prints a saying and returns its words, and how devices are opened by name.

        ``key_pressed`` says whether a key was struck since it was last asked; None where nobody has one.
        """
        self._speaker = speaker
        self._is_yes = is_yes
        self._tell = tell
        self._open_microphone = open_microphone
        self._open_loudspeaker = open_loudspeaker
        self._key_pressed = key_pressed or (lambda: False)
        self._question = CanYouHearMe() if key_pressed is None else CanYouHearMeOrPress()
        self._detector = detector
        self._clock = clock

    def found(self, loudspeakers: Sequence[str], microphones: Sequence[str]) -> Answered | None:
        """Return what answered first, None where nothing did; all devices are closed again."""
        ends = self._clock() + MOST_SECONDS
        with contextlib.ExitStack() as stack:
            ears = list(self._ears(microphones, stack))
            waiting = list(loudspeakers)
            while waiting and self._speaker.voices_left and self._clock() <= ends:
                name = waiting.pop(0)
                with contextlib.suppress(CompanionError), contextlib.closing(self._open_loudspeaker(name)) as loudspeaker:
                    self._speaker.loudspeaker = loudspeaker
                    answered = self._answered(name, ears)
                    if answered is not None:
                        return answered
                    # Who missed the question on the right one is asked there again.
                    waiting.append(name)
        return None

    def _ears(self, names: Sequence[str], stack: contextlib.ExitStack) -> Iterator[_Ear]:
        """Open as many microphones as can be listened to at once: one that is another's alias may refuse."""
        opened = 0
        for name in names:
            with contextlib.suppress(CompanionError):
                microphone = stack.enter_context(contextlib.closing(self._open_microphone(name)))
                yield _Ear(name, microphone, Endpointer(self._detector()), NoiseFloor())
                opened += 1
            if opened == MOST_MICROPHONES:
                return

    def _answered(self, loudspeaker: str, ears: Sequence[_Ear]) -> Answered | None:
        microphone, pressed = self._asked(self._question, ears)
        if pressed:
            microphone, _ = self._asked(SayYesOnceMore(), ears)
        return Answered(loudspeaker, microphone) if microphone or pressed else None

    def _asked(self, question: Say, ears: Sequence[_Ear]) -> tuple[str | None, bool]:
        """Ask; return which microphone heard a yes best, and whether a key was struck instead."""
        speech = self._speaker.add(self._tell(question))
        pressed = False
        while speech.over is None and not pressed:
            pressed = self._key_pressed()
            time.sleep(_TICK_SECONDS)
        if speech.cut or self._speaker.is_mute:
            return None, False
        if pressed:
            self._speaker.hush()
            return None, True
        self._speaker.sound(LISTENING)
        return self._heard(ears, self._clock() + _ECHO_SECONDS)

    def _heard(self, ears: Sequence[_Ear], after: float) -> tuple[str | None, bool]:
        ends = after + ANSWER_SECONDS
        heard: dict[str, float] = {}
        while self._clock() < ends:
            if self._key_pressed():
                return None, True
            if not ears:
                time.sleep(_TICK_SECONDS)
            for ear in ears:
                above_db = ear.yes(self._is_yes, after)
                if above_db is not None:
                    heard.setdefault(ear.name, above_db)
                    ends = min(ends, self._clock() + _OTHERS_SECONDS)
        enough_db = max(heard.values(), default=0.0) - AS_GOOD_DB
        return next((ear.name for ear in ears if heard.get(ear.name, enough_db - 1.0) >= enough_db), None), False


def in_turn(known: Sequence[Device], default: Device) -> list[str]:
    """Return the names to try: the system's default first, none twice."""
    names: dict[str, str] = {}
    for device in (default, *known):
        names.setdefault(device.name.casefold()[:_NAME_LETTERS], device.name)
    return list(names.values())
