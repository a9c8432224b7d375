"""The cache of rendered sentences."""

from __future__ import annotations

import numpy as np
import pytest

from companion.audio import Audio
from companion.errors import MissingPart
from companion.speaking.cache import CachedVoice


class CountingVoice:
    """Says each sentence as one second of its length, and counts."""

    name = "counting"

    def __init__(self) -> None:
        """Start with nothing said."""
        self.rate_wpm = 165
        self.rendered: list[str] = []
        self.closed = False

    def render(self, text: str) -> Audio:
        """Return one second of a constant."""
        if text == "fail":
            raise MissingPart("no voice")
        self.rendered.append(text)
        return Audio(np.full(100, len(text), np.float32), 100)

    def close(self) -> None:
        """Note it."""
        self.closed = True


def test_a_sentence_is_rendered_once() -> None:
    """The second time gives the very same sound."""
    counting = CountingVoice()
    voice = CachedVoice(counting)
    assert voice.render("one") is voice.render("one")
    assert counting.rendered == ["one"]
    assert voice.name == "counting"


def test_another_rate_is_another_sentence() -> None:
    """A sentence kept at one rate isn't used at another."""
    counting = CountingVoice()
    voice = CachedVoice(counting)
    voice.render("one")
    voice.rate_wpm = 200
    voice.render("one")
    assert counting.rendered == ["one", "one"]
    assert counting.rate_wpm == 200


def test_the_sentence_unused_longest_is_forgotten_first() -> None:
    """With room for two, using the first again makes the second the one to go."""
    counting = CountingVoice()
    voice = CachedVoice(counting, seconds=2.0)
    for text in ("one", "two", "one", "three", "one", "two"):
        voice.render(text)
    assert counting.rendered == ["one", "two", "three", "two"]


def test_failures_are_not_kept_and_closing_is_passed_on() -> None:
    """A failure is raised each time; close reaches the voice within."""
    counting = CountingVoice()
    voice = CachedVoice(counting)
    for _ in range(2):
        with pytest.raises(MissingPart):
            voice.render("fail")
    voice.close()
    assert counting.closed
