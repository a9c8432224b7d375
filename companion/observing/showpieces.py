"""What is worth a look: our own rating of 346 objects all over the sky, and what each asks of a telescope."""

from __future__ import annotations

import csv
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib.resources import files

from companion.sky import Body, DoubleStar, VariableStar, find, fine_doubles, fine_variables

UNIFORM_SHARE = 0.707
"""The inner share of what is equally bright all over, and of stars: half of its light lies in half of its area."""


@dataclass(frozen=True)
class Showpiece:
    """Something that rewards the look."""

    key: str
    """Its catalogue number (``M 13``), else its name: what a language's sentence about it is filed under."""
    body: Body
    """As the sky knows it, but magnitude, length and width as they are for the eye."""
    rating: int
    """What it gives where it shows well: 3 nobody should miss, 2 rewards the effort, 1 is for who has seen the rest. Judgement."""
    from_aperture_mm: float
    """The aperture from which it begins to be worth the look. Judgement."""
    field_arcmin: float
    """The field that suits it, with sky or neighbours around it. Judgement."""
    inner_share: float
    """The share of its length and width that holds half of its light: see ``Glows.inner_share``."""
    double: DoubleStar | None = None
    """Its figures where it is a double star."""
    variable: VariableStar | None = None
    """Its figures where it is a carbon or another variable star."""
    famous: bool = False
    """Whether it is among the first that anybody is shown. Common practice, no published source."""


@lru_cache(maxsize=1)
def rated_showpieces() -> tuple[Showpiece, ...]:
    """Return every rated object."""
    doubles = {double.body.name: double for double in fine_doubles()}
    variables = {variable.body.name: variable for variable in fine_variables()}
    table = (files("companion.observing.data") / "showpieces.csv").read_text(encoding="utf-8")
    return tuple(_showpiece(row, doubles.get(row["object"]), variables.get(row["object"])) for row in csv.DictReader(table.splitlines()))


def showpiece_of(body: Body) -> Showpiece | None:
    """Return the showpiece that a body of the sky's catalogue is, None where it is not rated.

    A star that is also a double or a variable is taken as such.
    """
    return _by_name().get(body.name)


@lru_cache(maxsize=1)
def _by_name() -> dict[str, Showpiece]:
    """Return the showpieces by the name of their body, and of the one that ``find`` gives for them."""
    return {name: showpiece for showpiece in rated_showpieces() for name in (find(showpiece.key).name, showpiece.body.name)}


def _showpiece(row: dict[str, str], double: DoubleStar | None, variable: VariableStar | None) -> Showpiece:
    """Return the showpiece of one row."""
    fine = double or variable
    body = fine.body if fine else find(row["object"])
    return Showpiece(
        key=row["object"],
        body=replace(
            body,
            magnitude=float(row["vmag"]) if row["vmag"] else body.magnitude,
            size_arcmin=float(row["length_arcmin"]) if row["length_arcmin"] else body.size_arcmin,
            width_arcmin=float(row["width_arcmin"]) if row["width_arcmin"] else body.width_arcmin,
        ),
        rating=int(row["rating"]),
        from_aperture_mm=float(row["from_aperture_mm"]),
        field_arcmin=float(row["field_arcmin"]),
        inner_share=float(row["inner_share"]) if row["inner_share"] else UNIFORM_SHARE,
        double=double,
        variable=variable,
        famous=row["famous"] == "1",
    )
