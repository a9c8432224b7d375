"""What a phrase book is made of: phrases, their short forms, what can be said to each question, and the help at each."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from companion.equipment import FIST_DEG
from companion.sky import Moment

Phrase: TypeAlias = str | Callable[..., str]
"""Fixed words, or a function ``(scene, **facts) -> words`` for what depends on the sky or on the facts."""


@dataclass(frozen=True)
class Scene(Moment):
    """A moment as one person sees it."""

    fist_deg: float = FIST_DEG
    """How much of the sky that person's fist spans at arm's length."""


@dataclass(frozen=True)
class Chapter:
    """A part of the phrase book, for one part of the evening."""

    phrases: Mapping[str, Phrase]
    """Every sentence, by key."""
    terse: Mapping[str, Phrase] = field(default_factory=dict)
    """Shorter words for some of them, for who knows the procedure."""
    sayable: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """What help offers to say, by grammar rule; a test holds every entry against the grammar files."""
    step_help: Mapping[str, str] = field(default_factory=dict)
    """The first help at each question: what this step is for and how to do it."""


def joined(*chapters: Chapter) -> Chapter:
    """Return one chapter with all the entries of several."""
    return Chapter(
        phrases={key: entry for chapter in chapters for key, entry in chapter.phrases.items()},
        terse={key: entry for chapter in chapters for key, entry in chapter.terse.items()},
        sayable={key: entry for chapter in chapters for key, entry in chapter.sayable.items()},
        step_help={key: entry for chapter in chapters for key, entry in chapter.step_help.items()},
    )
