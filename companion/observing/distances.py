"""How far away things are: by how long their light takes."""

from __future__ import annotations

import csv
from functools import lru_cache
from importlib.resources import files

from companion.observing.showpieces import showpiece_of
from companion.sky import Body, Moment, ephemeris
from companion.sky.positions import kernel_name

LIGHT_KM_S = 299_792.458
"""The speed of light, exact by the definition of the metre of 1983."""
_LIGHT_YEARS_A_PARSEC = 3.2616
_SMALLEST_PARALLAX_MAS = 3.0
"""A smaller parallax says little: van Leeuwen 2007 has it to a few tenths of a milliarcsecond, of close pairs worse. Judgement."""
_SECONDS_A_DAY = 86_400.0


def light_years(body: Body) -> float | None:
    """Return how far a thing beyond the Sun's family is; None where we don't know.

    Clusters, nebulae and galaxies after ``data/distances.csv``, stars by their parallax in the Hipparcos catalogue (van Leeuwen 2007).
    """
    showpiece = showpiece_of(body)
    if showpiece is not None and showpiece.key in _table():
        return _table()[showpiece.key]
    parallax_mas = body.place.parallax_mas if body.place is not None else 0.0
    return 1000.0 / parallax_mas * _LIGHT_YEARS_A_PARSEC if parallax_mas >= _SMALLEST_PARALLAX_MAS else None


def light_seconds(body: Body, moment: Moment) -> float | None:
    """Return how long the light of the Sun, the Moon or a planet is on its way to the site; None for all else."""
    if body.place is not None:
        return None
    seen = ephemeris.astrometric(moment.site, kernel_name(body), ephemeris.instant(moment.time))
    return float(seen.light_time) * _SECONDS_A_DAY


@lru_cache(maxsize=1)
def _table() -> dict[str, float]:
    """Return the distances by showpiece, light-years."""
    text = (files("companion.observing.data") / "distances.csv").read_text(encoding="utf-8")
    return {row["object"]: float(row["light_years"]) for row in csv.DictReader(text.splitlines())}
