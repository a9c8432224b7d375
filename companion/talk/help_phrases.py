"""What can be said to the open question, and what this step is for."""

from __future__ import annotations

from dataclasses import dataclass

from companion.talk.saying import Answers, Ask, Say


@dataclass(frozen=True)
class YouCanSay(Say):
    """Name the words that are understood here."""

    rule: type[Answers]


@dataclass(frozen=True)
class HelpWithStep(Say):
    """Explain the open question."""

    question: type[Ask[Answers]]
