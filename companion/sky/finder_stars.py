"""Every star a finder shows easily, down to magnitude 6: nameless, for hopping from one to the next."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from companion.sky.ephemeris import Floats
from companion.sky.table_rows import rows


@lru_cache(maxsize=1)
def finder_stars() -> tuple[Floats, Floats, Floats]:
    """Return right ascension, declination (ICRS, epoch 2030, degrees) and V magnitude of N stars, each of shape (N,), brightest first."""
    table = np.array([(float(row["ra_deg"]), float(row["dec_deg"]), float(row["vmag"])) for row in rows("finder_stars.csv")])
    return table[:, 0], table[:, 1], table[:, 2]
