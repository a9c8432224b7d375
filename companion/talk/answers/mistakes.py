"""What can be answered while a mistake is looked for."""

from __future__ import annotations

from companion.talk.saying import Answers


class MissAnswer(Answers):
    """Answers of the rule ``miss``."""

    BEHIND = "behind"
    JUST_OUTSIDE = "just-outside"
    MISS = "miss"
    NOWHERE = "nowhere"
    SAME = "same"
    TURN = "turn"
    SKIP = "skip"


class CheckAnswer(Answers):
    """Answers of the rule ``check``."""

    CANT_TELL = "cant-tell"
    NO = "no"
    YES = "yes"
    SKIP = "skip"


class FacingAnswer(Answers):
    """Answers of the rule ``facing``."""

    CANT_TELL = "cant-tell"
    EAST = "east"
    NORTH = "north"
    SOUTH = "south"
    WEST = "west"
    SKIP = "skip"


class GroundAnswer(Answers):
    """Answers of the rule ``ground``."""

    CANT_TELL = "cant-tell"
    NO = "no"
    YES = "yes"
    SKIP = "skip"


class KnockAnswer(Answers):
    """Answers of the rule ``knock``."""

    CANT_TELL = "cant-tell"
    NO = "no"
    YES = "yes"
    SKIP = "skip"
