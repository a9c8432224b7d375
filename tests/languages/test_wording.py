"""How our sentences sound in the dark: no word for a finished action that is also a direction, no fragments where few words are wanted."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from importlib import resources

import pytest

from companion.languages import load_language

MAY_STAND = (
    r"\bto (the|your) (left|right)\b",
    r"\bto your $",  # the side follows
    r"\b(upper|lower) (left|right)\b",
    r"\b(up|down) and (left|right)\b",
    r"\b(left|right)-hand\b",
    r"\b(left or right|right or left|left and right)\b",
    r"\b(fist|fingers) left\b",
    r"\bquarter turn (left|right)\b",
    r"\b(Is that|that's) right\b",
    r"^(left|right)$",  # a brick of the others
    r"^all right$",  # what people say for yes
    r"\bfrom north something stands, to the right\b",
)
"""Where "left" and "right" may stand: directions, sides, and the one idiom that is answered with "that's right"."""
WHAT_IS_HEARD = (
    *("written_forms.py", "typed_forms.py", "content_words.py", "names_in_lines.py", "easily_confused.py"),
    *("gists.py", "night_gists.py", "form_gists.py"),
)
"""What others write or say, to be found in it: no words of ours."""
FEW_WORDS = {"Ready?", "Done?", "Good night.", "Noted.", "Confirm it.", "That's good.", "Which eyepiece?"}
"""Short forms of fewer than three words that nobody can misread."""


def _our_strings() -> Iterator[str]:
    """Yield every string in the phrase book's files that isn't a docstring; how things are spelt where they are heard is none of ours."""
    for entry in (resources.files("companion.languages") / "en").iterdir():
        if not entry.name.endswith((".py",)) or entry.name in WHAT_IS_HEARD:
            continue
        tree = ast.parse(entry.read_text("utf-8"))
        docs = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
        yield from (
            node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs
        )


def test_right_and_left_are_directions() -> None:
    """Each "left" and "right" in the book is a direction or a side, but for "is that right?"."""
    told = [words for words in _our_strings() if re.search(r"\b(left|right)\b", words, re.IGNORECASE)]
    assert len(told) > 20
    for words in told:
        rest = words
        for pattern in MAY_STAND:
            rest = re.sub(pattern, "", rest, flags=re.IGNORECASE)
        assert not re.search(r"\b(left|right)\b", rest, re.IGNORECASE), words


@pytest.mark.parametrize("entry", [entry for entry in load_language("en").book.terse.values() if isinstance(entry, str)])
def test_short_forms_are_sentences(entry: str) -> None:
    """In few words there are still words enough: no heading, no bare noun."""
    for sentence in re.split(r"(?<=[.?!])\s+", entry):
        assert sentence in FEW_WORDS or len(sentence.split()) >= 3, entry
