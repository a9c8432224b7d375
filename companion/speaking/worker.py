"""Turns one sentence into a sound file with pyttsx3, in a process of its own. A program: imports nothing of ours.

Reads one JSON object on standard input (``text``, ``file``, ``voice`` or null, ``rate_wpm``, ``volume``, ``pitch``) and writes one on
standard output: ``{}`` when the file is there, else ``error`` (one of MISSING_LIBRARY, UNKNOWN_VOICE, FAILED), ``detail`` and, for an
unknown voice, ``voices``. Whatever a library prints goes to standard error instead.

One process a sentence, because pyttsx3 2.99 can't be trusted with two: its espeak driver cancels what is still pending when its loop
starts, so that a changed rate is lost or a sentence comes out empty, and in the first loop it doesn't wait for the end at all. A
fresh process costs under 0.1 s here, and gives the same samples for the same sentence every time.

Linux only has been tried. On macOS the file is AIFF whatever its name; on Windows it is WAV.
"""

from __future__ import annotations

import ctypes
import importlib.util
import json
import os
import sys
from pathlib import Path
from typing import Any

MISSING_LIBRARY, UNKNOWN_VOICE, FAILED = "missing_library", "unknown_voice", "failed"
DRIVEN_BY_ESPEAK = sys.platform not in ("darwin", "win32")
USUAL_PITCH = 50


def load_espeak() -> None:
    """Load the espeak-ng of the ``espeakng-loader`` wheel, if installed, so that pyttsx3 finds it under its system name.

    Changes the process's working directory: espeak-ng keeps its data path in 160 bytes, too few for a deep environment, so it is
    told that its data lie here.
    """
    found = importlib.util.find_spec("espeakng_loader")
    if found is None or found.origin is None:
        return  # the system's own library may be there
    home = Path(found.origin).parent
    try:
        ctypes.CDLL(str(home / "libespeak-ng.so"), mode=ctypes.RTLD_GLOBAL)
    except OSError:
        return
    os.chdir(home)
    os.environ["ESPEAK_DATA_PATH"] = "."


def voice_id(wanted: str, voices: list[Any]) -> str | None:
    """Return the identifier of the installed voice called ``wanted``: an identifier, its last part, a language or a name.

    ``wanted`` may end in an espeak variant such as ``+f3``, which is kept. None when there is no such voice.
    """
    base, plus, variant = _plain(wanted).partition("+")

    def closeness(voice: Any) -> int | None:
        identifier, languages = _plain(voice.id), [_plain(language) for language in voice.languages or []]
        matches = (
            base == identifier,
            base == identifier.rpartition("/")[2],
            base in languages,
            base == _plain(voice.name),
            any(language.startswith(base + "-") for language in languages),
        )
        return matches.index(True) if any(matches) else None

    ranked = [(rank, position) for position, voice in enumerate(voices) if (rank := closeness(voice)) is not None]
    return f"{voices[min(ranked)[1]].id}{plus}{variant}" if ranked else None


def _plain(name: Any) -> str:
    return str(name).lower().replace("_", "-")


def render(request: dict[str, Any]) -> dict[str, Any]:
    """Write the sentence to its file and return the answer described above."""
    if DRIVEN_BY_ESPEAK:
        load_espeak()
    try:
        import pyttsx3  # noqa: PLC0415 - only here, after espeak is loaded

        engine = pyttsx3.init()
    except (ImportError, OSError, RuntimeError) as error:
        return {"error": MISSING_LIBRARY, "detail": str(error)}
    failures: list[str] = []
    engine.connect("error", lambda name, exception: failures.append(str(exception)))
    if DRIVEN_BY_ESPEAK:
        engine.runAndWait()  # an empty first loop; every later one waits for the end
    if request["voice"] is not None:
        voices = engine.getProperty("voices")
        identifier = voice_id(request["voice"], voices)
        if identifier is None:
            return {"error": UNKNOWN_VOICE, "detail": request["voice"], "voices": sorted(str(voice.id) for voice in voices)}
        engine.setProperty("voice", identifier)
    engine.setProperty("rate", request["rate_wpm"])
    engine.setProperty("volume", request["volume"])
    if request["pitch"] != USUAL_PITCH:
        engine.setProperty("pitch", request["pitch"])
    if DRIVEN_BY_ESPEAK:
        from pyttsx3.drivers import _espeak  # noqa: PLC0415

        _espeak.Synchronize()  # else the loop's start cancels these settings
    engine.save_to_file(request["text"], request["file"])
    engine.runAndWait()
    if not Path(request["file"]).exists():
        failures.append("no sound came out")
    return {"error": FAILED, "detail": "; ".join(failures)} if failures else {}


def main() -> None:
    """Answer the one request on standard input."""
    with os.fdopen(os.dup(1), "w", encoding="utf-8") as answer:
        os.dup2(2, 1)
        json.dump(render(json.load(sys.stdin)), answer)


if __name__ == "__main__":
    main()
