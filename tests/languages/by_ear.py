"""What is asked for by ear, said by a synthesised voice and heard in its closed set.

``python -m tests.languages.by_ear CODE [COUNT [SEED [VOICE]]]`` prints how much comes back. Every kind of answer has its share: what help
offers, and of the rules too large to write out, figures, dates, times, places and names at random. Voices are named as in
``tests/hearing/voices``, or ``korean:SPEAKER``. A voice that isn't everywhere is recorded for the tests: ``recorded`` as VOICE reads
``recordings/CODE``, which ``python -m tests.languages.by_ear record CODE COUNT SEED VOICE`` writes.
"""

from __future__ import annotations

import csv
import random
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import soundfile

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.dialogue.doubt import sure_from
from companion.factories import open_engine
from companion.hearing import ActiveSet
from companion.languages import Language, load_language
from companion.messages import Heard, Hearing
from companion.talk import every_rule
from companion.vocabulary import Vocabulary, load_vocabulary
from tests.any_phrase import any_phrase
from tests.hearing.voices import korean, synthesisers

RECORDINGS = Path(__file__).parent / "recordings"
TOO_MANY = 600
"""Rules with more phrases than this are figures and names: their examples are drawn from the grammar."""
VOICES = {"en": "pyttsx3:en-us", "ko": "recorded"}
"""What each language is tried with where nothing else is said."""
READ_BACK = {
    "coordinate",
    "from_town",
    "millimetres",
    "few_millimetres",
    "field_width",
    "finder_width",
    "horizon",
    "fists",
    "town",
    "town_letters",
}
"""The rules of the answers that the script itself reads back before it believes them, as ``procedure/ask_place.py`` does."""
_BEFORE, _LEVEL, _HISS = 0.2, 0.4, 5e-4
"""Seconds of faint hiss round the words; how loud both are."""


_OTHERS = {"asked": "wrong but asked back", "wrong": "wrong", "refused": "refused"}


@dataclass(frozen=True)
class Example:
    """Something said to one question."""

    kind: str
    """The rule, where it is one of figures or names; else ``words``."""
    rule: str
    words: str
    active: ActiveSet


@dataclass(frozen=True)
class Result:
    """What became of an example."""

    example: Example
    found: str
    """``right``, ``wrong``, ``refused``, or ``asked`` where it is wrong and the observer is asked back, so that a no mends it."""


def examples(language: Language, vocabulary: Vocabulary, count: int, seed: int) -> list[Example]:
    """Return so many examples: half of them words, in the other half the large rules in turn."""
    choose = random.Random(seed)
    words: list[Example] = []
    drawn: list[list[Example]] = []
    for rule in every_rule():
        active = vocabulary.active(rule)
        grammar, name = active.sources[0]
        if grammar.phrase_count([name]) > TOO_MANY:
            said = dict.fromkeys(any_phrase(grammar, name, choose) for _ in range(count))
            drawn.append([Example(name, rule.rule(), phrase, active) for phrase in said])
        else:
            words += [Example("words", rule.rule(), phrase, active) for phrase in language.book.sayable.get(rule, ())]
    choose.shuffle(words)
    return list(_in_turn(words, drawn))[:count]


def _in_turn(words: Sequence[Example], drawn: Sequence[Sequence[Example]]) -> Iterator[Example]:
    mixed = [example for row in zip(*drawn, strict=False) for example in row]
    for word, other in zip(words, mixed, strict=False):
        yield from (word, other)


def recorded(language: Language, vocabulary: Vocabulary) -> list[tuple[Example, Path]]:
    """Return the examples that are recorded for a language. ValueError, with the remedy, where one is no answer any more."""
    rules = {rule.rule(): rule for rule in every_rule()}
    folder = RECORDINGS / language.code
    found = []
    for row in csv.DictReader((folder / "said.csv").read_text("utf-8").splitlines()):
        active = vocabulary.active(rules[row["rule"]])
        if active.parse(row["words"]) is None:
            raise ValueError(f"{row['words']} is no answer to {row['rule']} any more: record the examples anew")
        found.append((Example(row["kind"], row["rule"], row["words"], active), folder / row["file"]))
    return found


def record(code: str, count: str, seed: str, voice: str) -> None:
    """Write the examples of a language as a voice says them."""
    language = load_language(code)
    folder = RECORDINGS / code
    folder.mkdir(parents=True, exist_ok=True)
    with (folder / "said.csv").open("w", newline="", encoding="utf-8") as file:
        table = csv.writer(file)
        table.writerow(("file", "kind", "rule", "words"))
        for number, example in enumerate(examples(language, load_vocabulary(language), int(count), int(seed)), start=1):
            sound = say(voice, example.words).at_rate(SPEECH_RATE_HZ)
            soundfile.write(folder / f"{number:02}.flac", sound.samples, SPEECH_RATE_HZ)
            table.writerow((f"{number:02}.flac", example.kind, example.rule, example.words))


def say(voice: str, words: str) -> Audio:
    """Return words as a voice says them, at an even level."""
    program, _, speaker = voice.partition(":")
    sound = korean.say(speaker, words, 1.0) if program == "korean" else synthesisers.say(voice, words)
    samples = np.asarray(sound.samples, np.float32)
    samples = samples * np.float32(_LEVEL / max(float(np.abs(samples).max(initial=0.0)), 1e-6))
    hiss = np.random.default_rng(1).normal(0.0, _HISS, round(_BEFORE * sound.rate_hz)).astype(np.float32)
    return Audio(np.concatenate([hiss, samples, hiss]), sound.rate_hz)


def outcome(hearing: Hearing, example: Example, language: Language) -> str:
    """Tell whether an example comes back, as ``Result.found`` says."""
    meant = example.active.parse(example.words)
    if not isinstance(hearing, Heard):
        return "refused"
    if meant is not None and (hearing.command, hearing.slots) == (meant.command, meant.slots):
        return "right"
    is_asked_back = example.kind in READ_BACK or hearing.confidence < sure_from(hearing, None, language.easily_confused)
    return "asked" if is_asked_back else "wrong"


def results(code: str, count: int, seed: int, voice: str = "") -> Iterator[Result]:
    """Yield what becomes of so many examples; of recorded ones a seeded sample."""
    language = load_language(code)
    vocabulary = load_vocabulary(language)
    engine = open_engine("auto", language, known=vocabulary.answers)
    voice = voice or VOICES[code]
    if voice == "recorded":
        whole = recorded(language, vocabulary)
        for example, file in random.Random(seed).sample(whole, min(count, len(whole))):
            samples, rate_hz = soundfile.read(file, dtype="float32")
            yield Result(example, outcome(engine.recognise(Audio(samples, rate_hz), example.active), example, language))
    else:
        for example in examples(language, vocabulary, count, seed):
            yield Result(example, outcome(engine.recognise(say(voice, example.words), example.active), example, language))


def main(code: str, count: str = "60", seed: str = "1", voice: str = "") -> None:
    """Print what didn't come back, and the rates of each kind."""
    found: dict[str, Counter[str]] = {}
    for result in results(code, int(count), int(seed), voice):
        found.setdefault(result.example.kind, Counter())[result.found] += 1
        if result.found != "right":
            print(f"{result.found}: {result.example.words} ({result.example.rule})", flush=True)
    found["all"] = sum(found.values(), Counter())
    for kind, counted in found.items():
        others = ", ".join(f"{counted[found]} {words}" for found, words in _OTHERS.items())
        print(f"{kind}: {counted['right']} of {counted.total()} came back, {others}")


if __name__ == "__main__":
    record(*sys.argv[2:]) if sys.argv[1] == "record" else main(*sys.argv[1:])
