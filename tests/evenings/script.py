"""Evenings as they are read aloud: a header, then ``you:`` and ``it:`` lines.

The header is TOML between two lines of dashes: title, site, starts_at, the tables of a profile, ``says`` and ``never_says``: what must
and must not be heard, put there by hand. A ``you:`` line may begin with the minutes that pass before it: ``you: [+4 min] it's level``.
``python -m tests.evenings.script`` writes the ``it:`` lines anew.
"""

from __future__ import annotations

import re
import tomllib
from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from companion.dialogue import Conversation, Turn, turns
from companion.documents.equipment_tables import equipment_from
from companion.documents.site_table import site_from
from companion.languages import Language, load_language
from companion.messages import Hearing, Silence
from companion.procedure import EVENING
from companion.talk.saying import Answers, Ask
from companion.vocabulary import Vocabulary
from tests.english import VOCABULARY

HERE = Path(__file__).parent
USUAL_PAUSE = timedelta(seconds=20)
SILENCE = "(silence)"
LINE = re.compile(r"(?P<who>you|it|mount): +(?:\[\+(?P<minutes>\d+) min\] )?(?P<words>.*)")


@dataclass(frozen=True)
class Script:
    """One evening."""

    header: str
    """The TOML as it stands."""
    facts: dict[str, Any]
    """What it says."""
    lines: tuple[str, ...]
    """Both sides, a line an utterance."""

    @classmethod
    def read(cls, path: Path) -> Script:
        """Read a script."""
        _, header, body = re.split(r"^---$", path.read_text("utf-8"), maxsplit=2, flags=re.MULTILINE)
        return cls(header, tomllib.loads(header), tuple(line for line in body.splitlines() if line.strip()))

    @property
    def spoken_to_it(self) -> list[str]:
        """The ``you:`` lines."""
        return [line for line in self.lines if line.startswith("you:")]

    def played(self, vocabulary: Vocabulary, language: Language | None = None) -> Iterator[tuple[str, Turn]]:
        """Hold the evening, in English unless told otherwise; yield each line of both sides with the turn it belongs to."""
        time: datetime = self.facts["starts_at"]
        conversation = Conversation(
            EVENING,
            site_from(self.facts["site"], "site") if "site" in self.facts else None,
            language or load_language("en"),
            equipment=equipment_from(self.facts),
            by_voice=True,
        )
        line, left = "", deque(self.spoken_to_it)

        def hear(question: Ask[Answers]) -> Hearing | None:
            nonlocal line, time
            if not left:
                return None
            line = left.popleft()
            match = LINE.fullmatch(line)
            assert match is not None, line
            time += timedelta(minutes=int(match["minutes"])) if match["minutes"] else USUAL_PAUSE
            words = match["words"]
            return Silence() if words == SILENCE else vocabulary.understand(words, question.expects, conversation.instead)

        for _, turn in turns(conversation.begin(time), hear, lambda heard: conversation.hear(heard, time)):
            if line:
                yield line, turn
            words = " ".join(conversation.words(saying, time) for saying in turn.sayings)
            if words:
                yield f"it:  {words}", turn
        assert not left, f"the evening was over before: {left[0]}"


def scripts() -> list[Path]:
    """Return all evenings."""
    return sorted(HERE.glob("*.txt"))


def write_anew() -> None:
    """Write what it says today into every script."""
    from tests.evenings import linked  # noqa: PLC0415 - it reads scripts by this module

    for path in (*scripts(), *linked.scripts()):
        script = Script.read(path)
        played = linked.played(script) if "link" in script.facts else script.played(VOCABULARY)
        lines = "\n".join(line for line, _ in played)
        path.write_text(f"---{script.header}---\n{lines}\n", "utf-8")


if __name__ == "__main__":
    write_anew()
