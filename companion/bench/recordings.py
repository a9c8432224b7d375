"""Recordings with what they say: a directory with a manifest, and noise added to them at a stated level."""

from __future__ import annotations

import csv
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from companion.audio import LONGEST_UTTERANCE_SECONDS, SPEECH_RATE_HZ, Audio, read_wav
from companion.bench.kitchen import kitchen
from companion.bench.wind import wind
from companion.errors import AudioFileError, BadRequest
from companion.hearing import ActiveSet, Grammar, load_grammar
from companion.languages import load_language
from companion.vocabulary import load_vocabulary

NOISES = ("talk", "pink", "kitchen", "wind")
CHANNELS = ("open", "clipped", "telephone")
_CLIPPED_SHARE = 0.25
"""Of the highest peak: all that is louder is cut off, as by a microphone whose gain is 12 dB too high."""
_TELEPHONE_HZ = (300.0, 3400.0)
"""The band of a telephone, and of a headset by the older hands-free codec (ITU-T G.712)."""

_ROOM_M3, _ROOM_SECONDS = 50.0, 0.5
"""A furnished room, and how long a sound takes to fade by 60 dB in it. Judgement."""
_CRITICAL_METRES = 0.057 * (_ROOM_M3 / _ROOM_SECONDS) ** 0.5
"""So far off the room's answer is as loud as what comes straight: Sabine's, for a source that sounds all round (value from memory)."""
_FADES = np.log(1000.0)

_TALKERS = 5
_LEAD_SECONDS, _TAIL_SECONDS = 0.3, 0.4
_ACTIVE_RANGE = 10 ** (-25 / 10)
_FRAME = 320

FloatArray = NDArray[np.float32]


@dataclass(frozen=True)
class Recording:
    """One utterance, or a sound without one."""

    path: Path
    words: str
    """What is said; empty for noise."""
    active: ActiveSet
    """What may be said when it is heard."""
    voice: str = ""
    """Whose it is, where the manifest tells."""
    again: Path | None = None
    """The same words said once more, where the manifest has them."""

    @property
    def said_again(self) -> Recording | None:
        """The same words said once more."""
        return None if self.again is None else replace(self, path=self.again, again=None)

    @property
    def is_answer(self) -> bool:
        """Whether its words may be said."""
        return self.active.parse(self.words) is not None

    def sound(self) -> Audio:
        """Read it. Raises AudioFileError."""
        return read_wav(self.path, LONGEST_UTTERANCE_SECONDS)


def read_recordings(directory: Path, grammar: Path | None = None, rule: str | None = None, language: str = "en") -> tuple[Recording, ...]:
    """Read ``manifest.csv`` of a directory: columns ``file`` and ``words``, perhaps ``grammar``, ``rule``, ``voice`` and ``again``.

    ``grammar`` is a file beside it, ``rule`` may name several with + between them, ``again`` is a file with the same words once more.
    ``grammar`` and ``rule`` given here count where a row names none; without either, all grammars of the companion are live.
    Raises BadRequest for a missing or unfit manifest, GrammarError for a grammar.
    """
    path = directory / "manifest.csv"
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            rows = list(csv.DictReader(file))
    except (OSError, UnicodeDecodeError) as error:
        raise BadRequest(f"{path} can't be read ({error}); give a directory with a manifest.csv") from error
    if not rows or not {"file", "words"} <= rows[0].keys():
        raise BadRequest(f"{path} needs a line of headings with 'file' and 'words', and a line a recording")
    sets: dict[tuple[str, str], ActiveSet] = {}
    found = []
    for row in rows:
        named = row.get("grammar") or ""
        key = (str(directory / named) if named else str(grammar or ""), row.get("rule") or rule or "")
        if key not in sets:
            sets[key] = _active(*key, language)
        again = directory / row["again"] if row.get("again") else None
        found.append(Recording(directory / row["file"], row["words"] or "", sets[key], row.get("voice") or "", again))
    return tuple(found)


def _active(file: str, rule: str, language: str) -> ActiveSet:
    grammars = (load_grammar(file, load_language(language).writing),) if file else _companions(language)
    if not rule:
        return ActiveSet.every(*grammars)
    sources = []
    for name in rule.split("+"):
        found = [(grammar, name) for grammar in grammars if name in grammar.public_rules]
        if not found:
            raise BadRequest(f"there is no public rule <{name}> in {file or 'the companion’s grammars'}")
        sources += found
    return ActiveSet.of(*sources)


@cache
def _companions(language: str) -> tuple[Grammar, ...]:
    """Return the companion's own grammars, read once: that takes a second."""
    return load_vocabulary(load_language(language)).grammars


class Noise:
    """Adds noise to recordings; the same recording, kind and level give the same samples."""

    def __init__(
        self, kind: str, recordings: Sequence[Recording], channel: str = "open", *, metres: float = 1.0, in_a_room: bool = False
    ) -> None:
        """Take the kind: ``pink``, power falling as 1/f, ``kitchen`` and ``wind``, synthesised, ``talk``, five of these recordings at once.

        ``channel`` is what the microphone does to all of it: ``open`` nothing, ``clipped``, or ``telephone``. Who speaks is so many
        ``metres`` away, and the level of noise is told for one; in a room its answer is as loud at any distance, in the open there is none.
        """
        self.kind = kind
        self.channel = channel
        self._metres = metres
        self._in_a_room = in_a_room
        self._recordings = recordings

    def add(self, recording: Recording, sound: Audio, snr_db: float | None) -> Audio:
        """Return the sound in noise, 16 kHz, with 0.3 s of noise before and 0.4 s after, through the channel; no noise where None.

        The level of speech is the mean power of the 20 ms within 25 dB of the loudest, so that pauses don't count.
        """
        if snr_db is None:
            if self.channel == "open" and self._metres == 1 and not self._in_a_room:
                return sound
            return self._through(self._from_afar(sound.at_rate(SPEECH_RATE_HZ).samples, recording))
        random = np.random.default_rng(zlib.crc32(f"{recording.path.name} {self.kind} {snr_db}".encode()))
        margins = (round(_LEAD_SECONDS * SPEECH_RATE_HZ), round(_TAIL_SECONDS * SPEECH_RATE_HZ))
        speech = np.pad(sound.at_rate(SPEECH_RATE_HZ).samples, margins)
        powers = (np.pad(speech, (0, -len(speech) % _FRAME)).reshape(-1, _FRAME) ** 2).mean(axis=1)
        power = float(powers[powers >= powers.max() * _ACTIVE_RANGE].mean())
        noise = self._noise(len(speech), recording, random)
        return self._through(self._from_afar(speech, recording) + noise * np.float32((power / 10 ** (snr_db / 10)) ** 0.5))

    def _from_afar(self, speech: FloatArray, recording: Recording) -> FloatArray:
        """Return what arrives of speech, shape as given: straight, and in a room by way of its walls.

        The walls' part is noise that fades exponentially (Polack 1988; value from memory), another one for each recording.
        """
        arrives = speech / np.float32(self._metres)
        if self._in_a_room:
            time_s = np.arange(round(_ROOM_SECONDS * SPEECH_RATE_HZ)) / SPEECH_RATE_HZ
            random = np.random.default_rng(zlib.crc32(f"{recording.path.name} room".encode()))
            walls = random.standard_normal(len(time_s)) * np.exp(-_FADES * time_s / _ROOM_SECONDS)
            walls /= np.sqrt(np.sum(walls**2)) * _CRITICAL_METRES
            arrives = arrives + _convolved(speech, walls)[: len(speech)]
        return np.asarray(arrives, np.float32)

    def _through(self, samples: FloatArray) -> Audio:
        match self.channel:
            case "clipped":
                loudest = _CLIPPED_SHARE * float(np.abs(samples).max())
                samples = np.clip(samples, -loudest, loudest)
            case "telephone":
                hertz = np.fft.rfftfreq(len(samples), 1 / SPEECH_RATE_HZ)
                passed = (hertz >= _TELEPHONE_HZ[0]) & (hertz <= _TELEPHONE_HZ[1])
                samples = np.fft.irfft(np.fft.rfft(samples) * passed, len(samples)).astype(np.float32)
        return Audio(samples.astype(np.float32), SPEECH_RATE_HZ)

    def _noise(self, count: int, recording: Recording, random: np.random.Generator) -> FloatArray:
        match self.kind:
            case "pink":
                return _pink(count, random)
            case "kitchen":
                return kitchen(count, random)
            case "wind":
                return wind(count, random)
        return self._talk(count, recording, random)

    def _talk(self, count: int, recording: Recording, random: np.random.Generator) -> FloatArray:
        others = [other for other in self._recordings if other.words and other.words != recording.words]
        if not others:
            raise BadRequest("there is nobody else to talk in the background; use --noise pink")
        mixed = np.zeros(count, np.float32)
        for _ in range(_TALKERS):
            mixed += np.concatenate(list(_fill(count, others, random)))[:count]
        return np.asarray(mixed / (np.sqrt(np.mean(mixed**2)) + 1e-12), dtype=np.float32)


def _convolved(one: FloatArray, other: NDArray[np.float64]) -> NDArray[np.float64]:
    count = len(one) + len(other) - 1
    return np.asarray(np.fft.irfft(np.fft.rfft(one, count) * np.fft.rfft(other, count), count))


def _fill(count: int, others: Sequence[Recording], random: np.random.Generator) -> Iterator[FloatArray]:
    """Yield recordings at random, each at the same level, the first from somewhere in its middle, until there are enough samples."""
    start = random.random()
    while count > 0:
        other = others[int(random.integers(len(others)))]
        try:
            samples = other.sound().at_rate(SPEECH_RATE_HZ).samples
        except AudioFileError:
            samples = np.zeros(_FRAME, np.float32)
        piece = samples[int(start * len(samples)) :]
        start = 0.0
        count -= len(piece)
        yield np.asarray(piece / (np.sqrt(np.mean(piece**2)) + 1e-6), dtype=np.float32)


def _pink(count: int, random: np.random.Generator) -> FloatArray:
    spectrum = np.fft.rfft(random.standard_normal(count)) / np.sqrt(np.maximum(np.arange(count // 2 + 1), 1))
    noise = np.fft.irfft(spectrum, count)
    return np.asarray(noise / np.sqrt(np.mean(noise**2)), dtype=np.float32)
