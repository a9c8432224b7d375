"""Turns a ``Say`` or an ``Ask`` into the sentence that is spoken, for the moment it is spoken at."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from companion.events import Ask, Say
from companion.sky import Moment
from companion.wording import en
from companion.wording.phrase import Phrase

_BOOKS: Mapping[str, Mapping[str, Phrase]] = {"en": en.PHRASES}


def words_for(saying: Say | Ask, moment: Moment, language: str = "en") -> str:
    """Return the words of a saying. Directions are worked out here, for ``moment``, so a repeated sentence points where the star is now."""
    return phrase(saying.phrase, moment, saying.facts, language)


def phrase(key: str, moment: Moment, facts: Mapping[str, Any], language: str = "en") -> str:
    """Return the words of one entry of the book. KeyError is a mistake in a script; a test walks every script to find them."""
    entry = _BOOKS[language][key]
    return entry if isinstance(entry, str) else entry(moment, **facts)
