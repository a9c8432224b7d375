"""Equipment as the tables of a profile or a scenario hold it in TOML, and as a journal holds what was learned."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, field, replace
from typing import Annotated, Any, TypeAlias, get_args

from companion.documents.reader import By, declared_keys, known_keys, plain, read, read_part, shown, shown_key
from companion.equipment import HORIZON_DEG, Equipment, FinderKind, Instrument, Mount, Observer, Obstruction

Ignore: TypeAlias = Callable[[str], None]
"""Receives a line about each thing that means nothing to us and is passed over."""

_PassOver: TypeAlias = Callable[[str, str], None]
"""Receives what is passed over, and the remedy."""
_Height: TypeAlias = Annotated[float, HORIZON_DEG]


@dataclass(frozen=True)
class HeightsByPoint:
    """How high the horizon reaches by compass point; each holds half way to its neighbours, four or eight of them."""

    north: _Height | None = None
    north_east: _Height | None = None
    east: _Height | None = None
    south_east: _Height | None = None
    south: _Height | None = None
    south_west: _Height | None = None
    west: _Height | None = None
    north_west: _Height | None = None

    @property
    def obstructions(self) -> tuple[Obstruction, ...]:
        """The heights as stretches of the horizon."""
        heights = asdict(self)
        half_deg = 22.5 if any("_" in point for point, height in heights.items() if height is not None) else 45.0
        middles = ((index * 45.0, height) for index, height in enumerate(heights.values()) if height)
        return tuple(Obstruction((middle - half_deg) % 360, (middle + half_deg) % 360, height) for middle, height in middles)


def _horizon(value: object) -> tuple[Obstruction, ...]:
    """Read a list of obstructions, one height all round, or heights by compass point."""
    if isinstance(value, Mapping):
        heights: HeightsByPoint = read_part({_point(key): height for key, height in value.items()}, HeightsByPoint)
        return heights.obstructions
    if isinstance(value, list | tuple):
        return tuple(part for part in read_part(value, tuple[Obstruction | None, ...]) if part is not None)
    height_deg = read_part(value, _Height)
    return (Obstruction(0.0, 360.0, height_deg),) if height_deg else ()


def _point(key: str) -> str:
    return key.replace("-", "_").casefold()


@dataclass(frozen=True, kw_only=True)
class EquipmentTables:
    """The tables; each may be missing."""

    instrument: Instrument = field(default_factory=Instrument)
    mount: Mount = field(default_factory=Mount)
    observer: Observer = field(default_factory=Observer)
    horizon: Annotated[tuple[Obstruction, ...], By(_horizon)] = ()

    @property
    def equipment(self) -> Equipment:
        """All of it as one value."""
        return Equipment(self.instrument, self.mount, self.observer, self.horizon)


def equipment_from(document: Mapping[str, Any], where: str = "equipment", ignore: Ignore | None = None) -> Equipment:
    """Turn the tables ``instrument``, ``mount``, ``observer`` and ``horizon`` of a document into their value; each may be missing.

    ``where`` names the document in complaints. What means nothing in the instrument or the horizon goes to ``ignore``.
    BadRequest where a key we know holds what it can't.
    """
    tables = {name: document[name] for name in declared_keys(EquipmentTables) if name in document}
    return read(without_own_words(tables, where, ignore), EquipmentTables, where).equipment


def tables_from(equipment: Equipment) -> dict[str, Any]:
    """Return the tables of a piece of equipment: what is known and not as everywhere. ``equipment_from`` reads them back."""
    return plain(equipment)


def with_learned(known: Equipment, tables: Mapping[str, Any]) -> Equipment:
    """Return the equipment with these keys of its tables in place of what was known. BadRequest where one holds what it can't."""
    told = read(tables, EquipmentTables, "equipment")
    changed: dict[str, Any] = {}
    for name, keys in tables.items():
        if name == "horizon":
            changed[name] = told.horizon
        else:
            changed[name] = replace(getattr(known, name), **{key: getattr(getattr(told, name), key) for key in keys or ()})
    return replace(known, **changed)


def without_own_words(document: Mapping[str, Any], where: str, ignore: Ignore | None) -> dict[str, Any]:
    """Return a document without what means nothing in its instrument and horizon: people wrote those down before we read them."""

    def pass_over(what: str, remedy: str) -> None:
        if ignore is not None:
            ignore(f"{where}: {what} means nothing to me and is passed over; {remedy}")

    kept = dict(document)
    if isinstance(instrument := kept.get("instrument"), Mapping):
        kept["instrument"] = _own_instrument(instrument, pass_over)
    if (horizon := kept.pop("horizon", None)) is not None:
        kept["horizon"] = _own_horizon(horizon, pass_over)
    return kept


def _own_instrument(instrument: Mapping[str, Any], pass_over: _PassOver) -> dict[str, Any]:
    kept = _without_unknown(instrument, Instrument, "instrument", pass_over)
    finder = kept.get("finder")
    if isinstance(finder, str) and finder.strip().casefold() not in get_args(FinderKind):
        pass_over(f"instrument.finder {shown(kept.pop('finder'))}", f"choose one of {', '.join(get_args(FinderKind))}")
    return kept


def _own_horizon(horizon: object, pass_over: _PassOver) -> object:
    match horizon:
        case Mapping():
            points = declared_keys(HeightsByPoint)
            for key in sorted(key for key in horizon if _point(key) not in points):
                pass_over(f"horizon.{shown_key(key)}", f"known are {', '.join(points)}, or make it [[horizon]] tables")
            return {key: height for key, height in horizon.items() if _point(key) in points}
        case list() | tuple():
            # What is passed over leaves its place empty, so that complaints about the others count as the file does.
            return [_own_obstruction(entry, f"horizon[{index}]", pass_over) for index, entry in enumerate(horizon)]
        case int() | float() if not isinstance(horizon, bool):
            return horizon
    pass_over("horizon", f"make it [[horizon]] tables with {', '.join(declared_keys(Obstruction))}")
    return ()


def _own_obstruction(entry: object, path: str, pass_over: _PassOver) -> dict[str, Any] | None:
    needed = ("from_azimuth_deg", "to_azimuth_deg", "altitude_deg")
    kept = _without_unknown(entry, Obstruction, path, pass_over) if isinstance(entry, Mapping) else {}
    if all(key in kept for key in needed):
        return kept
    pass_over(path, f"it needs {', '.join(needed)}")
    return None


def _without_unknown(table: Mapping[str, Any], declared: type, path: str, pass_over: _PassOver) -> dict[str, Any]:
    known = declared_keys(declared)
    for key in sorted(table.keys() - known.keys()):
        pass_over(f"{path}.{shown_key(key)}", known_keys(declared))
    return {key: value for key, value in table.items() if key in known}
