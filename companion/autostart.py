"""The companion at power-on: a systemd user unit of ours, what it says, where it lies, and that it is ours."""

from __future__ import annotations

import getpass
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from companion.errors import BadRequest, MissingPart
from companion.files import read_file, write_whole
from companion.talk.command_phrases import AudioGroupNeeded, LingerNeeded, NoManagerAnswers
from companion.talk.saying import Say
from companion.user_files import home

NAME = "dark-field-companion.service"
_OURS = "# Written by 'companion autostart on'; 'companion autostart off' removes it."
"""The first line of the file, by which it is known to be ours."""
_LARGEST_UNIT_BYTES = 100_000
_PATIENCE_S = 30
_PLAIN = re.compile(r"[\w./+-]+")

State = Literal["ours", "theirs", "none"]

# Restart: a start that finds no sound waits a minute before it fails, so the limit stops only what fails at once, again and again.
# Exit code 2 is a wrong request, a profile that can't be read among them, which another try doesn't mend; 130 and 143 are our answers to
# an interrupt and to SIGTERM. Nothing here waits for a network.
_UNIT = """\
{ours}
[Unit]
Description=Hands-free voice companion for an evening at the telescope
After=pipewire.service pipewire-pulse.service wireplumber.service pulseaudio.service sound.target
StartLimitIntervalSec=120
StartLimitBurst=5

[Service]
Type=exec
ExecStart={command}
{environment}
StandardInput=null
SyslogIdentifier=companion
Restart=on-failure
RestartSec=5
RestartPreventExitStatus=2
SuccessExitStatus=130 143
KillSignal=SIGTERM
TimeoutStopSec=20

[Install]
WantedBy=default.target
"""


@dataclass(frozen=True)
class Unit:
    """Our unit and the link that has it started."""

    path: Path
    text: str

    @property
    def link(self) -> Path:
        """What has the user's manager start it."""
        return self.path.parent / "default.target.wants" / NAME

    @property
    def file_is(self) -> State:
        """Whose the file is that lies at its place. BadRequest where that can't be seen."""
        if not os.path.lexists(self.path):
            return "none"
        if self.path.is_symlink():
            return "theirs"
        try:
            return "ours" if read_file(self.path, _LARGEST_UNIT_BYTES).startswith(_OURS.encode()) else "theirs"
        except OSError as error:
            raise BadRequest(f"{self.path}: can't be read ({error.strerror}); check the path") from error

    @property
    def link_is(self) -> State:
        """Whose the link is."""
        if not os.path.lexists(self.link):
            return "none"
        return "ours" if self.link.is_symlink() and (self.link.parent / self.link.readlink()).resolve() == self.path.resolve() else "theirs"

    @property
    def is_on(self) -> bool:
        """Whether it is written and linked as we would do it now."""
        return self.file_is == self.link_is == "ours" and read_file(self.path, _LARGEST_UNIT_BYTES) == self.text.encode()

    def write(self) -> None:
        """Write the file and have it started with the user's manager. BadRequest where something of others is in the way."""
        self._refuse_what_is_theirs()
        try:
            self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            write_whole(self.path, self.text.encode())
            if has_manager():
                systemctl("daemon-reload")
                systemctl("enable", NAME)
            if self.link_is == "none":
                self.link.parent.mkdir(mode=0o700, exist_ok=True)
                self.link.symlink_to(self.path)
        except OSError as error:
            place = error.filename or self.path
            raise BadRequest(f"{place}: can't be written ({error.strerror}); check the disk and the folder") from error

    def remove(self) -> bool:
        """Take away the file and the link, and nothing else; return whether there were any. BadRequest where they aren't ours."""
        self._refuse_what_is_theirs()
        if self.file_is == self.link_is == "none":
            return False
        try:
            self.link.unlink(missing_ok=True)
            self.path.unlink(missing_ok=True)
            if self.link.parent.is_dir() and not any(self.link.parent.iterdir()):
                self.link.parent.rmdir()
        except OSError as error:
            raise BadRequest(f"{error.filename or self.path}: can't be removed ({error.strerror}); check the folder") from error
        if has_manager():
            systemctl("daemon-reload")
        return True

    def _refuse_what_is_theirs(self) -> None:
        for place, state in ((self.path, self.file_is), (self.link, self.link_is)):
            if state == "theirs":
                raise BadRequest(f"{place} is there already and isn't ours; move it away first")


def unit(environment: Mapping[str, str], arguments: Sequence[str] = ()) -> Unit:
    """Return the unit that starts this very program on the files it has here, its options before ``start`` as given."""
    # The user's systemd may know nothing of what says here where the files are. The other is set by the program, too, when it is loaded.
    settings = {"COMPANION_HOME": str(home().absolute()), "ORT_DISABLE_TELEMETRY": "1"}
    # -P: a folder that happens to be called "companion" where systemd starts us isn't taken for the program.
    command = [_quoted(sys.executable), *(_quoted(word).replace("$", "$$") for word in ("-P", "-m", "companion", *arguments, "start"))]
    folder = Path(environment.get("XDG_CONFIG_HOME") or Path.home() / ".config")
    text = _UNIT.format(
        ours=_OURS,
        command=" ".join(command),
        environment="\n".join(f"Environment={_quoted(f'{name}={value}')}" for name, value in settings.items()),
    )
    return Unit(folder.absolute() / "systemd" / "user" / NAME, text)


def require_systemd() -> None:
    """Raise MissingPart where there is no systemd to start anything."""
    if shutil.which("systemctl") is None:
        raise MissingPart("there is no systemd here, which 'autostart' needs; have your system start: companion start")


def has_manager() -> bool:
    """Return whether a systemd of this user's own runs and answers."""
    return systemctl("show-environment")


def systemctl(*words: str) -> bool:
    """Ask this user's systemd for something; return whether it did it."""
    try:
        done = subprocess.run(("systemctl", "--user", *words), capture_output=True, check=False, timeout=_PATIENCE_S)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.returncode == 0


def what_remains() -> Iterator[Say]:
    """Yield what else must be done, by whom, before it speaks at power-on."""
    try:
        user = getpass.getuser()
    except (KeyError, OSError):  # a number without a name
        user = str(os.getuid())
    if not Path("/var/lib/systemd/linger", user).exists():
        yield LingerNeeded(user)
    if os.geteuid() != 0 and _lacks_group("audio"):
        yield AudioGroupNeeded(user)
    if not has_manager():
        yield NoManagerAnswers()


def _lacks_group(name: str) -> bool:
    import grp  # noqa: PLC0415 -- it can only be imported where there may be a systemd

    try:
        return grp.getgrnam(name).gr_gid not in os.getgroups()
    except KeyError:
        return False


def _quoted(word: str) -> str:
    """Return a word as a unit file writes it. BadRequest for one that no unit file can hold."""
    if not word.isprintable():
        raise BadRequest(f"{word!r}: a unit file can't hold this path; use one without control characters")
    escaped = word.replace("\\", "\\\\").replace('"', '\\"').replace("%", "%%")
    return word if _PLAIN.fullmatch(word) else f'"{escaped}"'
