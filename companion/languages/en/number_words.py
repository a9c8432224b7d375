"""Numbers into words, so that no synthesiser gets to guess: cardinals, ordinals, single digits and decimals."""

from __future__ import annotations

_UNITS = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
_TENS = ["zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_IRREGULAR_ORDINALS = {"one": "first", "two": "second", "three": "third", "five": "fifth", "eight": "eighth", "nine": "ninth"}


def cardinal(number: int) -> str:
    """Return a whole number in words, -999,999 to 999,999: ``46`` is "forty-six"."""
    if number < 0:
        return "minus " + cardinal(-number)
    if number < len(_UNITS):
        return _UNITS[number]
    if number < 100:
        tens, units = divmod(number, 10)
        return _TENS[tens] + ("-" + _UNITS[units] if units else "")
    if number < 1000:
        hundreds, rest = divmod(number, 100)
        return f"{_UNITS[hundreds]} hundred" + (" and " + cardinal(rest) if rest else "")
    thousands, rest = divmod(number, 1000)
    return f"{cardinal(thousands)} thousand" + ((" and " if rest < 100 else " ") + cardinal(rest) if rest else "")


def ordinal(number: int) -> str:
    """Return an ordinal in words, 0 to 999: ``21`` is "twenty-first"."""
    head, dash, last = cardinal(number).rpartition("-")
    before, space, last = last.rpartition(" ")
    if last in _IRREGULAR_ORDINALS:
        last = _IRREGULAR_ORDINALS[last]
    elif last.endswith("ve"):
        last = last[:-2] + "fth"
    elif last.endswith("y"):
        last = last[:-1] + "ieth"
    else:
        last += "th"
    return head + dash + before + space + last


def digits(figures: int | str, width: int = 0) -> str:
    """Spell figures singly, as radio procedure does (ICAO Annex 10, 5.2.1.4): ``"016"`` is "zero one six"."""
    return " ".join(_UNITS[int(figure)] for figure in str(figures).zfill(width))


def decimal(number: float, places: int = 1) -> str:
    """Return a rounded number with its decimals spelt singly: ``2.45`` to one place is "two point four"; a zero tail is dropped."""
    whole, _, tail = f"{abs(number):.{places}f}".partition(".")
    tail = tail.rstrip("0")
    sign = "minus " if number < 0 and (int(whole) or tail) else ""
    return sign + cardinal(int(whole)) + (f" point {digits(tail)}" if tail else "")


def count_of(number: int, thing: str) -> str:
    """Return "one minute", "two minutes": the thing takes a plain s in the plural."""
    return f"{cardinal(number)} {thing}" + ("" if number == 1 else "s")
