"""What the companion knows before it starts: a TOML file with the site, the voice and the engine, and where user files live."""

from __future__ import annotations

import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import platformdirs

from companion import sky
from companion.errors import BadRequest
from companion.sky import Site


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
    voice: VoicePreference = VoicePreference()
    engine: str = "auto"
    """Which recogniser listens."""


def home() -> Path:
    """Return the one directory all user files live under: COMPANION_HOME, else the platform's data directory."""
    return Path(os.environ.get("COMPANION_HOME") or platformdirs.user_data_dir("companion", appauthor=False))


def load_profile(path: str | None) -> Profile:
    """Read the profile at ``path``, or the one in the home directory where there is one. BadRequest says what is wrong in it."""
    file = Path(path) if path else home() / "profile.toml"
    if path is None and not file.is_file():
        return Profile()
    try:
        document = tomllib.loads(file.read_text("utf-8"))
    except FileNotFoundError as error:
        raise BadRequest(f"{file}: there is no such profile; check the path or leave --profile out") from error
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise BadRequest(f"{file}: not a readable TOML profile ({error})") from error
    return profile_from(document, str(file))


def profile_from(document: Mapping[str, Any], where: str) -> Profile:
    """Turn a parsed profile into its value; ``where`` names the file in complaints."""
    # The instrument and the horizon are the observer's to write down already; nothing here reads them yet.
    _only(document, {"site", "instrument", "horizon", "voice", "engine"}, where)
    voice = _table(document, "voice", {"name", "words_per_minute"}, where)
    engine = document.get("engine", "auto")
    if not isinstance(engine, str):
        raise BadRequest(f"{where}: engine must be a name in quotes")
    return Profile(
        site=site_from(document["site"], f"{where}: site") if "site" in document else None,
        voice=VoicePreference(
            name=_text(voice, "name", VoicePreference.name, where),
            words_per_minute=round(_number(voice, "words_per_minute", where, VoicePreference.words_per_minute)),
        ),
        engine=engine,
    )


def site_from(table: object, where: str) -> Site:
    """Turn a ``[site]`` table into a site; the zone follows from the place where it is not given."""
    if not isinstance(table, Mapping):
        raise BadRequest(f"{where} must be a table of latitude_deg, longitude_deg and optionally elevation_m, zone, name")
    _only(table, {"name", "latitude_deg", "longitude_deg", "elevation_m", "zone"}, where)
    site = Site(
        latitude_deg=_number(table, "latitude_deg", where),
        longitude_deg=_number(table, "longitude_deg", where),
        elevation_m=_number(table, "elevation_m", where, 0.0),
        name=_text(table, "name", None, where) or None,
    )
    return site_with_zone(site, _text(table, "zone", None, where) or None)


def site_with_zone(site: Site, zone: str | None = None) -> Site:
    """Return the site with the zone given, or with the one its place lies in."""
    return Site(
        site.latitude_deg, site.longitude_deg, site.elevation_m, zone or sky.zone_at(site.latitude_deg, site.longitude_deg), site.name
    )


def _only(table: Mapping[str, Any], known: set[str], where: str) -> None:
    unknown = sorted(set(table) - known)
    if unknown:
        raise BadRequest(f"{where}: '{unknown[0]}' means nothing here; known are {', '.join(sorted(known))}")


def _table(document: Mapping[str, Any], key: str, known: set[str], where: str) -> Mapping[str, Any]:
    table = document.get(key, {})
    if not isinstance(table, Mapping):
        raise BadRequest(f"{where}: {key} must be a table")
    _only(table, known, f"{where}: {key}")
    return table


def _number(table: Mapping[str, Any], key: str, where: str, default: float | None = None) -> float:
    value = table.get(key, default)
    if value is None:
        raise BadRequest(f"{where}: {key} is missing")
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise BadRequest(f"{where}: {key} must be a number")
    return float(value)


def _text(table: Mapping[str, Any], key: str, default: str | None, where: str) -> str:
    value = table.get(key, default)
    if value is not None and not isinstance(value, str):
        raise BadRequest(f"{where}: {key} must be text in quotes")
    return value or ""
