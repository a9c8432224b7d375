"""Nothing near the Sun is offered or told without its caution: ``python -m tests.sun_rule [MOMENTS [SEED]]``.

Random days of a year, latitudes and hours with the Sun above -1 degree. The lists of ``stars`` and ``tonight`` and what an evening
offers must hold nothing within 15 degrees of it; ``where`` and ``what``, and the same asked in the evening, say the caution first.
Where the Sun is we know from the low-precision formulas of the Astronomical Almanac (page C5, 0.01 degrees), not from the ephemeris.
"""

from __future__ import annotations

import io
import json
import random
import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from math import acos, asin, atan2, cos, degrees, radians, sin
from typing import Any

from companion.cli import main as call
from companion.dialogue import Conversation
from companion.errors import CompanionError
from companion.languages import load_language
from companion.procedure import EVENING
from companion.sky import Moment, Site, find, sight
from companion.vocabulary import load_vocabulary

BERTH_DEG, UP_DEG = 15.0, -1.0
CAUTION = "Never look at the Sun"
IN_ITS_PATH = (
    "Sun",
    "Moon",
    "Mercury",
    "Venus",
    "Mars",
    "Jupiter",
    "Saturn",
    "Regulus",
    "Spica",
    "Antares",
    "Aldebaran",
    "Pollux",
    "Elnath",
)
OFFERING = ("reference-stars", "proof", "targets")


@dataclass(frozen=True)
class Sun:
    """Where it stands, degrees, without air."""

    altitude_deg: float
    azimuth_deg: float

    def apart_deg(self, altitude_deg: float, azimuth_deg: float) -> float:
        """Return how far from it a place in the sky is."""
        here, there = radians(self.altitude_deg), radians(altitude_deg)
        cosine = sin(here) * sin(there) + cos(here) * cos(there) * cos(radians(azimuth_deg - self.azimuth_deg))
        return degrees(acos(max(-1.0, min(1.0, cosine))))


def sun_at(time: datetime, latitude_deg: float, longitude_deg: float) -> Sun:
    """Return where the Sun stands, after the Astronomical Almanac."""
    days = (time - datetime(2000, 1, 1, 12, tzinfo=UTC)) / timedelta(days=1)
    anomaly = radians(357.528 + 0.9856003 * days)
    longitude = radians(280.460 + 0.9856474 * days + 1.915 * sin(anomaly) + 0.020 * sin(2 * anomaly))
    obliquity = radians(23.439 - 0.0000004 * days)
    right_ascension = atan2(cos(obliquity) * sin(longitude), cos(longitude))
    declination = asin(sin(obliquity) * sin(longitude))
    hour_angle = radians(280.46062 + 360.98564737 * days + longitude_deg) - right_ascension
    latitude = radians(latitude_deg)
    altitude = asin(sin(latitude) * sin(declination) + cos(latitude) * cos(declination) * cos(hour_angle))
    azimuth = atan2(
        -cos(declination) * sin(hour_angle), cos(latitude) * sin(declination) - sin(latitude) * cos(declination) * cos(hour_angle)
    )
    return Sun(degrees(altitude), degrees(azimuth) % 360.0)


def _called(*words: str) -> Any:
    out = io.StringIO()
    with redirect_stdout(out), redirect_stderr(io.StringIO()):
        code = call([*words, "--json"])
    assert code in (0, 2, 3), (code, words)
    return json.loads(out.getvalue() or "[]")


def wrongs_by_command(moment: Moment, sun: Sun, chance: random.Random, counts: Counter[str]) -> Iterator[str]:
    """Yield what breaks the rule at a moment; ``counts`` has how much was looked at."""
    site = moment.site
    here = (f"--lat={site.latitude_deg}", f"--lon={site.longitude_deg}", f"--at={moment.time.isoformat()}")

    def near(altitude_deg: float, azimuth_deg: float) -> bool:
        return sun.apart_deg(altitude_deg, azimuth_deg) < BERTH_DEG

    for command in ("stars", "tonight"):
        for told in _called(command, "--count=20", *here):
            counts[f"offered by {command}"] += 1
            where = sight(find(told["name"]), moment)
            if near(where.altitude_deg, where.azimuth_deg):
                yield f"{command} offers {told['name']}"
    looked = {"where": [_called("where", name, *here) for name in chance.sample(IN_ITS_PATH, 4)]}
    azimuth_deg, altitude_deg = (sun.azimuth_deg + chance.uniform(-20, 20)) % 360.0, max(0.0, sun.altitude_deg + chance.uniform(-20, 20))
    looked["what"] = _called("what", f"--azimuth={azimuth_deg:.1f}", f"--altitude={min(90.0, altitude_deg):.1f}", *here)
    for command, all_told in looked.items():
        for told in all_told:
            if told and "altitude_deg" in told and near(told["altitude_deg"], told["azimuth_deg"]):
                counts[f"near the Sun, by {command}"] += 1
                if told["altitude_deg"] > UP_DEG and not told["spoken"].startswith(CAUTION):
                    yield f"{command}: {told['spoken']}"


def wrongs_in_an_evening(moment: Moment, sun: Sun, chance: random.Random, counts: Counter[str]) -> Iterator[str]:
    """Yield the same of what an evening offers, and answers when asked."""

    def near(altitude_deg: float, azimuth_deg: float) -> bool:
        return sun.apart_deg(altitude_deg, azimuth_deg) < BERTH_DEG

    english = load_language()
    vocabulary = load_vocabulary(english)
    for stage in OFFERING:
        conversation = Conversation([part for part in EVENING if part.name == stage], moment.site, english)
        turn = conversation.begin(moment.time)
        for _ in range(3):
            if turn.question is None:
                break
            for name in {fact for said in turn.sayings for key, fact in said.facts.items() if key in ("star", "target", "name") and fact}:
                counts["offered in an evening"] += 1
                where = sight(find(name), moment)
                if near(where.altitude_deg, where.azimuth_deg):
                    yield f"{stage} offers {name}"
            name = chance.choice(IN_ITS_PATH)
            answered = conversation.hear(vocabulary.understand(f"where is {name}", turn.question.expects), moment.time)
            words = " ".join(conversation.words(saying, moment.time) for saying in answered.sayings)
            where = sight(find(name), moment)
            if near(where.altitude_deg, where.azimuth_deg) and where.altitude_deg > UP_DEG:
                counts["near the Sun, asked in an evening"] += 1
                if CAUTION not in words:
                    yield f"asked where {name} is: {words}"
            turn = conversation.hear(vocabulary.understand("skip this", turn.question.expects), moment.time)


def sweep(moments: int, seed: int, counts: Counter[str]) -> Iterator[str]:
    """Yield what breaks the rule at so many moments of 2027, any latitude and longitude, with the Sun above -1 degree."""
    chance = random.Random(seed)
    while counts["moments"] < moments:
        time = datetime(2027, 1, 1, tzinfo=UTC) + timedelta(minutes=chance.randrange(365 * 24 * 60))
        latitude_deg, longitude_deg = round(chance.uniform(-90, 90), 2), round(chance.uniform(-180, 180), 2)
        sun = sun_at(time, latitude_deg, longitude_deg)
        # Half of them at dusk and dawn, where a hand's breadth decides.
        if sun.altitude_deg < UP_DEG or (counts["moments"] % 2 and sun.altitude_deg > 10.0):
            continue
        counts["moments"] += 1
        where = Moment(Site(latitude_deg, longitude_deg), time)
        try:
            for wrong in (*wrongs_by_command(where, sun, chance, counts), *wrongs_in_an_evening(where, sun, chance, counts)):
                yield f"{latitude_deg}, {longitude_deg}, {time.isoformat()}, Sun at {sun.altitude_deg:.1f}: {wrong}"
        except (CompanionError, AssertionError) as error:
            yield f"{latitude_deg}, {longitude_deg}, {time.isoformat()}: {error}"


def main() -> int:
    """Sweep, and print what was found and how much was looked at."""
    moments, seed = (int(number) for number in (*sys.argv[1:3], *("100", "1")[len(sys.argv) - 1 :]))
    counts, found = Counter[str](), 0
    for wrong in sweep(moments, seed, counts):
        found += 1
        print(wrong, flush=True)
    print(f"{found} findings; {dict(counts)}")
    return int(found > 0)


if __name__ == "__main__":
    sys.exit(main())
