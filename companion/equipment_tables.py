"""Equipment as tables of plain values, as a profile file and a journal hold it, and back."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, fields
from typing import Any, get_args

from companion import equipment
from companion.equipment import Equipment, Eyepiece, Instrument, Mount, Observer, Obstruction
from companion.errors import BadRequest
from companion.tables import Choice, Choices, Flag, Ignore, Number, Reader, Text, read_keys, table, value_of_text

_EYEPIECE: Mapping[str, Reader] = {
    "focal_length_mm": Number(1, 100, "millimetres"),
    "apparent_field_deg": Number(10, 130, "degrees"),
}
_OBSTRUCTION: Mapping[str, Reader] = {
    "from_azimuth_deg": Number(0, 360, "degrees"),
    "to_azimuth_deg": Number(0, 360, "degrees"),
    "altitude_deg": Number(0, 90, "degrees"),
    "what": Text(),
}
_POINTS = ("north", "north_east", "east", "south_east", "south", "south_west", "west", "north_west")


@dataclass(frozen=True)
class _Eyepieces:
    """A list of eyepieces, each a table or a bare focal length."""

    def read(self, value: object, where: str) -> tuple[Eyepiece, ...]:
        if not isinstance(value, list | tuple):
            raise BadRequest(f"{where} must be a list, such as [{{focal_length_mm = 25, apparent_field_deg = 50}}]")
        return tuple(self._one(item, where) for item in value)

    def from_text(self, text: str) -> object:
        return value_of_text(text if text.strip().startswith("[") else f"[{text}]")

    def _one(self, item: object, where: str) -> Eyepiece:
        keys = dict(item) if isinstance(item, Mapping) else {"focal_length_mm": item}
        if "focal_length_mm" not in keys:
            raise BadRequest(f"{where}: an eyepiece needs its focal_length_mm")
        return Eyepiece(**read_keys(keys, _EYEPIECE, where))


_INSTRUMENT: Mapping[str, Reader] = {
    "aperture_mm": Number(10, 5_000, "millimetres"),
    "focal_length_mm": Number(50, 50_000, "millimetres"),
    "eyepieces": _Eyepieces(),
    "has_diagonal": Flag(),
    "finder": Choice(get_args(equipment.FinderKind)),
    "finder_offset_cm": Number(0, 200, "centimetres"),
}
_MOUNT: Mapping[str, Reader] = {
    "star_choice": Choice(get_args(equipment.StarChoice)),
    "pose_time": Choice(get_args(equipment.PoseTime)),
    "turns_by_hand": Flag(),
    "confirm_key": Text(),
    "hours": Choice((12, 24)),
    "date_order": Choice(("day-month", "month-day", "year-month-day")),
}
_OBSERVER: Mapping[str, Reader] = {
    "compass": Choice(get_args(equipment.CompassKind)),
    "fist_deg": Number(equipment.FISTS_DEG.lowest, equipment.FISTS_DEG.highest, "degrees"),
    "sees_milky_way": Flag(),
    "in_company": Flag(),
    "limits": Choices(Choice(get_args(equipment.Limit))),
    "terse": Flag(),
}
TABLES: Mapping[str, Mapping[str, Reader]] = {"instrument": _INSTRUMENT, "mount": _MOUNT, "observer": _OBSERVER}
"""What each table may hold, by key. The horizon is a list, and stands beside them."""


def equipment_from(document: Mapping[str, Any], where: str = "equipment", ignore: Ignore | None = None) -> Equipment:
    """Turn the tables ``instrument``, ``mount``, ``observer`` and ``horizon`` of a document into their value; each may be missing.

    ``where`` names the document in complaints. What means nothing in the instrument or the horizon goes to ``ignore``: people wrote
    those down in their own form before we read them. BadRequest where a key we know holds what it can't.
    """
    passed_over = ignore or (lambda _: None)

    def keys(name: str, ignore: Ignore | None = None) -> dict[str, Any]:
        here = f"{where}: {name}"
        return read_keys(_without_own_words(table(document.get(name, {}), here), here, passed_over), TABLES[name], here, ignore)

    return Equipment(
        Instrument(**keys("instrument", passed_over)),
        Mount(**keys("mount")),
        Observer(**keys("observer")),
        _horizon(document.get("horizon", []), f"{where}: horizon", passed_over),
    )


def tables_from(found: Equipment) -> dict[str, Any]:
    """Return the tables of a piece of equipment: what is known and not as everywhere. ``equipment_from`` reads them back."""
    tables = {name: _plain(getattr(found, name)) for name in TABLES}
    horizon = [_plain(obstruction) for obstruction in found.horizon]
    return {name: keys for name, keys in (*tables.items(), ("horizon", horizon)) if keys}


def _without_own_words(keys: Mapping[str, Any], where: str, ignore: Ignore) -> Mapping[str, Any]:
    """Pass over a finder described in the observer's own words, as profiles could hold it before we read them."""
    finder = keys.get("finder")
    if not isinstance(finder, str) or finder.strip().casefold() in get_args(equipment.FinderKind):
        return keys
    ignore(f"{where}: finder can't be {finder!r} and is passed over; choose one of: {', '.join(get_args(equipment.FinderKind))}")
    return {key: value for key, value in keys.items() if key != "finder"}


def _horizon(value: object, where: str, ignore: Ignore) -> tuple[Obstruction, ...]:
    """Read a list of obstructions, one height in degrees all round, or a table of heights by compass point; pass over the rest."""
    if isinstance(value, Mapping):
        return _by_compass_point(value, where, ignore)
    if isinstance(value, int | float) and not isinstance(value, bool):
        return _up_to(0.0, 360.0, value, where)
    if not isinstance(value, list | tuple):
        ignore(f"{where} is passed over; make it [[horizon]] tables with {', '.join(_OBSTRUCTION)}")
        return ()
    found = []
    for item in value:
        keys = read_keys(item, _OBSTRUCTION, where, ignore) if isinstance(item, Mapping) else {}
        if {"from_azimuth_deg", "to_azimuth_deg", "altitude_deg"} <= keys.keys():
            found.append(Obstruction(**keys))
        else:
            ignore(f"{where}: an entry is passed over; it needs from_azimuth_deg, to_azimuth_deg and altitude_deg")
    return tuple(found)


def _by_compass_point(heights: Mapping[str, Any], where: str, ignore: Ignore) -> tuple[Obstruction, ...]:
    """Read heights by compass point: each holds half way to its neighbours, four or eight of them."""
    named = {key.replace("-", "_").casefold(): value for key, value in heights.items()}
    for key in sorted(named.keys() - set(_POINTS)):
        ignore(f"{where}: '{key}' is passed over; known are {', '.join(_POINTS)}, or [[horizon]] tables")
    half_deg = 22.5 if any("_" in point for point in named.keys() & set(_POINTS)) else 45.0
    found: list[Obstruction] = []
    for index, point in enumerate(_POINTS):
        if point in named:
            middle_deg = index * 45.0
            found += _up_to((middle_deg - half_deg) % 360, (middle_deg + half_deg) % 360, named[point], f"{where}: {point}")
    return tuple(found)


def _up_to(from_deg: float, to_deg: float, height: object, where: str) -> tuple[Obstruction, ...]:
    altitude_deg = _OBSTRUCTION["altitude_deg"].read(height, where)
    return (Obstruction(from_deg, to_deg, altitude_deg),) if altitude_deg > 0 else ()


def _plain(value: Any) -> dict[str, Any]:
    """Return the fields of a value that differ from their default, as plain values."""
    changed = {field.name: getattr(value, field.name) for field in fields(value) if getattr(value, field.name) != field.default}
    return {name: _plain_item(item) for name, item in changed.items()}


def _plain_item(item: Any) -> Any:
    if isinstance(item, Set):
        return sorted(item)
    return [_plain(one) for one in item] if isinstance(item, tuple) else item
