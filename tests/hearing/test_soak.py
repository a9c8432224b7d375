"""Long noise through the endpointer, each pause of it, and the recogniser: nobody speaks to it, so nothing may be taken for an answer."""

from __future__ import annotations

import os
from collections import Counter
from itertools import cycle

import numpy as np
import pytest

from companion.hearing.endpoint import Endpointer
from companion.hearing.stream import Captured, PauseOver, SegmentExtent
from companion.hearing.vad import SileroDetector
from companion.hearing.whisper import WhisperEngine
from companion.messages import Heard
from companion.speaking.hibari_voice import HibariVoice
from companion.talk import every_rule
from companion.talk.answers import UniversalAnswer
from tests.english import VOCABULARY
from tests.hearing.night_noises import SENTENCES, night

WHOLE = os.environ.get("COMPANION_FULL_SWEEP") == "1"
SECONDS = 1800.0 if WHOLE else 180.0
SEED = 37


@pytest.mark.slow
def test_nothing_is_heard_in_a_night_of_noise(engine: WhisperEngine) -> None:
    """Wind, rain, steps, a motor, others talking: three seeded minutes, thirty with COMPANION_FULL_SWEEP=1; talk opens, no answer."""
    voices = [HibariVoice(rate_wpm=rate) for rate in (140, 180)]
    spoken = [voice.render(sentence) for sentence in SENTENCES for voice in voices]
    questions = cycle(expects for expects in every_rule() if expects is not UniversalAnswer)
    active = VOCABULARY.active(next(questions))
    endpointer = Endpointer(SileroDetector())
    opened: Counter[str] = Counter()
    accepted = []
    for name, sound in night(SECONDS, np.random.default_rng(SEED), spoken):
        for segment in endpointer.feed(Captured(sound, 0.0)):
            if isinstance(segment, PauseOver) or segment.extent is SegmentExtent.RUNNING:
                continue
            opened[name] += 1
            hearing = engine.recognise(segment.sound, active)
            if isinstance(hearing, Heard):
                accepted.append((name, hearing.phrase, hearing.confidence))
            active = VOCABULARY.active(next(questions))
    print(f"{SECONDS:.0f} s, opened {dict(opened)}, accepted {accepted}")
    assert opened["talk"] > 0
    assert accepted == []
