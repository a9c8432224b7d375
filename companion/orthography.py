"""How the words of a language look when somebody types or transcribes them: what the ear has to know of a language, handed to it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

Words = tuple[str, ...]


def _never(_: Words) -> bool:
    return False


def _nothing(_: Words) -> Words:
    return ()


def _bare(words: Words) -> Words:
    return (f" {words[0]}",) if len(words) == 1 else ()


@dataclass(frozen=True, eq=False)
class Orthography:
    """The written side of one language. The fields' defaults know nothing: every word is written as the grammar spells it."""

    cardinal: Callable[[int], str] = str
    """0..9999 in words, as grammars spell them; typed figures are taken for these."""
    point: str = "."
    """What the mark in a decimal number is called."""
    span_forms: Callable[[Words], Words] = _bare
    """The ways to write words as one thing, each with its leading space; empty when they are none together."""
    glued_forms: Callable[[Words], Words] = _nothing
    """The ways to write words without a space right after a figure."""
    may_go_on: Callable[[Words], bool] = _never
    """Whether words that may be written as one may be so with more after them."""
    may_have_comma: Callable[[str, str], bool] = lambda last, following: False
    """Whether a comma is likely between two words."""
    is_number_word: Callable[[str], bool] = lambda word: False
    """Whether a word belongs to a number said in words."""
    negations: tuple[str, ...] = ()
    """What turns a sentence round, as written: words heard with one are never nearly a phrase without, nor the other way round."""


PLAIN = Orthography()
"""For grammars of no particular language."""


Content: TypeAlias = frozenset[str]
"""What carries the meaning of some words, each of one meaning once."""


@dataclass(frozen=True)
class Telling:
    """Which words of a language tell what a line is about."""

    of_word: Callable[[str], Content | None]
    """What a word carries: nothing for the small ones, None for what is never guessed, as a figure."""
    of_line: Callable[[str], Content]
    """What a line carries."""
    asks: Callable[[str], bool]
    """Whether a line asks something."""
    goes: Callable[[str], bool]
    """Whether a line has a word for going somewhere, or beginning something again."""
    decisive: Content
    """What must be in both or in neither: a direction."""
    negated: str
    """What a line carries that says no to something."""
    commanding: Content
    """What wants something done, and must be in both or in neither, too: "skip"."""
    figure: str
    """What a line carries that has a figure: no guess has any."""
    slight: Content
    """What tells little, and nothing by itself: "how"."""
    opposites: Mapping[str, str] = field(default_factory=dict)
    """What can't be meant where the other was said: "on" and "off"."""
