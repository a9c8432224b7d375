"""What a journal remembers of an evening: its stages, each with its answers, the decisions they led to, and its result."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from companion.dialogue.journal import Record
from companion.messages import Answer, Ask, Note
from companion.procedure import Result


@dataclass
class StageMemory:
    """One stage as it was recorded."""

    name: str
    started: datetime
    answers: list[Answer] = field(default_factory=list)
    decisions: list[Record] = field(default_factory=list)
    """Every question and note the script yielded, in order, along the answers that still count."""
    result: Result | None = None
    """None while the stage was under way."""
    _decided_before: list[int] = field(default_factory=list)
    """How many decisions had been recorded when each answer came, so that taking it back forgets what followed from it."""

    @property
    def notes(self) -> list[Note]:
        """What the script noted, in order."""
        return [Note(record["what"], record["facts"]) for record in self.decisions if record["kind"] == "noted"]

    def answered(self, answer: Answer) -> None:
        """Add an answer."""
        self._decided_before.append(len(self.decisions))
        self.answers.append(answer)

    def take_back(self) -> bool:
        """Forget the last answer and all that followed from it; False when there is none."""
        if not self.answers:
            return False
        self.answers.pop()
        del self.decisions[self._decided_before.pop() :]
        self.result = None
        return True


@dataclass
class EveningMemory:
    """An evening as it was recorded."""

    stages: list[StageMemory] = field(default_factory=list)
    ended: bool = False


def rebuild(records: Iterable[Record]) -> EveningMemory:
    """Put the records of a journal together; what was taken back is forgotten."""
    evening = EveningMemory()
    for record in records:
        match record["kind"]:
            case "stage":
                evening.stages.append(StageMemory(record["name"], datetime.fromisoformat(record["time"])))
            case "anew":
                evening.stages.pop()
            case "asked" | "noted":
                evening.stages[-1].decisions.append(record)
            case "answer":
                evening.stages[-1].answered(Answer(record["command"], datetime.fromisoformat(record["time"]), record["slots"]))
            case "result":
                evening.stages[-1].result = record["result"]
            case "back":
                while evening.stages and not evening.stages[-1].take_back():
                    evening.stages.pop()
            case "end":
                evening.ended = True
    return evening


def stage_record(name: str, time: datetime) -> Record:
    """Return the record of a stage's beginning."""
    return {"kind": "stage", "name": name, "time": time.isoformat()}


def decision_record(wanted: Ask | Note) -> Record:
    """Return the record of what a script decided to ask or note."""
    if isinstance(wanted, Ask):
        return {"kind": "asked", "phrase": wanted.phrase, "expects": wanted.expects, "facts": plain(wanted.facts)}
    return {"kind": "noted", "what": wanted.what, "facts": plain(wanted.facts)}


def answer_record(answer: Answer) -> Record:
    """Return the record of an answer."""
    return {"kind": "answer", "command": answer.command, "time": answer.time.isoformat(), "slots": dict(answer.slots)}


def plain(value: Any) -> Any:
    """Return a value as JSON would bring it back: mappings as dicts, sequences as lists."""
    if isinstance(value, str | int | float | bool) or value is None:
        return value
    if hasattr(value, "items"):
        return {str(key): plain(entry) for key, entry in value.items()}
    return [plain(entry) for entry in value]
