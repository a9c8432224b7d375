"""The words that work at any time, and yes, no, ready and which of two."""

from __future__ import annotations

from companion.talk.saying import Answers


class YesNoAnswer(Answers):
    """Answers of the rule ``yes_no``."""

    NO = "no"
    YES = "yes"
    SKIP = "skip"


class EitherAnswer(Answers):
    """Answers of the rule ``either``."""

    FIRST = "first"
    NEITHER = "neither"
    SECOND = "second"
    SKIP = "skip"


class ReadyAnswer(Answers):
    """Answers of the rule ``ready``."""

    READY = "ready"
    SKIP = "skip"


class UniversalAnswer(Answers):
    """The words that work at any time."""

    BEGIN_PART_AGAIN = "begin-part-again"
    BRIEFLY = "briefly"
    CARRY_ON = "carry-on"
    DONT_KNOW = "dont-know"
    """As ``HELP``, but for questions that take it as an answer."""
    FASTER = "faster"
    GO_BACK = "go-back"
    GOOD_NIGHT = "good-night"
    HELP = "help"
    IN_FULL = "in-full"
    LEAVE_PART = "leave-part"
    LOST = "lost"
    LOUDER = "louder"
    SAY_AGAIN = "say-again"
    SKIP = "skip"
    SLOWER = "slower"
    SOFTER = "softer"
    STOP = "stop"
    THERE = "there"
    WAIT = "wait"
    WHAT_HEARD = "what-heard"
    WHAT_TIME = "what-time"
    WHY = "why"
    WORDS = "words"
