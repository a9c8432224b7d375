"""What the companion knows before it starts: a TOML file with site, equipment, voice and engine."""

from __future__ import annotations

import logging
import os
import tempfile
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import tomli_w

from companion import equipment_tables, places
from companion.equipment import Equipment
from companion.errors import BadRequest
from companion.sky import Site
from companion.tables import Ignore, Number, Reader, Text, read_keys, table
from companion.user_files import home

_LOG = logging.getLogger("companion.profile")
# Unless someone listens to the log, what is passed over is nobody's line on standard error: that belongs to errors.
_LOG.addHandler(logging.NullHandler())


@dataclass(frozen=True)
class VoicePreference:
    """How the companion should sound."""

    name: str = "auto"
    """A voice by name, or ``auto``."""
    words_per_minute: int = 165
    """Speaking rate; comfortable for most at 150 to 200."""


@dataclass(frozen=True)
class Profile:
    """One observer's settings; every part may be missing from the file."""

    site: Site | None = None
    equipment: Equipment = field(default_factory=Equipment)
    voice: VoicePreference = VoicePreference()
    engine: str = "auto"
    """Which recogniser listens."""


_SITE: Mapping[str, Reader] = {
    "name": Text(),
    "latitude_deg": Number(-90, 90, "degrees, north positive"),
    "longitude_deg": Number(-180, 180, "degrees, east positive"),
    "elevation_m": Number(-500, 100_000, "metres"),
    "zone": Text(),
}
_VOICE: Mapping[str, Reader] = {"name": Text(), "words_per_minute": Number(1, 1_000, "words a minute")}
TABLES: Mapping[str, Mapping[str, Reader]] = {"site": _SITE, **equipment_tables.TABLES, "voice": _VOICE}
"""What each table of a profile may hold, by key. ``horizon`` is a list of tables, ``engine`` a name."""


def profile_path(path: str | None) -> Path:
    """Return the file named, or the profile's place in the home directory."""
    return Path(path) if path else home() / "profile.toml"


def load_profile(path: str | None, ignore: Ignore = _LOG.warning) -> Profile:
    """Read the profile at ``path``, or the one in the home directory where there is one. BadRequest says what is wrong in it."""
    file = profile_path(path)
    if path is None and not file.is_file():
        return Profile()
    try:
        document = tomllib.loads(file.read_text("utf-8"))
    except FileNotFoundError as error:
        raise BadRequest(f"{file}: there is no such profile; check the path or leave --profile out") from error
    except (OSError, ValueError, RecursionError) as error:
        raise BadRequest(f"{file}: not a readable TOML profile ({error})") from error
    return profile_from(document, str(file), ignore)


def profile_from(document: Mapping[str, Any], where: str, ignore: Ignore = _LOG.warning) -> Profile:
    """Turn a parsed profile into its value; ``where`` names the file in complaints, ``ignore`` hears what is passed over."""
    known = {*TABLES, "horizon", "engine"}
    if unknown := sorted(set(document) - known):
        raise BadRequest(f"{where}: '{unknown[0]}' means nothing here; known are {', '.join(sorted(known))}")
    voice = read_keys(table(document.get("voice", {}), f"{where}: voice"), _VOICE, f"{where}: voice")
    return Profile(
        site=site_from(document["site"], f"{where}: site") if "site" in document else None,
        equipment=equipment_tables.equipment_from(document, where, ignore),
        voice=VoicePreference(
            voice.get("name", VoicePreference.name), round(voice.get("words_per_minute", VoicePreference.words_per_minute))
        ),
        engine=Text().read(document.get("engine", "auto"), f"{where}: engine"),
    )


def site_from(site_table: object, where: str) -> Site:
    """Turn a ``[site]`` table into a site; the zone follows from the place where it is not given."""
    if not isinstance(site_table, Mapping):
        raise BadRequest(f"{where} must be a table of latitude_deg, longitude_deg and optionally elevation_m, zone, name")
    keys = read_keys(site_table, _SITE, where)
    for key in ("latitude_deg", "longitude_deg"):
        if key not in keys:
            raise BadRequest(f"{where}: {key} is missing; a place needs latitude_deg and longitude_deg")
    zone = keys.pop("zone", None)
    return site_with_zone(Site(**(keys | {"name": keys.get("name") or None})), zone)


def site_with_zone(site: Site, zone: str | None = None) -> Site:
    """Return the site with the zone given, or with the one its place lies in."""
    return Site(
        site.latitude_deg, site.longitude_deg, site.elevation_m, zone or places.zone_at(site.latitude_deg, site.longitude_deg), site.name
    )


def document_from(profile: Profile) -> dict[str, Any]:
    """Return the profile as the plain values of its TOML file; ``profile_from`` reads them back. What is as everywhere is left out."""
    document: dict[str, Any] = {}
    if profile.engine != Profile.engine:
        document["engine"] = profile.engine
    if profile.site is not None:
        document["site"] = _site_table(profile.site)
    document |= equipment_tables.tables_from(profile.equipment)
    voice = {key: getattr(profile.voice, key) for key in _VOICE if getattr(profile.voice, key) != getattr(VoicePreference, key)}
    return document | ({"voice": voice} if voice else {})


def write_profile(profile: Profile, path: Path) -> None:
    """Write the profile as TOML, for its owner's eyes only; what else the file held is gone. BadRequest where it can't be written.

    It is written whole or not at all: whoever reads the file meanwhile finds the old one or the new one.
    """
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        handle, draft = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as error:
        raise BadRequest(f"{path}: can't be written ({error.strerror}); check the folder") from error
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(tomli_w.dumps(document_from(profile)).encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
        Path(draft).replace(path)
    except OSError as error:
        Path(draft).unlink(missing_ok=True)
        raise BadRequest(f"{path}: can't be written ({error.strerror}); check the disk and the folder") from error


def _site_table(site: Site) -> dict[str, Any]:
    keys: dict[str, Any] = {"name": site.name} if site.name else {}
    keys |= {"latitude_deg": site.latitude_deg, "longitude_deg": site.longitude_deg}
    if site.elevation_m:
        keys["elevation_m"] = site.elevation_m
    # A zone that follows from the place is left to follow from it, so that a place changed by hand takes its zone along.
    if site.zone != places.zone_at(site.latitude_deg, site.longitude_deg):
        keys["zone"] = site.zone
    return keys
