"""``python -m tests.hearing.voices DIR``: a directory of synthesised utterances with its manifest, for ``python -m companion.bench page``.

Each utterance is there twice, the second time a tenth slower: people who weren't understood say it again, slower.
"""

from __future__ import annotations

import argparse
import csv
import random
from collections.abc import Iterator, Sequence
from pathlib import Path

from companion.audio import write_wav
from companion.talk import every_rule
from companion.talk.answers import UniversalAnswer
from tests.english import VOCABULARY
from tests.hearing.voices.synthesisers import LISTS, say, voices

SLOWER = 0.9
QUESTIONS = (
    "what time is it",
    "how long until dark",
    "when does the Moon rise",
    "where was I",
    "how many stars are left",
    "what next",
    "how much longer",
    "which way is north",
    "where is Saturn",
    "what do you mean",
)
"""Ten that anybody may ask at any time."""
STAGES = ("finder", "view", "eyepiece", "unseen", "clock_check", "north", "miss", "star_name")
"""Questions that are open while people chat, or ask something else."""


def examples() -> list[tuple[str, str]]:
    """Return the words and the rule of every example of a rule that is live at some question."""
    live = [answers.rule() for answers in (*every_rule(), UniversalAnswer)]
    grammars = VOCABULARY.grammars
    return [
        (example.words, rule)
        for rule in live
        for grammar in grammars
        for example in grammar.examples
        if example.accepted and example.rule == rule
    ]


def chatter() -> list[tuple[str, str]]:
    """Return two hundred everyday sentences, each while one question or another is open."""
    lines = (Path(__file__).with_name("chatter.txt")).read_text("utf-8").splitlines()
    return [(line, STAGES[number % len(STAGES)]) for number, line in enumerate(lines)]


def questions() -> list[tuple[str, str]]:
    """Return ten questions, each while another one is open."""
    return [(words, STAGES[number % len(STAGES)]) for number, words in enumerate(QUESTIONS)]


SETS = {"examples": examples, "chatter": chatter, "questions": questions}


def rows(said: Sequence[tuple[str, str]], speakers: Sequence[str], count: int, *, share: bool) -> Iterator[tuple[str, str, str]]:
    """Yield words, rule and voice: each voice says all of it, or (``share``) each sentence has one voice; at most ``count`` a voice."""
    for number, voice in enumerate(speakers):
        mine = said[number :: len(speakers)] if share else random.Random(voice).sample(said, len(said))
        for words, rule in mine[:count]:
            yield words, rule, voice


def main() -> None:
    """Write the directory."""
    parser = argparse.ArgumentParser(prog="python -m tests.hearing.voices", description=__doc__)
    parser.add_argument("directory", type=Path)
    parser.add_argument("--say", choices=SETS, default="examples")
    parser.add_argument("--voices", default="never", help="a list of voices.toml, or voices with commas between them")
    parser.add_argument("--count", type=int, default=10_000, help="utterances a voice at most, chosen by a seed of its name")
    options = parser.parse_args()
    speakers = voices(options.voices) if options.voices in LISTS else tuple(options.voices.split(","))
    options.directory.mkdir(parents=True, exist_ok=True)
    with (options.directory / "manifest.csv").open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file)
        table.writerow(("file", "again", "words", "rule", "voice"))
        for number, (words, rule, voice) in enumerate(rows(SETS[options.say](), speakers, options.count, share=options.say == "chatter")):
            names = [f"{number:04}-{voice.replace(':', '-')}{end}.wav" for end in ("", "-again")]
            for name, pace in zip(names, (1.0, SLOWER), strict=True):
                write_wav(options.directory / name, say(voice, words, pace))
            table.writerow((*names, words, f"{rule}+universal" if rule != "universal" else rule, voice))


if __name__ == "__main__":
    main()
