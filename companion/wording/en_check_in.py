"""English for the beginning and the end of an evening: time, place, darkness, leaving."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta

from companion import sky
from companion.sky import Moment, Night
from companion.wording import clock
from companion.wording.directions import sentence
from companion.wording.numerals import decimal
from companion.wording.phrase import Phrase

# The Sun below this altitude leaves bright stars visible: common practice, no published source.
FIRST_STARS_SUN_DEG = -6.0


def is_the_clock_right(moment: Moment) -> str:
    """Say the date, time, zone and daylight saving that everything will be computed with."""
    settings = sky.mount_settings(moment)
    local = sky.local_time(moment)
    saving = "on" if settings.daylight_saving else "off"
    return (
        f"I make it {clock.time_of_day(local)}, {clock.calendar_day(local)}. "
        f"{clock.zone(moment.site.zone, settings.utc_offset_hours)}, daylight saving {saving}. Is that right?"
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
        return f"{caution} It sets in {clock.duration(night.sunset - now)}. {_stars_and_dark(night, now)}".strip()
    gone = f"The Sun set {clock.duration(now - night.sunset)} ago. " if night.sunset and _is_recent(now - night.sunset) else ""
    if night.sunrise and timedelta(0) < night.sunrise - now < timedelta(hours=2):
        return f"{gone}The Sun rises in {clock.duration(night.sunrise - now)}. Cap everything before then."
    return f"{gone}{_stars_and_dark(night, now)}".strip()


def _is_recent(ago: timedelta) -> bool:
    return timedelta(0) <= ago < timedelta(hours=4)


def _stars_and_dark(night: Night, now: datetime) -> str:
    """Return when the first stars come out and when it is fully dark, or that it is, or that it won't be."""
    parts = []
    if night.civil_dusk and night.civil_dusk > now:
        parts.append(f"First stars in about {clock.duration(night.civil_dusk - now)}.")
    if night.astronomical_dusk is None:
        parts.append("It won't get fully dark tonight.")
    elif night.astronomical_dusk > now:
        parts.append(f"Fully dark in {clock.duration(night.astronomical_dusk - now)}.")
    elif night.astronomical_dawn and now < night.astronomical_dawn:
        parts.append("It is fully dark.")
    else:
        parts.append("Morning twilight has begun.")
    return " ".join(parts)


def good_evening(moment: Moment) -> str:
    """Greet, and say at once what the voice cannot do."""
    return (
        f"{sentence(clock.greeting(sky.local_time(moment)))} I talk you through the set-up. "
        "I cannot move the mount or hold it: for that, press any arrow key."
    )


PHRASES: Mapping[str, Phrase] = {
    "good-evening": good_evening,
    "is-the-clock-right": is_the_clock_right,
    "mend-the-clock": "Then put the clock and the zone of this device right. Say ready, and I read it again.",
    "is-the-place-right": is_the_place_right,
    "mend-the-place": "Then my directions would be wrong. Say good night, and start me with the right latitude and longitude.",
    "how-dark-it-is": how_dark_it_is,
    "shall-we-start": "Say ready when you want to begin.",
    "good-night": (
        "Park the tube level and switch off. Cap the tube and the finder before you carry anything. "
        "It is heavy in the dark: clear your path first, and lift with your legs. Good night."
    ),
}
