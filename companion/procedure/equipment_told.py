"""What the interview finds out, and the tables of a profile that come of it."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any, Literal, TypeAlias

from companion.equipment import CompassKind, FinderKind, LastKeys, Limit, Obstruction, PoseTime, StarChoice
from companion.procedure.script import Result
from companion.sky import Site

ConfirmKey: TypeAlias = Literal["enter", "okay", "select", "confirm"]


@dataclass(frozen=True)
class EyepieceTold:
    """What was told of an eyepiece; None stands for what was skipped, here and below."""

    focal_length_mm: float
    apparent_field_deg: float | None = None


@dataclass(frozen=True)
class InstrumentTold:
    """What was told of the telescope."""

    aperture_mm: float | None = None
    focal_length_mm: float | None = None
    eyepieces: tuple[EyepieceTold, ...] | None = None
    has_diagonal: bool | None = None
    finder: FinderKind | Literal["none"] | None = None
    """``none``: there is no finder."""
    finder_field_deg: float | None = None


@dataclass(frozen=True)
class MountTold:
    """What was told of the mount."""

    star_choice: StarChoice | None = None
    pose_time: PoseTime | None = None
    turns_by_hand: bool | None = None
    confirm_key: ConfirmKey | None = None
    last_keys: LastKeys | None = None


@dataclass(frozen=True)
class ObserverTold:
    """What the observer told of themselves."""

    compass: CompassKind | None = None
    sees_milky_way: bool | None = None
    sky_mag_arcsec2: float | None = None
    in_company: bool | None = None
    limits: tuple[Limit, ...] | None = None
    """In alphabetical order; empty where nothing is hard for them."""
    terse: bool | None = None


@dataclass(frozen=True)
class EquipmentTold(Result):
    """All that was told."""

    site: Site | None = None
    instrument: InstrumentTold = InstrumentTold()
    mount: MountTold = MountTold()
    observer: ObserverTold = ObserverTold()
    horizon: tuple[Obstruction, ...] | None = None
    """Empty where it is open all round."""


def tables_of(told: EquipmentTold) -> dict[str, Any]:
    """Return what was told as the tables of a profile, ``site`` and ``horizon`` among them; what was skipped is absent."""
    tables: dict[str, Any] = {name: _plain(table) for name, table in asdict(told).items() if table is not None}
    if told.instrument.finder == "none":
        # A profile has no word for it yet: as if it had been skipped.
        del tables["instrument"]["finder"]
    if told.site is not None:
        # Nobody was asked how high it lies.
        del tables["site"]["elevation_m"]
    return {name: table for name, table in tables.items() if table != {}}


def _plain(value: Any) -> Any:
    """Return a value as a profile holds it: tuples as lists, and nothing that was skipped."""
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items() if item is not None}
    return [_plain(item) for item in value] if isinstance(value, tuple) else value
