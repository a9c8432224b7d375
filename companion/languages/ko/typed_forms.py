"""How people type what the grammars spell in one way only: formal or familiar endings, figures, "요" left out or put in.

Each way is tried in turn, so a form that fits nothing costs nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from companion.languages.ko.number_words import cardinal, decimal, native

_MARKS = " .!?~,"
_COUNTED = re.compile(r"(\d+)\s*(?=개|번째|시(?!간제))")
"""Figures before what is counted in native numerals."""
_FIGURES = re.compile(r"\d+(?:\.\d+)?")
_LONGEST_FIGURE = 6
_COPULAS = ("이에요", "이예요", "예요", "에요", "이요", "요", "")
"""How a noun is an answer: "위쪽", "위쪽이요", "위쪽이에요"."""
_FORMAL = (
    ("입니다", "이에요"), ("보입니다", "보여요"), ("합니다", "해요"), ("갑니다", "가요"), ("옵니다", "와요"), ("나옵니다", "나와요"),
    ("큽니다", "커요"), ("멉니다", "멀어요"), ("다릅니다", "달라요"), ("모릅니다", "몰라요"), ("습니다", "어요"), ("주십시오", "주세요"),
)  # fmt: skip
_FAMILIAR = (("줘", "주세요"), ("줘요", "주세요"), ("봐", "보세요"), ("몰라요", "모르겠어요"), ("몰라", "모르겠어요"))
_ASKED_IN_ONE = {
    "네네": "네",
    "넵": "네",
    "응": "네",
    "넹": "네",
    "ㅇㅇ": "네",
    "ㅇㅋ": "네",
    "오케이": "네",
    "ok": "네",
    "ㄴㄴ": "아니요",
    "노": "아니요",
}
"""Whole lines as they are typed in a hurry."""
_NOT_LIVE = {
    "네": "네 됐어요", "맞아요": "네 됐어요", "네 맞아요": "네 됐어요", "아니요": "아닙니다", "없어요": "없습니다", "찾았어요": "찾았습니다",
    "있어요": "네 있어요", "들어왔어요": "네 들어왔어요", "잘 보여요": "잘 보였어요", "겨우 보여요": "겨우 보였어요",
}  # fmt: skip
"""What is an answer by voice to some questions only, as the other ones know it."""
_HOW_MANY = (("하나", "한 개"), ("둘", "두 개"), ("셋", "세 개"), ("넷", "네 개"), ("다섯", "다섯 개"))
_MEASURES = re.compile(rf"(주먹|손가락) ?({'|'.join(word for word, _ in _HOW_MANY)})(?! ?개)")


def typed_forms(line: str) -> tuple[str, ...]:
    """Return the other ways to write a line, the nearest to it first."""
    return tuple(dict.fromkeys(_forms(line)))


def _forms(line: str) -> Iterator[str]:
    bare = line.strip(_MARKS)
    short = _ASKED_IN_ONE.get(bare.replace(" ", "").lower())
    for said in (bare, short):
        yield from (form for form in (short, _NOT_LIVE.get(said or "")) if form is not None)
    written = _MEASURES.sub(lambda found: f"{found[1]} {dict(_HOW_MANY)[found[2]]}", _with_figures_in_words(bare))
    for form in dict.fromkeys((bare, written)):
        yield form
        yield from _with_other_endings(form)


def _with_figures_in_words(line: str) -> str:
    counted = _COUNTED.sub(lambda found: f"{native(int(found[1]))} " if len(found[1]) < _LONGEST_FIGURE else found[0], line)
    return _FIGURES.sub(lambda found: _spelt(found[0]), counted)


def _spelt(figures: str) -> str:
    whole, _, tail = figures.partition(".")
    if len(whole) > _LONGEST_FIGURE:
        return figures
    return decimal(float(figures), len(tail)) if tail else cardinal(int(whole))


def _with_other_endings(line: str) -> Iterator[str]:
    for ending, polite in (*_FORMAL, *_FAMILIAR):
        if line.endswith(ending):
            yield line.removesuffix(ending) + polite
    if not line:
        return
    noun = next(line.removesuffix(copula) for copula in ("입니다", *_COPULAS) if line.endswith(copula))
    if noun:
        yield from (noun + copula for copula in _COPULAS)
