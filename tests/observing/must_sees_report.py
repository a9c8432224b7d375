"""Our first ten beside an observer's must-sees: ``python -m tests.observing.must_sees_report`` prints all evenings."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from companion.observing import Outfit, RankedTarget, targets
from companion.sky import find, separation_deg, sight
from tests.observing.must_sees import ASIDE, PUT_ASIDE_2028, PUT_ASIDE_LAST, PUT_ASIDE_LATER, PUT_ASIDE_NOVEMBER, TUNED, Evening

ONE_VIEW_DEG = 0.7
"""What lies no farther from one of ours is seen with it: M 82 with M 81."""


@dataclass(frozen=True)
class Compared:
    """One evening's two lists."""

    ours: list[RankedTarget]
    """Our first ten, best first."""
    missing: list[str]
    """Which must-sees are not among them."""


@cache
def ranked(evening: Evening, count: int = 10) -> list[RankedTarget]:
    """Return our ranking of an evening."""
    return targets(evening.moment, count, outfit=Outfit(evening.telescope, evening.eyepieces), sky=evening.sky)


def compared(evening: Evening) -> Compared:
    """Return our list and what it lacks."""
    ours = ranked(evening)
    seen = {name: sight(find(name), evening.moment) for name in evening.must_sees}
    missing = [
        name
        for name in evening.must_sees
        if all(target.showpiece.key != name and separation_deg(target.sight, seen[name]) > ONE_VIEW_DEG for target in ours)
    ]
    return Compared(ours, missing)


def main() -> None:
    """Print every evening."""
    for title, evenings in (
        ("tuned on", TUNED),
        ("put aside", ASIDE),
        ("put aside later", PUT_ASIDE_LATER),
        ("put aside last", PUT_ASIDE_LAST),
        ("put aside in November", PUT_ASIDE_NOVEMBER),
        ("put aside of 2028", PUT_ASIDE_2028),
    ):
        found = 0
        for evening in evenings:
            both = compared(evening)
            found += len(evening.must_sees) - len(both.missing)
            print(f"{evening.name}: {len(evening.must_sees) - len(both.missing)} of {len(evening.must_sees)}")
            print(f"  must be seen: {', '.join(evening.must_sees)}{f'; missing: {both.missing}' if both.missing else ''}")
            print(f"  our first ten: {', '.join(target.showpiece.key for target in both.ours)}")
        print(f"{title}: {found} of {sum(len(evening.must_sees) for evening in evenings)}\n")


if __name__ == "__main__":
    main()
