"""Put aside: seeds and evenings that no decision about the diagnosis ever sees.

Priors, sizes and spreads were chosen on the seeds of ``TUNED_ON`` and on cases at hand; figures from those flatter. ``HELD_OUT_SEED`` and
``CASES`` are run to report, and once they have led to a change they must be replaced. The cases are written as observers live them, each
by judgement and without a look at what the diagnosis makes of it: sizes and stars are not drawn from any table of ours.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

import numpy as np

from .diagnoses import Trial
from .evening import Evening, Telling, document_of, evening_of
from .ideal import IdealObserver
from .mistakes import Mistakes
from .truth import stars

TUNED_ON = (11, 12, 13, 14, 15, 16, 70_421, 501, 502, 503, 701, 702, 703, 801, 802, 803, 804)
HELD_OUT_SEED = 61_408
"""Run once on 2026-11-26, and spent with it; so was 83 117 before."""
HELD_OUT_TALKS_SEED = 748_615
"""For whole conversations; run once, 100 of each telling, on 2026-11-26. 27 953, 90 411, 417 733 and 593 204 are spent before."""

VIENNA, OSLO, LISBON, DENVER = (48.2, 16.4), (59.9, 10.7), (38.7, -9.1), (39.7, -105.0)
SYDNEY, CAPE_TOWN, SANTIAGO, TOKYO = (-33.9, 151.2), (-33.9, 18.4), (-33.4, -70.6), (35.7, 139.7)


@dataclass(frozen=True)
class Case:
    """One evening: where and when, which stars, how the misses are told, and what was wrong."""

    cause: str
    place: tuple[float, float]
    local: datetime
    """By the Sun's local clock."""
    names: tuple[str, ...]
    telling: Telling
    wrong: dict[str, Any] = field(default_factory=dict)
    """What to set in an ordinary evening's ``Mistakes`` (every row alike); stars and what is added to the start have keys of their own."""
    declination_deg: float = 4.0


def _at(month: int, day: int, hour: int, minute: int = 0) -> datetime:
    """Return a local mean time of 2026."""
    return datetime(2026, month, day, hour, minute, tzinfo=UTC)


EYE, MEASURED, BODY = Telling(2, "eye"), Telling(2, "measured"), Telling(1, "body")
EYE_FREE, MEASURED_FREE, EYE_THREE = Telling(2, "eye", first_centred=True), Telling(2, "measured", first_centred=True), Telling(3, "eye")

CASES = (
    Case("start_azimuth", VIENNA, _at(10, 14, 20, 30), ("Vega", "Alpheratz"), EYE, {"start": (25.0, 0.0)}),
    Case("start_azimuth", SYDNEY, _at(7, 5, 19, 30), ("Antares", "Spica"), MEASURED, {"start": (-40.0, 0.0)}),
    Case("magnetic_declination", CAPE_TOWN, _at(1, 20, 21), ("Canopus", "Rigel"), MEASURED, {"start": (-25.0, 0.0)}, -25.0),
    Case("magnetic_declination", TOKYO, _at(4, 11, 20, 30), ("Regulus", "Capella"), EYE, {"start": (-16.0, 0.0)}, -8.0),
    Case("start_altitude", DENVER, _at(1, 12, 20), ("Capella", "Procyon"), EYE, {"start": (0.0, 20.0)}),
    Case("start_altitude", LISBON, _at(4, 8, 21), ("Regulus", "Capella"), MEASURED, {"start": (0.0, -9.0)}),
    Case("base_tilt", OSLO, _at(10, 3, 21), ("Vega", "Capella"), MEASURED, {"lean_deg": (4.6, 4.6)}),
    Case("base_tilt", SANTIAGO, _at(1, 15, 21), ("Canopus", "Betelgeuse"), EYE, {"lean_deg": (0.0, -8.0)}),
    Case("base_tilt", DENVER, _at(7, 20, 22), ("Altair", "Arcturus"), MEASURED_FREE, {"lean_deg": (-7.0, 0.0)}),
    Case("hour", VIENNA, _at(11, 5, 19), ("Capella", "Deneb"), EYE, {"hours": -1.0}),
    Case("hour", DENVER, _at(7, 8, 22), ("Vega", "Spica"), MEASURED, {"hours": 2.0}),
    Case("hour", SYDNEY, _at(6, 25, 20), ("Rigil Kentaurus", "Spica"), EYE_FREE, {"hours": 10.0}),
    Case("date_day", TOKYO, _at(2, 2, 19, 30), ("Aldebaran", "Procyon"), MEASURED, {"hours": 24.0}),
    Case("date_day", LISBON, _at(10, 20, 20), ("Altair", "Mirfak"), EYE, {"hours": -72.0}),
    Case("date_month", VIENNA, _at(11, 5, 19, 30), ("Vega", "Alpheratz"), MEASURED, {"hours": -178 * 24.0}),
    Case("date_month", DENVER, _at(1, 12, 20), ("Capella", "Procyon"), EYE, {"hours": 31 * 24.0}),
    Case("latitude", SYDNEY, _at(7, 5, 20), ("Antares", "Spica"), EYE, {"latitude_deg": 33.9}),
    Case("latitude", LISBON, _at(4, 8, 21), ("Arcturus", "Pollux"), MEASURED, {"latitude_deg": 28.7}),
    Case("longitude", DENVER, _at(7, 20, 22), ("Altair", "Arcturus"), MEASURED, {"longitude_deg": 105.0}),
    Case("longitude", VIENNA, _at(1, 20, 20), ("Capella", "Procyon"), EYE, {"longitude_deg": 61.4}),
    Case("site", OSLO, _at(10, 3, 21), ("Deneb", "Capella"), MEASURED, {"latitude_deg": 38.7, "longitude_deg": -9.1}),
    Case("site", TOKYO, _at(4, 11, 20, 30), ("Regulus", "Dubhe"), EYE, {"latitude_deg": -33.9, "longitude_deg": 151.2}),
    Case("site", DENVER, _at(1, 12, 20), ("Aldebaran", "Pollux"), EYE_FREE, {"latitude_deg": 21.3, "longitude_deg": -157.9}),
    Case("wrong_star", VIENNA, _at(1, 20, 20), ("Aldebaran", "Capella"), EYE_FREE, {"star": (0, "Betelgeuse")}),
    Case("wrong_star", DENVER, _at(4, 10, 21), ("Regulus", "Arcturus"), MEASURED_FREE, {"star": (0, "Denebola")}),
    Case("wrong_star", LISBON, _at(7, 12, 22), ("Vega", "Arcturus"), EYE, {"star": (0, "Deneb")}),
    Case("wrong_star", CAPE_TOWN, _at(1, 20, 21), ("Sirius", "Achernar"), MEASURED, {"star": (1, "Canopus")}),
    Case("wrong_star", OSLO, _at(2, 15, 20), ("Capella", "Pollux"), EYE, {"star": (1, "Castor")}),
    Case("slipped", DENVER, _at(1, 12, 20), ("Capella", "Procyon"), MEASURED, {"slip": (15.0, 0.0)}),
    Case("slipped", CAPE_TOWN, _at(7, 1, 19, 30), ("Antares", "Spica"), EYE, {"slip": (0.0, -22.0)}),
    Case("slipped", VIENNA, _at(7, 20, 22), ("Altair", "Arcturus", "Deneb"), EYE_THREE, {"slip": (0.0, -14.0)}),
    Case("reversed", DENVER, _at(9, 5, 20), ("Altair",), BODY, {"start": (180.0, 0.0)}),
    Case("reversed", OSLO, _at(10, 3, 21), ("Vega", "Capella"), EYE, {"start": (180.0, 0.0)}),
    Case("none", VIENNA, _at(4, 11, 21), ("Regulus", "Arcturus"), EYE),
    Case("none", SANTIAGO, _at(1, 15, 21), ("Canopus", "Betelgeuse"), MEASURED),
)


def case_trials(seed: int = HELD_OUT_SEED, times: int = 3) -> Iterator[Trial]:
    """Yield each case so many times, each time with other everyday errors and errors of reading."""
    rng = np.random.default_rng(seed)
    for case in CASES:
        evening = evening_of(case.telling, case.place, case.local, [stars()[0].index(name) for name in case.names], case.declination_deg)
        ideal = IdealObserver(evening, rng)
        for _ in range(times):
            document = document_of(evening, _mistakes(case, evening, rng), rng)
            yield Trial(case.cause, "", document, ideal.posterior(document))


def _mistakes(case: Case, evening: Evening, rng: np.random.Generator) -> Mistakes:
    """Return an ordinary evening with a case's mistake in it."""
    mistakes = evening.mistakes("none", rng, 1)
    for name, value in case.wrong.items():
        if name == "start":
            mistakes.start_deg = mistakes.start_deg + np.array(value)
        elif name == "lean_deg":
            mistakes.lean_deg = np.array([value])
        elif name == "slip":
            mistakes.slip_deg[0, 1:] = value
        elif name == "star":
            mistakes.wrong, mistakes.instead = np.array([value[0]]), np.array([stars()[0].index(value[1])])
        else:
            setattr(mistakes, name, np.array([value]))
    return mistakes
