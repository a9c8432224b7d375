"""What can be answered where a mount is on the line: whether it may turn, and that it turned."""

from __future__ import annotations

from companion.talk.saying import Answers


class TurnAnswer(Answers):
    """Answers of the rule ``turn``."""

    BY_HAND = "by-hand"
    TURN_THERE = "turn-there"
    SKIP = "skip"


class TurnReadilyAnswer(Answers):
    """Answers of the rule ``turn_readily``: after turns that went well a plain yes is enough."""

    BY_HAND = "by-hand"
    TURN_THERE = "turn-there"
    SKIP = "skip"


class TurningAnswer(Answers):
    """Answers of the rule ``turning``. The line gives them, too, with slot ``why`` where it was halted."""

    ARRIVED = "arrived"
    HALTED = "halted"
    SKIP = "skip"


class NudgeAnswer(Answers):
    """Answers of the rule ``nudge``, which is taken beside others and never live: a small step of the tube."""

    MORE = "more"
    NUDGE = "nudge"
    """Slot ``way``: left, right, up or down."""
    TOO_FAR = "too-far"
    WRONG_WAY = "wrong-way"
    SKIP = "skip"


class HaltAnswer(Answers):
    """Answers of the rule ``halt``: what else means the universal "stop" while a mount turns, and only then."""

    STOP = "stop"
    SKIP = "skip"


class HandsAnswer(Answers):
    """Answers of the rule ``hands``, which is never live: whether we may move the mount at all."""

    HANDS_OFF = "hands-off"
    HANDS_ON = "hands-on"
