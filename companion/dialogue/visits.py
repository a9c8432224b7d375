"""The visits to the parts of an evening, gone through or set aside, and how the last step of them is undone.

The conversation holds stage runs, the journal's memory what it recorded of them; for both the order of things is the same.
"""

from __future__ import annotations

from typing import Protocol, TypeVar


class Visit(Protocol):
    """One time that a stage was begun."""

    aside_at: int | None
    """How many visits were gone through when this one was set aside for an earlier part; None where it never was."""
    begun_at: int | None
    """The same when it was set aside first: what was known when it was begun; None where it stands where it was begun."""

    @property
    def name(self) -> str:
        """The stage's name."""
        ...

    def take_back(self) -> bool:
        """Forget the last answer, or that the part was left; False where there is neither."""
        ...


V = TypeVar("V", bound=Visit)


def set_aside(gone: list[V], waiting: list[V]) -> None:
    """Put the visit under way aside, as it is, until its turn comes again."""
    visit = gone.pop()
    visit.aside_at = len(gone)
    if visit.begun_at is None:
        visit.begun_at = len(gone)
    waiting.append(visit)


def take_up(name: str, gone: list[V], waiting: list[V]) -> V:
    """Go on with the visit of that stage that was set aside last, and return it."""
    place = max(place for place, visit in enumerate(waiting) if visit.name == name)
    gone.append(waiting.pop(place))
    return gone[-1]


def step_back(gone: list[V], waiting: list[V]) -> bool:
    """Undo the last answer, or the last going elsewhere; False, and nothing changed, where there is nothing to undo."""
    aside = list(waiting)
    for kept in range(len(gone) - 1, -1, -1):
        visit = gone[kept]
        if visit.take_back():
            gone[kept + 1 :], waiting[:] = [], aside
            return True
        if visit.aside_at is not None:
            aside.append(visit)
        came_from = next((other for other in aside if other.aside_at == kept and other is not visit), None)
        if came_from is not None:
            aside.remove(came_from)
            came_from.aside_at = None
            gone[kept:], waiting[:] = [came_from], aside
            return True
    return False
