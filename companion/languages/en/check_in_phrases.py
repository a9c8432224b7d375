"""English for the beginning and the end of an evening: time, place, darkness, leaving."""

from __future__ import annotations

from companion import alignment, places
from companion.languages.en import clock_words
from companion.languages.en.direction_words import compass_point, sentence
from companion.languages.en.number_words import decimal
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter
from companion.languages.told_darkness import DarknessWords, how_dark
from companion.sky import Moment
from companion.talk.answers import CalendarDateAnswer, ClockCheckAnswer, ClockTimeAnswer, CoordinateAnswer, StartAnswer, YearAnswer
from companion.talk.check_in_phrases import (
    ClockMayHaveStood,
    ClockSetToTheLastAnswer,
    GoodEvening,
    GoodEveningWhereverYouAre,
    HowDarkItIs,
    IsTheClockRight,
    IsThePlaceRight,
    NoSkyForThatYear,
    NoSkyWithoutAPlace,
    NoSuchDay,
    ShallWeStart,
    TellMeTheDate,
    TellMeTheTime,
    TellMeTheYear,
    TheZoneFollowsThePlace,
    WhatIsWrongWithIt,
)


def no_sky_for_that_year(_: Moment, *, year: int, taken: int) -> str:
    """Say which year our clock shows, and which is taken instead."""
    return f"My clock shows {clock_words.year_words(year)}: I have no sky for that year, so I'll take {clock_words.year_words(taken)}."


def is_the_clock_right(moment: Moment, *, with_year: bool) -> str:
    """Say the date, time, zone and daylight saving that everything will be computed with, in one breath."""
    settings = places.mount_settings(moment)
    local = places.local_time(moment)
    saving = "on" if settings.daylight_saving else "off"
    day = clock_words.calendar_day(local, month_first=places.customs(moment.site).date_order == "month-day")
    year = f", {clock_words.year_words(local.year)}" if with_year else ""
    return (
        f"My clock says {clock_words.time_of_day(local)}, {day}{year}. "
        f"{clock_words.zone_name(moment.site.zone)}, daylight saving {saving}. Is that right?"
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
    return how_dark(moment, _DARKNESS)


_PRACTISE = "You can still set it up, and practise on a landmark."


def _under_the_midnight_sun(moment: Moment) -> str:
    """Say that the mount can't be aligned, and what can be done all the same."""
    no_star = "So no star comes out, and the mount can't be aligned."
    moon = alignment.north_mark(moment)
    if moon is None:
        return f"{no_star} {_PRACTISE}"
    return f"{no_star} You can look at the Moon by hand, in the {compass_point(moon.azimuth_deg)}, well away from the Sun."


def _in_a_light_night(darkest: Moment) -> str:
    """Say that no star comes out, and what can be aligned on when it is darkest."""
    no_star = "No star comes out tonight: the sky stays too light."
    bodies = alignment.alignment_bodies(darkest)
    if not bodies:
        return f"{no_star} There is nothing to align the mount on. {_PRACTISE}"
    *others, last = (spoken_name(sight.body.name) for sight in bodies)
    names = f"{', '.join(others)} and {last}" if others else last
    when = clock_words.time_of_day(places.local_time(darkest))
    return f"{no_star} A mount that takes the Moon or a planet can be aligned on {names}, best around {when}."


_DARKNESS = DarknessWords(
    caution="The Sun is up. Keep the caps on, and never point the telescope or the finder near it.",
    no_sunset="It does not set tonight.",
    sets_in=lambda time: f"It sets in {clock_words.duration(time)}.",
    set_ago=lambda time: f"Sunset was {clock_words.duration(time)} ago.",
    rises_in=lambda time: f"The Sun rises in {clock_words.duration(time)}. Cap everything before then.",
    first_stars_in=lambda time: f"The first stars come in about {clock_words.duration(time)}.",
    dark_in=lambda time: f"Fully dark in {clock_words.duration(time)}.",
    never_dark="It won't get fully dark tonight.",
    is_dark="It is fully dark.",
    morning="Morning twilight has begun.",
    under_the_midnight_sun=_under_the_midnight_sun,
    in_a_light_night=_in_a_light_night,
)


def good_evening(moment: Moment) -> str:
    """Greet."""
    return sentence(clock_words.greeting(places.local_time(moment)))


CHECK_IN = Chapter(
    phrases={
        GoodEvening: good_evening,
        GoodEveningWhereverYouAre: "Good evening. I'll talk you through the set-up.",
        NoSkyWithoutAPlace: "Without a place I can't tell where anything stands in the sky.",
        ClockMayHaveStood: "I was switched off, and this machine has no clock that runs on meanwhile.",
        ClockSetToTheLastAnswer: "While I was off, my clock lost the time. I've set it to when you last answered.",
        NoSkyForThatYear: no_sky_for_that_year,
        IsTheClockRight: is_the_clock_right,
        WhatIsWrongWithIt: "What is wrong: the hour, the date, or the zone?",
        TellMeTheTime: "What time is it?",
        TellMeTheDate: "What day is it? Say it like: the fifth of November.",
        TellMeTheYear: "What year is it?",
        NoSuchDay: "There is no such day.",
        TheZoneFollowsThePlace: "I'll take the zone from the place: let's check that.",
        IsThePlaceRight: is_the_place_right,
        HowDarkItIs: how_dark_it_is,
        ShallWeStart: "Say ready when you want to begin, or: ask about my telescope.",
    },
    terse={ShallWeStart: "Are you ready?"},
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
        TellMeTheYear: "My clock may have lost its battery, so I don't trust its year. Say it like: twenty twenty-six.",
        IsThePlaceRight: "A hundred kilometres, or sixty miles, are about one degree of sky. Say yes if it is near enough.",
        ShallWeStart: "Ready begins with the tripod. If I know your telescope, my advice fits it: ask about my telescope.",
    },
)
