"""``python -m tests.figures [hearing|seeing|diagnosis …]`` measures anew and writes the README's tables, dated, between their markers.

All three take half an hour on two cores. Voices that are never tuned on, lists and conversations that decided nothing when they were
written: what is run again and again isn't blind any more, and the README says so.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

from companion.bench.page import Page
from companion.bench.recordings import Noise, read_recordings
from companion.hearing import WhisperEngine
from companion.languages import load_language
from tests.english import VOCABULARY
from tests.montecarlo.conversation import SURE, TELLINGS, draw_talks
from tests.observing.hop_walk import walked
from tests.observing.must_sees import ASIDE, PUT_ASIDE_2028, PUT_ASIDE_LAST, PUT_ASIDE_LATER, PUT_ASIDE_NOVEMBER, TUNED
from tests.observing.must_sees_report import compared

README = Path(__file__).parents[1] / "README.md"
LEVELS_DB = (None, 15.0, 9.0)
EACH_VOICE = 30
"""Utterances of each voice, of which every other one is heard."""
WAYS, WALKS_SEED = 300, 7
TALKS, TALKS_SEED = 100, 748615
"""Conversations of each telling. The seed was put aside before its first run."""


def hearing() -> Iterator[str]:
    """Yield how answers by strange voices are heard in a synthesised kitchen."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, "-m", "tests.hearing.voices", folder, "--count", str(EACH_VOICE)], check=True)
        everything = read_recordings(Path(folder), None, None)
        heard = everything[::2]
        page = Page(WhisperEngine.load(writing=load_language().writing), Noise("kitchen", everything), VOCABULARY)
        voices = len({recording.voice for recording in everything})
        yield f"Measured on {_today()} with {len(heard)} examples of what may be answered, each among the answers of its own question, by"
        yield f"{voices} synthesised voices that no fit or threshold is tuned on, in a kitchen that is synthesised as well."
        yield ""
        yield "| speech above the kitchen | right at once | wrong | right within two tries | wrong |"
        yield "|---|---|---|---|---|"
        for level_db in LEVELS_DB:
            tried = [page.tried(recording, level_db) for recording in heard]
            one, two = (Counter(tries.outcome(number) for tries in tried) for number in (1, 2))
            shares = [f"{count / len(heard):.0%}" for count in (one["right"], one["wrong"], two["right"], two["wrong"])]
            yield f"| {'no kitchen' if level_db is None else f'{level_db:g} dB'} | {' | '.join(shares)} |"
        yield ""
        yield "The rest is not understood."


def seeing() -> Iterator[str]:
    """Yield how our rankings stand beside an observer's must-sees, and how many walks by hand arrive."""
    yield f"Measured on {_today()}: five must-sees of one observer an evening, and how many are in our first ten; {WAYS} ways by hand"
    yield f"to showpieces, each walked twenty times (seed {WALKS_SEED}) with an error of ten per cent in every part."
    yield ""
    yield "| | of | found |"
    yield "|---|---|---|"
    aside = (*ASIDE, *PUT_ASIDE_LATER, *PUT_ASIDE_LAST, *PUT_ASIDE_NOVEMBER, *PUT_ASIDE_2028)
    for evenings, how in ((TUNED, "tuned on"), (aside, "that decided nothing when they were written")):
        wanted = sum(len(evening.must_sees) for evening in evenings)
        missing = sum(len(compared(evening).missing) for evening in evenings)
        yield f"| must-sees of {len(evenings)} evenings {how} | {wanted} | {wanted - missing} |"
    found = walked(WAYS, WALKS_SEED)
    yield f"| targets with a way by hand | {found.tasks} | {found.ways} |"
    yield f"| walks that end with the target in the finder | {found.walks} | {found.arrived} |"


def diagnosis() -> Iterator[str]:
    """Yield how whole conversations about a miss end, with people who err."""
    yield f"Measured on {_today()}: simulated conversations (seed {TALKS_SEED}) about a star that was missed, with people who answer"
    yield "wrongly one time in ten, can't tell one time in ten, and estimate by eye."
    yield ""
    yield "| the first star's miss | conversations | first cure right | first or second | sure and wrong |"
    yield "|---|---|---|---|---|"
    for telling in TELLINGS:
        talks = list(draw_talks(telling, TALKS, TALKS_SEED))
        counts = (
            sum(talk.right for talk in talks),
            sum(talk.second_right for talk in talks),
            sum(talk.said >= SURE and not talk.right for talk in talks),
        )
        how = "steered to however far off, and not told" if telling.first_centred else "told"
        yield f"| {how} | {len(talks)} | {' | '.join(f'{count / len(talks):.0%}' for count in counts)} |"


TABLES: dict[str, Callable[[], Iterator[str]]] = {"hearing": hearing, "seeing": seeing, "diagnosis": diagnosis}


def between_markers(text: str, name: str, lines: list[str]) -> str:
    """Return a text with these lines between the markers of that name. Raises ValueError where they aren't there once."""
    marked = re.compile(rf"(<!-- {name}: begin [^\n]*-->\n).*?(<!-- {name}: end -->)", re.DOTALL)
    table = "".join(f"{line}\n" for line in lines)
    new, count = marked.subn(lambda found: f"{found[1]}{table}{found[2]}", text)
    if count != 1:
        raise ValueError(f"the markers of {name} stand there {count} times; once is needed")
    return new


def main(names: list[str]) -> None:
    """Measure what is named, else everything; each table is written when it is done."""
    for name in names or list(TABLES):
        lines = list(TABLES[name]())
        README.write_text(between_markers(README.read_text("utf-8"), name, lines), "utf-8")
        print(f"{name}:", *lines, sep="\n")


def _today() -> str:
    return f"{datetime.now(UTC):%Y-%m-%d}"


if __name__ == "__main__":
    main(sys.argv[1:])
