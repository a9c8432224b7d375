"""Observations as rows for other programs: JSON and CSV."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from typing import Any
from zoneinfo import ZoneInfo

from companion.observing.observation import Observation


def row(seen: Observation, note: str) -> dict[str, Any]:
    """Return what ``companion log --json`` tells of an observation; ``note`` is what was noted, in words."""
    return {
        "time": seen.time.astimezone(ZoneInfo(seen.site.zone)).isoformat(timespec="seconds"),
        "target": seen.target,
        "catalogue": seen.catalogue,
        "altitude_deg": seen.altitude_deg,
        "azimuth_deg": seen.azimuth_deg,
        "eyepiece_mm": seen.eyepiece_mm,
        "seen": seen.seen,
        "note": note or None,
    }


def full_row(seen: Observation, note: str) -> dict[str, Any]:
    """Return the same, and all else that is known of it: an export loses nothing."""
    return row(seen, note) | {
        "kind": seen.kind,
        "looks": list(seen.looks),
        "steadiness": seen.steadiness,
        "clearness": seen.clearness,
        "aperture_mm": seen.aperture_mm,
        "focal_length_mm": seen.focal_length_mm,
        "place": seen.site.name,
        "latitude_deg": seen.site.latitude_deg,
        "longitude_deg": seen.site.longitude_deg,
        "elevation_m": seen.site.elevation_m,
    }


def csv_text(rows: Sequence[Mapping[str, Any]], columns: Sequence[str]) -> str:
    """Return rows as comma-separated values under their header; what holds several words is one field, what nobody told an empty one."""
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, lineterminator="\n")
    writer.writeheader()
    for entry in rows:
        writer.writerow({name: ", ".join(value) if isinstance(value, list) else value for name, value in entry.items()})
    return out.getvalue()
