"""What is worth a word at a pause while targets are visited: little, and seldom."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Set
from datetime import datetime, timedelta

from companion import places, sky
from companion.sky import Moment, Sight
from companion.talk.night_phrases import DawnIsNear, ItIsMidnight, LookForDew, MoonRisesSoon, PlanetStandsBest
from companion.talk.saying import Say

SELDOM = timedelta(hours=1)
"""No more than one remark in so long. Judgement."""
_AHEAD, _EITHER_WAY = timedelta(minutes=20), timedelta(minutes=4)
"""How long before it comes something is told of, and how much sooner or later that may be."""
_DEW_AFTER = timedelta(minutes=90)
"""How long after the first target the glass is cold enough for dew. Judgement."""
_PLANETS = ("Jupiter", "Saturn", "Mars")
"""Those that are worth the hour of their best."""
_WORTH_IT_DEG = 20.0


def remark(moment: Moment, began: datetime, hides: Callable[[Sight], bool], told: Set[Say]) -> Say | None:
    """Return the first thing worth a word now that was not told yet; None where there is nothing.

    ``began``: when the first target was shown.
    """
    return next((one for one in _remarks(moment, began, hides) if one not in told), None)


def _remarks(moment: Moment, began: datetime, hides: Callable[[Sight], bool]) -> Iterator[Say]:
    if _comes(sky.moon_state(moment).rise, moment):
        yield MoonRisesSoon()
    if _comes(sky.night_around(moment).astronomical_dawn, moment):
        yield DawnIsNear()
    yield from (PlanetStandsBest(name) for name in _PLANETS if _is_at_its_best(name, moment, hides))
    if moment.time - began >= _DEW_AFTER:
        yield LookForDew()
    local = places.local_time(moment)
    minutes_off = (local.hour * 60 + local.minute + 720) % 1440 - 720
    if abs(minutes_off) <= _EITHER_WAY.total_seconds() / 60.0:
        yield ItIsMidnight()


def _comes(time: datetime | None, moment: Moment) -> bool:
    """Say whether something comes in about twenty minutes."""
    return time is not None and abs(time - moment.time - _AHEAD) <= _EITHER_WAY


def _is_at_its_best(name: str, moment: Moment, hides: Callable[[Sight], bool]) -> bool:
    """Say whether a planet is as high as it gets, within a few minutes, and high enough to be worth it."""
    body = sky.find(name)
    before, now, after = (
        sky.sight(body, Moment(moment.site, moment.time + step)) for step in (-2 * _EITHER_WAY, 0 * _EITHER_WAY, 2 * _EITHER_WAY)
    )
    return now.altitude_deg >= max(_WORTH_IT_DEG, before.altitude_deg, after.altitude_deg) and not hides(now)
