"""Names of things in the sky as they are said aloud."""

from __future__ import annotations

import re

from companion.languages.en.number_words import cardinal, digits
from companion.observing import catalogue_number
from companion.sky import Body

_CATALOGUE = re.compile(r"^(M|C|Mel|Cl|B|NGC|IC|HIP) ?(\d+)$")
_SAID = {
    "M": "Messier",
    "C": "Caldwell",
    "Mel": "Melotte",
    "Cl": "Collinder",
    "B": "Barnard",
    "NGC": "N G C",
    "IC": "I C",
    "HIP": "Hipparcos",
}
_SINGLY = ("NGC", "IC", "HIP")
"""Catalogues of thousands: their numbers are said digit by digit."""

_KINDS = {
    "star": "a star",
    "double star": "a double star",
    "carbon star": "a carbon star",
    "variable star": "a variable star",
    "planet": "a planet",
    "moon": "the Moon",
    "sun": "the Sun",
    "open cluster": "an open star cluster",
    "globular cluster": "a globular star cluster",
    "galaxy": "a galaxy",
    "nebula": "a nebula",
    "planetary nebula": "a planetary nebula",
    "star cloud": "a star cloud",
    "user": "from your own list",
}


def spoken_name(name: str) -> str:
    """Return a name for the ear: catalogue numbers are spelt out ("Messier thirty-one", "N G C eight six nine")."""
    if name in ("Moon", "Sun"):
        return f"the {name}"
    match = _CATALOGUE.match(name)
    if not match:
        # "47 Tucanae" and the like.
        return re.sub(r"\d+", lambda number: cardinal(int(number.group())), name)
    catalogue, number = match.groups()
    return f"{_SAID[catalogue]} {digits(number) if catalogue in _SINGLY else cardinal(int(number))}"


def kind_in_words(kind: str) -> str:
    """Return what kind of thing something is, with its article."""
    return _KINDS[kind]


def name_and_number(body: Body) -> str:
    """Return the name and the number that is keyed into a hand control: "Wild Duck Cluster, Messier eleven"; of a star the name alone."""
    number = catalogue_number(body)
    name = spoken_name(body.name)
    return name if number in (None, body.name) or not _CATALOGUE.match(number) else f"{name}, {spoken_name(number)}"
