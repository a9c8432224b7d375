"""What ends an evening by voice is said where anything plays it, and printed and answered to the shell as ever."""

from __future__ import annotations

import errno
import io
from collections.abc import Iterable
from pathlib import Path

import pytest

from companion.cli import main
from companion.commands import spoken_trouble
from companion.commands.spoken_trouble import saying_of
from companion.dialogue import JournalError
from companion.doctor import SOMEWHERE
from companion.errors import BadRequest, MissingPart
from companion.talk.machine_phrases import BrokeInside, CantGoOn, FilesRefused
from companion.talk.saying import Say
from tests.english import ENGLISH


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (MissingPart("no model is installed; fetch one"), CantGoOn("no model is installed; fetch one")),
        (BadRequest("/home/me/a folder/x.toml: not a number"), CantGoOn("a folder/x.toml: not a number")),
        (BadRequest("'/srv/own/places.toml' is too long; shorten it"), CantGoOn("'places.toml' is too long; shorten it")),
        (JournalError(Path("/full/evening.jsonl"), OSError(errno.ENOSPC, "No space left on device")), FilesRefused()),
        (OSError(errno.EROFS, "Read-only file system", "/ro/profile.toml"), FilesRefused()),
        (MemoryError(), CantGoOn("there isn't enough memory for this; end other programs and try again")),
        (ZeroDivisionError("x"), BrokeInside()),
    ],
)
def test_each_error_has_its_saying(error: Exception, said: Say) -> None:
    """Its own line, without the folders that nobody follows by ear; a mistake of ours is no more than told."""
    assert saying_of(error, ENGLISH) == said


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return what is spoken, instead of speaking it."""
    spoken: list[str] = []

    def tell(texts: Iterable[str], *_: object) -> bool:
        spoken.extend(texts)
        return True

    monkeypatch.setattr(spoken_trouble, "tell_aloud", tell)
    monkeypatch.setattr("sys.stdin", io.StringIO())
    return spoken


def _broken(home: Path) -> None:
    (home / "profile.toml").write_text("site = 3 [")


def test_a_profile_that_cannot_be_read_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], told: list[str]
) -> None:
    """Spoken with its remedy by a usual evening; printed as one line, exit 2, with or without sound."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    _broken(tmp_path)
    for arguments, spoken in ((["start"], 1), (["start", "--text"], 0)):
        told.clear()
        assert main(arguments) == 2
        (line,) = capsys.readouterr().err.splitlines()
        assert line.endswith("mend it, or move it away")
        assert len(told) == spoken
        assert all("I can't read your profile" in words and "move it away" in words for words in told)


@pytest.mark.parametrize("lock", ["file/home", "/proc/nowhere"])
def test_a_home_that_takes_no_journal_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], told: list[str], lock: str
) -> None:
    """No folder, or one where nothing can be made: spoken as files that are refused; printed with the remedy, exit 3."""
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / lock))
    assert main(["start"]) == 3
    (line,) = capsys.readouterr().err.splitlines()
    assert "COMPANION_HOME" in line
    assert told == [ENGLISH.words(FilesRefused(), SOMEWHERE)]


def test_trouble_with_telling_hides_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], told: list[str]
) -> None:
    """Without a voice, too, the error is the same."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    _broken(tmp_path)

    def broken(*_: object) -> None:
        raise RuntimeError("no voice")

    monkeypatch.setattr(spoken_trouble, "open_voices", broken)
    assert main(["start"]) == 2
    assert "not a readable TOML profile" in capsys.readouterr().err
    assert not told


def test_at_power_on_a_loudspeaker_is_waited_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], told: list[str]
) -> None:
    """Where nobody types the sound server may start after us: it is looked for again until one can be opened."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    _broken(tmp_path)
    looks: list[None] = []

    class Loudspeaker:
        def close(self) -> None: ...

    def opener(*_: object) -> object:
        def open_one() -> Loudspeaker:
            looks.append(None)
            if len(looks) < 3:
                raise MissingPart("there is no loudspeaker")
            return Loudspeaker()

        return open_one

    monkeypatch.setattr(spoken_trouble, "loudspeaker_opener", opener)
    monkeypatch.setattr(spoken_trouble, "nobody_types", lambda _: True)
    monkeypatch.setattr(spoken_trouble, "LOOK_SECONDS", 0.0)
    monkeypatch.setattr(spoken_trouble.devices, "look_again", lambda: None)
    assert main(["start"]) == 2
    assert len(looks) == 3
    assert len(told) == 1
