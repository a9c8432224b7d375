"""Models on disk: which one is installed for a language, and the one command that fetches one. Nothing else here uses the network."""

from __future__ import annotations

import os
import re
import shutil
import socket
import tempfile
import zipfile
import zlib
from pathlib import Path
from types import SimpleNamespace

from companion.errors import BadRequest, MissingPart
from companion.hearing.vosk.model import check_model

SMALL_MODELS = {"en": "vosk-model-small-en-us-0.15", "ko": "vosk-model-small-ko-0.22"}
"""The small dynamic-graph model of each language, by the names they are published under."""
PATIENCE_SECONDS = 15.0
"""How long a silent network is waited for."""


def installed_model(language: str, home: Path) -> Path | None:
    """Return the usable model of a language under ``home``/models: the small one if it is there, else the last by name; else None."""
    fits = re.compile(rf"vosk-model(-[a-z]+)?-{re.escape(language)}(-.*)?")
    found = sorted(path for path in (home / "models").glob("vosk-model-*") if fits.fullmatch(path.name) and _is_usable(path))
    usual = home / "models" / SMALL_MODELS.get(language, "")
    return usual if usual in found else found[-1] if found else None


def get_model(language: str, home: Path) -> Path:
    """Fetch the small model of a language into ``home``/models with vosk's own downloader, progress on stderr; return its directory.

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
        import vosk  # noqa: PLC0415 - only who fetches needs it
    except (ImportError, OSError) as error:
        raise MissingPart(f"the recogniser vosk can't be loaded ({error}); pip install vosk") from error
    patience = socket.getdefaulttimeout()
    socket.setdefaulttimeout(PATIENCE_SECONDS)  # The downloader itself would wait for ever.
    try:
        models.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".fetching-", dir=models) as folder:
            fetched = Path(folder) / name
            progress = SimpleNamespace(download_progress_hook=lambda bar: vosk.Model.download_progress_hook(None, bar))
            vosk.Model.download_model(progress, fetched)  # Its constructor would look in other places first, and exit on its own.
            check_model(fetched)
            shutil.rmtree(target, ignore_errors=True)
            os.replace(fetched, target)
    except (OSError, zipfile.BadZipFile, zlib.error, EOFError) as error:
        reason = getattr(error, "reason", None) or error
        raise MissingPart(
            f"{name} can't be fetched ({reason}); connect to the network and run 'companion model get {language}' again, "
            f"or unpack it by hand as {target}"
        ) from error
    finally:
        socket.setdefaulttimeout(patience)
    return target


def _is_usable(directory: Path) -> bool:
    try:
        check_model(directory)
    except (MissingPart, OSError):
        return False
    return True
