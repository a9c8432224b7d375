"""Reads a JSON document field by field: every wrong, missing or unknown field is a ``BadRequest`` that names its path."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from companion.errors import BadRequest
from companion.sky.types import Site

_REQUIRED: Any = object()


@dataclass
class Fields:
    """One JSON object on its way to becoming a typed value. Ask for every field it may have, then call ``done``."""

    values: Mapping[str, Any]
    """The object as parsed."""
    path: str
    """Where it stands in the document, e.g. ``sightings[2]``; empty for the document itself."""
    asked: set[str] = field(default_factory=set)
    """The names asked for so far: all that the object may hold."""

    @classmethod
    def of(cls, value: Any, path: str) -> Fields:
        """Take a parsed JSON value that must be an object."""
        if not isinstance(value, Mapping):
            raise BadRequest(f"{path or 'the file'}: this must be an object {{…}}, not {_kind(value)}")
        return cls(value, path)

    def where(self, name: str) -> str:
        """Return the path of a field."""
        return f"{self.path}.{name}" if self.path else name

    def has(self, name: str) -> bool:
        """Return whether a field is there and not null."""
        self.asked.add(name)
        return self.values.get(name) is not None

    def raw(self, name: str) -> Any:
        """Return a field that must be there, as parsed."""
        if not self.has(name):
            raise BadRequest(f"{self.where(name)}: this is missing; add it")
        return self.values[name]

    def number(self, name: str, lowest: float, highest: float, default: Any = _REQUIRED) -> Any:
        """Return a finite number between two bounds, both allowed; an absent one is ``default`` where that is given."""
        if default is not _REQUIRED and not self.has(name):
            return default
        value = self.raw(name)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise BadRequest(f"{self.where(name)}: this must be a number, not {_kind(value)}")
        if not math.isfinite(value) or not lowest <= value <= highest:
            raise BadRequest(f"{self.where(name)}: {value:g} is not possible; give {lowest:g} to {highest:g}")
        return float(value)

    def text(self, name: str) -> str:
        """Return a text that must be there and not be blank."""
        value = self.raw(name)
        if not isinstance(value, str) or not value.strip():
            raise BadRequest(f"{self.where(name)}: this must be a text, not {_kind(value)}")
        return value.strip()

    def choice(self, name: str, choices: tuple[str, ...], default: str) -> Any:
        """Return one of a few words, or ``default`` where the field is absent."""
        if not self.has(name):
            return default
        value = self.values[name]
        if value not in choices:
            raise BadRequest(f"{self.where(name)}: {value!r} is not one of {', '.join(choices)}")
        return value

    def flag(self, name: str) -> bool:
        """Return true or false; an absent one is false."""
        value = self.values[name] if self.has(name) else False
        if not isinstance(value, bool):
            raise BadRequest(f"{self.where(name)}: this must be true or false, not {_kind(value)}")
        return value

    def time(self, name: str) -> datetime:
        """Return an ISO 8601 time that says its offset."""
        text = self.text(name)
        try:
            time = datetime.fromisoformat(text)
        except ValueError:
            raise BadRequest(f"{self.where(name)}: {text!r} is not an ISO 8601 time such as 2026-11-05T18:10:00+00:00") from None
        if time.utcoffset() is None:
            raise BadRequest(f"{self.where(name)}: {text!r} has no offset; add one, e.g. {text}+00:00 or {text}Z")
        return time

    def object(self, name: str) -> Fields:
        """Return a field that must be an object."""
        return Fields.of(self.raw(name), self.where(name))

    def items(self, name: str) -> Iterator[tuple[Any, str]]:
        """Yield each item of a list that must be there, with its path."""
        value = self.raw(name)
        if not isinstance(value, list | tuple):
            raise BadRequest(f"{self.where(name)}: this must be a list […], not {_kind(value)}")
        yield from ((item, f"{self.where(name)}[{index}]") for index, item in enumerate(value))

    def site(self, name: str) -> Site:
        """Return a site that must be there."""
        place = self.object(name)
        latitude = place.number("latitude_deg", -90.0, 90.0)
        longitude = place.number("longitude_deg", -180.0, 180.0)
        elevation = place.number("elevation_m", -500.0, 100_000.0, default=0.0)
        zone = place.text("zone") if place.has("zone") else "UTC"
        called = place.text("name") if place.has("name") else None
        place.done()
        return Site(latitude, longitude, elevation, zone, called)

    def done(self) -> None:
        """Refuse fields that nobody asked for: a misspelt option must not pass in silence."""
        unknown = sorted(set(map(str, self.values)) - self.asked)
        if unknown:
            raise BadRequest(f"{self.where(unknown[0])}: I don't know this field; known here: {', '.join(sorted(self.asked))}")


def _kind(value: Any) -> str:
    """Return what a parsed JSON value is, in words."""
    if value is None:
        return "null"
    if isinstance(value, str):
        return "an empty text" if not value.strip() else "a text"
    for types, word in (((bool,), "true or false"), ((int, float), "a number"), ((list, tuple), "a list"), ((Mapping,), "an object")):
        if isinstance(value, types):
            return word
    return "that"
