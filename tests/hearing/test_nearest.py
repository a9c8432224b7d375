"""What a Korean ear spells in its own way is measured against phrases: small differences are forgiven, other meanings never."""

from __future__ import annotations

import pytest

from companion.hearing.grammar import Phrase, parse_grammar
from companion.hearing.vosk.nearest import NEAR, letters, nearest

PHRASES = parse_grammar(
    "#JSGF V1.0 UTF-8 ko;\ngrammar t;\npublic <a> = 혼자예요 {alone} | 왼쪽으로요 {left} | 오른쪽으로요 {right} | 구름이 가렸어요 {cloud};"
).phrases(["a"])


def found(live: str, among_all: str) -> tuple[Phrase, float] | None:
    """Look for words heard among the live phrases and among all."""
    return nearest((live.split(), among_all.split()), PHRASES)


@pytest.mark.parametrize(
    ("live", "among_all", "command"),
    [
        ("혼자 이에요", "혼자 이에요", "alone"),
        ("구름 이 가렸 어요", "그름 이 가렸 어요", "cloud"),
        ("왼쪽 으로 요", "왼 적 으로 요", "left"),
    ],
)
def test_other_spellings_are_forgiven(live: str, among_all: str, command: str) -> None:
    """The phrase is found, and how far it was is told."""
    near = found(live, among_all)
    assert near is not None
    assert near[0].command == command
    assert 0 <= near[1] <= NEAR


@pytest.mark.parametrize(
    ("live", "among_all"),
    [
        ("혼자 이에요", "다음 대상"),  # only who listens for nothing else hears it so
        ("쪽으로 요", "쪽으로 요"),  # left and right are as near
        ("", "혼자 예요"),
    ],
)
def test_what_is_far_or_between_two_is_none(live: str, among_all: str) -> None:
    """What is heard otherwise among all phrases, or lies between two answers, is no answer."""
    assert found(live, among_all) is None


def test_letters() -> None:
    """Syllables fall into their letters, and the ring that opens one is silent (Unicode 15, section 3.12, for their order)."""
    assert letters("왼 달 앉아") == "ㅗㅔㄴㄷㅏㄹㅏㄴㅈㅏ"
