"""Print the full tables: ``python -m tests.montecarlo [TRIALS [SEED]]``; 200 trials of each cause in each cell take about an hour."""

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

from . import diagnoses as d
from .gotos import goto_table, run_gotos
from .truth import CAUSES, draw_trial, horizontal


def main(trials: int = 200, seed: int = 2026) -> None:
    """Run and print everything: diagnoses by cell, go-tos, costs."""
    print(f"# {datetime.now(UTC):%Y-%m-%d}, {platform.machine()}, Python {platform.python_version()}, {trials} trials, seed {seed}")
    for cell in d.CELLS:
        outcomes = d.run_cell(cell, trials, seed)
        reading = "2 deg + 20 %" if cell.by_eye else "0.5 deg + 10 %"
        print(f"\n## {cell.misses} miss(es), read to {reading}, {'south' if cell.south else 'north'}; first-named cause, per cent\n")
        print(d.confusion(outcomes), d.reliability(outcomes), sep="\n\n")
        print("\nright group:", ", ".join(f"{cause} {d.rate(outcomes, cause):.3f}" for cause in CAUSES))
        print("by sign:", ", ".join(f"{cause} {d.rate(outcomes, cause, 'sign'):.3f}" for cause in ("latitude", "longitude")))
        count, group, strict = d.trusted(outcomes, 0.9)
        print(f"given at 0.9 or more: {count}, right group {group:.3f}, right {strict:.3f}")
        print(f"confident (0.8) and in the wrong group: {d.confident_and_wrong(outcomes):.4f} of all trials", flush=True)
    for sigma in (0.2, 0.5):
        for index in (0.0, 1.5):
            print(f"\n## go-to after two stars, sighted to {sigma} deg, altitude index of sigma {index} deg: error, degrees\n")
            print(goto_table(sigma, run_gotos(sigma, 5 * trials, seed, index)), flush=True)
    print(f"\n## cost, as a ratio to one astropy evaluation of the same stars\n\n{costs(seed)}")


def costs(seed: int) -> str:
    """Return how long a diagnosis and a fit take, over what astropy takes for the positions of the stars they consider."""
    document: dict[str, Any] = draw_trial("hour", np.random.default_rng(seed), south=False, misses=2, by_eye=False).document
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


main(*(int(word) for word in sys.argv[1:]))
