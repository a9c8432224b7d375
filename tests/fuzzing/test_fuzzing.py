"""A seeded part of the sweeps: a thousand damaged inputs in all. More of them: ``python -m tests.fuzzing 20000 7``."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.fuzzing.__main__ import sweep
from tests.fuzzing.damage import damaged
from tests.fuzzing.targets import TARGETS, Target, finding

_INPUTS = {"command line": 40, "journal": 60}


@pytest.mark.slow
@pytest.mark.parametrize("name", TARGETS)
def test_whatever_comes_in_is_answered(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Read, or refused in our own words: never another exception."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / "home"))
    assert sweep(name, _INPUTS.get(name, 100), 20261126, tmp_path) == []


@pytest.mark.parametrize("name", TARGETS)
def test_right_inputs_are_read(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the damage begins from is right, so that it isn't one refusal over and over."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / "home"))
    for data in TARGETS[name].right[:2]:
        assert finding(TARGETS[name], data, tmp_path) is None


def test_a_mistake_is_found(tmp_path: Path) -> None:
    """The sweep can fail: a reader that stumbles is a finding."""
    import random  # noqa: PLC0415

    stumbling = Target((b"1",), lambda data, _: int(data))
    assert "ValueError" in (finding(stumbling, damaged(b"x", random.Random(1)), tmp_path) or "")
