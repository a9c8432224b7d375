"""Make ``deep_sky.csv`` from the OpenNGC database and our own short table of common names.

Run by hand, in an environment that has ``pyongc``: ``python -m companion.sky.data.make_deep_sky_table``.
"""

from __future__ import annotations

import csv
import math
import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from importlib.resources import files
from pathlib import Path

HERE = Path(__file__).parent
FAINTEST_V = 11.0
HEADER = ("names", "designations", "kind", "ra_deg", "dec_deg", "vmag", "vmag_source", "size_arcmin", "width_arcmin", "showpiece")

KINDS = {
    "**": "double star", "*Ass": "open cluster", "OCl": "open cluster", "Other": "open cluster", "GCl": "globular cluster",
    "G": "galaxy", "GPair": "galaxy", "GTrpl": "galaxy", "GGroup": "galaxy", "PN": "planetary nebula", "Cl+N": "nebula",
    "HII": "nebula", "DrkN": "nebula", "EmN": "nebula", "Neb": "nebula", "RfN": "nebula", "SNR": "nebula",
}  # fmt: skip

# What an observer looks for where the database says otherwise.
KIND_OF = {
    "NGC2239": "open cluster", "NGC2264": "open cluster", "NGC1981": "open cluster", "NGC2070": "nebula",
    "NGC0346": "nebula", "IC4715": "star cloud",
}  # fmt: skip

# Well known, yet nothing to send a small telescope to: halves of the Double Cluster, which is listed whole, and a glow too wide and thin.
HELD_BACK = ("NGC0869", "NGC0884", "NGC7000")

# Total V magnitudes of showpieces where the database has none, or one that an observer would not recognise. From memory.
V_FROM_MEMORY = {
    "NGC0253": 7.2, "NGC4945": 8.6, "NGC4755": 4.2, "NGC3372": 3.0, "IC2602": 1.9, "C041": 0.5, "Mel111": 1.8, "NGC6193": 5.2,
    "C014": 3.8, "NGC5139": 3.9, "NGC6656": 5.1, "NGC6254": 6.6, "NGC6218": 6.7, "NGC6402": 7.6, "NGC6273": 6.8, "NGC6333": 7.7,
    "NGC6752": 5.4, "NGC6397": 5.7, "NGC6723": 7.0, "NGC6388": 6.7, "NGC6694": 8.0, "NGC3201": 6.8, "NGC6514": 6.3, "NGC6618": 6.0,
    "NGC6838": 8.2, "NGC7000": 4.0, "NGC6960": 7.0, "NGC6992": 7.0, "NGC6888": 7.4, "NGC7023": 7.0,
}  # fmt: skip

QUERY = """
    select name, type, ra, dec, majax, minax, vmag, messier, identifiers from objects
    where type not in ('*', 'NonEx', 'Dup', 'Nova') order by ra
"""


def tidy(catalogue_name: str) -> str:
    """Return ``NGC0224`` as ``NGC 224``: letters, a space, the number without its leading zeros."""
    return re.sub(r"^([A-Za-z]+) ?0*(\d)", r"\1 \2", catalogue_name)


def common_names() -> dict[str, list[str]]:
    """Read our own names by catalogue number; an entry without a name marks a showpiece that has none.

    The first is the one spoken; where that is blank the number is, and the names that follow are only understood.
    """
    with (HERE / "deep_sky_names.csv").open(encoding="utf-8", newline="") as file:
        return {row["object"]: row["names"].split(";") for row in csv.DictReader(file)}


def rows() -> Iterator[tuple[str | float, ...]]:
    """Make the table: all of Messier and Caldwell, everything we have a name for, and what is brighter than V 11."""
    wanted = common_names()
    with closing(sqlite3.connect(f"file:{files('pyongc') / 'ongc.db'}?mode=ro", uri=True)) as database:
        for name, kind, ra_rad, dec_rad, size, width, v_listed, messier, identifiers in database.execute(QUERY):
            number = re.search(r"\bC (\d{3})\b", identifiers)
            caldwell = f"C{number[1]}" if number else ""
            designations = [f"M {int(messier)}"] if messier else []
            designations += [tidy(each) for each in (name, caldwell) if each and tidy(each) not in designations]
            v_mag = V_FROM_MEMORY.get(name, v_listed)
            names = wanted.pop(tidy(name), None)
            showpiece = name not in HELD_BACK and (bool(messier) or caldwell != "" or name.startswith("C0") or names is not None)
            if not showpiece and (v_mag is None or v_mag > FAINTEST_V):
                continue
            yield (
                ";".join(names or []),
                ";".join(designations),
                KIND_OF.get(name, KINDS[kind]),
                f"{math.degrees(ra_rad):.5f}",
                f"{math.degrees(dec_rad):.5f}",
                "" if v_mag is None else v_mag,
                "" if v_mag is None else "memory" if name in V_FROM_MEMORY else "OpenNGC",
                size or "",
                width or "",
                int(showpiece),
            )
    if wanted:
        raise ValueError(f"named but not in the database: {', '.join(wanted)}")


def main() -> None:
    """Write the table beside this file."""
    with (HERE / "deep_sky.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(HEADER)
        writer.writerows(rows())


if __name__ == "__main__":
    main()
