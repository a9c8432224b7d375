"""The bounds a figure must keep. Each range stands once, beside the value it belongs to; documents, questions and values ask it."""

from __future__ import annotations

from dataclasses import dataclass

_LONGEST_SHOWN = 10**12


@dataclass(frozen=True)
class Range:
    """From one figure to another, both allowed; of a list, how many it may hold."""

    lowest: float
    highest: float
    unit: str

    def __contains__(self, figure: float) -> bool:
        """Say whether a figure lies within; what is no number lies in no range."""
        # Compared as it is, never made a float: a whole number in a file may be too large for one.
        return self.lowest <= figure <= self.highest

    def __str__(self) -> str:
        """Return what may be given, in words."""
        return f"{self.lowest:g} to {self.highest:g} {self.unit}"

    def complaint(self, figure: float) -> str:
        """Return what to say of a figure outside."""
        too_long = isinstance(figure, int) and abs(figure) > _LONGEST_SHOWN
        return f"{'a number so large' if too_long else figure} is not possible; give {self}"
