"""What a likely cause of a miss means, and the least that must be done again, in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from companion.diagnosis import COMPASS_POINTS, Cause, CauseFound
from companion.languages.en.number_words import count_of, decimal
from companion.languages.en.spoken_names import spoken_name

_NAMES: Mapping[Cause, str] = {
    "start_azimuth": "the tube did not start facing true north",
    "magnetic_declination": "the compass was corrected wrongly for true north",
    "start_altitude": "the tube was not level at the start",
    "base_tilt": "the base is not level",
    "hour": "the clock is wrong by part of a day",
    "date_day": "the day is wrong",
    "date_month": "the month is wrong",
    "latitude": "the latitude is wrong",
    "longitude": "the longitude is wrong",
    "site": "the place is another one",
    "wrong_star": "another star was centred",
    "slipped": "an axis slipped between the stars",
    "reversed": "the tube started facing the wrong way round",
    "none": "an ordinary miss, nothing is wrong",
}
_MEMBERS: Mapping[str, str] = {
    "daylight_saving": "daylight saving",
    "time_zone": "the time zone",
    "am_pm": "morning for evening",
    "clock": "the clock itself",
    "sign": "north for south, or east for west",
    "value": "the number itself",
    "month": "the month itself",
    "day_month_swapped": "day and month swapped",
    "not_applied": "not applied",
    "applied_twice": "applied twice",
    "wrong_sign": "applied the wrong way",
    **{point: f"towards the {point.replace('_', '-')}" for point in COMPASS_POINTS},
}
# The least that must be done again: what was done well stays.
_REMEDIES: Mapping[Cause, str] = {
    "start_azimuth": "Bring the tube back to level and true north, and begin the alignment again. The settings can stay.",
    "magnetic_declination": "Bring the tube to true north with the corrected compass reading, and begin the alignment again.",
    "start_altitude": "Lay the spirit level along the tube, bring it level, and begin the alignment again.",
    "base_tilt": "Bring the bubble of the base to its middle, and begin the alignment again from level and north.",
    "hour": "Check daylight saving, the zone, and morning or evening. Correct it, then begin again from level and north.",
    "date_day": "Check the day of the date. Correct it, then begin the alignment again.",
    "date_month": "Check the month, and that day and month are not swapped. Correct it, then begin the alignment again.",
    "latitude": "Check the latitude, and its north or south. Correct it, then begin the alignment again.",
    "longitude": "Check the longitude, and its east or west. Correct it, then begin the alignment again.",
    "site": "Check latitude and longitude against where you are. Correct them, then begin the alignment again.",
    "wrong_star": "Centre the star that was named, and begin the alignment again from its first star.",
    "slipped": "Hand on the tube first, then snug both clamps. Begin again from level and north.",
    "reversed": "Bring the tube round to face true north, and begin the alignment again.",
    "none": "Centre it with the arrows and go on.",
}


# What tells a cause from others, whether or not further stars could.
_DECIDES: Mapping[Cause, str] = {
    "start_azimuth": "which way the tube faced at the start",
    "magnetic_declination": "how the compass reading was corrected",
    "start_altitude": "a spirit level along the tube in its start position",
    "base_tilt": "the bubble of the base",
    "hour": "the time, the zone and daylight saving that the mount shows",
    "date_day": "the date that the mount shows",
    "date_month": "the date that the mount shows",
    "latitude": "the latitude that the mount shows",
    "longitude": "the longitude that the mount shows",
    "site": "the latitude and longitude that the mount shows",
    "wrong_star": "the colour, brightness and neighbours of the star that was centred",
    "slipped": "whether both clamps are snug",
    "reversed": "which end of the tube faced north",
    "none": "one more star",
}


def explain_cause(found: CauseFound) -> str:
    """Say what a cause means here, how large it is, and which others these misses can't be told from."""
    text = sum_up_cause(found)
    others = [*found.same_turn, *(cause for cause in found.fits_as_well if cause not in found.same_turn)]
    if others:
        text += f" These misses fit as well: {'; '.join(_NAMES[cause] for cause in others)}."
    return text


def sum_up_cause(found: CauseFound) -> str:
    """Say what a cause means here and how large it is, in one sentence."""
    parts = [_NAMES[found.cause] + _size(found)]
    likeliest = [_MEMBERS[member] for member in found.members[:2]]
    if likeliest:
        parts.append(f"most likely {likeliest[0]}" + (f", else {likeliest[1]}" if len(likeliest) > 1 else ""))
    if found.cause == "wrong_star" and found.star and isinstance(found.value, str):
        parts.append(f"{spoken_name(found.value)} instead of {spoken_name(found.star)}")
    text = "; ".join(parts)
    return text[:1].upper() + text[1:] + "."


def what_would_decide(causes: Sequence[CauseFound]) -> str | None:
    """Say what tells a few causes from one another; None where there is but one."""
    checks = dict.fromkeys(_DECIDES[found.cause] for found in causes)
    return f"What would decide: {'; '.join(checks)}." if len(causes) > 1 else None


def remedy_in_words(cause: Cause) -> str:
    """Return the least that must be done again for a cause."""
    return _REMEDIES[cause]


def cause_in_words(cause: Cause) -> str:
    """Return a cause as half a sentence."""
    return _NAMES[cause]


def _size(found: CauseFound) -> str:
    """Return how large an error is, told minus true, where it is a number."""
    if not isinstance(found.value, int | float):
        return ""
    amount = abs(found.value)
    if found.cause == "hour":
        hours = "one hour" if decimal(amount) == "one" else f"{decimal(amount)} hours"
        return f", about {hours} too {'late' if found.value > 0 else 'early'}"
    if found.cause in ("date_day", "date_month"):
        return f", about {count_of(round(amount), 'day')} too {'late' if found.value > 0 else 'early'}"
    if found.cause == "site":
        return f", about {count_of(round(amount), 'degree')} away"
    if found.cause in ("none", "reversed", "wrong_star"):
        return ""
    return f", by about {count_of(round(amount), 'degree')}"
