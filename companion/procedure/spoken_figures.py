"""Figures as they are spoken: what their slots come to, and how those that belong together are read back before they are believed."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias, TypeVar, assert_never

from companion.messages import Slots
from companion.procedure.script import Steps, ask
from companion.ranges import Range
from companion.talk.answers import BearingAnswer, FewMillimetresAnswer, FieldWidthAnswer, FinderWidthAnswer, MillimetresAnswer, YesNoAnswer
from companion.talk.equipment_phrases import FigureLeft, UnlikelyFigure
from companion.talk.saying import Ask, UnexpectedAnswer

T = TypeVar("T")
FigureAnswer: TypeAlias = MillimetresAnswer | FewMillimetresAnswer | FieldWidthAnswer | FinderWidthAnswer | BearingAnswer
"""The rules whose answers are one figure."""

MOST_TRIES = 3
"""A figure that is not got right by then is left: saying it louder rarely helps."""
_MM_PER_INCH = 25.4
"""The international inch of 1959, exact."""


def figure_of(slots: Slots) -> float:
    """Return the number that figures said singly, an amount, inches or a bearing come to. Raises UnexpectedAnswer where there is none."""
    if singly := slots.get("singly") or slots.get("two_singly") or slots.get("figures"):
        return float("".join(singly.split()))
    if inches := slots.get("inches"):
        return round(_whole(inches) * _MM_PER_INCH, 1)
    if amount := slots.get("amount") or slots.get("few") or slots.get("wide") or slots.get("width") or slots.get("whole"):
        whole, _, tenths = amount.partition(".")
        return _whole(whole) + (float(tenths) / 10 if tenths else 0.0)
    raise UnexpectedAnswer("an answer that should hold a figure holds none")


def number_in(slots: Slots, name: str) -> int:
    """Return the number a slot comes to, "40 2" being 42; nothing said is nought."""
    return sum(int(word) for word in slots.get(name, "").split())


def decimals_in(slots: Slots, name: str) -> float:
    """Return what figures said after "point" come to, "3 1" being 0.31; nothing said is nought."""
    return float(f"0.{slots.get(name, '').replace(' ', '')}0")


def sky_mag_of(slots: Slots) -> float:
    """Return the magnitudes per square arcsecond that were told of a meter."""
    return number_in(slots, "mag") + decimals_in(slots, "decimals")


def degrees_in(slots: Slots) -> float:
    """Return the size of a latitude or a longitude that was told. Raises UnexpectedAnswer where none was."""
    return figure_of(slots) + number_in(slots, "minute") / 60 + decimals_in(slots, "decimals")


def fists_of(slots: Slots) -> float:
    """Return how many fists were said. Raises UnexpectedAnswer where no number was."""
    said = slots.get("fist_count") or slots.get("bare_count")
    if said is None:
        raise UnexpectedAnswer("an answer that should count fists counts none")
    return sum(float(number) for number in said.split())


def ask_yes_no(question: Ask[YesNoAnswer]) -> Steps[bool | None]:
    """Ask; return True for yes, False for no, None where it was skipped."""
    answer = yield from ask(question)
    match answer.command:
        case YesNoAnswer.YES:
            return True
        case YesNoAnswer.NO:
            return False
        case YesNoAnswer.SKIP:
            return None
        case _:
            assert_never(answer.command)


def ask_figure(question: Ask[FigureAnswer], within: Range) -> Steps[float | None]:
    """Ask for a figure, and again while it can't be one; None where it is skipped or left."""
    for _ in range(MOST_TRIES):
        told = yield from ask(question)
        match told.command:
            case MillimetresAnswer.SKIP | FewMillimetresAnswer.SKIP | FieldWidthAnswer.SKIP | FinderWidthAnswer.SKIP | BearingAnswer.SKIP:
                return None
            case (
                MillimetresAnswer.MILLIMETRES
                | FewMillimetresAnswer.FEW_MILLIMETRES
                | FieldWidthAnswer.FIELD_WIDTH
                | FinderWidthAnswer.FINDER_WIDTH
                | BearingAnswer.BEARING
            ):
                figure = figure_of(told.slots)
            case _:
                assert_never(told.command)
        if figure in within:
            return figure
        yield UnlikelyFigure(figure)
    yield FigureLeft()
    return None


def read_back(ask_them: Callable[[], Steps[T]], heard: Callable[[T], Ask[YesNoAnswer] | None]) -> Steps[T | None]:
    """Ask for figures that belong together, read them back in one sentence, and ask again while they are wrong.

    ``heard`` gives that sentence, None where nothing was told. Return None where they are left.
    """
    for _ in range(MOST_TRIES):
        told = yield from ask_them()
        question = heard(told)
        if question is None:
            return told
        confirmed = yield from ask_yes_no(question)
        if confirmed is not False:
            return told if confirmed else None
    yield FigureLeft()
    return None


def _whole(said: str) -> float:
    """Return the sum of the numbers said, where x100 and x1000 multiply what stands before: "1 x1000 2 x100 50" is 1250."""
    total = group = 0.0
    for code in said.split():
        match code:
            case "x100":
                group *= 100
            case "x1000":
                total, group = total + group * 1000, 0.0
            case number:
                group += float(number)
    return total + group
