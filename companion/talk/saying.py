"""What scripts are made of: what is said, what is asked, and what can be answered. Each sentence is a class of its own, with its facts.

The words are not here: every language has them, one entry for each class (``languages/``).
"""

from __future__ import annotations

import enum
import re
from dataclasses import dataclass, field, fields
from datetime import datetime
from typing import Any, ClassVar, Generic, TypeAlias, TypeVar, get_args, get_origin

from companion.messages import NO_SLOTS, Answer, Slots

_WORD_BEGINS = re.compile(r"(?<!^)(?=[A-Z])")


class Answers(enum.StrEnum):
    """The answers of one grammar rule; its name is the rule's, with "Answer" behind it."""

    @classmethod
    def rule(cls) -> str:
        """Return the grammar's name of the rule: ``star_name`` for ``StarNameAnswer``."""
        return _WORD_BEGINS.sub("_", cls.__name__.removesuffix("Answer")).lower()

    @classmethod
    def said_otherwise(cls) -> frozenset[str]:
        """Return the answers that have no words in the live rule, only among its other words: for rules with many answers."""
        return frozenset()


A = TypeVar("A", bound=Answers)
A_co = TypeVar("A_co", bound=Answers, covariant=True)


class Wanted:
    """Something a script yields, with its facts: plain values. Directions are worked out when a sentence starts, not here."""

    @classmethod
    def code(cls) -> str:
        """Return its name in a journal: ``first-star`` for ``FirstStar``."""
        return _WORD_BEGINS.sub("-", cls.__name__).lower()

    @property
    def facts(self) -> dict[str, Any]:
        """The facts by name."""
        return {fact.name: getattr(self, fact.name) for fact in fields(self)}  # type: ignore[arg-type]


@dataclass(frozen=True)
class Say(Wanted):
    """Tell the observer something."""


@dataclass(frozen=True)
class Receipt(Say):
    """Tell what became of the answer just given: left out where the question behind it is gone back to."""


@dataclass(frozen=True)
class Note(Wanted):
    """Record a decision without saying anything."""


@dataclass(frozen=True)
class Call(Wanted):
    """Ask a device something, or tell it to do something. What comes of it is an answer to the script, and journalled as one."""

    acts: ClassVar[bool] = True
    """Whether it changes anything: then it is written down before it is sent, and never sent for a replay or after a resume."""


class Outcome(enum.StrEnum):
    """What came of a call: the command of the answer to it. What was told, or why it failed, stands in the slots as plain words."""

    DONE = "call-done"
    FAILED = "call-failed"


def is_of_a_device(answer: Answer) -> bool:
    """Say whether an answer is a device's, to a call, and not the observer's."""
    return answer.command in set(Outcome)


@dataclass(frozen=True)
class Reply(Generic[A_co]):
    """The answer to a question, as one of those that can be given to it."""

    command: A_co
    time: datetime
    slots: Slots = field(default_factory=lambda: NO_SLOTS)


class UnexpectedAnswer(ValueError):
    """An answer that the question can't have: a journal of another version, or a grammar that doesn't fit."""


@dataclass(frozen=True)
class Ask(Wanted, Generic[A_co]):
    """Ask the observer something and wait for the answer: one of ``A``, a union where answers of further rules are taken, too."""

    expects: ClassVar[type[Answers]]
    """The rule that is live, the universal words always beside it."""
    also: ClassVar[tuple[type[Answers], ...]]
    """Rules whose answers are taken, too. Their phrases are too many to be live beside the others: they are found in a second search."""

    def __init_subclass__(cls) -> None:
        """Read the rules off the class's own header."""
        super().__init_subclass__()
        for base in getattr(cls, "__orig_bases__", ()):
            if get_origin(base) is Ask:
                (wanted,) = get_args(base)
                cls.expects, *further = get_args(wanted) or (wanted,)
                cls.also = tuple(further)

    def reply(self, answer: Answer) -> Reply[A_co]:
        """Return an answer as one of those expected. Raises UnexpectedAnswer for any other."""
        for rule in (self.expects, *self.also):
            if answer.command in set(rule):
                return Reply(rule(answer.command), answer.time, answer.slots)  # type: ignore[arg-type]
        raise UnexpectedAnswer(f"'{answer.command}' is no answer to {self.code()}")


Saying: TypeAlias = Say | Ask[Answers]
"""What has words."""
