"""What to think of a star that the mount names: use it, or ask for another."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from companion.alignment.star_choice import HIGHEST_DEG, LOWEST_DEG, setting_soon
from companion.sky.catalogue import SUN
from companion.sky.positions import separation_deg, sight, sights
from companion.sky.twilight_visibility import visible_now
from companion.sky.types import Body, Moment, Sight
from companion.sky.visibility import SUN_BERTH_DEG, SUN_UNSAFE_ABOVE_DEG, nothing_hidden

CLOSE_DEG = 30.0
"""Two stars closer than this leave a go-to error half as large again, or more, as two 60 degrees apart (``expected_error_deg``)."""


@dataclass(frozen=True)
class StarVerdict:
    """A body that may be centred, and what speaks against it."""

    sight: Sight
    is_up: bool
    """Whether it is above the horizon; one that is down is a sign that the mount was told something wrong."""
    near_sun: bool
    """Within 20 degrees of a Sun that is up or nearly so: never to be pointed at."""
    is_hidden: bool
    """Behind trees or roofs."""
    too_low: bool
    """Below 15 degrees."""
    too_high: bool
    """Above 75 degrees: the azimuth axis can't follow well."""
    visible: bool
    """Whether it is up and the sky is dark enough for it now."""
    sets_soon: bool
    """Within half an hour it sinks below 15 degrees or goes behind something."""
    close_to_partner: Sight | None
    """The star already centred that it stands closest to, where that is less than 30 degrees; too little to learn from."""

    @property
    def usable(self) -> bool:
        """Whether to use it: nothing forbids it."""
        bad = self.near_sun or self.is_hidden or self.too_low or self.too_high or self.sets_soon or self.close_to_partner is not None
        return self.is_up and self.visible and not bad


def judge_star(body: Body, moment: Moment, hidden: Callable[[Sight], bool] = nothing_hidden, partners: Sequence[Body] = ()) -> StarVerdict:
    """Return what to think of centring a body now; ``partners`` are the stars already centred."""
    seen, sun = sight(body, moment), sight(SUN, moment, refraction=False)
    is_up = seen.altitude_deg > 0.0
    closest = min(sights(partners, moment), key=lambda other: separation_deg(seen, other), default=None)
    return StarVerdict(
        sight=seen,
        is_up=is_up,
        near_sun=sun.altitude_deg > SUN_UNSAFE_ABOVE_DEG and separation_deg(seen, sun) < SUN_BERTH_DEG,
        is_hidden=is_up and hidden(seen),
        too_low=seen.altitude_deg < LOWEST_DEG,
        too_high=seen.altitude_deg > HIGHEST_DEG,
        visible=visible_now(seen, moment),
        sets_soon=is_up and bool(setting_soon([seen], moment, hidden)),
        close_to_partner=closest if closest is not None and separation_deg(seen, closest) < CLOSE_DEG else None,
    )
