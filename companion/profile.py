"""The file of the profile, read and written whole."""

from __future__ import annotations

import logging
import os
import tempfile
import tomllib
from pathlib import Path

import tomli_w

from companion.documents.equipment_tables import Ignore
from companion.documents.profile_tables import Profile, document_from, profile_from
from companion.errors import BadRequest
from companion.files import LARGEST_DOCUMENT_BYTES, read_file
from companion.user_files import home

_LOG = logging.getLogger("companion.profile")
# Unless someone listens to the log, what is passed over is nobody's line on standard error: that belongs to errors.
_LOG.addHandler(logging.NullHandler())


def profile_path(path: str | None) -> Path:
    """Return the file named, or the profile's place in the home directory."""
    return Path(path) if path else home() / "profile.toml"


def load_profile(path: str | None, ignore: Ignore = _LOG.warning, *, must_exist: bool = True) -> Profile:
    """Read the profile at ``path``, or the one in the home directory where there is one. BadRequest says what is wrong in it.

    One that is named must be there, unless ``must_exist`` says otherwise.
    """
    file = profile_path(path)
    try:
        document = tomllib.loads(read_file(file, LARGEST_DOCUMENT_BYTES).decode("utf-8"))
    except (FileNotFoundError, NotADirectoryError) as error:
        if path is None or not must_exist:
            return Profile()
        raise BadRequest(f"{file}: there is no such profile; check the path or leave --profile out") from error
    except OSError as error:
        raise BadRequest(f"{file}: can't be read ({error.strerror}); check the path") from error
    except (ValueError, RecursionError) as error:
        raise BadRequest(f"{file}: not a readable TOML profile ({error})") from error
    return profile_from(document, str(file), ignore)


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
