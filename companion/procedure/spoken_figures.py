"""Figures as they are spoken: what their slots come to, and a question that reads them back before it believes them."""

from __future__ import annotations

from collections.abc import Generator, Mapping

from companion.messages import Answer, Ask, Note, Say
from companion.ranges import Range

MOST_TRIES = 3
"""A figure that is not got right by then is left: saying it louder rarely helps."""


def figure_of(slots: Mapping[str, str]) -> float | None:
    """Return the number that figures said singly, a whole amount or a bearing come to; None where there is none."""
    if singly := slots.get("singly") or slots.get("two_singly") or slots.get("figures"):
        return float("".join(singly.split()))
    if amount := slots.get("amount") or slots.get("few") or slots.get("whole"):
        whole, _, tenths = amount.partition("point")
        return _whole(whole) + (float(tenths) / 10 if tenths else 0.0)
    return None


def number_in(slots: Mapping[str, str], name: str) -> int:
    """Return the number a slot comes to, "40 2" being 42; nothing said is nought."""
    return sum(int(word) for word in slots.get(name, "").split())


def decimals_in(slots: Mapping[str, str], name: str) -> float:
    """Return what figures said after "point" come to, "3 1" being 0.31; nothing said is nought."""
    return float(f"0.{slots.get(name, '').replace(' ', '')}0")


def fists_of(slots: Mapping[str, str]) -> float | None:
    """Return how many fists were said; None where no number was."""
    said = slots.get("fist_count") or slots.get("bare_count")
    return None if said is None else sum(float(word) for word in said.split() if word != "fists")


def ask_figure(what: str, within: Range, expects: str = "millimetres") -> Generator[Say | Ask | Note, Answer, float | None]:
    """Ask for a figure, read it back and ask again while it is wrong; None where it is skipped or left.

    The phrase book has ``what`` as the question and ``what-heard``, with the fact ``figure``, to read it back.
    """
    for _ in range(MOST_TRIES):
        figure = figure_of((yield Ask(what, expects=expects)).slots)
        if figure is None:
            return None
        if figure not in within:
            yield Say("unlikely-figure", {"figure": figure})
            continue
        confirmed = yield Ask(f"{what}-heard", expects="yes_no", facts={"figure": figure})
        if confirmed.command != "no":
            return figure if confirmed.command == "yes" else None
    yield Say("figure-left")
    return None


def _whole(said: str) -> float:
    """Return the sum of the numbers said, where "hundred" and "thousand" multiply what stands before: "1 thousand 2 hundred and 50"."""
    total = group = 0.0
    for word in said.split():
        match word:
            case "hundred":
                group *= 100
            case "thousand":
                total, group = total + group * 1000, 0.0
            case "and":
                pass
            case number:
                group += float(number)
    return total + group
