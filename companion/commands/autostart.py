"""The companion at power-on: shown, switched on and off."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from companion.autostart import Unit, require_systemd, unit, what_remains
from companion.commands.options import told
from companion.errors import BadRequest
from companion.printing import Printer
from companion.talk.command_phrases import (
    NothingElseToDo,
    PowerOnIsOn,
    PowerOnRemoved,
    PowerOnWasOff,
    PowerOnWasOn,
    PowerOnWouldBe,
    PowerOnWritten,
)

DONE = 0


def show(options: argparse.Namespace) -> int:
    """Print the unit and what ``on`` would do."""
    require_systemd()
    ours, printer = _unit(options), Printer(options.json)
    _print_unit(ours, printer)
    if ours.is_on:
        printer.lines(told(options, PowerOnIsOn(str(ours.path))))
    else:
        printer.lines(told(options, PowerOnWouldBe(str(ours.path), str(ours.link))))
    return _tell(ours, options)


def on(options: argparse.Namespace) -> int:
    """Print the unit, write it, and have it started with the user's manager."""
    require_systemd()
    ours, printer = _unit(options), Printer(options.json)
    _print_unit(ours, printer)
    was_on = ours.is_on
    ours.write()
    printer.lines(told(options, PowerOnWasOn(str(ours.path)) if was_on else PowerOnWritten(str(ours.path))))
    return _tell(ours, options)


def off(options: argparse.Namespace) -> int:
    """Remove exactly what ``on`` wrote."""
    ours, printer = unit(os.environ), Printer(options.json)
    removed = ours.remove()
    printer.lines(told(options, PowerOnRemoved(str(ours.path), ours.path.name) if removed else PowerOnWasOff()))
    printer.document({"unit": str(ours.path), "on": False})
    return DONE


def _print_unit(ours: Unit, printer: Printer) -> None:
    printer.lines(*ours.text.rstrip("\n").splitlines(), "")


def _tell(ours: Unit, options: argparse.Namespace) -> int:
    """Print what remains to be done, and the document."""
    printer, remains = Printer(options.json), [told(options, saying) for saying in what_remains()]
    printer.lines(*(remains or [told(options, NothingElseToDo())]))
    printer.document({"unit": str(ours.path), "text": ours.text, "on": ours.is_on, "remains": remains})
    return DONE


def _unit(options: argparse.Namespace) -> Unit:
    """Return the unit that starts an evening with the options of this call, as far as they hold for every evening."""
    if options.at is not None:
        raise BadRequest("--at is for one evening; at power-on the clock's time is used, and asked for")
    kept = [("--lat", options.lat), ("--lon", options.lon), ("--elevation", options.elevation)]
    kept.append(("--profile", None if options.profile is None else Path(options.profile).absolute()))
    kept.append(("--language", None if options.language == "en" else options.language))
    return unit(os.environ, [word for name, value in kept if value is not None for word in (name, str(value))])
