"""Reads tables of plain values, as a TOML file or a journal holds them, key by key; every complaint is one line that says the remedy."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Protocol

from companion.errors import BadRequest

Ignore = Callable[[str], None]
"""Receives a line about each thing that means nothing to us and is passed over."""


class Reader(Protocol):
    """Knows what one key may hold."""

    def read(self, value: object, where: str) -> Any:
        """Return the value, checked; ``where`` names its place in complaints. BadRequest when it can't be."""

    def from_text(self, text: str) -> object:
        """Return what a person typed on a command line as the plain value a file would hold, unchecked."""


@dataclass(frozen=True)
class Number:
    """A number within bounds."""

    lowest: float
    highest: float
    unit: str

    def read(self, value: object, where: str) -> float:
        """Return it as a float."""
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise BadRequest(f"{where} must be a number; give {self._bounds}")
        # Compared before it is made a float: a whole number in a file may be too large for one.
        if not self.lowest <= value <= self.highest:
            raise BadRequest(f"{where} can't be {'so large' if abs(value) > 1e12 else value}; give {self._bounds}")
        return float(value)

    def from_text(self, text: str) -> object:
        """Return the number typed."""
        return value_of_text(text)

    @property
    def _bounds(self) -> str:
        return f"{self.lowest:g} to {self.highest:g} {self.unit}"


@dataclass(frozen=True)
class Choice:
    """One of a few values, words in any case."""

    values: tuple[str | int, ...]

    def read(self, value: object, where: str) -> str | int:
        """Return the value as we spell it."""
        if isinstance(value, str | int) and not isinstance(value, bool):
            for known in self.values:
                if str(known) == str(value).strip().casefold():
                    return known
        raise BadRequest(f"{where} can't be {value!r}; choose one of: {', '.join(map(str, self.values))}")

    def from_text(self, text: str) -> object:
        """Return the word typed."""
        return text


@dataclass(frozen=True)
class Choices:
    """Any of a few words."""

    one: Choice

    def read(self, value: object, where: str) -> frozenset[str | int]:
        """Return them as a set."""
        if not isinstance(value, list | tuple):
            raise BadRequest(f"{where} must be a list; give any of: {', '.join(map(str, self.one.values))}")
        return frozenset(self.one.read(item, where) for item in value)

    def from_text(self, text: str) -> object:
        """Return the words typed with commas between, with or without brackets and quotes."""
        words = (word.strip(" []\"'") for word in text.split(","))
        return [word for word in words if word]


@dataclass(frozen=True)
class Flag:
    """True or false."""

    def read(self, value: object, where: str) -> bool:
        """Return it."""
        if not isinstance(value, bool):
            raise BadRequest(f"{where} must be true or false")
        return value

    def from_text(self, text: str) -> object:
        """Return what was typed; yes and no will do."""
        return {"yes": True, "true": True, "no": False, "false": False}.get(text.casefold(), text)


@dataclass(frozen=True)
class Text:
    """Any words that fit on a line."""

    def read(self, value: object, where: str) -> str:
        """Return them."""
        if not isinstance(value, str):
            raise BadRequest(f"{where} must be text in quotes")
        if len(value) > 200 or not value.isprintable():
            raise BadRequest(f"{where} must be one line of text, at most 200 characters")
        return value

    def from_text(self, text: str) -> object:
        """Return the words typed."""
        return text


def table(value: object, where: str) -> Mapping[str, Any]:
    """Return the value where it is a table. BadRequest otherwise."""
    if not isinstance(value, Mapping):
        raise BadRequest(f"{where} must be a table, such as [{where.rpartition(' ')[2]}] with a line for each key")
    return value


def read_keys(document: Mapping[str, Any], readers: Mapping[str, Reader], where: str, ignore: Ignore | None = None) -> dict[str, Any]:
    """Return what a table holds, by key; a key nobody knows is handed to ``ignore``, or is an error where there is none."""
    found = {}
    for key, value in document.items():
        reader = readers.get(key)
        if reader is not None:
            found[key] = reader.read(value, f"{where}: {key}")
        elif ignore is None:
            raise BadRequest(f"{where}: '{key}' means nothing here; known are {', '.join(sorted(readers))}")
        else:
            ignore(f"{where}: '{key}' means nothing to me and is passed over; known are {', '.join(sorted(readers))}")
    return found


def value_of_text(text: str) -> object:
    """Return what was typed as TOML would read it, or as the words themselves where it is no TOML."""
    try:
        document = tomllib.loads(f"value = {text}")
    except (ValueError, RecursionError):
        return text
    return document["value"] if len(document) == 1 else text
