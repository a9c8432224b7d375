"""Reads the sky's own tables."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from importlib.resources import files

from companion.sky.types import Place


def rows(file: str) -> Iterator[dict[str, str]]:
    """Yield the rows of one of the tables in ``sky/data``, by column."""
    yield from csv.DictReader((files("companion.sky.data") / file).read_text(encoding="utf-8").splitlines())


def place(row: dict[str, str]) -> Place:
    """Return the place of a star's row, with its motion."""
    return Place(
        ra_deg=float(row["ra_deg"]),
        dec_deg=float(row["dec_deg"]),
        pm_ra_mas=float(row["pm_ra_mas"]),
        pm_dec_mas=float(row["pm_dec_mas"]),
        parallax_mas=float(row["parallax_mas"]),
    )
