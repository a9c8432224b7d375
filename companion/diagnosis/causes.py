"""What goes wrong when a mount is set up, how often beforehand, and how often the mount itself then says "failed".

The figures are common practice and judgement, no published source; they are kept flat on purpose, no cause more than about nine times as
likely as another that people really meet, so that the geometry decides. Everything that weighs causes without degrees is in this table
and in ``CLUES``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

Cause = Literal[
    "start_azimuth",
    "magnetic_declination",
    "start_altitude",
    "base_tilt",
    "hour",
    "date_day",
    "date_month",
    "latitude",
    "longitude",
    "site",
    "wrong_star",
    "slipped",
    "reversed",
    "none",
]


@dataclass(frozen=True)
class Habit:
    """How a cause behaves before any direction is known."""

    prior: float
    """Share of the evenings that go wrong which go wrong this way (they sum to 1)."""
    fails_rotation: float
    """Probability that a mount that solves a rotation from its stars says "failed"."""
    fails_zeros: float
    """Probability that a mount that only shifts its zeros says "failed" at the second star."""
    reason: str
    """Why these figures."""


HABITS: Mapping[Cause, Habit] = MappingProxyType(
    {
        "start_azimuth": Habit(0.10, 0.15, 0.15, "north is found by a hasty glance; a turn about the vertical, which either way takes out"),
        "magnetic_declination": Habit(0.06, 0.12, 0.12, "few think of it, but it is only a few degrees in most places; as start_azimuth"),
        "start_altitude": Habit(0.08, 0.60, 0.20, "the tube is seldom levelled with care; no rotation, so separations come out wrong"),
        "base_tilt": Habit(
            0.07, 0.12, 0.45, "soft ground, a kicked leg, a bubble nobody looked at; a rotation takes it out, shifted zeros don't"
        ),
        "hour": Habit(0.16, 0.12, 0.65, "daylight saving and zone are asked for every evening; turns the sky about the pole, shape kept"),
        "date_day": Habit(0.02, 0.05, 0.08, "typed wrong or left at yesterday; one degree, hard to see"),
        "date_month": Habit(0.05, 0.12, 0.65, "day and month are swapped between countries; turns the sky about the pole"),
        "latitude": Habit(0.05, 0.12, 0.60, "typed once, north or south chosen wrongly; turns the sky about the east-west line"),
        "longitude": Habit(0.05, 0.12, 0.65, "typed once, east or west chosen wrongly; turns the sky about the pole"),
        "site": Habit(0.04, 0.12, 0.65, "the place before the journey, or latitude and longitude in each other's field"),
        "wrong_star": Habit(0.15, 0.85, 0.75, "in a sky one doesn't know; the separation of the two stars comes out wrong"),
        "slipped": Habit(0.06, 0.85, 0.75, "a loose clutch or a knock between two stars; the separation comes out wrong"),
        "reversed": Habit(0.05, 0.15, 0.20, "the tube put on the wrong way round; a turn about the vertical"),
        "none": Habit(0.06, 0.08, 0.08, "nobody asks about an ordinary miss, but some do"),
    }
)

Clue = Literal["stars_fine_moon_off", "good_near_first_star_worse_far_away", "kicked"]
"""What an observer tells that has no degrees in it, or what is known of the evening."""

CLUES: Mapping[Clue, Mapping[Cause, float]] = MappingProxyType(
    {
        # Once aligned, the stars hide what turns the whole sky; the Moon doesn't: it moves 13 degrees a day, half a degree an hour.
        # A wrong place moves it by its parallax, under a degree; nothing mechanical moves it alone.
        "stars_fine_moon_off": MappingProxyType(
            {"date_day": 0.9, "date_month": 0.9, "hour": 0.4, "site": 0.15, "longitude": 0.1, "latitude": 0.1}
        ),
        # A shift of the zeros takes an error out at the first star only: what turns the sky about another axis than the vertical comes
        # back with distance, and so does a tube that was not level. A turn about the vertical is taken out everywhere.
        "good_near_first_star_worse_far_away": MappingProxyType(
            {
                "hour": 0.7,
                "longitude": 0.7,
                "date_month": 0.7,
                "latitude": 0.7,
                "site": 0.7,
                "start_altitude": 0.5,
                "base_tilt": 0.6,
                "wrong_star": 0.4,
                "slipped": 0.2,
                "date_day": 0.2,
                "none": 0.2,
            }
        ),
        # What a kick does: a leg gives or sinks, a clutch slips, the whole mount turns.
        "kicked": MappingProxyType({"base_tilt": 0.5, "slipped": 0.3, "start_azimuth": 0.15}),
    }
)
CLUE_OTHERWISE = 0.05
"""How likely a clue is under a cause that its table leaves out."""

SAME_TURN: tuple[frozenset[Cause], ...] = (
    frozenset({"hour", "date_day", "date_month", "longitude"}),
    frozenset({"start_azimuth", "magnetic_declination", "reversed"}),
)
"""Causes that turn the sky about the same line (the pole; the vertical), so that only their size can tell them apart."""

HOUR_MEMBERS = ("daylight_saving", "time_zone", "am_pm", "clock")
