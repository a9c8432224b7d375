"""English for the settings the hand control asks for, each line digit by digit."""

from __future__ import annotations

from datetime import UTC
from typing import Literal

from companion import places
from companion.equipment import DateOrder
from companion.languages.en import clock_words
from companion.languages.en.direction_words import FEET_PER_METRE
from companion.languages.en.number_words import cardinal, count_of, digits
from companion.languages.phrase import Chapter, Scene
from companion.places import Sexagesimal
from companion.talk.answers import SettingAnswer
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

_ORDERS = {"day-month": ("day", "month", "year"), "month-day": ("month", "day", "year"), "year-month-day": ("year", "month", "day")}


def _order(scene: Scene, order: DateOrder | None) -> tuple[str, ...]:
    """Return the parts of a date in the order that is wanted, else in the usual one of the place."""
    return _ORDERS[order or places.customs(scene.site).date_order]


def key_the_date(scene: Scene, *, order: DateOrder | None = None) -> str:
    """Read the local date in the order it is keyed, its parts named."""
    day = places.local_time(scene)
    parts = {
        "day": f"Day {digits(day.day, 2)}",
        "month": f"The month is {clock_words.month_name(day.month)}: {digits(day.month, 2)}",
        "year": f"Year {digits(day.year, 4)}",
    }
    return f"The date. {'. '.join(parts[name] for name in _order(scene, order))}."


def key_the_date_tersely(scene: Scene, *, order: DateOrder | None = None) -> str:
    """Read the figures of the date, the month by name so that it can't be mistaken for the day."""
    day = places.local_time(scene)
    parts = {"day": digits(day.day, 2), "month": f"month {digits(day.month, 2)}", "year": digits(day.year, 4)}
    return f"Date: {', '.join(parts[name] for name in _order(scene, order))}."


def key_the_time(scene: Scene, *, hours: Literal[12, 24] | None = None) -> str:
    """Read the local time on the clock the mount wants."""
    time = places.local_time(scene)
    if (hours or places.customs(scene.site).hours) == 12:
        half = "A M" if time.hour < 12 else "P M"
        return f"The time, on the twelve-hour clock. Hours {digits((time.hour - 1) % 12 + 1, 2)}. Minutes {digits(time.minute, 2)}. {half}."
    return f"The time, on the twenty-four-hour clock. Hours {digits(time.hour, 2)}. Minutes {digits(time.minute, 2)}."


def key_the_time_tersely(scene: Scene, *, hours: Literal[12, 24] | None = None) -> str:
    """Read the figures of the time."""
    time = places.local_time(scene)
    twelve = (hours or places.customs(scene.site).hours) == 12
    hour = (time.hour - 1) % 12 + 1 if twelve else time.hour
    half = f" {'A M' if time.hour < 12 else 'P M'}" if twelve else ""
    return f"Time: {digits(hour, 2)}, {digits(time.minute, 2)}{half}."


def key_daylight_saving(scene: Scene) -> str:
    """Say whether daylight saving is on, and what it does to the time just keyed."""
    if places.mount_settings(scene).daylight_saving:
        return "Daylight saving: on. Some mounts shift the time when you set that: check the time once more."
    return "Daylight saving: off."


def key_daylight_saving_tersely(scene: Scene) -> str:
    """Say whether daylight saving is on."""
    return f"Daylight saving {'on' if places.mount_settings(scene).daylight_saving else 'off'}."


def which_side(scene: Scene) -> str:
    """Say which keys belong to this place."""
    site = scene.site
    return f"{'North' if site.latitude_deg >= 0 else 'South'}, and {'east' if site.longitude_deg >= 0 else 'west'}."


def key_the_zone(scene: Scene) -> str:
    """Read the standard zone, and warn where a control that takes whole hours only would be wrong."""
    standard_hours = places.mount_settings(scene).standard_offset_hours
    whole, minutes = divmod(round(abs(standard_hours) * 60), 60)
    sign = "minus" if standard_hours < 0 else "plus"
    text = f"The zone, without daylight saving: {sign} {count_of(whole, 'hour')}"
    if not minutes:
        return f"{text}."
    universal = scene.time.astimezone(UTC)
    day = "" if universal.date() == places.local_time(scene).date() else f". The date then is day {digits(universal.day, 2)}"
    instead = f"zone zero, daylight saving off, time {digits(universal.hour, 2)}, {digits(universal.minute, 2)}{day}"
    return f"{text} {cardinal(minutes)} minutes. If it only takes whole hours: {instead}."


def key_the_latitude(scene: Scene) -> str:
    """Read the latitude."""
    return f"Latitude. {_named_figures(places.latitude(scene.site), degree_digits=2)}."


def key_the_longitude(scene: Scene) -> str:
    """Read the longitude."""
    return f"Longitude. {_named_figures(places.longitude(scene.site), degree_digits=3)}."


def key_the_elevation(scene: Scene) -> str:
    """Read the height above the sea."""
    metres = round(scene.site.elevation_m)
    length, unit = (round(metres * FEET_PER_METRE), "feet") if places.customs(scene.site).feet else (metres, "metres")
    return f"The elevation, {'below' if metres < 0 else 'above'} the sea: {digits(abs(length))} {unit}."


def pick_a_city(scene: Scene) -> str:
    """Name the nearest town, and larger ones for a shorter list, all with the same clock as here."""
    cities = [town.name for town in places.listed_cities(scene.site)]
    if not cities:
        return "No city near here has the same clock. Look for a way to enter latitude and longitude instead."
    first, *others = cities
    otherwise = f" If it isn't on the list, take {' or '.join(others)}." if others else ""
    return f"The nearest city: {first}.{otherwise} Then say next line."


_QUARTERS = {"N": "North", "S": "South", "E": "East", "W": "West"}


def _named_figures(angle: Sexagesimal, degree_digits: int) -> str:
    """Return ``46°18'36"N`` as "degrees four six, minutes one eight, seconds three six, north"."""
    figures = f"Degrees {digits(angle.degrees, degree_digits)}. Minutes {digits(angle.minutes, 2)}. Seconds {digits(angle.seconds, 2)}"
    return f"{figures}. {_QUARTERS[angle.side]}"


def _latitude_tersely(scene: Scene) -> str:
    return f"Latitude: {_figures(places.latitude(scene.site), degree_digits=2)}."


def _longitude_tersely(scene: Scene) -> str:
    return f"Longitude: {_figures(places.longitude(scene.site), degree_digits=3)}."


def _zone_tersely(scene: Scene) -> str:
    return key_the_zone(scene).replace("The zone, without daylight saving", "Zone")


def _figures(angle: Sexagesimal, degree_digits: int) -> str:
    """Return ``46°18'36"N`` as "four six, one eight, three six, north"."""
    figures = f"{digits(angle.degrees, degree_digits)}, {digits(angle.minutes, 2)}, {digits(angle.seconds, 2)}"
    return f"{figures}, {_QUARTERS[angle.side].lower()}"


SETTINGS = Chapter(
    phrases={
        BeforeTheSettings: (
            "Now the settings, one line at a time. Say next line when each is in. "
            "If it asks for something else, tell me, like: it wants the zone."
        ),
        KeyTheDate: key_the_date,
        KeyTheTime: key_the_time,
        KeyDaylightSaving: key_daylight_saving,
        KeyTheZone: key_the_zone,
        KeyTheLatitude: key_the_latitude,
        KeyTheLongitude: key_the_longitude,
        KeyTheElevation: key_the_elevation,
        PickACity: pick_a_city,
        WholeMinutes: "Then leave them out: confirm the time just as the minute begins.",
        WhichSideWeAreOn: which_side,
        KeyTrueNorth: "True north.",
    },
    terse={
        BeforeTheSettings: "Now the settings.",
        KeyTheDate: key_the_date_tersely,
        KeyTheTime: key_the_time_tersely,
        KeyDaylightSaving: key_daylight_saving_tersely,
        KeyTheZone: _zone_tersely,
        KeyTheLatitude: _latitude_tersely,
        KeyTheLongitude: _longitude_tersely,
    },
    sayable={SettingAnswer: ("next line", "it wants the date", "it wants the zone", "month first", "everything's in")},
    step_help={
        KeyTheDate: "It asks for this when it starts, or in its set-up menu. If it asks for something else, tell me what.",
        KeyTheTime: "It is the local time on your watch. Enter the next full minute, and confirm it on the minute.",
        KeyDaylightSaving: "Whether clocks are put forward for summer. A wrong answer here is one hour wrong.",
        KeyTheZone: "The standard zone, without daylight saving. Some mounts show it as a number of hours, others as a list.",
        KeyTheElevation: "A hundred metres more or less don't matter. Three feet are about a metre.",
        PickACity: "The city gives it the zone and roughly the place. A hundred kilometres, or sixty miles, are one degree of sky.",
        KeyTheLatitude: "Degrees, minutes, seconds. Check that it says north or south as I do.",
        KeyTheLongitude: "Degrees, minutes, seconds. Check that it says east or west as I do.",
    },
)
