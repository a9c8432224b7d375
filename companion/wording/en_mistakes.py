"""English for finding out why the mount missed: hand measures back, readings of the hand control, causes and remedies."""

from __future__ import annotations

from collections.abc import Mapping

from companion import sky
from companion.sky import Moment
from companion.wording import clock
from companion.wording.causes import cause_in_words, remedy_in_words
from companion.wording.directions import degrees, sentence
from companion.wording.names import spoken_name
from companion.wording.numerals import cardinal, count_of, digits
from companion.wording.phrase import Phrase


def which_way_and_how_far(moment: Moment, *, star: str) -> str:
    """Ask for the miss in hand measures."""
    return f"Which way from where the tube points is {spoken_name(star)}, and how far? In fists and fingers at arm's length."


def where_was_the_last_star(moment: Moment, *, star: str) -> str:
    """Ask for the last star's miss afterwards."""
    return f"When the mount stopped for {spoken_name(star)}, where did the star lie? Which way from the tube, and how far?"


def miss_heard(moment: Moment, *, right_deg: float | None, up_deg: float | None) -> str:
    """Say the miss back in degrees, so that a wrong one is noticed."""
    if right_deg is None or up_deg is None:
        return "Not to be seen at all."
    if abs(right_deg) > 90:
        return "Behind you."
    parts = []
    if round(right_deg):
        parts.append(f"{degrees(abs(right_deg))} {'right' if right_deg > 0 else 'left'}")
    if round(up_deg):
        parts.append(f"{degrees(abs(up_deg))} {'up' if up_deg > 0 else 'down'}")
    return sentence(", ".join(parts)) if parts else "Hardly off."


def read_it_back(moment: Moment, *, reading: str, star: str) -> str:
    """Ask whether the hand control shows what it should."""
    settings, local = sky.mount_settings(moment), sky.local_time(moment)
    match reading:
        case "date":
            day = f"{digits(local.day, 2)}, month {digits(local.month, 2)}, year {digits(local.year, 4)}"
            return f"Look at the date in the hand control. Is it day {day}?"
        case "time":
            return f"Look at the time in the hand control. Is it about {clock.time_of_day(local)}?"
        case "daylight_saving":
            return f"Is daylight saving switched {'on' if settings.daylight_saving else 'off'} in the hand control?"
        case "time_zone":
            hours = settings.standard_offset_hours
            whole, minutes = divmod(round(abs(hours) * 60), 60)
            half = f" {cardinal(minutes)} minutes" if minutes else ""
            return f"Is the zone {'minus' if hours < 0 else 'plus'} {count_of(whole, 'hour')}{half} in the hand control?"
        case "latitude" | "longitude":
            figures = settings.latitude_dms if reading == "latitude" else settings.longitude_dms
            degree, rest = figures.split("°")
            quarter = {"N": "north", "S": "south", "E": "east", "W": "west"}[figures[-1]]
            return f"Is the {reading} {cardinal(int(degree))} degrees {cardinal(int(rest[:2]))} minutes {quarter} in the hand control?"
    return f"Are you sure that the star was {spoken_name(star)}, and not a neighbour?"


def that_is_wrong(moment: Moment, *, reading: str, star: str) -> str:
    """Say what the hand control should show instead."""
    if reading == "star_name":
        return f"Then look again for {spoken_name(star)}."
    if reading == "daylight_saving":
        return f"It should be {'on' if sky.mount_settings(moment).daylight_saving else 'off'} tonight."
    return "Then that must be put right."


def fairly_sure_of_the_cause(moment: Moment, *, cause: str) -> str:
    """Name a cause we are fairly sure of."""
    return f"I'm fairly sure: {cause_in_words(cause)}."


def one_of_two_causes(moment: Moment, *, cause: str, other: str) -> str:
    """Name two causes, honestly."""
    return f"I can't tell for certain. Most likely {cause_in_words(cause)}. It could also be that {cause_in_words(other)}."


def mend_it(moment: Moment, *, cause: str) -> str:
    """Say the least that must be done again, and wait for it."""
    return f"{remedy_in_words(cause)} The finder is still good. Say ready."


def that_star_is_down(moment: Moment, *, star: str) -> str:
    """Say that the mount offers a star below the horizon."""
    return f"{spoken_name(star)} is below the horizon now. A mount that is told right would not offer it."


PHRASES: Mapping[str, Phrase] = {
    "which-way-and-how-far": which_way_and_how_far,
    "where-was-the-last-star": where_was_the_last_star,
    "steer-it-there": "That is no more than a sloppy start. Steer it there with the arrow keys. Is it in the finder?",
    "which-star-does-it-name": "Which star does it name?",
    "that-star-is-down": that_star_is_down,
    "miss-heard": miss_heard,
    "read-it-back": read_it_back,
    "an-ordinary-miss": "That can happen with nothing wrong. Steer it there with the arrow keys.",
    "that-is-wrong": that_is_wrong,
    "fairly-sure-of-the-cause": fairly_sure_of_the_cause,
    "one-of-two-causes": one_of_two_causes,
    "perhaps-our-own-clock": "If all that is right in the hand control, my own clock or place may be wrong. Compare them with your watch.",
    "mend-it": mend_it,
}
