"""What the hand control asks for: read in order, or each line alone as the mount asks for it, in the form it is keyed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from companion.messages import Ask, Say
from companion.procedure.notes import learned_note
from companion.procedure.script import Context, Script

LINES = ("key-the-date", "key-the-time", "key-daylight-saving", "key-the-zone", "key-the-latitude", "key-the-longitude")
_ASKED_FOR = {
    "date": "key-the-date",
    "time": "key-the-time",
    "daylight-saving": "key-daylight-saving",
    "zone": "key-the-zone",
    "latitude": "key-the-latitude",
    "longitude": "key-the-longitude",
}
"""What the mount may ask for out of our order."""
_ASIDES = {"which-side": "which-side-we-are-on", "true-or-compass": "key-true-north"}
"""What it may ask that is answered in a word and keyed at once."""


@dataclass(frozen=True)
class _Form:
    """In which form the mount wants its date and time."""

    date_order: Literal["day-month", "month-day", "year-month-day"]
    hours: Literal[12, 24]

    def facts(self, line: str) -> dict[str, str | int]:
        """Return the facts of a line."""
        facts: dict[str, dict[str, str | int]] = {"key-the-date": {"order": self.date_order}, "key-the-time": {"hours": self.hours}}
        return facts.get(line, {})


def key_in_settings(context: Context) -> Script:
    """Say each line as it must be keyed and wait until it is in; what the mount asks for goes first."""
    form = _Form(context.equipment.mount.date_order, context.equipment.mount.hours)
    left = list(LINES)
    line = left[0]
    yield Say("before-the-settings")
    while True:
        answer = yield Ask(line, expects="setting", facts=form.facts(line))
        match answer.command:
            case "all-in":
                return {}
            case "month-first":
                form, line = replace(form, date_order="month-day"), "key-the-date"
                yield learned_note("mount", "date_order", form.date_order)
            case "day-first":
                form, line = replace(form, date_order="day-month"), "key-the-date"
            case "twelve-hours":
                form, line = replace(form, hours=12), "key-the-time"
                yield learned_note("mount", "hours", form.hours)
            case command if command in _ASIDES:
                yield Say(_ASIDES[command])
            case command if command in _ASKED_FOR:
                line = _ASKED_FOR[command]
            case _:
                left = [other for other in left if other != line]
                if not left:
                    return {}
                line = left[0]
