"""``python -m tests.hearing.voices.night names|words FILE [--voices …] [--part 1/3]``: how the words of a night are heard.

``names``: a hundred and fifty targets, the best first, each asked for in one way where targets are shown. ``words``: every live answer of
the night's questions, of figures a choice. Five voices say each, two that may be tuned on and three that never are. Each decision is added
to FILE as a line of JSON at once, and those there already aren't made again: a measure cut short still counts, and several may share the
work. ``--sums`` tells what a file holds, of voices never tuned on only sums.
"""

from __future__ import annotations

import argparse
import json
import random
import re
import runpy
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from statistics import median
from time import process_time
from typing import Any

from companion import observing, sky
from companion.dialogue.doubt import SURE
from companion.hearing import Scope, WhisperEngine, listen
from companion.messages import Heard, NotNow
from companion.talk import every_rule
from companion.talk.night_answers import ShowMeAnswer
from tests.english import ENGLISH, VOCABULARY
from tests.hearing.voices.synthesisers import say, voices

COUNT = 150
SEED = 13
BODIES = ("the Moon", "Saturn", "Jupiter", "Mars", "Venus", "Uranus")
WAYS = ("show me {}", "let's see {}", "go to {}", "how about {}", "{}")
"""A bare name is what most will say. Stars are never bare: that is another question's."""
SPEAKERS = ("pyttsx3:en-gb", "hibari:heart", "piper:joe", "festival:ked", "kokoro:jm_kumo")
_WITH_THE = (
    "Beehive",
    "Box",
    "Cloud",
    "Cluster",
    "Coathanger",
    "Double",
    "Dumbbell",
    "Galaxy",
    "Globular",
    "Nebula",
    "Pleiades",
    "Star",
    "Veil",
    "Well",
)
_NUMBERED = ("Messier", "M ", "Caldwell", "N G C", "I C")


NIGHT_RULES = ("target", "how_it_showed", "how_it_looked", "one_to_five", "few_millimetres", "milky_way", "star_count", "recentre")
"""What is asked while targets are visited."""
BESIDE = (
    "planets", "doubles", "for the kids", "what else is near here", "later", "back to the last one", "is it well placed", "note",
    "how many have we seen", "what's left", "the Moon's coming up", "cloud's coming", "only the south is clear", "it's dewed up",
    "my battery", "it's behind the house",
)  # fmt: skip
"""What is wished for and told in words that aren't live."""
OF_FIGURES = 8
"""So many phrases of a rule of figures."""


@dataclass(frozen=True)
class Asked:
    """What is said to which question, and what it means."""

    meaning: str
    """The target's name, else the command with its slots."""
    words: str
    rule: str = "target"


@dataclass(frozen=True)
class Decision:
    """What was made of one utterance."""

    name: str
    """What was meant."""
    words: str
    voice: str
    outcome: str
    """``right``, ``wrong`` or ``refused``."""
    phrase: str | None
    confidence: float
    asked_back: bool
    seconds: float
    """Of the processor."""


def names(count: int = COUNT) -> list[Asked]:
    """Return targets by the name we find them with, and the words each is asked for in: every other one by its number."""
    best = sorted(observing.rated_showpieces(), key=lambda piece: (-piece.rating, not piece.famous))
    spellings = _spellings()
    chosen = random.Random(SEED)
    asked = [(name, chosen.choice(WAYS[:4]).format(name)) for name in BODIES]
    for piece in best:
        name = sky.find(piece.key).name
        known = spellings.get(name, ())
        numbers = [words for words in known if words.startswith(_NUMBERED)]
        names = [words for words in known if words not in numbers]
        kind = numbers if (len(asked) % 2 and numbers) or not names else names
        if kind and name not in dict(asked):
            words = chosen.choice(kind[:2])
            words = f"the {words}" if words.endswith(_WITH_THE) and "'s " not in words else words
            asked.append((name, chosen.choice(WAYS if _is_known_bare(words) else WAYS[:4]).format(words)))
    return [Asked(*one) for one in asked[:count]]


def words(count: int = COUNT) -> list[Asked]:
    """Return every live answer of the night's questions, of figures a choice."""
    found = []
    for rule in NIGHT_RULES:
        phrases = list(VOCABULARY.active(_RULES[rule]).phrases())
        own = [phrase for phrase in phrases if phrase.command in set(_RULES[rule])]
        if own[0].slots:
            whole = [phrase for phrase in own if "point" not in phrase.words]
            own = random.Random(SEED).sample(whole, OF_FIGURES)
        found += [Asked(_meaning(phrase.command, phrase.slots), phrase.words, rule) for phrase in own]
    otherwise = (VOCABULARY.settled(NotNow(line, ""), _RULES["target"]) for line in BESIDE)
    found += [Asked(_meaning(one.command, one.slots), one.phrase) for one in otherwise if isinstance(one, Heard)]
    return found[:count]


_RULES = {answers.rule(): answers for answers in every_rule()}


def _meaning(command: str, slots: Mapping[str, str]) -> str:
    return " ".join([command, *slots.values()])


def _is_known_bare(words: str) -> bool:
    """Say whether a name alone is known at a target."""
    phrase = VOCABULARY.everything.parse(words)
    return phrase is not None and "object" in phrase.slots


def _spellings() -> dict[str, list[str]]:
    """Return how each target may be called, by its name: as the grammar is made."""
    maker: dict[str, Any] = runpy.run_path(str(Path(__file__).parents[3] / "grammars" / "make_question_names.py"))
    found = {**maker["_bodies"](), **maker["_showpieces"]()}
    return {name: [re.sub(r"\[.*?\] ?", "", words) for words in spellings] for name, spellings in found.items()}


def understood(hearing: Heard | NotNow) -> str:
    """Return what it is taken to mean: what would be led to, else the command with its slots."""
    if hearing.command == ShowMeAnswer.SHOW_ME:
        return hearing.slots["name"].removeprefix("the ")
    return hearing.slots.get("object") or _meaning(hearing.command, hearing.slots)


def decisions(rows: Sequence[tuple[Asked, str]]) -> Iterator[Decision]:
    """Yield what is made of what is said, each by a voice."""
    engine = WhisperEngine.load(writing=ENGLISH.writing)
    for asked, voice in rows:
        rule = _RULES[asked.rule]
        scope = Scope(VOCABULARY.active(rule), VOCABULARY.everything)
        engine.prepare(scope.active)
        sound = say(voice, asked.words)
        begun = process_time()
        hearing = VOCABULARY.settled(listen(engine, sound, scope), rule)
        seconds = process_time() - begun
        heard = hearing if isinstance(hearing, Heard | NotNow) else None
        outcome = "refused" if heard is None else "right" if understood(heard) == asked.meaning.removeprefix("the ") else "wrong"
        phrase, confidence = (heard.phrase, heard.confidence) if heard else (None, getattr(hearing, "confidence", 0.0))
        asked_back = heard is not None and (confidence < SURE or phrase in ENGLISH.easily_confused)
        yield Decision(asked.meaning, asked.words, voice, outcome, phrase, round(float(confidence), 3), asked_back, round(seconds, 2))


def sums(made: Sequence[Decision]) -> Iterator[str]:
    """Yield the figures, and of voices that may be tuned on what went wrong."""
    never = voices("never")
    for kind, is_never in (("may be tuned on", False), ("never tuned on", True)):
        some = [one for one in made if (one.voice in never) is is_never]
        for voice in [*sorted({one.voice for one in some}), ""]:
            rows = [one for one in some if voice in (one.voice, "")]
            if rows:
                counts = Counter(one.outcome + (" and asked back" if one.asked_back else "") for one in rows)
                told = ", ".join(f"{count} {outcome}" for outcome, count in sorted(counts.items()))
                seconds = median(one.seconds for one in rows)
                yield f"{voice or f'all that {kind}'}: {told} of {len(rows)}; {seconds:.2f} s of processor (median)"
    for one in made:
        if one.voice not in never and one.outcome != "right":
            yield f"    {one.voice}: '{one.words}' ({one.name}) {one.outcome}: {one.phrase} ({one.confidence})"


def main() -> None:
    """Measure, or tell what was measured."""
    parser = argparse.ArgumentParser(prog="python -m tests.hearing.voices.night", description=__doc__)
    parser.add_argument("what", choices=["names", "words"])
    parser.add_argument("file", type=Path)
    parser.add_argument("--voices", default=",".join(SPEAKERS))
    parser.add_argument("--count", type=int, default=COUNT, help="so many of them")
    parser.add_argument("--part", default="1/1", help="which of how many parts of the work")
    parser.add_argument("--sums", action="store_true")
    given = parser.parse_args()
    made = [Decision(**json.loads(line)) for line in given.file.read_text("utf-8").splitlines()] if given.file.exists() else []
    if not given.sums:
        part, parts = map(int, given.part.split("/"))
        said = (names if given.what == "names" else words)(given.count)
        speakers = given.voices.split(",")
        # One voice after another, so that a measure cut short has said everything with some.
        turns = [(turn, number) for turn in range(len(speakers)) for number in range(len(said))]
        every = [(said[number], speakers[(number + turn) % len(speakers)]) for turn, number in turns]
        there = {(one.words, one.voice) for one in made}
        rows = [row for row in every[part - 1 :: parts] if (row[0].words, row[1]) not in there]
        with given.file.open("a", encoding="utf-8") as file:
            for one in decisions(rows):
                made.append(one)
                file.write(json.dumps(asdict(one), ensure_ascii=False) + "\n")
                file.flush()
    for line in sums(made):
        print(line)


if __name__ == "__main__":
    main()
