"""What a Korean ear spells in its own way is measured against phrases: small differences are forgiven, other meanings never."""

from __future__ import annotations

import pytest

from companion.hearing.grammar import parse_grammar
from companion.hearing.vosk.nearest import Nearest, letters, nearest

PHRASES = parse_grammar(
    "#JSGF V1.0 UTF-8 ko;\ngrammar t;\npublic <a> = 혼자예요 {alone} | 왼쪽으로요 {left} | 오른쪽으로요 {right} | 구름이 가렸어요 {cloud};"
).phrases(["a"])


def found(live: str, among_all: str) -> Nearest | None:
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
    assert near.phrase.command == command
    assert near.is_near()


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
    near = found(live, among_all)
    assert near is None or not (near.is_near() or near.stands_alone)


@pytest.mark.parametrize(
    ("live", "among_all", "alone"),
    [
        ("구름 이 말해 요", "그름 이 가렸 어요", True),
        ("오른쪽 로 요", "오 왼쪽 으로 요", False),  # left and right again
    ],
)
def test_what_is_alone_among_the_phrases(live: str, among_all: str, alone: bool) -> None:
    """What nothing else comes near to may be farther off, as in noise; what is between two may not."""
    near = found(live, among_all)
    assert (near is not None and near.stands_alone) == alone


def test_letters() -> None:
    """Syllables fall into their letters, and the ring that opens one is silent (Unicode 15, section 3.12, for their order)."""
    assert letters("왼 달 앉아") == "ㅗㅔㄴㄷㅏㄹㅏㄴㅈㅏ"
