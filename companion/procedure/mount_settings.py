"""What the hand control asks for: read in order, or each line alone as the mount asks for it, in the form it is keyed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias, assert_never

from companion.equipment import DateOrder
from companion.procedure.give_settings import give_settings
from companion.procedure.handset import learn_the_keys
from companion.procedure.notes import Learned
from companion.procedure.script import Context, Done, Script, ask
from companion.talk.answers import SettingAnswer
from companion.talk.saying import Ask
from companion.talk.settings_phrases import (
    BeforeTheSettings,
    KeyDaylightSaving,
    KeyTheDate,
    KeyTheElevation,
    KeyTheLatitude,
    KeyTheLongitude,
    KeyTheTime,
    KeyTheZone,
    KeyTrueNorth,
    PickACity,
    WhichSideWeAreOn,
    WholeMinutes,
)

_Line: TypeAlias = type[Ask[SettingAnswer]]
_AskedFor: TypeAlias = Literal[
    SettingAnswer.DATE,
    SettingAnswer.TIME,
    SettingAnswer.DAYLIGHT_SAVING,
    SettingAnswer.ZONE,
    SettingAnswer.LATITUDE,
    SettingAnswer.LONGITUDE,
]
_LINES: Mapping[_AskedFor, _Line] = {
    SettingAnswer.DATE: KeyTheDate,
    SettingAnswer.TIME: KeyTheTime,
    SettingAnswer.DAYLIGHT_SAVING: KeyDaylightSaving,
    SettingAnswer.ZONE: KeyTheZone,
    SettingAnswer.LATITUDE: KeyTheLatitude,
    SettingAnswer.LONGITUDE: KeyTheLongitude,
}
"""The lines in our order, each by what the mount asks for when it wants it out of that order."""


@dataclass(frozen=True)
class _Form:
    """In which form the mount wants its date and time."""

    date_order: DateOrder | None
    hours: Literal[12, 24] | None

    def question(self, line: _Line) -> Ask[SettingAnswer]:
        """Return a line to be keyed in this form."""
        if line is KeyTheDate:
            return KeyTheDate(self.date_order)
        if line is KeyTheTime:
            return KeyTheTime(self.hours)
        return line()


def key_in_settings(context: Context) -> Script:
    """Say each line as it must be keyed and wait until it is in; what the mount asks for goes first. Over the line nothing is keyed."""
    if context.linked and (yield from give_settings(context)):
        return Done()
    yield from learn_the_keys(context)
    form = _Form(context.equipment.mount.date_order, context.equipment.mount.hours)
    left = list(_LINES.values())
    line = left[0]
    yield BeforeTheSettings()
    while True:
        answer = yield from ask(form.question(line))
        match answer.command:
            case SettingAnswer.NEXT | SettingAnswer.SKIP:
                # A city brings its latitude and longitude with it.
                done = (PickACity, KeyTheLatitude, KeyTheLongitude) if line is PickACity else (line,)
                left = [other for other in left if other not in done]
                if not left:
                    return Done()
                line = left[0]
            case SettingAnswer.ALL_IN:
                return Done()
            case SettingAnswer.MONTH_FIRST:
                form, line = replace(form, date_order="month-day"), KeyTheDate
                yield Learned.one("mount", "date_order", form.date_order)
            case SettingAnswer.DAY_FIRST:
                form, line = replace(form, date_order="day-month"), KeyTheDate
                yield Learned.one("mount", "date_order", form.date_order)
            case SettingAnswer.TWELVE_HOURS:
                form, line = replace(form, hours=12), KeyTheTime
                yield Learned.one("mount", "hours", form.hours)
            case SettingAnswer.YEAR_FIRST:
                form, line = replace(form, date_order="year-month-day"), KeyTheDate
                yield Learned.one("mount", "date_order", form.date_order)
            case SettingAnswer.TWENTY_FOUR_HOURS:
                form, line = replace(form, hours=24), KeyTheTime
                yield Learned.one("mount", "hours", form.hours)
            case SettingAnswer.NO_SECONDS:
                yield WholeMinutes()
            case SettingAnswer.ELEVATION:
                line = KeyTheElevation
            case SettingAnswer.CITY:
                line = PickACity
            case SettingAnswer.WHICH_SIDE:
                yield WhichSideWeAreOn()
            case SettingAnswer.TRUE_OR_COMPASS:
                yield KeyTrueNorth()
            case (
                SettingAnswer.DATE
                | SettingAnswer.TIME
                | SettingAnswer.DAYLIGHT_SAVING
                | SettingAnswer.ZONE
                | SettingAnswer.LATITUDE
                | SettingAnswer.LONGITUDE as asked_for
            ):
                line = _LINES[asked_for]
            case _:
                assert_never(answer.command)
