"""What hears a sound card in real time isn't run beside other tests, and .ci/run leaves no slow test out."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

HERE = Path(__file__).parent
SLOW, ALONE = re.compile(r"^@pytest\.mark\.slow$", re.MULTILINE), re.compile(r"^@pytest\.mark\.alone$", re.MULTILINE)
ON_A_CARD = [
    file for file in sorted(HERE.rglob("test_*.py")) if "import soundcard" in (text := file.read_text("utf-8")) or "soundcard()" in text
]


@pytest.mark.parametrize("file", ON_A_CARD, ids=lambda file: file.stem)
def test_slow_tests_on_a_sound_card_run_alone(file: Path) -> None:
    """Each slow test of a file that opens the virtual card is marked so."""
    text = file.read_text("utf-8")
    assert len(SLOW.findall(text)) == len(ALONE.findall(text))


def test_every_slow_test_is_run() -> None:
    """.ci/run has both halves of them, each once."""
    run = (HERE.parent / ".ci" / "run").read_text("utf-8")
    assert sorted(re.findall(r"pytest -m '(.*)'", run)) == ["slow and alone", "slow and not alone"]
