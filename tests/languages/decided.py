"""How long a decision takes once an answer has ended: heard while it is said, and heard from the beginning only then.

``python -m tests.languages.decided CODE`` prints both for the recorded answers of a language, each taken a twentieth of a second at a time
as the microphone gives it, and how much of the sound's length the hearing along takes. Figures of this machine, as busy as it is.
"""

from __future__ import annotations

import os
import sys
from statistics import median
from time import perf_counter

import soundfile

from companion.audio import Audio
from companion.factories import open_engine
from companion.hearing.engine import HearsAlong
from companion.languages import load_language
from companion.vocabulary import load_vocabulary
from tests.languages.by_ear import recorded

_PIECE_SECONDS = 0.05


def main(code: str) -> None:
    """Print the figures."""
    language = load_language(code)
    vocabulary = load_vocabulary(language)
    engine = open_engine("auto", language, known=vocabulary.answers)
    assert isinstance(engine, HearsAlong)
    along, afterwards, work, same = [], [], [], 0
    for example, file in recorded(language, vocabulary):
        samples, rate_hz = soundfile.read(file, dtype="float32")
        sound = Audio(samples, rate_hz)
        engine.prepare(example.active)
        begun = perf_counter()
        late = engine.recognise(sound, example.active)
        afterwards.append(perf_counter() - begun)
        begun = perf_counter()
        for end in range(0, len(samples), round(_PIECE_SECONDS * rate_hz)):
            engine.hear_along(Audio(samples[:end], rate_hz), example.active)
        work.append((perf_counter() - begun) / sound.seconds)
        begun = perf_counter()
        same += type(engine.recognise(sound, example.active)) is type(late)
        along.append(perf_counter() - begun)
    print(f"{len(along)} answers, load {os.getloadavg()[0]:.1f}; {same} with the same outcome both ways")
    for name, seconds in (("heard along", along), ("from the beginning", afterwards)):
        print(f"{name}: decided after {median(seconds):.3f} s (median), {sorted(seconds)[len(seconds) * 9 // 10]:.3f} s (nine of ten)")
    print(f"hearing along takes {median(work):.2f} of the sound's length")


if __name__ == "__main__":
    main(*sys.argv[1:])
