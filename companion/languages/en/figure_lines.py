"""What single commands print for a person, in English: times and directions as they are said in an evening."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from companion.languages.en.clock_words import calendar_day, time_of_day, zone_name
from companion.languages.en.direction_words import degrees
from companion.languages.en.fact_words import constellation_name
from companion.languages.en.number_words import cardinal


def night_lines(times: Mapping[str, datetime | None], zone: str) -> list[str]:
    """Return whose clock it is, and a line for each event of the night; None is one there is not."""
    said = {name: "none tonight" if time is None else time_of_day(time) for name, time in times.items()}
    return [f"By {zone_name(zone)}:", *(f"{name.replace('_', ' ').capitalize()}: {when}." for name, when in said.items())]


def moon_line(lit: float, rises: datetime | None, sets: datetime | None) -> str:
    """Return the share of the Moon that is lit, 0..1, and its next rise and set."""
    return f"The Moon is {cardinal(round(100 * lit))} per cent lit. Next rise: {_when(rises)}. Next set: {_when(sets)}."


def _when(time: datetime | None) -> str:
    return "none in the days to come" if time is None else f"{time_of_day(time)}, {calendar_day(time)}"


def place_line(altitude_deg: float, azimuth_deg: float, constellation: str) -> str:
    """Return where something is; ``constellation``: its three letters."""
    height = f"{degrees(abs(altitude_deg))} {'up' if altitude_deg >= 0 else 'below the horizon'}"
    return f"In {constellation_name(constellation)}, {degrees(azimuth_deg % 360)} from north through east, {height}."


def rehearsed(finished: bool, understood: tuple[int, int], refused: tuple[int, int]) -> list[str]:
    """Say how a rehearsal went: so many of so many answers, and of strange utterances."""
    return [
        f"The evening {'came to its end' if finished else 'did not come to its end'}.",
        f"Understood: {understood[0]} of {understood[1]} answers. Refused: {refused[0]} of {refused[1]} strange utterances.",
    ]
