"""Writes grammars/en/star_names.jsgf: every star, planet and the Moon that a mount may name, in all spellings displays and people use.

How the names may be written by ear comes from the rules of spelt_by_ear.py. Run by hand after the star table, the aliases or the rules
change: ``python grammars/make_star_names.py``. A test holds the grammar against this.
"""

from __future__ import annotations

import csv
import re
from collections import defaultdict
from collections.abc import Iterable
from importlib import resources
from pathlib import Path

from companion.grammars.spelt_by_ear import spellings
from skyfield.api import load_constellation_names

from companion import sky

LETTERS = 3
"""So many are enough to tell most names apart, and few enough to be heard: of 92 triples in four synthesised voices 85 were."""

HEAD = """#JSGF V1.0 UTF-8 en;

// Made by grammars/make_star_names.py from the star table and its aliases. Asked in a step of its own: the names are many.
grammar star_names;

/**
 * @example it says Alphard
 * @example it's picked Arcturus
 * @example Rigil Kent
 * @example the one in Hydra
 * @example it begins with A L P
 * @counterexample it says
SOUNDS */
public <star_name> = [it says | it's picked | it wants | it shows] <star> {star-name}
                   | the one in <constellation> {star-name}
                   | it begins with <letters> {star-letters};
"""


def grammar_text() -> str:
    """Return the whole file."""
    own_names = {body.name: [body.name] for body in sky.nameable()} | {"Moon": ["the Moon", "Moon"]}
    aliases = defaultdict(list)
    table = resources.files("companion.sky.data") / "star_aliases.csv"
    for row in csv.DictReader(table.read_text("utf-8").splitlines()):
        aliases[row["name"]].append(row["alias"])
    lines, names = [], []
    for name, own in own_names.items():
        every = dict.fromkeys(spelling for spelling in (*own, *aliases[name]) if re.fullmatch(r"[A-Za-z' ]+", spelling))
        lines.append(f"({' | '.join(every)}) {{{name}}}")
        names += every
    brightest = _brightest()
    names += [ways[1 : ways.index(")")] for ways in brightest]
    beginnings = sorted({name.replace(" ", "")[:LETTERS].upper() for name in own_names})
    letters = [f"({' '.join(beginning)}) {{{beginning}}}" for beginning in beginnings]
    return _head(names, beginnings) + "".join((_choice("star", lines), _choice("constellation", brightest), _choice("letters", letters)))


def _choice(rule: str, ways: list[str]) -> str:
    """Return a rule, one way a line."""
    return f"\n<{rule}> = " + f"\n{' ' * (len(rule) + 3)}| ".join(ways) + ";\n"


def _brightest() -> list[str]:
    """Return each constellation with the brightest star of it that a mount may name."""
    latin = {short: name for short, name in load_constellation_names() if name.isascii()}
    brightest: dict[str, str] = {}
    table = resources.files("companion.sky.data") / "stars.csv"
    offered = {body.name for body in sky.nameable()}
    for row in sorted(csv.DictReader(table.read_text("utf-8").splitlines()), key=lambda row: float(row["vmag"])):
        if row["name"] in offered:
            brightest.setdefault(row["constellation"], row["name"])
    return sorted(f"({latin[short]}) {{{star}}}" for short, star in brightest.items() if short in latin)


def _head(names: Iterable[str], beginnings: list[str]) -> str:
    """Return the head of the file, with how names, and letters one after the other, may be written by ear."""
    by_ear = {name: spellings(name) for name in sorted({*names} - {"Moon", "the Moon"})}
    sounds = [f" * @sounds {name} = {' | '.join(ways)}\n" for name, ways in by_ear.items() if ways]
    sounds += [f" * @sounds {' '.join(letters)} = {letters} | {'-'.join(letters)}\n" for letters in beginnings]
    return HEAD.replace("SOUNDS", "".join(sounds))


if __name__ == "__main__":
    (Path(__file__).parent / "en" / "star_names.jsgf").write_text(grammar_text(), "utf-8")
