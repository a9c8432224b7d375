"""Turns a ``Say`` or an ``Ask`` into the sentence that is spoken, for the moment it is spoken at and the person it is spoken to."""

from __future__ import annotations

from collections.abc import Mapping

from companion.equipment import Observer
from companion.languages.en import book
from companion.languages.phrase import Chapter, Scene
from companion.messages import Ask, Say
from companion.sky import Moment

_BOOKS: Mapping[str, Chapter] = {"en": book.BOOK}
_ANYBODY = Observer()


def words_for(saying: Say | Ask, moment: Moment, observer: Observer = _ANYBODY, language: str = "en") -> str:
    """Return the words of a saying. Directions are worked out here, for ``moment``, so a repeated sentence points where the star is now.

    KeyError is a mistake in a script; a test walks every script to find them.
    """
    book = _BOOKS[language]
    short = book.terse.get(saying.phrase) if observer.terse else None
    entry = book.phrases[saying.phrase] if short is None else short
    return entry if isinstance(entry, str) else entry(Scene(moment.site, moment.time, observer.fist_deg), **saying.facts)
