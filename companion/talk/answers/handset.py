"""What can be answered about the keys of a handset, found by feel, and about what tells by touch or ear that something is level."""

from __future__ import annotations

from companion.talk.saying import Answers


class ArrowByCableAnswer(Answers):
    """Answers of the rule ``arrow_by_cable``."""

    CANT_TELL = "cant-tell"
    DOWN = "down"
    LEFT = "left"
    RIGHT = "right"
    UP = "up"
    SKIP = "skip"


class KeyPlaceAnswer(Answers):
    """Answers of the rule ``key_place``: its row and its place in it, in slots ``row`` and ``key``."""

    CANT_TELL = "cant-tell"
    KEY_PLACE = "key-place"
    SKIP = "skip"


class LevelAidAnswer(Answers):
    """Answers of the rule ``level_aid``."""

    MARK = "mark"
    NONE = "none"
    PHONE = "phone"
    SKIP = "skip"
