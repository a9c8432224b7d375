"""Numbers into words: Sino-Korean for minutes, degrees and coordinates, native numerals for hours, fists and whatever is counted."""

from __future__ import annotations

_DIGITS = "영일이삼사오육칠팔구"
_PLACES = ("", "십", "백", "천")
_NATIVE = ("", "한", "두", "세", "네", "다섯", "여섯", "일곱", "여덟", "아홉")
_NATIVE_TENS = ("", "열", "스물", "서른", "마흔", "쉰", "예순", "일흔", "여든", "아흔")
_IN_A_ROW = ("첫째", "둘째", "셋째", "넷째", "다섯째", "여섯째", "일곱째", "여덟째")
_MOST_NATIVE = 99


def cardinal(number: int) -> str:
    """Return a whole number in Sino-Korean, -99,999,999 to 99,999,999: 46 is "사십육", 10,250 "만 이백오십"."""
    if number < 0:
        return "마이너스 " + cardinal(-number)
    if number == 0:
        return "영"
    high, low = divmod(number, 10_000)
    parts = [("만" if high == 1 else f"{_below_ten_thousand(high)}만")] if high else []
    if low:
        parts.append(_below_ten_thousand(low))
    return " ".join(parts)


def _below_ten_thousand(number: int) -> str:
    said = ""
    for place, figure in enumerate(reversed(str(number))):
        if figure != "0":
            said = ("" if figure == "1" and place else _DIGITS[int(figure)]) + _PLACES[place] + said
    return said


def native(number: int) -> str:
    """Return a number as it is counted before a counter, "한", "두", "스무", 1 to 99; beyond that people change to Sino-Korean."""
    if not 0 < number <= _MOST_NATIVE:
        return cardinal(number)
    if number == 20:
        return "스무"
    tens, units = divmod(number, 10)
    return _NATIVE_TENS[tens] + _NATIVE[units]


def ordinal(number: int) -> str:
    """Return a place in a row: "첫 번째", "두 번째"."""
    return "첫 번째" if number == 1 else f"{native(number)} 번째"


def place(number: int) -> str:
    """Return where something stands in a row, 1 to 8: "첫째", "둘째"."""
    return _IN_A_ROW[number - 1]


def digits(figures: int | str, width: int = 0) -> str:
    """Spell figures singly: "016" is "영 일 육"."""
    return " ".join(_DIGITS[int(figure)] for figure in str(figures).zfill(width))


def decimal(number: float, places: int = 1) -> str:
    """Return a rounded number with its decimals spelt singly: 2.45 to one place is "이 점 사"; a zero tail is dropped."""
    whole, _, tail = f"{abs(number):.{places}f}".partition(".")
    tail = tail.rstrip("0")
    sign = "마이너스 " if number < 0 and (int(whole) or tail) else ""
    return sign + cardinal(int(whole)) + (f" 점 {digits(tail)}" if tail else "")


def count_of(number: int, counter: str) -> str:
    """Return so many of something counted with native numerals: "두 시간", "세 개"."""
    return f"{native(number)} {counter}"


def amount_of(number: int, unit: str) -> str:
    """Return so many of a unit measured in Sino-Korean: "삼십 분", "육십칠 도"."""
    return f"{cardinal(number)} {unit}"
