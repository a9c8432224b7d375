"""Ask what the observer has and how they work, one question after another. Every question may be skipped."""

from __future__ import annotations

from dataclasses import replace

from companion.procedure.ask_horizon import ask_horizon
from companion.procedure.ask_instrument import ask_instrument
from companion.procedure.ask_mount import ask_confirm_key, ask_last_keys_by_the_manual, ask_pose_time, ask_star_choice, ask_turns_by_hand
from companion.procedure.ask_observer import ask_company, ask_compass, ask_fullness, ask_how_dark_it_is, ask_limits
from companion.procedure.ask_place import ask_place
from companion.procedure.equipment_told import EquipmentTold, MountTold, ObserverTold, tables_of
from companion.procedure.notes import Learned
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
    """Ask everything but the place, and note telescope, compass and mount as they are told: who goes elsewhere isn't asked again."""
    instrument = yield from ask_instrument()
    yield _noted(EquipmentTold(instrument=instrument))
    compass = yield from ask_compass()
    yield _noted(EquipmentTold(observer=ObserverTold(compass)))
    mount = MountTold((yield from ask_star_choice()))
    yield _noted(EquipmentTold(mount=mount))
    mount = replace(mount, pose_time=(yield from ask_pose_time()))
    yield _noted(EquipmentTold(mount=mount))
    mount = replace(
        mount,
        turns_by_hand=(yield from ask_turns_by_hand()),
        confirm_key=(yield from ask_confirm_key()),
        last_keys=None if mount.star_choice in (None, "unnamed") else (yield from ask_last_keys_by_the_manual()),
    )
    yield _noted(EquipmentTold(mount=mount))
    horizon = yield from ask_horizon(context.equipment.observer.fist_deg)
    sees_milky_way, sky_mag_arcsec2 = yield from ask_how_dark_it_is()
    observer = ObserverTold(
        compass,
        sees_milky_way=sees_milky_way,
        sky_mag_arcsec2=sky_mag_arcsec2,
        in_company=(yield from ask_company()),
        limits=(yield from ask_limits()),
        terse=(yield from ask_fullness()),
    )
    yield EquipmentKnown()
    return EquipmentTold(None, instrument, mount, observer, horizon)


def _noted(told: EquipmentTold) -> Learned:
    """Return the note of what was told so far."""
    return Learned(tables_of(told))
