"""What takes input from outside, each with right inputs to begin from and how it is read."""

from __future__ import annotations

import io
import json
import os
import shlex
import sys
import tomllib
import zlib
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import numpy as np
import soundfile

from companion.audio import LONGEST_UTTERANCE_SECONDS, read_wav
from companion.cli import main
from companion.dialogue import Journal, read_journal
from companion.documents.diagnose_request import read_diagnose_request
from companion.documents.fit_request import read_fit_request
from companion.documents.scenario import read_scenario
from companion.equipment import Equipment
from companion.errors import CompanionError
from companion.hearing import load_grammar
from companion.hearing.vosk.engine import _Recogniser
from companion.languages import load_language
from companion.live import Session, journal_path
from companion.messages import Heard
from companion.observation_log import log_path, read_log
from companion.observing.own_objects import own_objects
from companion.profile import load_profile
from companion.sky import Site
from companion.talk.guidance_phrases import GoOnThere
from tests.documents.examples import AT, DIAGNOSE, FIT, PROFILE, SCENARIO

GRAMMARS = Path(__file__).parent.parent.parent / "grammars" / "en"
WORDS = """
where Vega --lat 46 --lon -67 --at 2026-10-15T22:00:00Z
what --azimuth 9 --altitude 40 --lat 46 --lon -67
night --lat 46 --lon 0 --json
stars --count 3 --lat -30 --lon 18
tonight --count 2 --lat 46 --lon 0
declination --lat 46 --lon 0
settings --lat 46 --lon 0
profile set instrument.aperture_mm 150 site.latitude_deg 46
profile near London, GB
profile show --json
log --export csv
hear nothing.wav
fit nothing.json
diagnose nothing.json
rehearse nowhere
--help
profile --profile nothing.toml
""".strip().splitlines()


@dataclass(frozen=True)
class Target:
    """Something that reads."""

    right: tuple[bytes, ...]
    """Inputs that are as they should be."""
    read: Callable[[bytes, Path], object]
    """Reads an input; the folder is empty or holds what earlier inputs left. Anything but a CompanionError is a finding."""


def _as_file(name: str, read: Callable[[Path], object]) -> Callable[[bytes, Path], object]:
    def reads(data: bytes, folder: Path) -> object:
        (folder / name).write_bytes(data)
        return read(folder / name)

    return reads


def _toml(document: dict[str, object]) -> bytes:
    import tomlkit  # noqa: PLC0415

    return tomlkit.dumps(json.loads(json.dumps(document, default=datetime.isoformat))).encode()


def _json(read: Callable[[object], object]) -> Callable[[bytes, Path], object]:
    def reads(data: bytes, _: Path) -> object:
        try:
            document = json.loads(data)
        except (ValueError, RecursionError):
            return None  # as the command does, in a line of its own
        return read(document)

    return reads


def _scenario(data: bytes, _: Path) -> object:
    try:
        document = tomllib.loads(data.decode())
    except (ValueError, RecursionError):
        return None
    return read_scenario(document, "s.toml")


def _evening(data: bytes, folder: Path) -> None:
    """Go on from a journal, or begin anew where that can't be, and answer three times."""
    path = journal_path(folder)
    path.write_bytes(_with_sums(data))
    with Journal(path) as journal:
        session = Session(None, lambda: AT, journal, Equipment(), language=load_language())
        turn = session.begin()
        for _ in range(3):
            session.words(*turn.sayings)
            if turn.question is not None:
                command = "yes" if isinstance(turn.question, GoOnThere) else "help"
                turn = session.hear(Heard(command, command))
        session.sync()
    assert read_journal(path).flaw is None
    for file in folder.glob("evening*"):
        file.unlink()


def _with_sums(data: bytes) -> bytes:
    """Return lines with the checksums they should have, so that it is their content that is wrong, where they are lines at all."""
    lines = []
    for line in data.splitlines():
        try:
            body = json.dumps(json.loads(line)["record"], ensure_ascii=False, sort_keys=True)
            lines.append(f'{{"schema": 1, "sum": "{zlib.crc32(body.encode()):08x}", "record": {body}}}'.encode())
        except (ValueError, KeyError, TypeError, RecursionError):
            lines.append(line)
    return b"\n".join([*lines, b""])


def _journal() -> bytes:
    """Return the journal of an evening's first answers."""
    import tempfile  # noqa: PLC0415

    with tempfile.TemporaryDirectory() as folder, Journal(journal_path(Path(folder))) as journal:
        session = Session(Site(46.3, -67.5), lambda: AT, journal, Equipment(), language=load_language())
        session.begin()
        session.hear(Heard("yes", "yes"))
        session.hear(Heard("brief", "briefly"))
        session.hear(Heard("leave", "leave-part"))
        return journal.path.read_bytes()


_WAITING = {"start", "check", "say", "model", "mount", "--out", "ask"}


def _command_line(data: bytes, folder: Path) -> None:
    """Run a call; whatever it is, it ends with a code of ours and one line of complaint at most."""
    text = data.decode("utf-8", "surrogateescape")
    try:
        arguments = shlex.split(text)
    except ValueError:
        arguments = text.split()
    if {"start", "check", "say", "model", "mount", "--mount", "--out", "ask"} & set(arguments) or any(
        word.startswith("--m") for word in arguments
    ):
        return  # these wait for somebody, speak, or leave this machine
    out, complaint = io.StringIO(), io.StringIO()
    here = os.getcwd()
    os.environ["COMPANION_HOME"] = str(folder / "home")
    os.chdir(folder)
    try:
        with redirect_stdout(out), redirect_stderr(complaint):
            code = main(arguments)
    except SystemExit as ended:  # --help
        code = ended.code or 0
    finally:
        os.chdir(here)
    assert code in (0, 2, 3), (code, arguments)
    assert "broke inside" not in complaint.getvalue(), (arguments, complaint.getvalue())
    errors = [line for line in complaint.getvalue().splitlines() if line.startswith("companion: error: ")]
    assert len(errors) == (code != 0), (code, complaint.getvalue())


class _Library:
    """The recogniser's library with an answer of its own."""

    def __init__(self, reply: str) -> None:
        self._reply = reply

    def KaldiRecognizer(self, *_: object) -> _Library:  # noqa: N802
        return self

    def SetWords(self, _: object) -> None:  # noqa: N802
        pass

    def SetGrammar(self, _: object) -> None:  # noqa: N802
        pass

    def AcceptWaveform(self, _: object) -> bool:  # noqa: N802
        return True

    def Result(self) -> str:  # noqa: N802
        return self._reply

    FinalResult = Result


def _reply(data: bytes, _: Path) -> object:
    recogniser = _Recogniser(_Library(data.decode("utf-8", "replace")), None, 16_000, "[unk]")
    recogniser.begin("[]")
    recogniser.accept(np.zeros(100, np.float32))
    return recogniser.finish()


def _wavs() -> tuple[bytes, ...]:
    sounds = []
    for kind, subtype in (("WAV", "PCM_16"), ("WAV", "FLOAT"), ("FLAC", "PCM_16"), ("AIFF", "PCM_24")):
        sound = io.BytesIO()
        soundfile.write(sound, np.linspace(-1, 1, 300).reshape(150, 2), 16_000, format=kind, subtype=subtype)
        sounds.append(sound.getvalue())
    return tuple(sounds)


_WORD = {"word": "vega", "conf": 0.9, "start": 0.1, "end": 0.4}
TARGETS: dict[str, Target] = {
    "grammar": Target(
        tuple((GRAMMARS / name).read_bytes()[:2_000] for name in ("yes_no.jsgf", "universal.jsgf") if (GRAMMARS / name).exists())
        or tuple(file.read_bytes()[:2_000] for file in sorted(GRAMMARS.glob("*.jsgf"))[:4]),
        _as_file("a.jsgf", load_grammar),
    ),
    "sound": Target(_wavs(), _as_file("a.wav", lambda path: read_wav(path, LONGEST_UTTERANCE_SECONDS))),
    "profile": Target((_toml(PROFILE),), _as_file("p.toml", lambda path: load_profile(str(path), lambda _: None))),
    "scenario": Target((_toml(SCENARIO),), _scenario),
    "journal": Target((_journal(),), _evening),
    "log": Target(
        (b'{"schema": 1, "sum": "0", "entry": {"seen": {"time": "2026-11-05T20:00:00+00:00", "target": "Vega"}}}\n',),
        _as_file(log_path(Path()).name, read_log),
    ),
    "objects": Target(
        (b"name,ra,dec,magnitude,size\nmine,5 35 17,-5 23,4.0,60\n",), _as_file("objects.csv", lambda path: own_objects(path.parent))
    ),
    "fit": Target((json.dumps(FIT).encode(),), _json(read_fit_request)),
    "diagnose": Target((json.dumps(DIAGNOSE).encode(),), _json(read_diagnose_request)),
    "command line": Target(tuple(words.encode() for words in WORDS), _command_line),
    "reply": Target((json.dumps({"result": [_WORD, _WORD], "text": "vega vega"}).encode(),), _reply),
}


def finding(target: Target, data: bytes, folder: Path) -> str | None:
    """Return what an input brought to light; None when it was read, or refused in our own words."""
    try:
        target.read(data, folder)
    except CompanionError as error:
        return None if str(error) and sys.exc_info() else "an empty complaint"
    except Exception as error:
        return f"{type(error).__name__}: {error}"
    return None
