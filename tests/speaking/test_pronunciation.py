"""The table of pronunciations."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.errors import MissingPart
from companion.speaking.pronunciation import NO_PRONUNCIATIONS, Pronunciation, Pronunciations, read_pronunciations

TABLE = Pronunciations(
    (
        Pronunciation("Ara", "ˈɛɹə", "air-ah"),
        Pronunciation("Ara Minor", "x", "air-ah my-nor"),
        Pronunciation("Boötes", "bOˈOtiz", "bo-oh-tees"),
        Pronunciation("Sun", "", ""),
    )
)


@pytest.mark.parametrize(
    ("text", "respelt"),
    [
        ("Ara, ARA and ara.", "air-ah, air-ah and air-ah."),
        ("Arabic Tara", "Arabic Tara"),
        ("Ara Minor's light", "air-ah my-nor's light"),
        ("In Boötes.", "In bo-oh-tees."),
        ("The Sun", "The Sun"),
        ("", ""),
    ],
    ids=["any case", "whole words", "longest first", "accents", "own guess", "nothing"],
)
def test_respelling(text: str, respelt: str) -> None:
    """Whole words are replaced, in any case, the longest name first; an empty respelling leaves the word."""
    assert TABLE.respell(text) == respelt


def test_no_table_changes_nothing() -> None:
    """Without entries a text stays what it is."""
    assert NO_PRONUNCIATIONS.respell("Ara") == "Ara"


def test_a_table_is_read_from_a_file(tmp_path: Path) -> None:
    """Columns beyond the three are ignored."""
    file = tmp_path / "table.csv"
    file.write_text("word,kind,phonemes,respelling\nBoötes,name,bOˈOtiz,bo-oh-tees\n", encoding="utf-8")
    assert read_pronunciations(file).entries == (TABLE.entries[2],)


@pytest.mark.parametrize("content", [None, b"word,phonemes\nAra,x\n", b"\xff\xfe"], ids=["no file", "no column", "not text"])
def test_a_damaged_table_is_a_missing_part(tmp_path: Path, content: bytes | None) -> None:
    """The error names the file and the remedy."""
    file = tmp_path / "table.csv"
    if content is not None:
        file.write_bytes(content)
    with pytest.raises(MissingPart, match=r"table\.csv.*install the companion again"):
        read_pronunciations(file)
