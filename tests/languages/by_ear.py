"""What is asked for by ear, said by a synthesised voice and heard in its closed set.

``python -m tests.languages.by_ear CODE [COUNT [SEED [VOICE]]]``

Every kind of answer has its share: what help offers, and of the rules too large to write out, figures, dates, times, places and names at
random. Voices are named as in ``tests/hearing/voices``, or ``korean:SPEAKER``.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from companion.audio import Audio
from companion.factories import open_engine
from companion.hearing import ActiveSet, Engine
from companion.languages import Language, load_language
from companion.messages import Heard
from companion.talk import every_rule
from companion.vocabulary import Vocabulary, load_vocabulary
from tests.any_phrase import any_phrase
from tests.hearing.voices import korean, synthesisers

TOO_MANY = 600
"""Rules with more phrases than this are figures and names: their examples are drawn from the grammar."""
VOICES = {"en": "pyttsx3:en-us", "ko": "pyttsx3:ko"}
"""A voice that is everywhere, for each language."""
_BEFORE, _LEVEL, _HISS = 0.2, 0.4, 5e-4
"""Seconds of faint hiss round the words; how loud both are."""


@dataclass(frozen=True)
class Example:
    """Something said to one question."""

    kind: str
    """The rule, where it is one of figures or names; else ``words``."""
    words: str
    active: ActiveSet


def examples(language: Language, vocabulary: Vocabulary, count: int, seed: int) -> list[Example]:
    """Return so many examples, the kinds in turn."""
    choose = random.Random(seed)
    kinds: dict[str, list[Example]] = {}
    for rule in every_rule():
        active = vocabulary.active(rule)
        grammar, name = active.sources[0]
        if grammar.phrase_count([name]) > TOO_MANY:
            drawn = [any_phrase(grammar, name, choose) for _ in range(count)]
            kinds[name] = [Example(name, words, active) for words in dict.fromkeys(drawn)]
        else:
            kinds.setdefault("words", []).extend(Example("words", words, active) for words in language.book.sayable.get(rule, ()))
    choose.shuffle(kinds["words"])
    return list(_in_turn(list(kinds.values())))[:count]


def _in_turn(lists: Sequence[list[Example]]) -> Iterator[Example]:
    """Yield one of each list, then the next of each; half of all are words."""
    words, *others = sorted(lists, key=lambda kind: kind[0].kind != "words")
    mixed = [example for row in zip(*others, strict=False) for example in row]
    yield from (example for pair in zip(words, mixed, strict=False) for example in pair)
    yield from words[len(mixed) :]


def say(voice: str, words: str) -> Audio:
    """Return words as a voice says them, at an even level."""
    program, _, speaker = voice.partition(":")
    sound = korean.say(speaker, words, 1.0) if program == "korean" else synthesisers.say(voice, words)
    samples = np.asarray(sound.samples, np.float32)
    samples = samples * np.float32(_LEVEL / max(float(np.abs(samples).max(initial=0.0)), 1e-6))
    hiss = np.random.default_rng(1).normal(0.0, _HISS, round(_BEFORE * sound.rate_hz)).astype(np.float32)
    return Audio(np.concatenate([hiss, samples, hiss]), sound.rate_hz)


def heard(engine: Engine, example: Example, voice: str) -> str:
    """Tell whether an example comes back: ``right``, ``wrong`` or ``refused``."""
    meant = example.active.parse(example.words)
    hearing = engine.recognise(say(voice, example.words), example.active)
    if not isinstance(hearing, Heard):
        return "refused"
    return "right" if meant is not None and (hearing.command, hearing.slots) == (meant.command, meant.slots) else "wrong"


def rates(code: str, count: int, seed: int, voice: str) -> dict[str, Counter[str]]:
    """Return how many of each kind came back, were heard as something else or refused; what didn't come back is printed."""
    language = load_language(code)
    vocabulary = load_vocabulary(language)
    engine = open_engine("auto", language, known=vocabulary.answers)
    found: dict[str, Counter[str]] = {}
    for example in examples(language, vocabulary, count, seed):
        result = heard(engine, example, voice)
        found.setdefault(example.kind, Counter())[result] += 1
        if result != "right":
            print(f"{result}: {example.words} ({example.kind})", flush=True)
    return found


def main(code: str, count: str = "60", seed: str = "1", voice: str = "") -> None:
    """Print the rates of a language."""
    for kind, results in sorted(rates(code, int(count), int(seed), voice or VOICES[code]).items()):
        print(f"{kind}: {results['right']} of {results.total()} came back, {results['wrong']} wrong, {results['refused']} refused")


if __name__ == "__main__":
    main(*sys.argv[1:])
