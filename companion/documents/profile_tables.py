"""The profile as its TOML file holds it: site, equipment, voice and engine."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Set
from dataclasses import dataclass, is_dataclass
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from companion.documents.equipment_tables import EquipmentTables, Ignore, without_own_words
from companion.documents.reader import By, declared_keys, plain, read
from companion.documents.site_table import SiteTable, site_table
from companion.equipment import NOTHING_KNOWN, Equipment
from companion.ranges import Range
from companion.sky import Site


@dataclass(frozen=True)
class VoicePreference:
    """How the companion should sound."""

    name: str = "auto"
    """A voice by name, or ``auto``."""
    words_per_minute: Annotated[int, Range(1, 1_000, "words a minute")] = 165
    """Speaking rate; comfortable for most at 150 to 200."""


@dataclass(frozen=True)
class SoundPreference:
    """Which devices are used where they are there; else what the system prefers."""

    microphone: str | None = None
    """By its name."""
    loudspeaker: str | None = None


@dataclass(frozen=True)
class KeyPreference:
    """A talking key on a device of the observer's; both or none."""

    device: str | None = None
    """The device's name, as Linux has it."""
    key: str | None = None
    """The key's name, as Linux has it: ``KEY_PAGEDOWN``."""


@dataclass(frozen=True)
class Profile:
    """One observer's settings; every part may be missing from the file."""

    site: Site | None = None
    equipment: Equipment = NOTHING_KNOWN
    voice: VoicePreference = VoicePreference()
    engine: str = "auto"
    """Which recogniser listens."""
    sound: SoundPreference = SoundPreference()
    keys: KeyPreference = KeyPreference()


@dataclass(frozen=True, kw_only=True)
class ProfileTables(EquipmentTables):
    """The file."""

    engine: str = "auto"
    site: SiteTable | None = None
    voice: VoicePreference = VoicePreference()
    sound: SoundPreference = SoundPreference()
    keys: KeyPreference = KeyPreference()


def profile_from(document: Mapping[str, Any], where: str, ignore: Ignore) -> Profile:
    """Turn a parsed profile into its value; ``where`` names the file in complaints, ``ignore`` hears what is passed over."""
    tables = read(without_own_words(document, where, ignore), ProfileTables, where)
    return Profile(tables.site.site if tables.site else None, tables.equipment, tables.voice, tables.engine, tables.sound, tables.keys)


def document_from(profile: Profile) -> dict[str, Any]:
    """Return the profile as the plain values of its TOML file; ``profile_from`` reads them back. What is as everywhere is left out."""
    known = profile.equipment
    document = plain(
        ProfileTables(
            instrument=known.instrument,
            mount=known.mount,
            observer=known.observer,
            horizon=known.horizon,
            engine=profile.engine,
            site=site_table(profile.site) if profile.site else None,
            voice=profile.voice,
            sound=profile.sound,
            keys=profile.keys,
        )
    )
    # People look for their place first.
    return dict(sorted(document.items(), key=lambda item: item[0] not in ("engine", "site")))


# --- keys and values typed on a command line -------------------------------------------------------------------------


def _table(hint: Any) -> type | None:
    """Return the dataclass a key of the profile holds, None where it holds something else."""
    return next((held for held in (hint, *get_args(hint)) if isinstance(held, type) and is_dataclass(held)), None)


TABLES: Mapping[str, Mapping[str, Any]] = {
    name: declared_keys(table) for name, hint in declared_keys(ProfileTables).items() if (table := _table(hint)) is not None
}
"""What each table of a profile may hold: its keys and their types."""
BARE_KEYS: Mapping[str, Any] = {name: hint for name, hint in declared_keys(ProfileTables).items() if name not in TABLES}
"""The keys that stand in no table, and their types."""


def plain_from_text(text: str, hint: Any) -> object:
    """Return what was typed for a key of such a type as the plain value a file would hold, unchecked."""
    while get_origin(hint) in (Annotated, Union, UnionType):
        if any(isinstance(rule, By) for rule in get_args(hint)):
            return _toml(text)
        hint = get_args(hint)[0]
    if hint is str or get_origin(hint) is Literal:
        return text
    if hint is bool:
        return {"yes": True, "true": True, "no": False, "false": False}.get(text.casefold(), text)
    if get_origin(hint) is Set:
        return [word for part in text.split(",") if (word := part.strip(" []\"'"))]
    return _toml(text if get_origin(hint) is not tuple or text.strip().startswith("[") else f"[{text}]")


def _toml(text: str) -> object:
    """Return what was typed as TOML would read it, or as the words themselves where it is no TOML."""
    try:
        document = tomllib.loads(f"value = {text}")
    except (ValueError, RecursionError):
        return text
    return document["value"] if len(document) == 1 else text
