"""The program answers at once what needs no computing: nothing heavy is loaded for it."""

from __future__ import annotations

import argparse
import subprocess
import sys
from pkgutil import resolve_name

import pytest

from companion.arguments import read_arguments
from companion.command_table import COMMANDS, Command

LIGHT = {"companion", "companion.arguments", "companion.cli", "companion.command_table", "companion.errors", "companion.lines"}
LOADED = """
import sys
from companion.cli import main
try:
    main(sys.argv[1:])
except SystemExit:
    pass
print(*sorted(sys.modules))
"""


def _loaded(*arguments: str) -> set[str]:
    """Return the modules a call has loaded when it is done."""
    done = subprocess.run([sys.executable, "-c", LOADED, *arguments], capture_output=True, text=True, check=True, timeout=60)
    return set(done.stdout.splitlines()[-1].split())


@pytest.mark.parametrize(
    "arguments", [["--help"], ["where", "--help"], ["profile", "set", "--help"], [], ["frobnicate"], ["where"], ["stars", "--count", "0"]]
)
def test_help_and_wrong_requests_load_nothing_heavy(arguments: list[str]) -> None:
    """Neither numpy nor skyfield nor any room of ours is loaded to list what there is or to refuse what there isn't."""
    loaded = _loaded(*arguments)
    assert not loaded & {"numpy", "skyfield", "soundfile", "onnxruntime", "sounddevice"}
    assert {module for module in loaded if module.split(".")[0] == "companion"} == LIGHT


def test_what_counts_as_loaded_is_seen() -> None:
    """The look at the modules finds numpy and skyfield where a command does compute."""
    assert {"numpy", "skyfield", "companion.sky"} <= _loaded("where", "Vega", "--lat", "46", "--lon", "0")


def test_every_function_of_the_table_is_there() -> None:
    """Each command and action names a function that exists; names are loaded only when called, so nothing else would tell."""
    for command in _all(COMMANDS):
        assert callable(resolve_name(f"companion.commands.{command.function}")), command.name


def test_the_table_reaches_its_functions() -> None:
    """An action's function is taken before its command's; options given before the command stay, those left out have their defaults."""

    def read(*arguments: str) -> argparse.Namespace:
        return read_arguments(arguments)

    assert read("profile").function == read("profile", "show").function == "profiles:show"
    assert read("--at", "noon", "profile", "set", "engine", "vosk").function == "profiles:change"
    assert read("--at", "noon", "profile", "set", "engine", "vosk").at == "noon"
    assert read("--at", "noon", "night", "--at", "dusk").at == "dusk"
    assert (read("night").at, read("night").language, read("night").json) == (None, "en", False)


def _all(commands: tuple[Command, ...]) -> list[Command]:
    return [found for command in commands for found in (command, *_all(command.actions))]
