"""The file of the profile: read whole, and changed where something has changed."""

from __future__ import annotations

import logging
import tomllib
from collections.abc import Mapping, MutableMapping
from pathlib import Path
from typing import Any

import filelock
import tomlkit
from tomlkit.exceptions import TOMLKitError

from companion.documents.equipment_tables import Ignore
from companion.documents.profile_tables import Profile, document_from, profile_from
from companion.errors import FileUnusable
from companion.files import LARGEST_DOCUMENT_BYTES, read_file, write_whole
from companion.user_files import home

_LOG = logging.getLogger("companion.profile")
# Unless someone listens to the log, what is passed over is nobody's line on standard error: that belongs to errors.
_LOG.addHandler(logging.NullHandler())

NOTHING = Profile()
_PATIENCE_S = 10


def profile_path(path: str | None) -> Path:
    """Return the file named, or the profile's place in the home directory."""
    return Path(path) if path else home() / "profile.toml"


def load_profile(path: str | None, ignore: Ignore = _LOG.warning, *, must_exist: bool = True) -> Profile:
    """Read the profile at ``path``, or the one in the home directory where there is one. BadRequest says what is wrong in it.

    One that is named must be there, unless ``must_exist`` says otherwise.
    """
    file = profile_path(path)
    try:
        document = tomllib.loads(read_file(file, LARGEST_DOCUMENT_BYTES).decode("utf-8-sig"))
    except (FileNotFoundError, NotADirectoryError) as error:
        if path is None or not must_exist:
            return Profile()
        raise FileUnusable("there is no such profile; check the path or leave --profile out", file=str(file)) from error
    except OSError as error:
        raise FileUnusable(f"can't be read ({error.strerror}); check the path", file=str(file)) from error
    except (ValueError, RecursionError) as error:
        raise FileUnusable(f"not a readable TOML profile ({error}); mend it, or move it away", file=str(file)) from error
    return profile_from(document, str(file), ignore)


def write_profile(profile: Profile, path: Path, known: Profile = NOTHING) -> None:
    """Put what has changed since ``known`` was read into the file. FileUnusable where it can't be written.

    All else in it stays as it is: comments, keys that mean nothing to us, and what others changed meanwhile; one writes at a time.
    It is written whole or not at all, links followed, for its owner's eyes only.
    """
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        home().mkdir(mode=0o700, parents=True, exist_ok=True)
        with filelock.FileLock(home() / "profile.lock", timeout=_PATIENCE_S, mode=0o600):
            file = tomlkit.parse(_text(path))
            _change(file, document_from(known), document_from(profile))
            write_whole(path, tomlkit.dumps(file).encode("utf-8"))
    except filelock.Timeout as error:
        raise FileUnusable(f"another companion has been writing it for {_PATIENCE_S} seconds; end that one", file=str(path)) from error
    except OSError as error:
        raise FileUnusable(f"can't be written ({error.strerror}); check the disk and the folder", file=str(path)) from error
    except (ValueError, RecursionError, TOMLKitError) as error:
        raise FileUnusable(f"not a readable TOML profile ({error}); mend it, or move it away", file=str(path)) from error


def _text(path: Path) -> str:
    try:
        return read_file(path, LARGEST_DOCUMENT_BYTES).decode("utf-8-sig")
    except FileNotFoundError:
        return ""


def _change(file: MutableMapping[str, Any], before: Mapping[str, Any], after: Mapping[str, Any]) -> None:
    """Make of a parsed file what differs between two documents of it, table by table."""
    for name in dict.fromkeys((*before, *after)):
        was, will = before.get(name), after.get(name)
        if was == will:
            continue
        held = file.get(name)
        if isinstance(will, Mapping) and isinstance(held, MutableMapping):
            _change(held, was if isinstance(was, Mapping) else {}, will)
        elif will is None:
            file.pop(name, None)
        else:
            file[name] = tomlkit.item(will)
