"""What can be answered about how something looked."""

from __future__ import annotations

from companion.talk.saying import Answers


class HowItShowedAnswer(Answers):
    """Answers of the rule ``how_it_showed``."""

    EASILY = "easily"
    JUST = "just"
    NOT_AT_ALL = "not-at-all"
    SUSPECTED = "suspected"
    SKIP = "skip"


class HowItLookedAnswer(Answers):
    """Answers of the rule ``how_it_looked``."""

    BRIGHT = "bright"
    BRIGHT_MIDDLE = "bright-middle"
    COLOUR = "colour"
    DARK_PATCH = "dark-patch"
    DETAIL = "detail"
    DONE = "done"
    FAINT = "faint"
    LONG = "long"
    MISTY = "misty"
    ROUND = "round"
    SHARP_EDGE = "sharp-edge"
    SINGLE_STARS = "single-stars"
    TWO = "two"
    SKIP = "skip"


class OneToFiveAnswer(Answers):
    """Answers of the rule ``one_to_five``: five is best."""

    FIVE = "five"
    FOUR = "four"
    ONE = "one"
    THREE = "three"
    TWO = "two"
    SKIP = "skip"
