"""``python -m tests.live.evening_memory``: what an evening's ear and voice hold in memory, after each step (Linux).

Everything known, ten searched sets and forty small ones, in each of them a word heard and looked up among everything; detector and voice.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np

from companion.hearing import ActiveSet, Scope, WhisperEngine, listen
from companion.hearing.vad import FRAME, SileroDetector
from companion.hearing.whisper.strategies import MOST_PHRASES
from companion.languages import load_language
from companion.memory import give_back_memory
from companion.speaking.hibari_voice import HibariVoice
from companion.talk import every_rule
from tests.english import VOCABULARY

SEARCHED, SMALL = 10, 40


def held() -> str:
    """Return what this process holds, and the most it held so far."""
    status = Path("/proc/self/status").read_text("utf-8").splitlines()
    now, most = (int(next(line for line in status if line.startswith(key)).split()[1]) / 1024 for key in ("VmRSS", "VmHWM"))
    return f"{now:.0f} MB, most {most:.0f}"


def sets() -> list[ActiveSet]:
    """Return the answers to so many questions, in their order."""
    found = [VOCABULARY.active(rule) for rule in every_rule()]
    searched = [one for one in found if one.phrase_count > MOST_PHRASES][:SEARCHED]
    small = [one for one in found if one.phrase_count <= MOST_PHRASES][:SMALL]
    return [one for one in found if one in searched or one in small]


def steps() -> Iterator[str]:
    """Yield a line a step."""
    yield f"before all: {held()}"
    engine = WhisperEngine.load(writing=load_language().writing)
    yield f"the recogniser: {held()}"
    engine.prepare(VOCABULARY.everything)
    yield f"everything known: {held()}"
    detector, voice = SileroDetector(), HibariVoice()
    detector.probability(np.zeros(FRAME, np.float32))
    word = voice.render("dead centre")
    yield f"detector and voice: {held()}"
    live = sets()
    for active in live:
        engine.prepare(active)
        listen(engine, word, Scope(active, VOCABULARY.everything))
    yield f"{len(live)} sets, a word heard in each: {held()}"
    give_back_memory()
    # Both are held to the end, as in an evening.
    yield f"what the C library kept given back, {voice.name} and {type(detector).__name__} at hand: {held()}"


if __name__ == "__main__":
    for step in steps():
        print(step, flush=True)
