"""Print the full tables: ``python -m tests.montecarlo [TRIALS [SEED]]``; 100 trials of each cause and telling take about an hour.

``python -m tests.montecarlo held-out [TRIALS]`` runs what was put aside; see ``held_out``.
``python -m tests.montecarlo conversation [TALKS [SEED]]`` holds so many whole conversations of each telling, a hundred in some minutes;
with ``held-out`` on the seed put aside for them.
"""

from __future__ import annotations

import platform
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

import numpy as np

from companion.alignment.pointing import fit
from companion.diagnosis.diagnose import diagnose
from companion.documents.diagnose_request import read_diagnose_request
from companion.documents.fit_request import read_fit_request

from . import conversation as c
from . import diagnoses as d
from .evening import Telling, document_of, draw_evening
from .gotos import goto_table, run_gotos
from .held_out import HELD_OUT_SEED, HELD_OUT_TALKS_SEED, TUNED_ON, case_trials
from .truth import horizontal


def main(words: list[str]) -> None:
    """Run and print everything: diagnoses by telling beside an ideal observer, go-tos, costs; or what was put aside."""
    aside, talking = "held-out" in words, "conversation" in words
    numbers = [int(word) for word in words if word.isdecimal()]
    put_aside = HELD_OUT_TALKS_SEED if talking else HELD_OUT_SEED
    trials, seed = numbers[0] if numbers else 100, put_aside if aside else (numbers[1:] or TUNED_ON)[0]
    print(f"# {datetime.now(UTC):%Y-%m-%d}, {platform.machine()}, Python {platform.python_version()}, {trials} trials, seed {seed}")
    if talking:
        converse(trials, seed)
        return
    outcomes: list[d.Outcome] = []
    for telling in d.TELLINGS:
        of_telling = d.judge(d.draw_trials(telling, trials, seed))
        first = ", the first centred freely" if telling.first_centred else ""
        show(f"{telling.slews} star(s){first}, {telling.how}, {'south' if telling.south else 'north'}", of_telling)
        outcomes += of_telling
    show("all tellings", outcomes)
    if aside:
        show("evenings written down", d.judge(case_trials()))
        return
    for sigma in (0.2, 0.5):
        for index in (0.0, 1.5):
            print(f"\n## go-to after two stars, sighted to {sigma} deg, altitude index of sigma {index} deg: error, degrees\n")
            print(goto_table(sigma, run_gotos(sigma, 5 * trials, seed, index)), flush=True)
    print(f"\n## cost, as a ratio to one astropy evaluation of the same stars\n\n{costs(seed)}")


def show(title: str, outcomes: list[d.Outcome]) -> None:
    """Print the tables of some outcomes."""
    print(f"\n## {title}: first-named cause, per cent\n")
    print(d.confusion(outcomes), d.beside_the_ideal(outcomes), d.reliability(outcomes), sep="\n\n")
    count, group, strict = d.trusted(outcomes, 0.9)
    print(f"\ngiven at 0.9 or more: {count}, right group {group:.3f}, right {strict:.3f}")
    print(f"confident (0.8) and in the wrong group: {d.confident_and_wrong(outcomes):.4f} of all trials", flush=True)


def converse(count: int, seed: int) -> None:
    """Hold and print conversations."""
    talks: list[c.Talk] = []
    for telling in c.TELLINGS:
        of_telling = list(c.draw_talks(telling, count, seed))
        how = "steered to, however far off" if telling.first_centred else "told"
        print(f"\n## {telling.slews} stars, {telling.how}, the first {how}\n\n{c.summary(of_telling)}", flush=True)
        talks += of_telling
    print(f"\n## all tellings\n\n{c.summary(talks)}\n\n{c.reliability(talks)}\n\n{c.by_cause(talks)}")


def costs(seed: int) -> str:
    """Return how long a diagnosis and a fit take, over what astropy takes for the positions of the stars they consider."""
    rng = np.random.default_rng(seed)
    evening = draw_evening(rng, Telling(2, "measured"))
    document = document_of(evening, evening.mistakes("hour", rng, 1), rng)
    place, when = document["site"], datetime.fromisoformat(document["time"])
    sightings = [
        {"star": miss["star"], "time": document["time"], "reported_azimuth_deg": 40.0 + 90.0 * k, "reported_altitude_deg": 40.0}
        for k, miss in enumerate(document["misses"])
    ]
    astropy = _fastest(lambda: horizontal(place["latitude_deg"], place["longitude_deg"], when))
    diagnosis = _fastest(lambda: diagnose(read_diagnose_request(document)))
    fitting = _fastest(lambda: fit(read_fit_request({"site": place, "sightings": sightings})))
    ratios = f"diagnosis of two misses {diagnosis / astropy:.1f}, fit of two {fitting / astropy:.1f}"
    return f"astropy, 140 stars: {astropy * 1e3:.1f} ms; {ratios}"


def _fastest(work: Callable[[], Any], times: int = 7) -> float:
    """Return the least seconds a piece of work takes."""
    seconds = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - start)
    return min(seconds)


main(sys.argv[1:])
