"""English for the beginning and the end of an evening: time, place, darkness, leaving."""

from __future__ import annotations

from datetime import datetime, timedelta

from companion import places, sky
from companion.languages.en import clock_words
from companion.languages.en.direction_words import sentence
from companion.languages.en.number_words import decimal
from companion.languages.phrase import Chapter
from companion.sky import Moment, Night
from companion.talk.answers import CalendarDateAnswer, ClockCheckAnswer, ClockTimeAnswer, CoordinateAnswer, StartAnswer, YearAnswer
from companion.talk.check_in_phrases import (
    GoodEvening,
    GoodEveningWhereverYouAre,
    HowDarkItIs,
    IsTheClockRight,
    IsThePlaceRight,
    NoSkyWithoutAPlace,
    NoSuchDay,
    ShallWeStart,
    TellMeTheDate,
    TellMeTheTime,
    TellMeTheYear,
    TheZoneFollowsThePlace,
    WhatIsWrongWithIt,
)

_WHAT_I_DO = "I'll talk you through the set-up. I can't halt the mount: for that, use its own controls, or switch it off."


def is_the_clock_right(moment: Moment) -> str:
    """Say the date, time, zone and daylight saving that everything will be computed with."""
    settings = places.mount_settings(moment)
    local = places.local_time(moment)
    saving = "on" if settings.daylight_saving else "off"
    month_first = places.customs(moment.site).date_order == "month-day"
    return (
        f"My clock says {clock_words.time_of_day(local)}, {clock_words.calendar_day(local, month_first=month_first)}. "
        f"{clock_words.zone(moment.site.zone, settings.utc_offset_hours)}, daylight saving {saving}. Is that right?"
    )


def is_the_place_right(moment: Moment) -> str:
    """Say the place to a tenth of a degree."""
    site = moment.site
    north = f"{decimal(abs(site.latitude_deg))} {'north' if site.latitude_deg >= 0 else 'south'}"
    east = f"{decimal(abs(site.longitude_deg))} {'east' if site.longitude_deg >= 0 else 'west'}"
    at = f"We are at {site.name}. " if site.name else ""
    return f"{at}Latitude {north}, longitude {east}. Is that where you are?"


def how_dark_it_is(moment: Moment) -> str:
    """Say what the Sun is doing now and when it will be dark; by day the caution comes first."""
    night = sky.night_around(moment)
    now = moment.time
    if sky.sun_state(moment).is_up:
        caution = "The Sun is up. Keep the caps on, and never point the telescope or the finder near it."
        if night.sunset is None:
            return f"{caution} It does not set tonight."
        return f"{caution} It sets in {clock_words.duration(night.sunset - now)}. {_stars_and_dark(night, now)}".strip()
    gone = f"The Sun set {clock_words.duration(now - night.sunset)} ago. " if night.sunset and _is_recent(now - night.sunset) else ""
    if night.sunrise and timedelta(0) < night.sunrise - now < timedelta(hours=2):
        return f"{gone}The Sun rises in {clock_words.duration(night.sunrise - now)}. Cap everything before then."
    return f"{gone}{_stars_and_dark(night, now)}".strip()


def _is_recent(ago: timedelta) -> bool:
    return timedelta(0) <= ago < timedelta(hours=4)


def _stars_and_dark(night: Night, now: datetime) -> str:
    """Return when the first stars come out and when it is fully dark, or that it is, or that it won't be."""
    parts = []
    if night.civil_dusk and night.civil_dusk > now:
        parts.append(f"First stars in about {clock_words.duration(night.civil_dusk - now)}.")
    if night.astronomical_dusk is None:
        parts.append("It won't get fully dark tonight.")
    elif night.astronomical_dusk > now:
        parts.append(f"Fully dark in {clock_words.duration(night.astronomical_dusk - now)}.")
    elif night.astronomical_dawn and now < night.astronomical_dawn:
        parts.append("It is fully dark.")
    else:
        parts.append("Morning twilight has begun.")
    return " ".join(parts)


def good_evening(moment: Moment) -> str:
    """Greet, and say at once what the voice cannot do."""
    return f"{sentence(clock_words.greeting(places.local_time(moment)))} {_WHAT_I_DO}"


CHECK_IN = Chapter(
    phrases={
        GoodEvening: good_evening,
        GoodEveningWhereverYouAre: f"Good evening. {_WHAT_I_DO}",
        NoSkyWithoutAPlace: "Without a place I can't tell where anything stands in the sky.",
        IsTheClockRight: is_the_clock_right,
        WhatIsWrongWithIt: "What is wrong: the hour, the date, or the zone?",
        TellMeTheTime: "What time is it?",
        TellMeTheDate: "What day is it? Say it like: the fifth of November.",
        TellMeTheYear: "And the year?",
        NoSuchDay: "There is no such day.",
        TheZoneFollowsThePlace: "I'll take the zone from the place: let's check that.",
        IsThePlaceRight: is_the_place_right,
        HowDarkItIs: how_dark_it_is,
        ShallWeStart: "Say ready when you want to begin, or: ask about my telescope.",
    },
    terse={
        GoodEvening: "I can't halt the mount: use its own controls, or switch it off.",
        ShallWeStart: "Ready?",
    },
    sayable={
        StartAnswer: ("ready", "ask about my telescope"),
        ClockCheckAnswer: ("that's right", "wrong hour", "wrong date", "wrong zone"),
        ClockTimeAnswer: ("twenty past nine", "nineteen forty two", "nine o'clock"),
        CalendarDateAnswer: ("the fifteenth of October",),
        YearAnswer: ("twenty twenty six",),
        CoordinateAnswer: ("forty six degrees eighteen minutes north", "forty six point three north"),
    },
    step_help={
        IsTheClockRight: "Every direction hangs on the time. Compare it with a watch you trust, then say yes or no.",
        WhatIsWrongWithIt: "Say: wrong hour, wrong date, or wrong zone. Then I'll ask for the correct one.",
        TellMeTheTime: "Read it off a watch you trust. One hour wrong puts every star more than a fist out of place.",
        TellMeTheDate: "Day and month. A day wrong is a finger's breadth in the sky, a month wrong is three fists.",
        TellMeTheYear: "My clock has lost its battery, so I don't know the year.",
        IsThePlaceRight: "A hundred kilometres are about one degree of sky. Say yes if it is near enough.",
        ShallWeStart: "Ready begins with the tripod. If I know your telescope, my advice fits it: ask about my telescope.",
    },
)
