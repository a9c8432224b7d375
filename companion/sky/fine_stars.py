"""Stars worth a telescope for their own sake: double stars, and carbon and other variable stars."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, cast

from companion.sky.designations import with_abbreviation
from companion.sky.table_rows import place, rows
from companion.sky.types import Body


@dataclass(frozen=True)
class DoubleStar:
    """A pair of stars that a telescope splits."""

    body: Body
    """Under the name we speak, of kind ``double star``; its magnitude is of both together, its size their separation."""
    names: tuple[str, ...]
    """All it is called, the spoken name first."""
    separation_arcsec: float
    position_angle_deg: float
    """Where the fainter stands, seen from the brighter: from north through east, 0 <= angle < 360."""
    primary_vmag: float
    companion_vmag: float
    year: int
    """When separation and angle were so; within a life they change in the few that circle fast."""


@dataclass(frozen=True)
class VariableStar:
    """A star that changes, or a carbon star, which mostly does."""

    body: Body
    """Under the name we speak, of kind ``variable star`` or ``carbon star``; its magnitude is the middle of its range."""
    names: tuple[str, ...]
    """All it is called, the spoken name first."""
    brightest_vmag: float
    faintest_vmag: float
    period_days: float | None
    """None where it keeps no time."""


@lru_cache(maxsize=1)
def fine_doubles() -> tuple[DoubleStar, ...]:
    """Return the double stars."""
    return tuple(_double(row) for row in rows("double_stars.csv"))


@lru_cache(maxsize=1)
def fine_variables() -> tuple[VariableStar, ...]:
    """Return the carbon stars and the variable stars."""
    return tuple(_variable(row) for row in rows("variable_stars.csv"))


def _double(row: dict[str, str]) -> DoubleStar:
    """Return the double star of one row."""
    separation_arcsec, primary, companion = (float(row[key]) for key in ("separation_arcsec", "primary_vmag", "companion_vmag"))
    together = -2.5 * math.log10(10.0 ** (-0.4 * primary) + 10.0 ** (-0.4 * companion))
    names = tuple(row["names"].split(";"))
    return DoubleStar(
        body=_star(names, int(row["hip"]), "double star", round(together, 1), separation_arcsec / 60.0),
        names=names,
        separation_arcsec=separation_arcsec,
        position_angle_deg=float(row["position_angle_deg"]),
        primary_vmag=primary,
        companion_vmag=companion,
        year=int(row["year"]),
    )


def _variable(row: dict[str, str]) -> VariableStar:
    """Return the variable star of one row."""
    brightest, faintest = float(row["brightest_vmag"]), float(row["faintest_vmag"])
    names = tuple(row["names"].split(";"))
    kind = cast(Literal["carbon star", "variable star"], row["kind"])
    return VariableStar(
        body=_star(names, int(row["hip"]), kind, round((brightest + faintest) / 2.0, 1), None),
        names=names,
        brightest_vmag=brightest,
        faintest_vmag=faintest,
        period_days=float(row["period_days"]) if row["period_days"] else None,
    )


def _star(
    names: tuple[str, ...],
    hip: int,
    kind: Literal["double star", "carbon star", "variable star"],
    magnitude: float,
    size_arcmin: float | None,
) -> Body:
    """Return the body of those names where that Hipparcos star is."""
    row = _places()[hip]
    return Body(
        name=names[0],
        kind=kind,
        magnitude=magnitude,
        designation=next((name for name in names[1:] if len(with_abbreviation(name)) > 1), None),
        place=place(row),
        size_arcmin=size_arcmin,
        color_index=float(row["b_v"]),
    )


@lru_cache(maxsize=1)
def _places() -> dict[int, dict[str, str]]:
    """Return the rows of the generated table of places, by Hipparcos number."""
    return {int(row["hip"]): row for row in rows("fine_stars.csv")}
