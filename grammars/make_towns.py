"""Writes grammars/en/towns.jsgf and town_letters.jsgf: the towns an observer may name as the nearest one, and how all of them begin.

Run by hand after the table of towns changes: ``python grammars/make_towns.py``. A test holds the files against this.
"""

from __future__ import annotations

import csv
import re
import unicodedata
from collections import Counter
from importlib import resources
from pathlib import Path

from companion import places

LARGEST, OF_EACH_COUNTRY = 500, 3
"""The largest towns of the world, and the largest of every country: enough to be within a fist's error of most people, and few enough
to be told apart by ear. All other towns can be spelt, or typed."""

HEAD = """#JSGF V1.0 UTF-8 en;

// Made by grammars/make_towns.py from the table of towns. Asked in a step of its own: the names are many. "Near" is always said first,
// so that no other word is taken for a town.
grammar towns;

/**
 * @example near Nairobi
 * @example latitude and longitude
 * @example let me spell it
 * @counterexample Nairobi
 */
public <town> = near <town_name> {town} | [by] latitude and longitude {figures} | let me spell it {spell};

<town_name> = """


def grammar_text() -> str:
    """Return the whole file."""
    chosen: dict[str, places.Town] = {}
    of_country: Counter[str] = Counter()
    for place, town in enumerate(places.towns()):
        of_country[town.country] += 1
        if place < LARGEST or of_country[town.country] <= OF_EACH_COUNTRY:
            # Of two towns of one name the larger is meant, as it is when the name is looked up.
            chosen.setdefault(_heard(town.name), town)
    spellings = {town.name: [_spoken(town.name)] for town in chosen.values()}
    table = resources.files("companion.places.data") / "town_aliases.csv"
    for row in csv.DictReader(table.read_text("utf-8").splitlines()):
        if row["name"] in spellings and _heard(row["alias"]) not in chosen:
            spellings[row["name"]].append(_spoken(row["alias"]))
    return HEAD + "\n            | ".join(f"({' | '.join(every)}) {{{name}}}" for name, every in spellings.items()) + ";\n"


LETTERS_HEAD = """#JSGF V1.0 UTF-8 en;

// Made by grammars/make_towns.py from the table of towns: how their names begin, by the names of the letters or by the words of
// radiotelephony. Live at one question only, and part of no search.
grammar town_letters;

/**
 * @example B R I S
 * @example bravo romeo india sierra
 * @counterexample B
SOUNDS */
public <town_letters> = <letters> {letters};

<letters> = """
WORDS = (
    "alpha bravo charlie delta echo foxtrot golf hotel india juliet kilo lima mike november oscar papa quebec romeo sierra tango uniform "
    "victor whiskey xray yankee zulu"
)
"""For the letters in their order: the alphabet of ICAO Annex 10, as English dictionaries spell it; value from memory."""


def letters_text() -> str:
    """Return the whole file of how the towns' names begin."""
    word = {said[0].upper(): said for said in WORDS.split()}
    ways = [f"({' '.join(each)} | {' '.join(word[letter] for letter in each)}) {{{each}}}" for each in places.town_beginnings()]
    sounds = "".join(f" * @sounds {' '.join(each)} = {each} | {'-'.join(each)}\n" for each in places.town_beginnings())
    return LETTERS_HEAD.replace("SOUNDS", sounds) + "\n          | ".join(ways) + ";\n"


def _spoken(name: str) -> str:
    """Return a name as a recogniser of English can spell it: plain letters, hyphens apart."""
    letters = unicodedata.normalize("NFD", name.translate(_LETTERS)).encode("ascii", "ignore").decode()
    return re.sub(r"[^A-Za-z']+", " ", letters).strip()


def _heard(name: str) -> str:
    """Return what is the same for names that sound the same: George Town, Georgetown."""
    return _spoken(name).replace(" ", "").casefold()


_LETTERS = str.maketrans({"ø": "o", "Đ": "D", "ħ": "h", "ı": "i", "ł": "l", "Ł": "L", "’": "'", "‘": ""})
"""What doesn't come apart into a plain letter and an accent."""

if __name__ == "__main__":
    (Path(__file__).parent / "en" / "towns.jsgf").write_text(grammar_text(), "utf-8")
    (Path(__file__).parent / "en" / "town_letters.jsgf").write_text(letters_text(), "utf-8")
