"""Ask what the observer has and how they work, one question after another. Every question may be skipped."""

from __future__ import annotations

from dataclasses import replace

from companion.procedure.ask_horizon import ask_horizon
from companion.procedure.ask_instrument import ask_instrument
from companion.procedure.ask_mount import ask_confirm_key, ask_last_keys_by_the_manual, ask_pose_time, ask_star_choice, ask_turns_by_hand
from companion.procedure.ask_observer import ask_company, ask_compass, ask_fullness, ask_limits, ask_milky_way
from companion.procedure.ask_place import ask_place
from companion.procedure.equipment_told import EquipmentTold, MountTold, ObserverTold
from companion.procedure.script import Context, Steps
from companion.talk.equipment_phrases import (
    AboutYourEquipment,
    EquipmentKnown,
)


def ask_about_equipment(context: Context) -> Steps[EquipmentTold]:
    """Ask everything."""
    yield AboutYourEquipment()
    site = yield from ask_place()
    return replace((yield from ask_about_telescope(context)), site=site)


def ask_about_telescope(context: Context) -> Steps[EquipmentTold]:
    """Ask everything but the place."""
    instrument = yield from ask_instrument()
    compass = yield from ask_compass()
    star_choice = yield from ask_star_choice()
    mount = MountTold(
        star_choice,
        pose_time=(yield from ask_pose_time()),
        turns_by_hand=(yield from ask_turns_by_hand()),
        confirm_key=(yield from ask_confirm_key()),
        last_keys=None if star_choice in (None, "unnamed") else (yield from ask_last_keys_by_the_manual()),
    )
    horizon = yield from ask_horizon(context.equipment.observer.fist_deg)
    observer = ObserverTold(
        compass,
        sees_milky_way=(yield from ask_milky_way()),
        in_company=(yield from ask_company()),
        limits=(yield from ask_limits()),
        terse=(yield from ask_fullness()),
    )
    yield EquipmentKnown()
    return EquipmentTold(None, instrument, mount, observer, horizon)
