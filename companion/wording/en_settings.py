"""English for the settings the hand control asks for, each line digit by digit."""

from __future__ import annotations

from collections.abc import Mapping

from companion import sky
from companion.sky import Moment
from companion.wording import clock
from companion.wording.numerals import cardinal, count_of, digits
from companion.wording.phrase import Phrase


def key_the_date(moment: Moment) -> str:
    """Read the local date with its parts named, since controls differ in the order."""
    day = sky.local_time(moment)
    return f"The date. Day {digits(day.day, 2)}. Month {digits(day.month, 2)}, {clock.month_name(day.month)}. Year {digits(day.year, 4)}."


def key_the_time(moment: Moment) -> str:
    """Read the local time on the twenty-four hour clock."""
    time = sky.local_time(moment)
    return f"The time, twenty-four hours. Hours {digits(time.hour, 2)}. Minutes {digits(time.minute, 2)}."


def key_daylight_saving(moment: Moment) -> str:
    """Say whether daylight saving is on."""
    return f"Daylight saving: {'on' if sky.mount_settings(moment).daylight_saving else 'off'}."


def key_the_zone(moment: Moment) -> str:
    """Read the standard zone, and warn where a control that takes whole hours only would be wrong."""
    standard_hours = sky.mount_settings(moment).standard_offset_hours
    whole, minutes = divmod(round(abs(standard_hours) * 60), 60)
    sign = "minus" if standard_hours < 0 else "plus"
    text = f"The zone, without daylight saving: {sign} {count_of(whole, 'hour')}"
    if not minutes:
        return f"{text}."
    return f"{text} {cardinal(minutes)} minutes. If it only takes whole hours, give it Universal Time and zone zero instead."


def key_the_latitude(moment: Moment) -> str:
    """Read the latitude."""
    return f"Latitude. {_sexagesimal(sky.mount_settings(moment).latitude_dms, degree_digits=2)}."


def key_the_longitude(moment: Moment) -> str:
    """Read the longitude."""
    return f"Longitude. {_sexagesimal(sky.mount_settings(moment).longitude_dms, degree_digits=3)}."


_QUARTERS = {"N": "North", "S": "South", "E": "East", "W": "West"}


def _sexagesimal(dms: str, degree_digits: int) -> str:
    """Return ``46°18'36"N`` as "degrees four six, minutes one eight, seconds three six, north"."""
    degree, rest = dms.split("°")
    minute, rest = rest.split("'")
    second, quarter = rest.split('"')
    figures = f"Degrees {digits(degree, degree_digits)}. Minutes {digits(minute, 2)}. Seconds {digits(second, 2)}"
    return f"{figures}. {_QUARTERS[quarter]}"


PHRASES: Mapping[str, Phrase] = {
    "before-the-settings": "I read you the settings, one line at a time. Say next line when each is in.",
    "key-the-date": key_the_date,
    "key-the-time": key_the_time,
    "key-daylight-saving": key_daylight_saving,
    "key-the-zone": key_the_zone,
    "key-the-latitude": key_the_latitude,
    "key-the-longitude": key_the_longitude,
}
