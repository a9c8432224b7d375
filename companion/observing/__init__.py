"""What is worth seeing tonight. No clock, no words, no audio."""

from companion.observing.target_choice import RankedTarget, TargetReason, best_time, sets_at, targets

__all__ = [
    "RankedTarget",
    "TargetReason",
    "best_time",
    "sets_at",
    "targets",
]
