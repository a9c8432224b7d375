"""The values that pass between the rooms: what was heard, what to say, and what a session is made of. All frozen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from types import MappingProxyType
from typing import Protocol, TypeAlias

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
    slots: Slots = field(default_factory=lambda: NO_SLOTS)
    """Slot name -> value, empty when the phrase has none."""
    confidence: float = 1.0
    """Probability 0..1 that phrase and slots are right."""
    spelling: str = field(default="", compare=False)
    """The same words with the capitals that people write, where these are known."""
    is_guess: bool = field(default=False, compare=False)
    """Whether the words are ours: what a typed line, understood in no other way, is most likely about."""
    beside: tuple[NotNow, ...] = field(default=(), compare=False)
    """What the same line told of the telescope, which nobody asked for."""

    @property
    def written(self) -> str:
        """The words as people write them."""
        return self.spelling or self.phrase


@dataclass(frozen=True)
class NotUnderstood:
    """Something was said, but no active phrase fits well enough."""

    confidence: float = 0.0
    """Probability 0..1 that the best phrase, refused here, would have been right."""
    likeliest: tuple[Heard, ...] = ()
    """The two likeliest phrases, where it is worth while to ask which was said."""
    guesses: tuple[Heard | NotNow, ...] = field(default=(), compare=False)
    """Two guesses at a typed line that are as likely: neither is taken before it is asked which was meant."""


@dataclass(frozen=True)
class NotNow:
    """A phrase we know that is not an answer to what was asked."""

    phrase: str
    """The words as the grammar spells them."""
    command: str
    """The phrase's tag, else the name of its public rule."""
    slots: Slots = field(default_factory=lambda: NO_SLOTS)
    """Slot name -> value, empty when the phrase has none."""
    confidence: float = 1.0
    """Probability 0..1 that phrase and slots are right."""
    spelling: str = field(default="", compare=False)
    """The same words with the capitals that people write, where these are known."""
    is_guess: bool = field(default=False, compare=False)
    """Whether the words are ours: what a typed line, understood in no other way, is most likely about."""
    beside: tuple[NotNow, ...] = field(default=(), compare=False)
    """What the same line told of the telescope, which nobody asked for."""

    @property
    def written(self) -> str:
        """The words as people write them."""
        return self.spelling or self.phrase


@dataclass(frozen=True)
class Silence:
    """Nobody spoke."""


Hearing: TypeAlias = Heard | NotUnderstood | NotNow | Silence


# --- what is known of an answer before it is heard --------------------------------------------------------------------


class Prior(Protocol):
    """How likely what can be said is, beside the likeliest of it."""

    def weight(self, command: str, slots: Slots) -> float:
        """Return a weight, above 0 and at most 1, for what a phrase means; 1 for what nothing is known of."""
        ...


# --- what a session is made of ---------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Answer:
    """What the observer answered to an ``Ask``, and when."""

    command: str
    time: datetime
    slots: Slots = field(default_factory=lambda: NO_SLOTS)
