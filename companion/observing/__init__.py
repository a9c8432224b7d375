"""What is worth seeing tonight, and what can be seen of it. No clock, no words, no audio."""

from companion.observing.eye import Eye, naked_eye_limit_mag
from companion.observing.target_choice import RankedTarget, TargetReason, best_time, sets_at, targets

__all__ = [
    "Eye",
    "RankedTarget",
    "TargetReason",
    "best_time",
    "naked_eye_limit_mag",
    "sets_at",
    "targets",
]
