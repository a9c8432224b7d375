"""The night ahead."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from typing import Any

from companion.commands.options import language_of, moment_of, profile_of
from companion.commands.tonight import entry
from companion.observing import own_objects
from companion.observing.night_ahead import NightAhead, night_ahead
from companion.printing import Printer, site_time
from companion.procedure.prepare import best_of, the_night, to_pack
from companion.sky import Moment
from companion.talk.prepare_phrases import ChargeAndPack, NotToMiss, OneThing
from companion.user_files import home

DONE = 0


def prepare(options: argparse.Namespace) -> int:
    """Tell about the night that begins next: dark hours, Moon, what to charge and pack, what not to miss."""
    moment, language, equipment = moment_of(options), language_of(options), profile_of(options).equipment
    ahead = night_ahead(moment)
    best, things = best_of(ahead, equipment, own_objects(home())), to_pack(equipment)
    names = tuple(target.sight.body.name for target in best)
    printer = Printer(options.json)
    printer.lines(*(language.words(saying, moment) for saying in (*the_night(ahead), NotToMiss(names), ChargeAndPack(things))))
    printer.document(
        {
            "dark_from": site_time(ahead.dark_from, moment.site),
            "dark_until": site_time(ahead.dark_until, moment.site),
            "moon": _moon(ahead),
            "pack": [language.words(OneThing(thing), moment) for thing in things],
            "targets": [entry(target, Moment(ahead.site, ahead.look_at or moment.time), language.sky) for target in best],
        }
    )
    return DONE


def _moon(ahead: NightAhead) -> Mapping[str, Any]:
    moon = ahead.moon
    return {
        "phase_deg": round(moon.phase_deg, 3),
        "illuminated_fraction": round(moon.illuminated_fraction, 4),
        "rise": site_time(moon.rise, ahead.site),
        "set": site_time(moon.set, ahead.site),
    }
