"""Spellings by ear from a name's letters: general rules, so that a name nobody has tried is heard as well as those that were."""

from __future__ import annotations

import re
from importlib import resources

import pytest
from companion.grammars.spelt_by_ear import MOST, RULES, spellings

from companion import sky


@pytest.mark.parametrize(
    ("name", "heard"),
    [
        ("Phecda", "Fecda"),  # a Greek ph
        ("Algieba", "Al Jeeba"),  # the article, and a Latin g
        ("Menkar", "Men Kar"),  # a first syllable that might be a word
        ("Xamidimura", "Zamidimura"),  # no English word begins with an x that is said
        ("Sadalmelik", "Sadalmelick"),  # English doubles it
        ("Deneb", "Denep"),  # voice is lost at the end
        ("Betelgeuse", "Beetlejuice"),  # what English made of it
        ("Deneb Algedi", "Deneb Al Jedee"),  # word by word
    ],
)
def test_a_name_is_spelt_as_it_is_heard(name: str, heard: str) -> None:
    """Each by a rule of another kind."""
    assert heard in spellings(name)


def test_there_are_few_and_none_is_the_name() -> None:
    """Every name a mount may say has at most so many, each in letters that a grammar's comment can hold, each once."""
    for body in sky.nameable():
        found = spellings(body.name)
        assert len(set(found)) == len(found) <= MOST
        assert body.name not in found
        assert all(re.fullmatch(r"[A-Za-z ]+", spelling) for spelling in found)


def test_every_rule_serves() -> None:
    """A rule that no name of the grammar calls for is dead."""
    names = (resources.files("companion.grammars") / "en" / "star_names.jsgf").read_text("utf-8").partition("<star> =")[2]
    words = set(re.findall(r"[a-z]+", names.lower()))
    assert not [letters for letters, _, _ in RULES if not any(re.search(letters, word) for word in words)]
