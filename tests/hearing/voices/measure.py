"""``python -m tests.hearing.voices.measure WHAT``: how what people say beside the live answers is heard, by synthesised voices.

``questions`` and ``jumps`` are found by the second search, ``chatter`` ought to be refused. ``phrases --before COMMIT`` shows what
changing the live sets has cost: what could be said before, what can be said since, and chatter, each heard with the grammars of that
commit and with those that lie here. By voices that are never tuned on only sums are told, for no decision may look at more.
"""

from __future__ import annotations

import argparse
import io
import random
import subprocess
import tarfile
import tempfile
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from statistics import median
from time import process_time

from companion.audio import Audio
from companion.hearing import ActiveSet, Grammar, Scope, WhisperEngine, listen, load_grammar
from companion.languages import load_language
from companion.messages import Heard, NotNow
from companion.vocabulary import Vocabulary
from tests.hearing.voices.__main__ import chatter, examples, questions
from tests.hearing.voices.synthesisers import LISTS, put_aside, say, voices

SEED = 7
_TOLD_EVERY = 20
_WRITTEN_OUT = 2_000
"""Live sets with more phrases than this are known by their examples."""
PARTS_TO_GO_TO = ("eyepiece", "finder", "clock_check", "unseen", "target")
"""Questions that are open while somebody wants to go elsewhere."""


@dataclass(frozen=True)
class Said:
    """Words, the rule of the question that is open, and who says them."""

    words: str
    rule: str
    voice: str


@dataclass(frozen=True)
class Words:
    """The grammars of a language as they stood at some time."""

    grammars: tuple[Grammar, ...]

    @classmethod
    def read(cls, folder: Path) -> Words:
        """Read a folder of grammar files; those that others import are no question's."""
        language = load_language()
        found = [load_grammar(file, language.writing) for file in sorted(folder.glob("*.jsgf"))]
        lent = {name for grammar in found for name in grammar.tree.imports}
        return cls(tuple(grammar for grammar in found if grammar.name not in lent))

    @property
    def everything(self) -> ActiveSet:
        """All that an ear may listen for."""
        return Vocabulary(self.grammars, load_language().typing).everything

    @property
    def rules(self) -> frozenset[str]:
        """Every public rule."""
        return frozenset(rule for grammar in self.grammars for rule in grammar.public_rules)

    def live(self, *rules: str) -> ActiveSet:
        """Return what some rules allow."""
        return ActiveSet.of(*[(grammar, rule) for rule in rules for grammar in self.grammars if rule in grammar.public_rules])


@dataclass
class Ear:
    """Hears with the grammars of one time, and counts."""

    engine: WhisperEngine
    words: Words

    def __post_init__(self) -> None:
        """Begin with nothing heard."""
        self.everything = self.words.everything
        self.live: dict[str, ActiveSet] = {}
        self.seconds: list[float] = []
        self.mistakes: list[str] = []

    def hears(self, said: Said, sound: Audio) -> str:
        """Return ``right``, ``wrong`` or ``refused``; what is none of ours is right when refused, wrong when it is answered."""
        active = self.live.setdefault(said.rule, self.words.live(said.rule, "universal"))
        meant = active.parse(said.words) or self.everything.parse(said.words)
        self.engine.prepare(active)
        begun = process_time()
        hearing = listen(self.engine, sound, Scope(active, self.everything))
        self.seconds.append(process_time() - begun)
        heard = hearing if isinstance(hearing, Heard | NotNow) else None
        if heard is None:
            return "refused" if meant else "right"
        if meant and (heard.command, dict(heard.slots)) == (meant.command, dict(meant.slots)):
            return "right"
        if said.voice not in put_aside():
            self.mistakes.append(f"    {said.voice} at <{said.rule}>: '{said.words}' taken for '{heard.phrase}' ({heard.confidence:.2f})")
        return "wrong"


def jumps() -> list[tuple[str, str]]:
    """Return the words of every part that can be gone to, in a seeded choice of the ways to ask for it, each at some open question."""
    words = Words.read(_here())
    phrases = sorted(words.live("jump").phrases(), key=lambda phrase: phrase.words)
    by_part: dict[str, list[str]] = {}
    for phrase in phrases:
        by_part.setdefault(" ".join([phrase.command, *phrase.slots.values()]), []).append(phrase.words)
    chosen = random.Random(SEED)
    picked = [chosen.choice(by_part[part]) for _ in range(4) for part in sorted(by_part)]
    return [(line, PARTS_TO_GO_TO[number % len(PARTS_TO_GO_TO)]) for number, line in enumerate(dict.fromkeys(picked))]


SETS: dict[str, Callable[[], list[tuple[str, str]]]] = {"questions": questions, "chatter": chatter, "jumps": jumps}


def _here() -> Path:
    return Path(__file__).parents[3] / "grammars" / "en"


def _of_commit(commit: str, folder: Path) -> Path:
    archive = subprocess.run(["git", "archive", commit, "."], check=True, capture_output=True, cwd=_here()).stdout
    with tarfile.open(fileobj=io.BytesIO(archive)) as tar:
        tar.extractall(folder, filter="data")
    return next(folder.rglob("universal.jsgf")).parent


def _changed(before: Words, since: Words) -> Iterator[tuple[str, list[str], list[str]]]:
    """Yield each live rule whose phrases have changed or that is new, with what could be said before and still can, and what is new."""
    for rule in sorted({rule for _, rule in examples()}):
        old, new = before.live(rule) if rule in before.rules else None, since.live(rule)
        if new.phrase_count > _WRITTEN_OUT:
            said = [words for words, named in examples() if named == rule]
        else:
            said = [phrase.words for phrase in new.phrases(_WRITTEN_OUT)]
        kept = [words for words in said if old and old.parse(words)]
        added = [words for words in said if words not in kept]
        if added or old is None or old.phrase_count != new.phrase_count:
            yield rule, kept, added


def _spoken(rows: Sequence[tuple[str, str]], speakers: Sequence[str], count: int) -> Iterator[tuple[Said, Audio]]:
    """Have a seeded choice of the rows said, by one voice after another, each when its turn comes."""
    chosen = random.Random(SEED).sample(list(rows), min(count, len(rows)))
    for number, (words, rule) in enumerate(chosen):
        voice = speakers[number % len(speakers)]
        yield Said(words, rule, voice), say(voice, words)


def _told(kind: str, counts: Counter[str], ear: Ear) -> str:
    figures = ", ".join(f"{counts[outcome]} {outcome}" for outcome in ("right", "wrong", "refused"))
    return f"{kind}: {figures} of {counts.total()}; {median(ear.seconds):.2f} s of processor a decision (median)"


def measure(what: str, speakers: Sequence[str], count: int) -> Iterator[str]:
    """Yield the figures of one of ``SETS``: every voice says the questions, all else is shared out."""
    rows = SETS[what]()
    ear = Ear(WhisperEngine.load(writing=load_language().writing), Words.read(_here()))
    if what == "questions":
        said = ((Said(words, rule, voice), say(voice, words)) for words, rule in rows for voice in speakers)
    else:
        said = _spoken(rows, speakers, count)
    yield from _running("chatter (wrong: answered)" if what == "chatter" else what, islice(said, count), ear)


def _running(kind: str, said: Iterable[tuple[Said, Audio]], ear: Ear) -> Iterator[str]:
    """Hear them; yield the sums so far now and then, so that a measure cut short still gives a figure, and the mistakes at the end."""
    counts: Counter[str] = Counter()
    for number, (one, sound) in enumerate(said, start=1):
        counts[ear.hears(one, sound)] += 1
        if number % _TOLD_EVERY == 0:
            yield _told(f"{kind}, so far", counts, ear)
    if counts:
        yield _told(kind, counts, ear)
    yield from ear.mistakes


def cost(commit: str, rules: Sequence[str], speakers: Sequence[str], count: int) -> Iterator[str]:
    """Yield what changing the live sets since a commit has cost; of each kind at most ``count`` are said."""
    engine = WhisperEngine.load(writing=load_language().writing)
    with tempfile.TemporaryDirectory() as folder:
        before, since = Words.read(_of_commit(commit, Path(folder))), Words.read(_here())
        changed = [(rule, kept, added) for rule, kept, added in _changed(before, since) if not rules or rule in rules]
        yield f"live rules changed since {commit}: " + (", ".join(rule for rule, _, _ in changed) or "none")
        if not changed:
            return
        kinds = {
            "said before and now": [(words, rule) for rule, kept, _ in changed for words in kept],
            "said only now": [(words, rule) for rule, _, added in changed for words in added],
            "chatter (wrong: answered)": [(words, changed[number % len(changed)][0]) for number, (words, _) in enumerate(chatter())],
        }
        for kind, rows in kinds.items():
            said = list(_spoken(rows, speakers, count))
            for time, words in (("before", before), ("since", since)):
                # What is only known now is none of the grammars before: there it is right to refuse it.
                yield from _running(f"{kind}, {time}", said, Ear(engine, words))


def main() -> None:
    """Print figures as they come."""
    parser = argparse.ArgumentParser(prog="python -m tests.hearing.voices.measure", description=__doc__)
    parser.add_argument("what", choices=[*SETS, "phrases"])
    parser.add_argument("--voices", default="never", help="a list of voices.toml, or voices with commas between them")
    parser.add_argument("--count", type=int, default=200, help="utterances at most, chosen by a seed; of each kind, for phrases")
    parser.add_argument("--before", metavar="COMMIT", default="HEAD", help="phrases: whose grammars to compare with")
    parser.add_argument("--rules", default="", help="phrases: only these live rules, with commas between them")
    given = parser.parse_args()
    speakers = voices(given.voices) if given.voices in LISTS else tuple(given.voices.split(","))
    rules = tuple(filter(None, given.rules.split(",")))
    lines = cost(given.before, rules, speakers, given.count) if given.what == "phrases" else measure(given.what, speakers, given.count)
    for line in lines:
        print(line, flush=True)


if __name__ == "__main__":
    main()
