"""Reads the command line into options, by the table of commands."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import NoReturn

from companion.command_table import COMMANDS, COMMON, Command
from companion.errors import WrongCall
from companion.lines import put_line


class _Parser(argparse.ArgumentParser):
    """Complains in one line, as every command does, instead of printing its usage."""

    def error(self, message: str) -> NoReturn:
        raise WrongCall(message, program=self.prog)

    def _print_message(self, message: str, file: object = None) -> None:
        # The library would keep it to itself when help can't be written.
        put_line(message.rstrip("\n"))


def read_arguments(arguments: Sequence[str] | None = None) -> argparse.Namespace:
    """Return the options of one call; ``function`` names the command's function. WrongCall when they make no sense."""
    parser = _Parser(prog="companion", description="A hands-free voice companion for setting up a telescope in the dark.")
    for option in COMMON:
        parser.add_argument(*option.names, **option.settings)
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    for command in COMMANDS:
        _add_command(commands, command)
    return parser.parse_args(arguments)


def language_named(arguments: Sequence[str] | None = None) -> str | None:
    """Return the language a call names, whatever else is wrong with it; None where it names none."""
    parser = _Parser(add_help=False, allow_abbrev=False)
    parser.add_argument("--language")
    try:
        return parser.parse_known_args(arguments)[0].language  # type: ignore[no-any-return]
    except WrongCall:
        return None


def _add_command(commands: argparse._SubParsersAction[_Parser], command: Command) -> None:
    parser = commands.add_parser(command.name, help=command.summary, description=command.summary)
    parser.set_defaults(function=command.function)
    for option in COMMON:
        # Left out here, it is as it was given before the command's name.
        parser.add_argument(*option.names, **{**option.settings, "default": argparse.SUPPRESS})
    for option in command.options:
        parser.add_argument(*option.names, **option.settings)
    if command.actions:
        actions = parser.add_subparsers(metavar="ACTION")
        for action in command.actions:
            _add_command(actions, action)
