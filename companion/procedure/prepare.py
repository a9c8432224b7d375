"""Tell by day about the night to come, and what to charge and pack for it; what the observer brings is asked once and then known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from datetime import timedelta
from functools import lru_cache
from typing import get_args

from companion import observing, sky
from companion.equipment import Equipment, Kit
from companion.observing.night_ahead import NightAhead, night_ahead
from companion.procedure.notes import Learned
from companion.procedure.script import Context, Done, Script, Steps, ask
from companion.procedure.spoken_figures import ask_yes_no
from companion.sky import Body
from companion.talk.answers import KitAnswer
from companion.talk.prepare_phrases import (
    BeThereBy,
    ChargeAndPack,
    DarkHours,
    MoonOfTheNight,
    NotToMiss,
    Packed,
    ShallITellAboutTonight,
    ShallITellWhatToPack,
    UntilTonight,
    WhatDoYouBring,
    WhatElseDoYouBring,
)
from companion.talk.saying import Say

TARGET_COUNT = 5
_STILL_DAY = timedelta(hours=1)
"""So long before sunset it is too early to set up, and not too late to pack. Judgement."""
_KIT: Mapping[KitAnswer, Kit] = {
    KitAnswer.SPARE_BATTERIES: "spare-batteries",
    KitAnswer.DEW_STRIP: "dew-strip",
    KitAnswer.RED_LIGHT: "red-light",
    KitAnswer.GLOVES: "gloves",
    KitAnswer.CHAIR: "chair",
    KitAnswer.HOT_DRINK: "hot-drink",
}


def tell_about_tonight(context: Context) -> Script:
    """By day, offer to tell about the night to come; nothing where it is time to set up, or the Sun doesn't set."""
    now = context.moment(context.started)
    sunset = sky.night_around(now).sunset
    if not sky.sun_state(now).is_up or sunset is None or sunset - now.time < _STILL_DAY:
        return Done()
    if (yield from ask_yes_no(ShallITellAboutTonight())):
        ahead = night_ahead(now)
        yield from the_night(ahead)
        if (yield from ask_yes_no(ShallITellWhatToPack())):
            yield NotToMiss(tuple(target.sight.body.name for target in best_of(ahead, context.equipment, context.own)))
            kit = context.equipment.observer.brings
            yield ChargeAndPack(to_pack(context.equipment, (yield from ask_kit()) if kit is None else kit))
        yield from ask(UntilTonight())
    return Done()


def the_night(ahead: NightAhead) -> Iterator[Say]:
    """Yield what is told of a night: its dark hours, its Moon, and when to be there."""
    night, moon = ahead.night, ahead.moon
    yield DarkHours(ahead.dark_from, ahead.dark_until, night.culmination, sun_sets=ahead.look_at is not None)
    yield MoonOfTheNight(moon.phase_deg, ahead.begins, moon.rise, moon.set)
    if not ahead.is_dark_all_day and (dusk := night.sunset or ahead.dark_from) is not None:
        yield BeThereBy(dusk, is_sunset=night.sunset is not None)


@lru_cache(maxsize=4)  # A stage is run again at every "go back".
def best_of(ahead: NightAhead, equipment: Equipment, own: tuple[Body, ...] = ()) -> tuple[observing.RankedTarget, ...]:
    """Return what not to miss, the observer's own objects among it, where trees and roofs don't hide it, best first."""
    return tuple(ahead.not_to_miss(TARGET_COUNT, equipment, lambda sight: equipment.hides(sight.azimuth_deg, sight.altitude_deg), own))


def ask_kit() -> Steps[Set[Kit]]:
    """Ask what the observer brings, one thing at a time, and note it; nothing is noted where the question is skipped."""
    kit: set[Kit] = set()
    while len(kit) < len(get_args(Kit)):
        told = (yield from ask(WhatElseDoYouBring() if kit else WhatDoYouBring())).command
        if told is KitAnswer.SKIP and not kit:
            return frozenset(get_args(Kit))
        if told is KitAnswer.DONE or told is KitAnswer.SKIP:
            break
        kit.add(_KIT[told])
    yield Learned.one("observer", "brings", sorted(kit))
    return frozenset(kit)


def to_pack(equipment: Equipment, kit: Set[Kit] | None = None) -> tuple[Packed, ...]:
    """Return what to charge and pack, in that order; of what nobody has told, all that is of use. ``kit`` in place of the profile's."""
    instrument, observer = equipment.instrument, equipment.observer
    known = observer.brings if kit is None else kit
    brings = get_args(Kit) if known is None else known
    things: list[Packed] = ["mount-battery", "this-device", "power-supply", "eyepieces"]
    if instrument.has_diagonal is not False:
        things.append("diagonal")
    if instrument.finder == "dot":
        things.append("finder-battery")
    if observer.compass in ("needle", "card"):
        things.append("compass")
    things.append("spirit-level")
    return (*things, *(item for item in get_args(Kit) if item in brings))
