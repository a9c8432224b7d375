"""A model tried before it is believed, in a process of its own: over some damaged ones the library ends the process it is in."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from companion.errors import CompanionError, MissingPart
from companion.hearing.vosk.engine import VoskEngine
from companion.hearing.vosk.model import ModelDirectory, check_model

LONGEST_TRIAL_S = 60.0
"""A whole model is loaded and tried in two to five seconds."""
_REFUSED = 3


def tried_model(path: Path) -> ModelDirectory:
    """Return the model's directory if it loads and hears something through to its end. MissingPart says what is wrong with it."""
    directory = check_model(path)
    command = (sys.executable, "-m", "companion.hearing.vosk.trial", str(path))
    remedy = "unpack it again, or get another one (companion model get en)"
    try:
        done = subprocess.run(command, capture_output=True, text=True, errors="replace", timeout=LONGEST_TRIAL_S, check=False)
    except subprocess.TimeoutExpired as error:
        raise MissingPart(f"{path}: this model was tried and came to no end in {LONGEST_TRIAL_S:g} seconds; {remedy}") from error
    if done.returncode == _REFUSED and done.stderr.strip():
        raise MissingPart(done.stderr.strip().splitlines()[-1])
    if done.returncode:
        raise MissingPart(f"{path}: this model is damaged, the recogniser ends over it (code {done.returncode}); {remedy}")
    return directory


def _try() -> int:
    try:
        VoskEngine.load(Path(sys.argv[1])).try_out()
    except CompanionError as error:
        print(error, file=sys.stderr)
        return _REFUSED
    return 0


if __name__ == "__main__":
    sys.exit(_try())
