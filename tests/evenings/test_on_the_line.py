"""Evenings with a mount on the line, read as conversations: exactly the replies that stand in the script."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.evenings.linked import played, scripts
from tests.evenings.script import Script


@pytest.mark.parametrize("path", scripts(), ids=lambda path: path.stem)
def test_the_evening_goes_as_written(path: Path) -> None:
    """Every reply is the one in the script, word for word; what the header asks for is heard in that order, what it forbids is not."""
    script = Script.read(path)
    lines = [line for line, _ in played(script)]
    assert lines == list(script.lines)
    everything, at = "\n".join(line for line in lines if line.startswith("it:")), 0
    for words in script.facts["says"]:
        found = everything.find(words, at)
        assert found >= 0, f"{words!r} is not heard after {everything[max(0, at - 60) : at]!r}"
        at = found + len(words)
    assert not [words for words in script.facts["never_says"] if words in everything]
