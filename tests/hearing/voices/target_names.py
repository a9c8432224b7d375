"""``python -m tests.hearing.voices.target_names FILE [--voices …] [--part 1/3]``: how the names of targets are heard where they are shown.

A hundred and fifty targets, the best first, each asked for in one way by five voices, two that may be tuned on and three that never
are. Each decision is added to FILE as a line of JSON at once, and those there already aren't made again: a measure cut short still
counts, and several may share the work. ``--sums`` tells what a file holds, of voices never tuned on only sums.
"""

from __future__ import annotations

import argparse
import json
import random
import re
import runpy
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from statistics import median
from time import process_time
from typing import Any

from companion import observing, sky
from companion.dialogue.doubt import SURE
from companion.hearing import Scope, WhisperEngine, listen
from companion.messages import Heard, Hearing, NotNow
from companion.talk.night_answers import ShowMeAnswer, TargetAnswer
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


@dataclass(frozen=True)
class Decision:
    """What was made of one utterance."""

    name: str
    words: str
    voice: str
    outcome: str
    """``right``, ``wrong`` or ``refused``."""
    phrase: str | None
    confidence: float
    asked_back: bool
    seconds: float
    """Of the processor."""


def sayings(count: int = COUNT) -> list[tuple[str, str]]:
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
    return asked[:count]


def _is_known_bare(words: str) -> bool:
    """Say whether a name alone is known at a target."""
    phrase = VOCABULARY.everything.parse(words)
    return phrase is not None and "object" in phrase.slots


def _spellings() -> dict[str, list[str]]:
    """Return how each target may be called, by its name: as the grammar is made."""
    maker: dict[str, Any] = runpy.run_path(str(Path(__file__).parents[3] / "grammars" / "make_question_names.py"))
    found = {**maker["_bodies"](), **maker["_showpieces"]()}
    return {name: [re.sub(r"\[.*?\] ?", "", words) for words in spellings] for name, spellings in found.items()}


def named(hearing: Hearing) -> str | None:
    """Return what would be led to."""
    if not isinstance(hearing, Heard | NotNow):
        return None
    if hearing.command == ShowMeAnswer.SHOW_ME:
        return hearing.slots["name"].removeprefix("the ")
    return hearing.slots.get("object")


def decisions(rows: Sequence[tuple[str, str, str]]) -> Iterator[Decision]:
    """Yield what is made of targets, words and voices, at a target."""
    engine = WhisperEngine.load(writing=ENGLISH.writing)
    scope = Scope(VOCABULARY.active(TargetAnswer), VOCABULARY.everything)
    engine.prepare(scope.active)
    for name, words, voice in rows:
        sound = say(voice, words)
        begun = process_time()
        hearing = VOCABULARY.settled(listen(engine, sound, scope), TargetAnswer)
        seconds = process_time() - begun
        heard = hearing if isinstance(hearing, Heard | NotNow) else None
        outcome = "refused" if heard is None else "right" if named(heard) == name.removeprefix("the ") else "wrong"
        phrase, confidence = (heard.phrase, heard.confidence) if heard else (None, getattr(hearing, "confidence", 0.0))
        asked_back = heard is not None and (confidence < SURE or phrase in ENGLISH.easily_confused)
        yield Decision(name, words, voice, outcome, phrase, round(float(confidence), 3), asked_back, round(seconds, 2))


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
    parser = argparse.ArgumentParser(prog="python -m tests.hearing.voices.target_names", description=__doc__)
    parser.add_argument("file", type=Path)
    parser.add_argument("--voices", default=",".join(SPEAKERS))
    parser.add_argument("--count", type=int, default=COUNT, help="so many targets")
    parser.add_argument("--part", default="1/1", help="which of how many parts of the work")
    parser.add_argument("--sums", action="store_true")
    given = parser.parse_args()
    made = [Decision(**json.loads(line)) for line in given.file.read_text("utf-8").splitlines()] if given.file.exists() else []
    if not given.sums:
        part, parts = map(int, given.part.split("/"))
        every = [(name, words, voice) for name, words in sayings(given.count) for voice in given.voices.split(",")]
        there = {(one.words, one.voice) for one in made}
        rows = [row for row in every[part - 1 :: parts] if row[1:] not in there]
        with given.file.open("a", encoding="utf-8") as file:
            for one in decisions(rows):
                made.append(one)
                file.write(json.dumps(asdict(one), ensure_ascii=False) + "\n")
                file.flush()
    for line in sums(made):
        print(line)


if __name__ == "__main__":
    main()
