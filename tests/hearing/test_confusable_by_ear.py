"""Which answers to one question the recogniser itself can hardly tell apart, by its own scores of synthesised speech.

``tests/dialogue/test_easily_confused.py`` compares answers sound by sound, as people would; this asks the ear that listens. An answer that
has effects is said by two voices that may be tuned on; how far it then lies before the likeliest phrase with another meaning is the
distance of that pair. ``COMPANION_FULL_SWEEP=1`` says every answer of every small set (some ten minutes).
"""

from __future__ import annotations

import os
import random
from collections.abc import Iterator

import numpy as np
import pytest

from companion.audio import Audio
from companion.hearing import ActiveSet, Phrase
from companion.hearing.whisper import WhisperEngine
from companion.hearing.whisper.confidence import _scores
from companion.hearing.whisper.strategies import MOST_PHRASES, ExhaustiveScoring
from companion.talk import every_rule
from tests.dialogue.test_easily_confused import matters
from tests.english import ENGLISH, VOCABULARY
from tests.hearing.voices.synthesisers import say

WHOLE = os.environ.get("COMPANION_FULL_SWEEP") == "1"
VOICES = ("flite:rms", "flite:slt")
AT_RISK = (
    "arrow_by_cable",
    "eyepiece",
    "facing",
    "fists",
    "last_keys",
    "nudge",
    "setting",
    "star_count",
    "tube_rose",
    "tube_turned",
    "year",
)
"""Questions whose answers are figures, directions and keys: a wrong one has something turned, or set."""
SAMPLE, SEED = 24, 31
CLOSE = 0.3
"""Log-probability a token; nearer than this a rival may be taken: of a lead the confidence counts 1.74, so that half a log-odds is left."""


def answers_that_matter() -> Iterator[tuple[ActiveSet, Phrase]]:
    """Yield every answer that has effects with the set it is live in, of the sets that are scored phrase by phrase."""
    for answers in every_rule():
        active = VOCABULARY.active(answers)
        if active.phrase_count <= MOST_PHRASES and (WHOLE or answers.rule() in AT_RISK):
            yield from ((active, phrase) for phrase in active.phrases() if matters(phrase))


def nearest(engine: WhisperEngine, sound: Audio, active: ActiveSet, said: Phrase) -> tuple[str, float]:
    """Return the likeliest phrase of another meaning, and how far before it what was said lies."""
    engine.prepare(active)
    strategy = engine._strategy(active)
    assert isinstance(strategy, ExhaustiveScoring), "the set has become too large to be scored phrase by phrase"
    prior = strategy._prior(active.weight)
    readings = strategy._readings(prior, [engine._views(sound).plain])
    scores = _scores(strategy._layout, prior.fits, readings, strategy._again)
    best = {True: (-np.inf, ""), False: (-np.inf, "")}
    for owner, score in zip(strategy._layout.owners, scores, strict=True):
        phrase = strategy._phrases[owner]
        is_own = said.means_as(phrase)
        best[is_own] = max(best[is_own], (float(score), phrase.words))
    return best[False][1], best[True][0] - best[False][0]


@pytest.mark.slow
def test_answers_that_the_ear_confuses_are_read_back(engine: WhisperEngine) -> None:
    """An answer that lies near another one for either voice is reworded, or stands in languages/en/easily_confused.py."""
    every = list(answers_that_matter())
    chosen = every if WHOLE else random.Random(SEED).sample(every, SAMPLE)
    close = {}
    for active, phrase in chosen:
        for voice in VOICES:
            rival, lead = nearest(engine, say(voice, phrase.words), active, phrase)
            if lead < CLOSE and phrase.words not in ENGLISH.easily_confused:
                close[phrase.words] = f"'{rival}' ({voice}, {lead:.2f})"
    assert not close, f"reword them, or have them read back: {close}"
