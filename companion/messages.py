"""The values that pass between the rooms: what was heard, what to say, and what a session is made of. All frozen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from types import MappingProxyType
from typing import Any, TypeAlias

Slots: TypeAlias = Mapping[str, str]
"""Slot name -> value, empty when there is none."""

NO_SLOTS: Slots = MappingProxyType({})


# --- what a recogniser answers --------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Heard:
    """An utterance understood: one phrase of the active grammar."""

    phrase: str
    """The words as the grammar spells them, lower case, single spaces."""
    command: str
    """The phrase's tag, else the name of its public rule."""
    slots: Mapping[str, str] = field(default_factory=lambda: NO_SLOTS)
    """Slot name -> value, empty when the phrase has none."""
    confidence: float = 1.0
    """Probability 0..1 that phrase and slots are right."""


@dataclass(frozen=True)
class NotUnderstood:
    """Something was said, but no active phrase fits well enough."""

    confidence: float = 0.0
    """Probability 0..1 that the best phrase, refused here, would have been right."""


@dataclass(frozen=True)
class NotNow:
    """A phrase we know that is not an answer to what was asked."""

    phrase: str
    """The words as the grammar spells them."""
    command: str
    """The phrase's tag, else the name of its public rule."""
    slots: Mapping[str, str] = field(default_factory=lambda: NO_SLOTS)
    """Slot name -> value, empty when the phrase has none."""
    confidence: float = 1.0
    """Probability 0..1 that phrase and slots are right."""


@dataclass(frozen=True)
class Silence:
    """Nobody spoke."""


Hearing: TypeAlias = Heard | NotUnderstood | NotNow | Silence


# --- what a script yields --------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Say:
    """Tell the observer something. Directions among its facts are worked out when the sentence starts, not here."""

    phrase: str
    """A key of the phrase book."""
    facts: Mapping[str, Any] = field(default_factory=dict)
    """What the phrase needs, as plain values (names, numbers, booleans)."""


@dataclass(frozen=True)
class Ask:
    """Ask the observer something and wait for the answer."""

    phrase: str
    """A key of the phrase book."""
    expects: str
    """The grammar rule that holds the answers; the universal commands are always added."""
    facts: Mapping[str, Any] = field(default_factory=dict)
    """What the phrase needs, as plain values."""
    also: frozenset[str] = frozenset()
    """Commands of other rules that are answers, too. Their phrases are too many to be live beside the others."""


@dataclass(frozen=True)
class Note:
    """Record a decision without saying anything."""

    what: str
    facts: Mapping[str, Any] = field(default_factory=dict)


# --- what a session is made of ---------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Answer:
    """What the observer answered to an ``Ask``, and when."""

    command: str
    time: datetime
    slots: Mapping[str, str] = field(default_factory=lambda: NO_SLOTS)
