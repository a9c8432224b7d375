"""``python -m tests.hearing.voices.stars FILE [--voices …] [--anywhere]``: how "it says NAME" is heard, once and, where refused, once more.

Each name of the star question is said by one voice, the next name by the next, on an evening when it is up: what is up and bright is then
known to be likelier, as it is to the companion; ``--anywhere`` leaves that out. What is refused is said again a tenth slower and judged
together with the first. Each decision is added to FILE as a line of JSON, those there already aren't made again. Of voices never tuned on
only sums are told.
"""

from __future__ import annotations

import argparse
import json
import random
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median
from time import process_time

from companion import sky
from companion.dialogue.doubt import sure_from
from companion.dialogue.expectations import names_in_the_sky
from companion.hearing import ActiveSet, Scope, WhisperEngine, listen
from companion.messages import Heard, Hearing, NotUnderstood
from companion.sky import Moment, Site
from companion.talk.answers import StarNameAnswer
from tests.english import ENGLISH, VOCABULARY
from tests.hearing.voices.__main__ import SLOWER
from tests.hearing.voices.synthesisers import LISTS, put_aside, say, voices

SEED = 17
SITES = (Site(46.3, 7.6), Site(35.0, -106.0), Site(-33.5, 18.9), Site(52.2, 0.1), Site(-1.3, 36.8))
UP_DEG, DARK_DEG = 10.0, -6.0
_SAME_SOUND = {"Markeb": "Markab"}
"""Told apart by no ear."""


@dataclass(frozen=True)
class Decision:
    """What was made of one name."""

    name: str
    voice: str
    once: str
    """``right``, ``wrong`` or ``refused``."""
    twice: str
    """The same within two tries; ``offered`` where it is one of two that are asked about."""
    asked_back: bool
    """Whether what was taken would be asked back."""
    heard: str
    confidence: float
    seconds: float
    """Of the processor, for the first try."""


def evening(name: str) -> Moment:
    """Return a dark moment, the same each time, when a name stands well up: somewhere and some night in 2026 to 2028."""
    chosen = random.Random(f"{SEED} {name}")
    while True:
        moment = Moment(chosen.choice(SITES), datetime(2026, 1, 1, tzinfo=UTC) + timedelta(minutes=chosen.randrange(3 * 525_600)))
        body, sun = sky.sights([sky.find(name), sky.find("Sun")], moment)
        if body.altitude_deg >= UP_DEG and sun.altitude_deg <= DARK_DEG:
            return moment


def outcome(hearing: Hearing, name: str) -> str:
    """Say whether a hearing is the name."""
    if isinstance(hearing, Heard):
        star = hearing.slots.get("star", "")
        return "right" if _SAME_SOUND.get(star, star) == _SAME_SOUND.get(name, name) else "wrong"
    likeliest = hearing.likeliest if isinstance(hearing, NotUnderstood) else ()
    return "offered" if any(outcome(one, name) == "right" for one in likeliest) else "refused"


def decisions(rows: Sequence[tuple[str, str]], *, anywhere: bool) -> Iterator[Decision]:
    """Yield what is made of names, each by a voice."""
    engine, live = WhisperEngine.load(writing=ENGLISH.writing), VOCABULARY.active(StarNameAnswer)
    for name, voice in rows:
        prior = None if anywhere else names_in_the_sky(evening(name))
        active: ActiveSet = live.expecting(prior)
        words = f"it says {'the Moon' if name == 'Moon' else name}"
        sound = say(voice, words)
        begun = process_time()
        first = last = listen(engine, sound, Scope(active))
        seconds = process_time() - begun
        if outcome(first, name) == "refused":
            last = listen(engine, say(voice, words, SLOWER), Scope(active, earlier=sound))
        asked_back = isinstance(last, Heard) and last.confidence < sure_from(last, prior, ENGLISH.easily_confused)
        heard = last.phrase if isinstance(last, Heard) else ""
        confidence = round(float(getattr(last, "confidence", 0.0)), 3)
        yield Decision(name, voice, outcome(first, name), outcome(last, name), asked_back, heard, confidence, round(seconds, 2))


def sums(made: Sequence[Decision]) -> Iterator[str]:
    """Yield the figures, and of voices that may be tuned on what went wrong."""
    aside = put_aside()
    for kind, is_aside in (("may be tuned on", False), ("never tuned on", True)):
        some = [one for one in made if (one.voice in aside) is is_aside]
        if some:
            once, twice = Counter(one.once for one in some), Counter(one.twice for one in some)
            back = Counter(one.twice for one in some if one.asked_back)
            seconds = median(one.seconds for one in some)
            yield f"voices that {kind}, {len(some)} names, {seconds:.2f} s of processor (median): once {dict(once)}"
            yield f"    within two tries {dict(twice)}, of these asked back {dict(back)}"
        for one in some:
            if not is_aside and one.once != "right":
                yield f"    {one.voice}: {one.name} {one.once}, {one.twice}: '{one.heard}' ({one.confidence})"


def main() -> None:
    """Measure, and tell the sums."""
    parser = argparse.ArgumentParser(prog="python -m tests.hearing.voices.stars", description=__doc__)
    parser.add_argument("file", type=Path)
    parser.add_argument("--voices", default="tuning", help="a list of voices.toml, or voices with commas between them")
    parser.add_argument("--anywhere", action="store_true", help="as if nothing were known of the sky")
    parser.add_argument("--part", default="1/1", help="which of how many parts of the names")
    given = parser.parse_args()
    speakers = voices(given.voices) if given.voices in LISTS else tuple(given.voices.split(","))
    part, parts = map(int, given.part.split("/"))
    names = sorted(body.name for body in sky.nameable())
    every = [(name, speakers[number % len(speakers)]) for number, name in enumerate(names)][part - 1 :: parts]
    made = [Decision(**json.loads(line)) for line in given.file.read_text("utf-8").splitlines()] if given.file.exists() else []
    done = {(one.name, one.voice) for one in made}
    with given.file.open("a", encoding="utf-8") as file:
        for decision in decisions([row for row in every if row not in done], anywhere=given.anywhere):
            made.append(decision)
            print(json.dumps(asdict(decision)), file=file, flush=True)
    print("\n".join(sums(made)))


if __name__ == "__main__":
    main()
