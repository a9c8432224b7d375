"""What the Sun is doing, the first stars and the dark, as they are told at check-in: a language gives the sentences, the order is here."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta

from companion import sky
from companion.sky import Moment, Night

_RECENT, _SOON = timedelta(hours=4), timedelta(hours=2)
"""A sunset so long past is told, a sunrise so near. Judgement."""


@dataclass(frozen=True)
class DarknessWords:
    """A language's sentences, each whole; how long is given where it is told."""

    caution: str
    """By day, before anything else."""
    no_sunset: str
    sets_in: Callable[[timedelta], str]
    set_ago: Callable[[timedelta], str]
    rises_in: Callable[[timedelta], str]
    first_stars_in: Callable[[timedelta], str]
    dark_in: Callable[[timedelta], str]
    never_dark: str
    is_dark: str
    morning: str
    """Morning twilight has begun."""
    under_the_midnight_sun: Callable[[Moment], str]
    """What can be done all the same, now."""
    in_a_light_night: Callable[[Moment], str]
    """What can be aligned on at the darkest moment, which is given."""


def how_dark(moment: Moment, words: DarknessWords) -> str:
    """Say what the Sun is doing now and when it will be dark; by day the caution comes first."""
    return " ".join(_told(moment, words))


def _told(moment: Moment, words: DarknessWords) -> Iterator[str]:
    night, now = sky.night_around(moment), moment.time
    if sky.sun_state(moment).is_up:
        yield words.caution
        if night.sunset is None:
            yield words.no_sunset
            yield words.under_the_midnight_sun(moment)
            return
        yield words.sets_in(night.sunset - now)
    else:
        if night.sunset and timedelta(0) <= now - night.sunset < _RECENT:
            yield words.set_ago(now - night.sunset)
        if night.sunrise and timedelta(0) < night.sunrise - now < _SOON:
            yield words.rises_in(night.sunrise - now)
            return
    yield from _stars_and_dark(night, moment, words)


def _stars_and_dark(night: Night, moment: Moment, words: DarknessWords) -> Iterator[str]:
    """Yield when the first stars come out and when it is fully dark, or that it is, or that neither will be."""
    now = moment.time
    if not sky.stars_come_out(moment):
        yield words.in_a_light_night(Moment(moment.site, night.culmination))
        return
    if night.civil_dusk and night.civil_dusk > now:
        yield words.first_stars_in(night.civil_dusk - now)
    if night.astronomical_dusk is None:
        yield words.never_dark
    elif night.astronomical_dusk > now:
        yield words.dark_in(night.astronomical_dusk - now)
    elif night.astronomical_dawn and now < night.astronomical_dawn:
        yield words.is_dark
    else:
        yield words.morning
