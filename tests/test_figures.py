"""The README's figures come from one command: ``python -m tests.figures``."""

from __future__ import annotations

import re

import pytest

from tests.figures import README, TABLES, between_markers


def test_every_table_has_its_place_and_its_date() -> None:
    """Between its markers each table says when it was measured."""
    text = README.read_text("utf-8")
    for name in TABLES:
        assert re.search(r"Measured on \d{4}-\d\d-\d\d", text.partition(f"<!-- {name}: begin")[2].partition(f"<!-- {name}: end")[0]), name


def test_only_what_stands_between_the_markers_is_replaced() -> None:
    """The rest stays; a text without the markers, or with two pairs, is refused."""
    text = "before\n<!-- seeing: begin (how) -->\nold\n<!-- seeing: end -->\nafter\n"
    assert between_markers(text, "seeing", ["new"]) == text.replace("old", "new")
    for wrong in ("nothing", text + text):
        with pytest.raises(ValueError, match="markers"):
            between_markers(wrong, "seeing", ["new"])
