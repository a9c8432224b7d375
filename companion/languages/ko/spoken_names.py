"""Names of things in the sky, and of towns, as they are said aloud in Korean."""

from __future__ import annotations

import csv
import re
from functools import lru_cache
from importlib.resources import files

from skyfield.api import load_constellation_names

from companion import observing, sky
from companion.languages.ko.number_words import cardinal, digits
from companion.languages.ko.transliteration import GREEK, in_hangul, letters
from companion.observing import catalogue_number
from companion.sky import Body

_CATALOGUE = re.compile(r"^(M|C|Mel|Cl|B|NGC|IC|HIP) ?(\d+)$")
_SAID = {
    "M": "메시에",
    "C": "콜드웰",
    "Mel": "멜로트",
    "Cl": "콜린더",
    "B": "바너드",
    "NGC": "엔지씨",
    "IC": "아이씨",
    "HIP": "히파르코스",
}
_SINGLY = ("NGC", "IC", "HIP")
"""Catalogues of thousands: their numbers are said digit by digit."""
_IN_A_CONSTELLATION = re.compile(r"^(?P<mark>[A-Z][a-z]+|[A-Z]{1,2}\d?|[a-z]|\d+) (?P<of>[A-Z][a-z]+(?: [A-Z][a-z]+)?)$")
"""A star by its letter or number and the genitive of its constellation: "Gamma Velorum", "R Leporis", "16 Cygni"."""
_KINDS = {
    "star": "별",
    "double star": "이중성",
    "carbon star": "탄소별",
    "variable star": "변광성",
    "planet": "행성",
    "moon": "달",
    "sun": "태양",
    "open cluster": "산개성단",
    "globular cluster": "구상성단",
    "galaxy": "은하",
    "nebula": "성운",
    "planetary nebula": "행성상성운",
    "star cloud": "별구름",
    "user": "직접 적어 두신 대상",
}


def spoken_name(name: str) -> str:
    """Return a name for the ear: the usual Korean one, else by its catalogue, its constellation or, letter for letter, its sound."""
    if name in _table("names.csv"):
        return _table("names.csv")[name]
    if match := _CATALOGUE.match(name):
        catalogue, number = match.groups()
        return f"{_SAID[catalogue]} {digits(number) if catalogue in _SINGLY else cardinal(int(number))}"
    if (match := _IN_A_CONSTELLATION.match(name)) and match["of"] in _table("constellations.csv"):
        return f"{_table('constellations.csv')[match['of']]} {_mark(match['mark'])}"
    return in_hangul(name)


def town_name(name: str) -> str:
    """Return a town's name for the ear: the usual Korean one, else its sound in Hangul."""
    return _table("towns.csv").get(name) or in_hangul(name)


def kind_in_words(kind: str) -> str:
    """Return what kind of thing something is."""
    return _KINDS[kind]


def name_and_number(body: Body) -> str:
    """Return the name and the number that is keyed into a hand control: "야생 오리 성단, 메시에 십일"; of a star the name alone."""
    number = catalogue_number(body)
    name = spoken_name(body.name)
    return name if number in (None, body.name) or not _CATALOGUE.match(number) else f"{name}, {spoken_name(number)}"


def known_names() -> dict[str, str]:
    """Return the names that have a usual Korean one."""
    return dict(_table("names.csv"))


def body_called(name: str) -> str:
    """Return the sky's own name for a Korean one, however it is spaced: "목성", "메시에 31", "엠 삼십일"; any other as it is."""
    called = "".join(name.split())
    for catalogue, said in (*_SAID.items(), ("M", "엠")):
        if called.startswith(said) and called.removeprefix(said).isdecimal():
            return f"{catalogue} {called.removeprefix(said)}"
    return _names_in_korean().get(called, name)


def town_called(name: str) -> str:
    """Return our table's name for a town's Korean one, any other as it is."""
    return next((town for town, korean in known_towns().items() if korean == "".join(name.split())), name)


@lru_cache
def _names_in_korean() -> dict[str, str]:
    """Return what the sky calls each thing that has a Korean name, by that name without its spaces."""
    shown = [showpiece.body for showpiece in observing.rated_showpieces()]
    numbers = [number for body in shown if (number := catalogue_number(body)) is not None]
    names = [*known_names(), *(body.name for body in (*shown, *sky.nameable(), *sky.PLANETS)), *numbers]
    called = {spoken_name(name).replace(" ", ""): name for name in reversed(dict.fromkeys(names))}
    return {words.replace("메시에", "엠"): name for words, name in called.items()} | called


def known_towns() -> dict[str, str]:
    """Return the towns that have a usual Korean name."""
    return dict(_table("towns.csv"))


def known_constellations() -> dict[str, str]:
    """Return the Korean names of the constellations by their Latin genitives."""
    return dict(_table("constellations.csv"))


def constellation_name(code: str) -> str:
    """Return a constellation's Korean name by its three letters; both lists go by the alphabet of the Latin names."""
    codes: list[str] = [short for short, _ in sorted(load_constellation_names(), key=lambda pair: pair[1].replace("ö", "o"))]
    korean: dict[str, str] = dict(zip(codes, known_constellations().values(), strict=True))
    return korean[code]


def _mark(mark: str) -> str:
    """Return the letter or number of a star in its constellation."""
    if mark.isdigit():
        return f"{cardinal(int(mark))}번 별"
    return GREEK.get(mark) or " ".join(letters(mark))


@lru_cache
def _table(file: str) -> dict[str, str]:
    """Return the two columns of one of this folder's tables."""
    rows = csv.reader((files("companion.languages.ko") / file).read_text(encoding="utf-8").splitlines()[1:])
    return {row[0]: row[1] for row in rows}
