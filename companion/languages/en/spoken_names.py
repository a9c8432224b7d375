"""Names of things in the sky as they are said aloud."""

from __future__ import annotations

import re

from companion.languages.en.number_words import cardinal, digits

_CATALOGUE = re.compile(r"^(M|NGC|IC|HIP) ?(\d+)$")
_SAID = {"M": "Messier", "NGC": "N G C", "IC": "I C", "HIP": "Hipparcos"}

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
    return f"{_SAID[catalogue]} {cardinal(int(number)) if catalogue == 'M' else digits(number)}"


def kind_in_words(kind: str) -> str:
    """Return what kind of thing something is, with its article."""
    return _KINDS[kind]
