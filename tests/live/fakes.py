"""Stand-ins for devices, voice and clock: an evening by voice without sound, at any speed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Executor, Future
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.dialogue import Journal
from companion.equipment import Equipment
from companion.errors import MissingPart
from companion.hearing import ActiveSet, understand
from companion.hearing.stream import Captured
from companion.hearing.vad import FRAME
from companion.languages import load_language
from companion.live import Ear, Key, Session, SoundDevices, spoken_session
from companion.messages import Hearing, Silence
from companion.sky import Site
from companion.speaking.speaker import Speech
from companion.vocabulary import Vocabulary
from tests.english import VOCABULARY

WORDS_A_SECOND = 2.75
BEGAN = datetime(2026, 10, 15, 23, 0, tzinfo=UTC)
SITE = Site(46.31, -67.52, 180.0, "America/Moncton")
FRAME_SECONDS = FRAME / SPEECH_RATE_HZ


@dataclass
class World:
    """The time, in seconds; whatever takes time moves it on."""

    now: float = 1000.0

    def clock(self) -> float:
        """Return the time."""
        return self.now

    def rest(self, seconds: float) -> None:
        """Let time pass."""
        self.now += seconds

    def date(self) -> datetime:
        """Return the time as our own clock would."""
        return BEGAN + timedelta(seconds=self.now - 1000.0)


class Microphone:
    """Gives frame after frame; each moves the world on."""

    def __init__(self, world: World, frames: Iterator[np.ndarray]) -> None:
        """Take what will be heard; when it ends, the device goes away."""
        self._world = world
        self._frames = frames
        self.overflows = 0
        self.lost = False
        self.name = "headset"

    def read(self, wait_seconds: float) -> Captured | None:
        """Return the next frame."""
        frame = next(self._frames, None)
        self._world.now += FRAME_SECONDS if frame is not None else wait_seconds
        self.lost = self.lost or frame is None
        return None if frame is None else Captured(frame, self._world.now)

    def close(self) -> None:
        """Do nothing."""


@dataclass
class Loudspeaker:
    """Plays nothing."""

    lost: bool = False
    name: str = "headset"
    sounds: list[Audio] = field(default_factory=list)

    def close(self) -> None:
        """Do nothing."""


class Mouth:
    """Speaks without sound, at a usual speed in the world's time."""

    def __init__(self, world: World, loudspeaker: Loudspeaker | None) -> None:
        """Take the clock and the loudspeaker."""
        self._world = world
        self._speeches: list[tuple[Speech, float]] = []
        self.loudspeaker = loudspeaker
        self.voices_left = 2
        self.said: list[str] = []
        self.sounds: list[Audio] = []
        self.changes: list[str] = []
        self.hushed = 0

    @property
    def is_mute(self) -> bool:
        """Whether nothing can be heard."""
        return self.loudspeaker is None

    @property
    def is_speaking(self) -> bool:
        """Whether something is still being said."""
        for speech, ends in self._speeches:
            if speech.over is None and self._world.now >= ends:
                speech.over = ends
        self._speeches = [(speech, ends) for speech, ends in self._speeches if speech.over is None]
        return bool(self._speeches)

    def add(self, text: str) -> Speech:
        """Speak behind what is being said."""
        begins = max([self._world.now, *(ends for _, ends in self._speeches)])
        speech = Speech(text, begun=begins)
        self.said.append(text)
        self._speeches.append((speech, begins + len(text.split()) / WORDS_A_SECOND))
        return speech

    def hush(self) -> None:
        """Fall silent."""
        if self.is_speaking:
            self.hushed += 1
        for speech, _ in self._speeches:
            speech.over = self._world.now
        self._speeches = []

    def change(self, how: str) -> bool:
        """Keep what is asked; nothing can be made faster."""
        self.changes.append(how)
        return how != "faster"

    def sound(self, earcon: Audio) -> None:
        """Keep the small sound."""
        self.sounds.append(earcon)

    def wake(self) -> None:
        """Do nothing."""


class AtOnce(Executor):
    """Does everything at once."""

    def submit(self, work: Callable[..., Any], /, *arguments: Any, **named: Any) -> Future[Any]:
        """Do it now."""
        done: Future[Any] = Future()
        done.set_result(work(*arguments, **named))
        return done


class ScriptedEar:
    """A recogniser that is told in the sound itself which words are said: sample 1 of each frame is their number."""

    name = "scripted"

    def __init__(self, words: list[str]) -> None:
        """Take what is said, in order."""
        self._words = words
        self.prepared: list[ActiveSet] = []

    def prepare(self, active: ActiveSet) -> None:
        """Keep the set."""
        self.prepared.append(active)

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Read the words' number off the loudest frame."""
        number = round(float(audio.samples.reshape(-1, FRAME)[:, 1].max()) * 100)
        return understand(self._words[number - 1], active) if number else Silence()


class ScriptedVoice:
    """A detector that reads the probability off the frame."""

    def probability(self, frame: np.ndarray) -> float:
        """Return the frame's first sample."""
        return float(frame[0])

    def reset(self) -> None:
        """Do nothing: it remembers nothing."""


def quiet(seconds: float) -> Iterator[np.ndarray]:
    """Yield frames in which nobody speaks."""
    for _ in range(round(seconds / FRAME_SECONDS)):
        yield np.zeros(FRAME, np.float32)


def voice(number: int, seconds: float = 0.6) -> Iterator[np.ndarray]:
    """Yield frames in which the words of this number, from 1, are said."""
    frame = np.zeros(FRAME, np.float32)
    frame[0], frame[1] = 0.9, number / 100
    for _ in range(round(seconds / FRAME_SECONDS)):
        yield frame


@dataclass
class Lines:
    """Typed lines, each from a moment on."""

    world: World
    timed: list[tuple[float, str]] = field(default_factory=list)
    """Seconds after the beginning, and the line."""
    open: bool = True
    struck: list[float] = field(default_factory=list)
    """Seconds after the beginning at which the talking key is struck."""

    @property
    def ended(self) -> bool:
        """Whether no line will come any more."""
        return not self.open and not self.timed

    def waiting(self) -> Iterator[str]:
        """Yield what is due."""
        while self.timed and self.world.now - 1000.0 >= self.timed[0][0]:
            yield self.timed.pop(0)[1]

    def strokes(self) -> Iterator[float]:
        """Yield the strokes of the talking key that are due."""
        while self.struck and self.world.now - 1000.0 >= self.struck[0]:
            yield 1000.0 + self.struck.pop(0)

    def close(self) -> None:
        """Do nothing."""


def absent() -> Any:
    """Open a device that isn't there."""
    raise MissingPart("there is none")


class Night:
    """An evening by voice put together from stand-ins."""

    def __init__(
        self,
        folder: Path,
        frames: Iterable[np.ndarray],
        *,
        words: list[str] | None = None,
        ear: Ear | None = None,
        lines: list[tuple[float, str]] | None = None,
        struck: list[float] | None = None,
        **options: Any,
    ) -> None:
        """Take what the microphone will hear, and either the words in it or a real ear."""
        self.world = World()
        self.microphone: Microphone | None = Microphone(self.world, iter(frames))
        self.loudspeaker: Loudspeaker | None = Loudspeaker()
        self.shown: list[str] = []
        self.vocabulary: Vocabulary = ear.vocabulary if ear else VOCABULARY
        self.engine = ear.engine if ear else ScriptedEar(words or [])
        self._folder = folder
        self._ear = ear or Ear(self.engine, ScriptedVoice(), self.vocabulary, load_language())
        self._lines = Lines(self.world, lines or [], open=False, struck=struck or [])
        self._options = options

    def hold(self, key: Key | None = None) -> bool:
        """Hold it; ends when the microphone's frames do and no line is left."""
        with Journal(self._folder / "evening.jsonl") as journal:
            evening = Session(SITE, self.world.date, journal, Equipment(), language=load_language(), by_voice=True)
            self.devices = SoundDevices(
                lambda: self.microphone if self.microphone is not None and not self.microphone.lost else absent(),
                lambda: self.loudspeaker if self.loudspeaker is not None and not self.loudspeaker.lost else absent(),
                look_again=lambda: None,
            )
            self.mouth = Mouth(self.world, self.loudspeaker)
            self.spoken = spoken_session(
                evening,
                self._ear,
                self.devices,
                self.mouth,
                typing=self._lines,
                show=self.shown.append,
                key=key,
                clock=self.world.clock,
                rest=self.world.rest,
                meanwhile=AtOnce(),
                **self._options,
            )
            return self.spoken.hold()
