"""What all tests of the command line share."""

from __future__ import annotations

from functools import cache

import pytest

from companion.languages import Language, load_language
from companion.vocabulary import Vocabulary, load_vocabulary


@cache
def _vocabulary(code: str) -> Vocabulary:
    return load_vocabulary(load_language(code))


@pytest.fixture(autouse=True)
def grammars_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Read the grammars once for all commands called in this process: a command of its own process reads them as ever."""

    def read(language: Language) -> Vocabulary:
        return _vocabulary(language.code)

    for command in ("ear_and_voice", "evenings", "machine", "profiles"):
        monkeypatch.setattr(f"companion.commands.{command}.load_vocabulary", read)
