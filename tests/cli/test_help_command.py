"""``companion help``: topics listed, printed a sentence a line, refused in one line; each may be spoken as it stands."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from companion.cli import main
from companion.languages import load_language
from companion.live import tell_aloud as telling
from companion.talk.tour_phrases import Tried, TryIt
from tests.interview import LONGEST_SENTENCE_WORDS

README = Path(__file__).parents[2] / "README.md"
TOPICS = load_language().topics


def test_topics_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a topic, each stands on a line of its own."""
    assert main(["help"]) == 0
    assert capsys.readouterr().out.splitlines() == list(TOPICS)
    assert {"tour", "gloves", "wind", "headset", "sight", "children", "hearing", "board", "safety", "privacy", "limits"} <= TOPICS.keys()


@pytest.mark.parametrize("code", ["en", "ko"])
@pytest.mark.parametrize("topic", TOPICS)
def test_a_topic_is_printed_a_sentence_a_line(capsys: pytest.CaptureFixture[str], code: str, topic: str) -> None:
    """What is printed is what would be spoken: no figure, no sentence too long to be heard."""
    assert main(["--language", code, "help", topic.upper()]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert " ".join(lines) == load_language(code).topics[topic]
    for line in lines:
        assert line[-1] in ".?!"
        assert not re.search(r"\d", line)
        assert len(line.split()) <= LONGEST_SENTENCE_WORDS, line


def test_the_tour_is_the_one_that_is_spoken(capsys: pytest.CaptureFixture[str]) -> None:
    """Every phrase tried out on the tour stands in the printed one, in its words."""
    assert main(["help", "tour", "--json"]) == 0
    text = json.loads(capsys.readouterr().out)["text"]
    words = load_language().book.phrases[TryIt]
    assert callable(words)
    assert all(words(None, phrase=phrase) in text for phrase in Tried)


def test_the_readme_tells_the_same() -> None:
    """The user's part of the README is the same text, word for word, and names every topic."""
    readme = " ".join(README.read_text("utf-8").split())
    assert TOPICS["tour"] in readme
    assert f"speaks it: {', '.join(TOPICS)}." in readme


def test_the_readme_is_read_in_six_screens() -> None:
    """In a window of eighty columns and forty-five lines (judgement: a laptop's): the rest is told by ``companion help``."""
    lines = README.read_text("utf-8").splitlines()
    assert sum(max(1, -(-len(line) // 80)) for line in lines) <= 6 * 45


def test_an_unknown_topic_is_refused_in_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    """The line names those there are."""
    assert main(["help", "cooking"]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert len(captured.err.splitlines()) == 1
    assert all(topic in captured.err for topic in TOPICS)


def test_aloud_every_line_is_spoken(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """Each printed as it is spoken; where nothing can be spoken the text is there all the same, and the line says what to do."""
    spoken: list[str] = []

    def tell(texts: list[str], _voices: object, show: object, _loudspeaker: object, *, works: bool) -> bool:
        for text in texts:
            show(text)  # type: ignore[operator]
            spoken.append(text)
        return works

    monkeypatch.setattr(telling, "tell_aloud", lambda *told: tell(*told, works=True))
    assert main(["help", "wind", "--aloud"]) == 0
    assert capsys.readouterr().out.splitlines() == spoken == re.split(r"(?<=[.?!])\s+", TOPICS["wind"])
    monkeypatch.setattr(telling, "tell_aloud", lambda *told: tell(*told, works=False))
    assert main(["help", "wind", "--aloud"]) == 3
    assert "check --aloud" in capsys.readouterr().err
