"""``companion autostart``: what it writes, that systemd takes it, and that it leaves alone what is others'."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from companion.autostart import NAME
from companion.cli import main

LINK = f"default.target.wants/{NAME}"
FAKE = """#!/bin/sh
echo "$@" >> "{calls}"
case "$2" in
  enable) mkdir -p "{folder}/default.target.wants" && ln -sf "{folder}/$3" "{folder}/default.target.wants/$3";;
esac
exit {code}
"""


class Machine:
    """A user's folders and a systemctl of the test's."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        """Have everything under ``folder``; no manager answers yet."""
        self.folder = folder / "config" / "systemd" / "user"
        self.calls = folder / "calls"
        self._bin = folder / "bin"
        self._bin.mkdir()
        self.answers(False)
        monkeypatch.setenv("XDG_CONFIG_HOME", str(folder / "config"))
        monkeypatch.setenv("COMPANION_HOME", str(folder / "home"))
        monkeypatch.setenv("PATH", f"{self._bin}:/bin:/usr/bin")

    def answers(self, well: bool) -> None:
        """Have the user's manager answer, or not."""
        tool = self._bin / "systemctl"
        tool.write_text(FAKE.format(calls=self.calls, folder=self.folder, code=0 if well else 1))
        tool.chmod(0o755)

    @property
    def files(self) -> dict[str, bytes]:
        """What lies among the user's units."""
        return {str(path.relative_to(self.folder)): path.read_bytes() for path in self.folder.rglob("*") if not path.is_dir()}


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Machine:
    """Return a machine with nothing on it."""
    return Machine(tmp_path, monkeypatch)


def test_show_writes_nothing(machine: Machine, capsys: pytest.CaptureFixture[str]) -> None:
    """It prints the unit, where it would go, and what would remain to be done."""
    assert main(["autostart"]) == 0
    printed = capsys.readouterr().out
    assert f"ExecStart={sys.executable} -P -m companion start\n" in printed
    assert str(machine.folder / LINK) in printed
    assert "loginctl enable-linger" in printed
    assert not machine.folder.exists()


def test_on_and_off_without_a_manager(machine: Machine, capsys: pytest.CaptureFixture[str]) -> None:
    """The file and its link are written, twice the same, and removed again; the folder is as before."""
    for _ in range(2):
        assert main(["autostart", "on"]) == 0
        assert set(machine.files) == {NAME, LINK}
        assert (machine.folder / LINK).resolve() == machine.folder / NAME
    printed = capsys.readouterr().out
    assert machine.files[NAME].decode() in printed
    assert "on already" in printed
    for words in ("is removed", "off already"):
        assert main(["autostart", "off"]) == 0
        assert words in capsys.readouterr().out
        assert not list(machine.folder.iterdir())


def test_a_manager_that_answers_is_asked_to_enable_it(machine: Machine, capsys: pytest.CaptureFixture[str]) -> None:
    """It reads the folder anew before, and after the unit is gone."""
    machine.answers(True)
    assert main(["autostart", "on", "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["on"] is True
    assert document["unit"] == str(machine.folder / NAME)
    assert main(["autostart", "off"]) == 0
    calls = [line.removeprefix("--user ") for line in machine.calls.read_text().splitlines()]
    assert [call for call in calls if call != "show-environment"] == ["daemon-reload", f"enable {NAME}", "daemon-reload"]
    assert machine.files == {}


def _as_it_is(path: Path) -> tuple[int, ...]:
    """Return what changes when something is written or put in its place; not when it was read."""
    found = path.lstat()
    return found.st_ino, found.st_mode, found.st_size, found.st_mtime_ns


@pytest.mark.parametrize("place", [NAME, LINK])
@pytest.mark.parametrize("kind", ["file", "link"])
@pytest.mark.parametrize("action", ["on", "off"])
def test_what_others_put_there_stays(machine: Machine, capsys: pytest.CaptureFixture[str], place: str, kind: str, action: str) -> None:
    """A unit or a link of that name that isn't ours is neither replaced nor removed: one line, exit code 2."""
    path = machine.folder / place
    path.parent.mkdir(parents=True)
    if kind == "file":
        path.write_text("[Service]\nExecStart=/bin/true\n")
    else:
        path.symlink_to("/dev/null")
    before = _as_it_is(path)
    assert main(["autostart", action]) == 2
    error = capsys.readouterr().err
    assert error.startswith(f"companion: error: {path} ")
    assert error.count("\n") == 1
    assert _as_it_is(path) == before
    assert [entry for entry in machine.folder.rglob("*") if not entry.is_dir()] == [path]


def test_neighbours_stay(machine: Machine) -> None:
    """Other units and links are left where they are."""
    neighbour = machine.folder / "default.target.wants" / "other.service"
    neighbour.parent.mkdir(parents=True)
    neighbour.write_text("theirs")
    assert main(["autostart", "on"]) == 0
    assert main(["autostart", "off"]) == 0
    assert machine.files == {"default.target.wants/other.service": b"theirs"}


def test_without_systemd(machine: Machine, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """One line says so and what to do instead; nothing is written."""
    monkeypatch.setenv("PATH", "/nowhere")
    assert main(["autostart", "on"]) == 3
    error = capsys.readouterr().err
    assert "no systemd" in error
    assert error.count("\n") == 1
    assert not machine.folder.exists()


def test_options_are_kept(machine: Machine, capsys: pytest.CaptureFixture[str]) -> None:
    """Place, profile and language of the call are those of every evening; a time of one evening is refused."""
    assert main(["autostart", "show", "--language", "ko", "--profile", "mine.toml"]) == 0
    assert f"-m companion --profile {Path('mine.toml').absolute()} --language ko start" in capsys.readouterr().out
    assert main(["autostart", "on", "--at", "2026-10-15T20:00:00Z"]) == 2


@pytest.mark.parametrize("name", ["plain", 'a "quoted" %n $HOME \\t one'])
def test_systemd_takes_the_unit(machine: Machine, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, name: str) -> None:
    """``systemd-analyze verify`` (systemd 252) has nothing to say of it, whatever the home is called."""
    if shutil.which("systemd-analyze") is None:
        assert os.environ.get("CI") != "true", "CI must have systemd: apt install systemd"
        pytest.skip("systemd is not installed")
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path / name))
    assert main(["autostart", "on"]) == 0
    command = ("systemd-analyze", "--user", "--man=no", "verify", str(machine.folder / NAME))
    done = subprocess.run(command, env={**os.environ, "XDG_RUNTIME_DIR": str(tmp_path)}, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout + done.stderr) == (0, "")


def test_a_home_no_unit_can_hold(machine: Machine, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """A line break in a path would be a line of the unit: refused."""
    monkeypatch.setenv("COMPANION_HOME", "/tmp/a\nExecStartPre=/bin/false")
    assert main(["autostart", "on"]) == 2
    assert capsys.readouterr().err.count("\n") == 1
    assert not machine.folder.exists()
