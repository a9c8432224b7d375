"""The night that begins next: its dark hours, its Moon, and what not to miss in it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache

from companion.equipment import Equipment
from companion.observing.outfit import outfit_of, site_sky_of
from companion.observing.target_choice import RankedTarget, targets
from companion.sky import Body, Moment, Night, Sight, Site, moon_state, night_around
from companion.sky.night import ASTRONOMICAL_DEG, SUNSET_DEG, MoonState
from companion.sky.visibility import nothing_hidden

_LOOK_AFTER = timedelta(hours=1)
"""How far into the dark the targets are ranked: eyes and telescope have settled by then. Judgement."""
_NEARLY_A_DAY = timedelta(hours=23)
_HALF_A_DAY = timedelta(hours=12)
_ALL_DAY = timedelta(hours=23)


@dataclass(frozen=True)
class NightAhead:
    """A night that is still to begin; every time is in UTC."""

    site: Site
    night: Night
    dark_from: datetime | None
    """When the Sun is 18 degrees down; None where it never gets there. Where it stays there all day, the night counts from noon."""
    dark_until: datetime | None
    moon: MoonState
    """As it is when the night begins; rise and set are the next ones after that."""

    @property
    def begins(self) -> datetime:
        """Sunset; where there is none, nightfall; where there is neither, the middle of the night."""
        return self.night.sunset or self.dark_from or self.night.culmination

    @property
    def is_dark_all_day(self) -> bool:
        """Whether the Sun stays 18 degrees down round the clock, so that no hour is the one to be there by."""
        return self.dark_from is not None and self.dark_until is not None and self.dark_until - self.dark_from > _ALL_DAY

    @property
    def look_at(self) -> datetime | None:
        """When to look first: an hour into the dark, the darkest moment of a night that never gets dark; None where the Sun stays up."""
        if self.dark_from is None or self.dark_until is None:
            return self.night.culmination if self.night.lowest_sun_deg < SUNSET_DEG else None
        return self.dark_from + min(_LOOK_AFTER, (self.dark_until - self.dark_from) / 2)

    def not_to_miss(
        self, count: int, equipment: Equipment, hidden: Callable[[Sight], bool] = nothing_hidden, own: Sequence[Body] = ()
    ) -> list[RankedTarget]:
        """Return what this telescope shows best early in the night, best first; ``own`` are the observer's own objects."""
        if self.look_at is None:
            return []
        outfit, dark = outfit_of(equipment.instrument), site_sky_of(equipment.observer)
        return targets(Moment(self.site, self.look_at), count, hidden, outfit=outfit, sky=dark, hard=equipment.observer.hard, own=own)


@lru_cache(maxsize=4)
def night_ahead(moment: Moment) -> NightAhead:
    """Return the night that begins next: the first whose dark, or whose sunset where it won't get dark, is still to come."""
    night = night_around(moment)
    dark_from, dark_until = _dark_hours(night)
    if (begins := dark_from or night.sunset) is not None and begins < moment.time:
        night = night_around(Moment(moment.site, night.culmination + _NEARLY_A_DAY))
        dark_from, dark_until = _dark_hours(night)
    begins = night.sunset or dark_from or night.culmination
    return NightAhead(moment.site, night, dark_from, dark_until, moon_state(Moment(moment.site, begins)))


def _dark_hours(night: Night) -> tuple[datetime | None, datetime | None]:
    if night.lowest_sun_deg > ASTRONOMICAL_DEG:
        return None, None
    return night.astronomical_dusk or night.culmination - _HALF_A_DAY, night.astronomical_dawn or night.culmination + _HALF_A_DAY
