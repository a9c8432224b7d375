"""Models on disk: which are there for a language, and the one command that fetches one. Nothing else here uses the network."""

from __future__ import annotations

import hashlib
import importlib.util
import json
import re
import shutil
import time
import zipfile
import zlib
from collections.abc import Callable, Iterator
from http.client import HTTPException
from pathlib import Path
from typing import Any
from urllib.request import urlopen

from companion.errors import BadRequest, MissingPart
from companion.files import LARGEST_DOCUMENT_BYTES, read_file, size_in_words, write_whole
from companion.hearing.vosk.model import check_model
from companion.hearing.vosk.trial import tried_model
from companion.temporary import temporary_folder

PUBLISHED_AT = "https://alphacephei.com/vosk/models/"
"""Where the models are published, with a list of them and their checksums."""
SMALL_MODELS = {"en": "vosk-model-small-en-us-0.15", "ko": "vosk-model-small-ko-0.22"}
"""The small dynamic-graph model of each language, by the names they are published under."""
PATIENCE_SECONDS, LONGEST_SECONDS = 15.0, 3600.0
"""How long a silent network is waited for, and one that never comes to an end."""
LARGEST_PACKED_BYTES, LARGEST_BYTES, MOST_FILES = 300_000_000, 1_000_000_000, 1_000
"""Several times what a small model takes, packed and unpacked: more is something else, or meant to fill the disk."""
FIRST_SEEN = "checksums.json"
"""Beside the models: the SHA-256 of each that was fetched without a published checksum."""
_PIECE_BYTES = 1 << 20


def found_models(language: str, home: Path) -> list[Path]:
    """Return what looks like a model of a language, usable or not: under ``home``/models the small one first, then the last by name.

    Behind them the one that a package ``vosk-model-<language>`` brought.
    """
    fits = re.compile(rf"vosk-model(-[a-z]+)?-{re.escape(language)}(-.*)?")
    found = sorted((path for path in (home / "models").glob("vosk-model-*") if fits.fullmatch(path.name)), reverse=True)
    usual = home / "models" / SMALL_MODELS.get(language, "")
    package = importlib.util.find_spec(f"vosk_model_{language}")
    brought = [Path(package.origin).with_name("model")] if package is not None and package.origin is not None else []
    return [*sorted(found, key=lambda path: path != usual), *brought]


def get_model(language: str, home: Path, say: Callable[[str], None]) -> Path:
    """Fetch the small model of a language into ``home``/models, check and try it; return its directory. ``say`` hears of the progress.

    One that is there already is kept. Raises BadRequest for a language without one, MissingPart where it can't be had; then nothing
    half-fetched is left.
    """
    name = SMALL_MODELS.get(language)
    if name is None:
        raise BadRequest(f"there is no small Vosk model for '{language}' here; choose one of: {', '.join(SMALL_MODELS)}")
    models = home / "models"
    target = models / name
    if _is_usable(target):
        return target
    try:
        models.mkdir(mode=0o700, parents=True, exist_ok=True)
        with temporary_folder(models) as folder:
            packed = folder / f"{name}.zip"
            say(f"{name}: fetching it from {PUBLISHED_AT}")
            _fetch(f"{PUBLISHED_AT}{name}.zip", packed)
            published = _published_md5(name)
            known = _known_sums(models / FIRST_SEEN) if published is None else {}
            _check_sum(packed, name, published, known)
            _unpack(packed, folder)
            tried_model(folder / name)
            shutil.rmtree(target, ignore_errors=True)
            (folder / name).replace(target)
            if published is None:
                say(f"{name}: no checksum is published; its SHA-256 {known[name]} is kept in {models / FIRST_SEEN}")
                write_whole(models / FIRST_SEEN, json.dumps(known, indent=2).encode())
    except (OSError, HTTPException, ValueError, zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError) as error:
        reason = getattr(error, "reason", None) or error
        raise MissingPart(
            f"{name} can't be fetched ({reason}); connect to the network and run 'companion model get {language}' again, "
            f"or unpack it by hand as {target}"
        ) from error
    return target


def _pieces(address: str, most_bytes: int) -> Iterator[bytes]:
    """Yield what is published at an address, so many bytes and so long at most."""
    ends, taken = time.monotonic() + LONGEST_SECONDS, 0
    with urlopen(address, timeout=PATIENCE_SECONDS) as source:
        while piece := source.read(_PIECE_BYTES):
            taken += len(piece)
            if taken > most_bytes:
                raise OSError(f"it is larger than {size_in_words(most_bytes)}")
            if time.monotonic() > ends:
                raise OSError(f"it took longer than {LONGEST_SECONDS:g} seconds")
            yield piece


def _fetch(address: str, file: Path) -> None:
    with file.open("wb") as opened:
        for piece in _pieces(address, LARGEST_PACKED_BYTES):
            opened.write(piece)


def _check_sum(packed: Path, name: str, published: str | None, known: dict[str, str]) -> None:
    """Refuse a file that isn't the one that was published, or, where no checksum is, the one that was fetched first."""
    if published is not None:
        if _digest(packed, "md5") != published:
            raise OSError("it isn't what was published: its checksum differs")
    elif known.setdefault(name, found := _digest(packed, "sha256")) != found:
        raise OSError(f"it isn't what was fetched first: its checksum differs from that in {FIRST_SEEN} beside the models")


def _known_sums(file: Path) -> dict[str, str]:
    try:
        known: dict[str, str] = json.loads(read_file(file, LARGEST_DOCUMENT_BYTES))
    except FileNotFoundError:
        return {}
    return known


def _published_md5(name: str) -> str | None:
    try:
        listed: Any = json.loads(b"".join(_pieces(f"{PUBLISHED_AT}model-list.json", LARGEST_DOCUMENT_BYTES)))
        entry = next(model for model in listed if model["name"] == name)
        return str(entry["md5"]).casefold()
    except (OSError, HTTPException, ValueError, KeyError, TypeError, StopIteration, RecursionError):
        return None


def _digest(file: Path, kind: str) -> str:
    with file.open("rb") as opened:
        return hashlib.file_digest(opened, lambda: hashlib.new(kind, usedforsecurity=False)).hexdigest()


def _unpack(packed: Path, folder: Path) -> None:
    """Unpack, counting what really comes out: what a packed file says of its sizes may be a lie."""
    left_bytes = LARGEST_BYTES
    with zipfile.ZipFile(packed) as archive:
        if len(archive.infolist()) > MOST_FILES:
            raise OSError(f"it holds more than {MOST_FILES} files")
        for entry in archive.infolist():
            place = (folder / entry.filename).resolve()
            if not place.is_relative_to(folder.resolve()):
                raise OSError("it holds files that belong elsewhere")
            if entry.is_dir():
                place.mkdir(parents=True, exist_ok=True)
                continue
            place.parent.mkdir(parents=True, exist_ok=True)
            with archive.open(entry) as source, place.open("wb") as out:
                while piece := source.read(_PIECE_BYTES):
                    left_bytes -= len(piece)
                    if left_bytes < 0:
                        raise OSError(f"unpacked it is larger than {size_in_words(LARGEST_BYTES)}")
                    out.write(piece)


def _is_usable(directory: Path) -> bool:
    try:
        check_model(directory)
    except MissingPart:
        return False
    return True
