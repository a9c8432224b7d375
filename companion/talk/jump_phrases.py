"""What is said when the observer wants to go to another part of the evening: where to, and what that costs."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from companion.talk.answers import YesNoAnswer
from companion.talk.night_phrases import Told
from companion.talk.saying import Ask, Say


class Part(enum.StrEnum):
    """A part of the evening, as people ask for it: the values of slot ``part`` in the rule ``jump``."""

    TRIPOD = "tripod"
    FINDER = "finder"
    POSE = "pose"
    POWER = "power"
    SETTINGS = "settings"
    STARS = "stars"
    PROOF = "proof"
    TARGETS = "targets"
    PACKING = "packing"


@dataclass(frozen=True)
class GoingThere(Say):
    """Say where we go, and where back to afterwards; None where nothing waits."""

    part: Part
    back_to: Part | None


@dataclass(frozen=True)
class MustBeDoneAgain(Ask[YesNoAnswer]):
    """Ask whether to go to a part after which others must be done again."""

    part: Part
    lost: tuple[Part, ...]


@dataclass(frozen=True)
class LeavesUndone(Ask[YesNoAnswer]):
    """Ask whether to go on to the stars without what they are found by."""

    part: Part
    left_out: tuple[Part, ...]


class AlignAnew(Ask[YesNoAnswer]):
    """Ask whether to begin an alignment that is done from its first star."""


class OnlyByHand(Ask[YesNoAnswer]):
    """Ask whether to go to the targets with a mount that doesn't know the sky."""


class PackUpNow(Ask[YesNoAnswer | Told]):
    """Ask whether to go on to packing up; at the targets whatever else is wanted there means no."""


class NothingToProve(Say): ...


class WeAreThere(Say): ...
