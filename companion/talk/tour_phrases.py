"""The spoken tour: what we do, and five phrases that work at any time, each tried out and confirmed."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from companion.talk.saying import Answers, Ask, Say


class TourAnswer(Answers):
    """Answers of the rule ``tour``."""

    LEAVE = "leave-tour"
    NEXT = "next-step"
    SKIP = "skip"


class TourWishAnswer(Answers):
    """Commands of the rule ``tour_wish``: to be shown how we work."""

    TOUR = "take-a-tour"


class Tried(enum.StrEnum):
    """The phrases that are tried out, in this order."""

    REPEAT = "repeat"
    WAIT = "wait"
    BACK = "back"
    WHERE = "where"
    QUIET = "quiet"


class TourOffered(Say):
    """Offer the tour to somebody who was never here."""


class WhatWeDo(Say):
    """Say in a few words what an evening with us is."""


@dataclass(frozen=True)
class TryIt(Ask[TourAnswer]):
    """Have a phrase tried out, and say when it is of use."""

    phrase: Tried


@dataclass(frozen=True)
class ThatWorked(Say):
    """Confirm that a phrase was understood, and say what it does."""

    phrase: Tried


class TourOver(Say):
    """End the tour: what else may be said or asked."""


class TourLeft(Say):
    """End it before its end."""
