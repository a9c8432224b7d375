"""What a journal remembers of an evening: its stages, each with its answers, the decisions they led to, and its result."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, fields, is_dataclass
from datetime import datetime, timedelta
from typing import TypeAlias, TypeVar

from companion.dialogue.journal import Record
from companion.dialogue.visits import set_aside, step_back, take_up
from companion.equipment import Oneself
from companion.errors import CompanionError
from companion.messages import Answer
from companion.procedure import Done, Result, Skipped
from companion.procedure.notes import Keep, Learned, OurClock, OurPlace, corrected
from companion.sky import Moment, Site
from companion.talk.saying import Answers, Ask, Call, Note, is_of_a_device

N = TypeVar("N", bound=Note)
Plain: TypeAlias = "str | int | float | bool | list[Plain] | dict[str, Plain] | None"
"""A value as JSON brings it back."""
_STILL_COUNT: Mapping[str, type[Note]] = {kind.code(): kind for kind in (OurClock, OurPlace, Learned, Keep)}
"""Notes of a finished stage that go on counting; the others were only of use within their stage."""
_ALIKE = 1e-3
"""Numbers worked out by another release of the sky's libraries differ by less, relative or absolute: the same decision."""


@dataclass
class StageMemory:
    """One stage as it was recorded."""

    name: str
    started: datetime
    answers: list[Answer] = field(default_factory=list)
    decisions: list[Record] = field(default_factory=list)
    """Every question, note and call the script yielded, in order, along the answers that still count."""
    result: Record | None = None
    """None while the stage was under way."""
    was_left: bool = False
    """Whether it was left at an open question."""
    linked: bool = False
    """Whether there was a mount on the line when it began."""
    oneself: Oneself | None = None
    """What the observer had told of themselves when it began."""
    aside_at: int | None = None
    """As in ``Visit``."""
    begun_at: int | None = None
    """As in ``Visit``."""
    _decided_before: list[int] = field(default_factory=list)
    """How many decisions had been recorded when each answer came, so that taking it back forgets what followed from it."""

    @property
    def notes(self) -> list[Note]:
        """The notes that still count, in order."""
        return [note for record in self.decisions if (note := _note(record)) is not None]

    def answered(self, answer: Answer) -> None:
        """Add an answer."""
        self._decided_before.append(len(self.decisions))
        self.answers.append(answer)

    def take_back(self) -> bool:
        """Forget that it was left, else the observer's last answer and all that followed from it; False when there is neither."""
        if self.was_left:
            self.was_left = False
        elif not all(map(is_of_a_device, self.answers)):
            while is_of_a_device(self.answers.pop()):
                self._decided_before.pop()
            del self.decisions[self._decided_before.pop() :]
        else:
            return False
        self.result = None
        return True


@dataclass
class EveningMemory:
    """An evening as it was recorded."""

    stages: list[StageMemory] = field(default_factory=list)
    """In the order they were gone through; a stage that was gone to again stands there again."""
    waiting: list[StageMemory] = field(default_factory=list)
    """Set aside for another part."""
    ended: bool = False
    site: Site | None = None
    """Where it began; None where that had to be asked."""
    last_evening: datetime | None = None
    """When the evening before it was."""
    terse: bool | None = None
    """Whether few words were asked for; None where nothing was said of it."""
    hands_off: bool = False
    """Whether we were told not to move the mount."""
    oneself: Oneself | None = None
    """What observers told of themselves; None where they told nothing."""
    began: datetime | None = None
    """When it was begun; None where nothing was. This and ``last_time`` are by our clock as it is set now, however it stood then."""
    last_time: datetime | None = None
    """When something was last begun or answered."""
    clock_set_by: timedelta = timedelta()
    """By how much our clock was set in it, by all that was told and not taken back."""
    believed: int = field(default=0, compare=False)
    """How many records made sense; what follows one that doesn't is passed over with it."""

    def placed(self, moment: Moment) -> Moment:
        """Return a moment where we are by all that was told in it, else where it is."""
        return corrected(moment, self.told(OurPlace))

    def told(self, kind: type[N]) -> list[N]:
        """Return the notes of a kind that still count, in order."""
        return [note for stage in (*self.waiting, *self.stages) for note in stage.notes if isinstance(note, kind)]


def rebuild(records: Iterable[Record]) -> EveningMemory:
    """Put the records of a journal together; what was taken back is forgotten."""
    evening = EveningMemory()
    for record in records:
        try:
            _take(record, evening)
        except (LookupError, ValueError, TypeError, AttributeError, OverflowError, CompanionError):
            # Each line may be whole and the order of them still none that we write.
            break
        evening.believed += 1
    return evening


def _take(record: Record, evening: EveningMemory) -> None:
    match record["kind"]:
        case "begun":
            evening.site = Site(**record["site"]) if record["site"] is not None else None
            evening.last_evening = datetime.fromisoformat(record["last"]) if record["last"] is not None else None
        case "stage":
            linked, told = bool(record.get("linked", False)), record.get("seeing")
            oneself = None if told is None else _oneself(told)
            evening.last_time = _time(record)
            evening.began = evening.began or evening.last_time
            evening.stages.append(StageMemory(str(record["name"]), evening.last_time, linked=linked, oneself=oneself))
        case "anew":
            evening.stages.pop()
            _set_clock_anew(evening)
        case "asked" | "noted" | "called":
            note = _note(record)
            evening.stages[-1].decisions.append(record)
            if isinstance(note, OurClock):
                _set_clock(evening, timedelta(seconds=note.add_seconds))
        case "answer":
            evening.last_time = _time(record)
            evening.stages[-1].answered(Answer(str(record["command"]), evening.last_time, dict(record["slots"])))
        case "result":
            evening.stages[-1].result = dict(record["result"])
            evening.stages[-1].was_left = record.get("left", False)
        case "aside":
            set_aside(evening.stages, evening.waiting)
        case "taken-up":
            take_up(record["stage"], evening.stages, evening.waiting)
        case "back":
            step_back(evening.stages, evening.waiting)
            _set_clock_anew(evening)
        case "end":
            evening.ended = True
        case _:
            _take_wish(record, evening)


def _take_wish(record: Record, evening: EveningMemory) -> None:
    """Take what holds whatever part is under way; the last word of each counts."""
    match record["kind"]:
        case "hands-off":
            evening.hands_off = bool(record["on"])
        case "seeing":
            evening.oneself = _oneself(record)
        case "terse":
            evening.terse = bool(record["on"])


def _set_clock(evening: EveningMemory, by: timedelta) -> None:
    """Set our clock, and with it all that was timed by it before."""
    evening.clock_set_by += by
    if evening.began is not None and evening.last_time is not None:
        evening.began += by
        evening.last_time += by


def _set_clock_anew(evening: EveningMemory) -> None:
    """Set our clock by what still counts, where something was taken back."""
    told = timedelta(seconds=sum(note.add_seconds for note in evening.told(OurClock)))
    _set_clock(evening, told - evening.clock_set_by)


def _note(record: Record) -> Note | None:
    """Return the note of a record, None where it no longer counts."""
    kind = _STILL_COUNT.get(record["what"]) if record["kind"] == "noted" else None
    return None if kind is None else kind(**record["facts"])


def _time(record: Record) -> datetime:
    return Moment(Site(0.0, 0.0), datetime.fromisoformat(record["time"])).time


def terse_record(*, terse: bool) -> Record:
    """Return the record that few words were asked for, or every word."""
    return {"kind": "terse", "on": terse}


def begun_record(site: Site | None, last_evening: datetime | None) -> Record:
    """Return the record of what an evening began with: where that is known, its place and when the one before was."""
    return {"kind": "begun", "site": plain(site), "last": plain(last_evening)}


def hands_off_record(*, on: bool) -> Record:
    """Return the record that the mount must not be moved by us, or may be again."""
    return {"kind": "hands-off", "on": on}


def _oneself(record: Record) -> Oneself:
    """Return what a record tells of the observer; older ones told less."""
    aid, compass, limits = record.get("level_aid"), record.get("compass"), tuple(record.get("limits", ()))
    gear = (record.get(key) for key in ("aperture_mm", "focal_length_mm", "finder"))
    return Oneself(record["sight"], record["eyes"], aid, compass, limits, *gear)


def oneself_record(oneself: Oneself) -> Record:
    """Return the record of what observers said of themselves."""
    return {"kind": "seeing", **vars(oneself)}


def stage_record(name: str, time: datetime, *, linked: bool = False, oneself: Oneself | None = None) -> Record:
    """Return the record of a stage's beginning."""
    begun = {"kind": "stage", "name": name, "time": time.isoformat()} | ({"linked": True} if linked else {})
    return begun if oneself is None else begun | {"seeing": plain(oneself)}


def decision_record(wanted: Ask[Answers] | Note | Call) -> Record:
    """Return the record of what a script decided to ask, to note, or to ask of a device."""
    if isinstance(wanted, Ask):
        return {"kind": "asked", "phrase": wanted.code(), "expects": wanted.expects.rule(), "facts": plain(wanted.facts)}
    return {"kind": "called" if isinstance(wanted, Call) else "noted", "what": wanted.code(), "facts": plain(wanted.facts)}


def sending_record(call: Call, id: str) -> Record:
    """Return the record that a call which acts is about to be sent under this id."""
    return {"kind": "sending", "what": call.code(), "id": id}


def withdrawal_record(note: Note) -> Record:
    """Return the record that a note which had an effect beyond the evening was taken back."""
    return {"kind": "withdrawn", "what": note.code(), "facts": plain(note.facts)}


def told_anew_record(note: Note) -> Record:
    """Return the record that such a note, of which a later telling was taken back, holds again."""
    return {"kind": "told-anew", "what": note.code(), "facts": plain(note.facts)}


def answer_record(answer: Answer) -> Record:
    """Return the record of an answer."""
    return {"kind": "answer", "command": str(answer.command), "time": answer.time.isoformat(), "slots": dict(answer.slots)}


def result_record(stage: str, result: Result, *, left: bool = False) -> Record:
    """Return the record of what a stage found out, or of what stands for it where it was left at an open question."""
    return {"kind": "result", "stage": stage, "result": plain(result)} | ({"left": True} if left else {})


def result_from(kind: type[Result], kept: Record) -> Result:
    """Return the result that was recorded; one of another shape, from another version of us, has nothing to hand on."""
    if kept == {"skipped": True}:
        return Skipped()
    values = {name: tuple(value) if isinstance(value, list) else value for name, value in kept.items()}
    return kind(**values) if values.keys() == {entry.name for entry in fields(kind)} else Done()


def same_decisions(some: Sequence[Record], others: Sequence[Record]) -> bool:
    """Say whether the same was decided, numbers compared to a thousandth."""
    return len(some) == len(others) and all(_alike(dict(one), dict(other)) for one, other in zip(some, others, strict=True))


def _alike(one: Plain, other: Plain) -> bool:
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(_alike(value, other[name]) for name, value in one.items())
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(_alike, one, other))
    if isinstance(one, float) and isinstance(other, int | float):
        return math.isclose(one, other, rel_tol=_ALIKE, abs_tol=_ALIKE)
    return one == other


def plain(value: object) -> Plain:
    """Return a value as JSON would bring it back: mappings as dicts, sequences as lists, times in ISO 8601."""
    if isinstance(value, str):
        return str(value)
    if isinstance(value, int | float | bool) or value is None:
        return value
    if isinstance(value, datetime):
        return value.isoformat()
    if is_dataclass(value):
        return {entry.name: plain(getattr(value, entry.name)) for entry in fields(value)}
    if isinstance(value, Mapping):
        return {str(key): plain(entry) for key, entry in value.items()}
    if isinstance(value, Iterable):
        return [plain(entry) for entry in value]
    raise TypeError(f"a journal can't hold {value!r}")
