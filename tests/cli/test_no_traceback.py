"""Whatever the machine, the shell or the user does: one line that says the remedy, and never a traceback."""

from __future__ import annotations

import ctypes
import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from companion.cli import main

LONG = "x" * 300
HERE = ["--lat", "46.31", "--lon", "-67.52"]
WHERE = ["where", "Vega", *HERE, "--at", "2026-10-15T22:00:00Z"]
COMPANION = [sys.executable, "-m", "companion"]


def _run(arguments: list[str], **how: object) -> subprocess.CompletedProcess[str]:
    """Run the program as its users do."""
    return subprocess.run([*COMPANION, *arguments], capture_output="stdout" not in how, text=True, timeout=120, check=False, **how)  # type: ignore[call-overload, no-any-return]


def _complaint(capsys: pytest.CaptureFixture[str], arguments: list[str]) -> tuple[int, str]:
    """Return exit code and complaint of a call in this process: exactly one line, and no mistake of ours."""
    code = main(arguments)
    error = capsys.readouterr().err
    assert error.startswith("companion: error: ")
    assert error.count("\n") == 1
    assert "broke inside" not in error
    return code, error


@pytest.mark.parametrize("name", [LONG, f"{LONG}/{LONG}", "\udcff\udcfe", "a\0b", "", "\x1b[2J"])
@pytest.mark.parametrize(
    "arguments",
    [
        ["profile", "--profile", "{}"],
        ["fit", "{}"],
        ["diagnose", "{}"],
        ["hear", "--engine", "builtin", "--grammar", "{}", "a.wav"],
        ["hear", "--engine", "builtin", "--model", "{}", "a.wav"],
        ["hear", "--engine", "vosk", "--model", "{}", "a.wav"],
        ["rehearse", "{}-"],
        ["rehearse", "--engine", "{}"],
        ["where", "{}", *HERE],
        ["profile", "near", "{}"],
        ["profile", "set", "{}", "1"],
        ["profile", "set", "site.zone", "{}"],
        ["where", "Vega", "--language", "{}"],
    ],
)
def test_any_name_is_answered_in_one_line(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: list[str], name: str
) -> None:
    """Names over 255 bytes, halves of characters, nulls, nothing and what steers a terminal, wherever a name is taken."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    if "profile" in arguments and "--profile" in arguments and not name:
        pytest.skip("no name is no --profile")
    code, error = _complaint(capsys, [argument.format(name) for argument in arguments])
    assert code in (2, 3)
    assert "\x1b" not in error


@pytest.mark.parametrize("out", ["", ".", "/", "..", LONG, "a\0b", "/dev/null", "/dev/full", "/proc/none/there"])
@pytest.mark.parametrize("command", [["say", "yes"], ["rehearse"]])
def test_a_wrong_out_is_said_before_the_work(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, command: list[str], out: str
) -> None:
    """What is no name for a file, a device, a folder that can't be: refused before a voice or a recogniser is loaded."""
    monkeypatch.setattr("companion.commands.ear_and_voice.open_voice", lambda *_: pytest.fail("the work was begun"))
    monkeypatch.setattr("companion.commands.evenings.open_engine", lambda *_, **__: pytest.fail("the work was begun"))
    code, _ = _complaint(capsys, [*command, "--out", out])
    assert code == 2
    assert Path("/dev/null").is_char_device()


def test_out_replaces_neither_folders_nor_others_links(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A folder, a file where a folder is wanted, a pipe; another user's link, where we may make one."""
    (tmp_path / "folder").mkdir()
    (tmp_path / "file").write_text("mine")
    os.mkfifo(tmp_path / "pipe")
    for command, name in (("say", "folder"), ("say", "pipe"), ("rehearse", "file"), ("rehearse", "pipe")):
        words = ["yes"] if command == "say" else []
        assert _complaint(capsys, [command, *words, "--out", str(tmp_path / name)])[0] == 2
    if os.geteuid() == 0:
        (tmp_path / "link").symlink_to(tmp_path / "file")
        os.lchown(tmp_path / "link", 12345, 12345)
        assert "another user's link" in _complaint(capsys, ["say", "yes", "--out", str(tmp_path / "link")])[1]
    assert (tmp_path / "file").read_text() == "mine"
    assert sorted(path.name for path in tmp_path.iterdir() if path.name.startswith(".")) == []


def test_a_link_of_ours_is_written_through(tmp_path: Path) -> None:
    """What is linked to is written, and the link stays one."""
    (tmp_path / "link").symlink_to(tmp_path / "words.wav")
    assert main(["say", "yes", "--out", str(tmp_path / "link")]) == 0
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "words.wav").stat().st_size > 1000


@pytest.mark.parametrize(
    "at",
    [
        "1899-07-29T00:00:00Z",
        "1899-07-28T23:59:59Z",
        "2053-10-09T00:00:00Z",
        "2053-12-31T00:00:00Z",
        "0001-01-01T00:00:00+14:00",
        "9999-12-31T23:59:59-12:00",
    ],
)
@pytest.mark.parametrize(
    "command",
    [
        ["where", "Vega"],
        ["where", "Jupiter"],
        ["what", "--azimuth", "9", "--altitude", "40"],
        ["night"],
        ["stars"],
        ["tonight"],
        ["settings"],
        ["start", "--text"],
    ],
)
def test_the_ends_of_the_ephemeris_and_of_the_calendar(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: list[str], at: str
) -> None:
    """DE421 runs from 1899-07-29 to 2053-10-09 (JPL); at and beyond its ends there is an answer or one line."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    monkeypatch.setattr("sys.stdin", (tmp_path / "nothing").open("w+"))
    assert main([*command, *HERE, "--at", at]) in (0, 2)
    error = capsys.readouterr().err
    assert error.count("\n") <= 1
    assert "broke inside" not in error


@pytest.mark.slow
def test_streams_that_are_closed_or_full(tmp_path: Path) -> None:
    """Standard input closed, or with a byte that is no letter; standard output or error closed, or on a full device."""
    home = {**os.environ, "COMPANION_HOME": str(tmp_path)}
    start = ["start", "--text", *HERE]
    closed = _run(start, env=home, preexec_fn=lambda: os.close(0))
    assert (closed.returncode, closed.stderr) == (0, "")
    odd = subprocess.run(
        [*COMPANION, *start],
        env=home,
        input=b"no\nye\xffs\n\x1b]0;x\x07\n" + b"y" * 5000 + b"\n",
        capture_output=True,
        timeout=120,
        check=False,
    )
    assert (odd.returncode, odd.stderr) == (0, b"")
    assert not {*range(32)} - {10} & set(odd.stdout)
    with open("/dev/full", "w") as full:
        for arguments in (WHERE, ["--help"], ["profile", "--json"]):
            done = _run(arguments, env=home, stdout=full, stderr=subprocess.PIPE)
            assert done.returncode == 3, arguments
            assert (
                done.stderr
                == "companion: error: standard output can't be written (No space left on device); free some space, or send it elsewhere\n"
            )
        done = _run(["frobnicate"], env=home, stdout=subprocess.PIPE, stderr=full)
        assert (done.returncode, done.stdout) == (2, "")
    for number in (1, 2):
        assert _run(WHERE, env=home, preexec_fn=lambda number=number: os.close(number)).returncode == 0
        assert _run(start, env=home, preexec_fn=lambda number=number: os.close(number), input="no\nyes\n").returncode == 0
    # Nothing a library or we printed went into a file that took the closed stream's number.
    for journal in tmp_path.glob("*.jsonl"):
        assert all("schema" in json.loads(line) for line in journal.read_text().splitlines())


_SEVERAL = """
import sys
from companion.cli import main
for call in eval(sys.argv[1]):
    print(main(call), flush=True)
"""


def _heed_permissions() -> None:
    """Give up what lets root read and write everything (capabilities(7): CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH)."""
    libc, drop_from_bounding_set = ctypes.CDLL(None), 24
    for capability in (1, 2):
        assert libc.prctl(drop_from_bounding_set, capability, 0, 0, 0) == 0


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0, reason="only root may give a folder to somebody else")
def test_folders_closed_to_us(tmp_path: Path) -> None:
    """A home, a sound, a request, a model and a place to write that another user may not enter."""
    closed = tmp_path / "closed"
    closed.mkdir(mode=0o700)
    os.chown(closed, 12345, 12345)
    inside = str(closed / "a")
    calls = [
        ["start", "--text"],
        ["profile"],
        ["profile", "set", "engine", "auto"],
        ["fit", inside],
        ["hear", "--engine", "builtin", "--grammar", inside, inside],
        ["hear", "--engine", "vosk", "--model", inside, inside],
        ["rehearse", inside],
        ["rehearse", "--out", inside],
        ["say", "yes", "--out", inside],
    ]
    environment = {**os.environ, "COMPANION_HOME": str(closed)}
    done = subprocess.run(
        [sys.executable, "-c", _SEVERAL, repr(calls)],
        env=environment, capture_output=True, text=True, timeout=120, check=False, preexec_fn=_heed_permissions,
    )  # fmt: skip
    lines = done.stderr.splitlines()
    assert all(line.startswith("companion: error: ") for line in lines), done.stderr
    assert "broke inside" not in done.stderr
    assert set(done.stdout.split()[-len(calls) :]) <= {"2", "3"}
    assert len(lines) == len(calls)


def test_a_mistake_of_ours_names_a_log_that_exists(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In the home, else among the temporary files; where neither can be written the line itself says what broke, and where."""

    def broken(*_: object) -> None:
        raise KeyError("a mistake")

    monkeypatch.setattr("companion.commands.profiles.show", broken)
    for home, temp in ((tmp_path / "home", tmp_path), (Path("/dev/null/home"), tmp_path)):
        monkeypatch.setenv("COMPANION_HOME", str(home))
        monkeypatch.setattr("tempfile.tempdir", str(temp))
        assert main(["profile"]) == 3
        log = Path(capsys.readouterr().err.strip().rpartition("the details are in ")[2])
        assert "a mistake" in log.read_text()
        assert log.stat().st_mode & 0o077 == 0
    monkeypatch.setattr("tempfile.tempdir", "/dev/null/temp")
    assert main(["profile"]) == 3
    assert "no log can be written, it was: 'a mistake' (test_no_traceback.py:" in capsys.readouterr().err


def test_a_log_on_a_full_disk_is_silent(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """What the log can't write it keeps to itself: no traceback of its own in the middle of an evening."""
    from companion.log import log_trouble  # noqa: PLC0415

    (tmp_path / "companion.log").symlink_to("/dev/full")
    log = log_trouble(tmp_path, ValueError("a mistake"))
    assert log is not None
    assert log.parent != tmp_path
    assert capfd.readouterr().err == ""


def test_a_log_that_is_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    """Where a pipe, which nobody reads, has the log's name, another file is written."""
    from companion.log import log_trouble  # noqa: PLC0415

    os.mkfifo(tmp_path / "companion.log")
    log = log_trouble(tmp_path, ValueError("a mistake"))
    assert log is not None
    assert log.parent != tmp_path
    assert "a mistake" in log.read_text()


def test_a_full_disk_is_no_mistake_of_ours(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """What the system refuses anywhere is said with its reason and a remedy."""

    def full(*_: object) -> None:
        raise OSError(28, os.strerror(28), "/some/file")

    monkeypatch.setattr("companion.commands.profiles.show", full)
    code, error = _complaint(capsys, ["profile"])
    assert code == 3
    assert error == "companion: error: /some/file: this machine refuses (No space left on device); free some space, or use another folder\n"


_INTERRUPTIBLE = """
import os, signal
signal.signal(signal.SIGINT, signal.default_int_handler)  # however those who run the tests were started
from companion.__main__ import run
os.write(1, b".")  # what came before is the interpreter's own beginning, and not ours to answer for
raise SystemExit(run())
"""


def _interrupted_after(seconds: float, number: int, home: Path) -> tuple[int, str]:
    """Start an evening that waits for typed lines, send it a signal, return its exit code and what it complained of."""
    command = [sys.executable, "-c", _INTERRUPTIBLE, "start", "--text", *HERE]
    pipe = subprocess.PIPE
    environment = {**os.environ, "COMPANION_HOME": str(home)}
    with subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=pipe, env=environment) as process:
        assert process.stdout is not None
        assert process.stdout.read(1) == b"."
        time.sleep(seconds)
        process.send_signal(number)
        _, error = process.communicate(timeout=60)
    return process.returncode, error.decode()


@pytest.mark.slow
def test_ctrl_c_at_any_moment(tmp_path: Path) -> None:
    """Twenty moments of the first second, most of them while libraries are being loaded: always 130, never a word."""
    for number in range(20):
        assert _interrupted_after(0.02 + number * 0.05, signal.SIGINT, tmp_path) == (130, ""), number


def test_term_and_hang_up_end_in_order(tmp_path: Path) -> None:
    """The shell's own codes for a signal, nothing printed, the journal let go of; while libraries are being loaded, too."""
    for seconds, number in ((1.5, signal.SIGTERM), (1.5, signal.SIGHUP), (0.15, signal.SIGTERM)):
        assert _interrupted_after(seconds, number, tmp_path) == (128 + number, "")


@pytest.mark.parametrize("umask", [0, pytest.param(0o777, marks=pytest.mark.slow)])
def test_files_are_their_owners_alone(tmp_path: Path, umask: int) -> None:
    """Whatever the umask, everything written is 0600 and every folder 0700."""
    tmp_path.chmod(0o777)
    home = tmp_path / "somewhere" / "home"
    environment = {**os.environ, "COMPANION_HOME": str(home)}
    for arguments in (["start", "--text", *HERE], ["profile", "set", "engine", "auto"], ["say", "yes", "--out", str(home / "yes.wav")]):
        done = _run(arguments, env=environment, input="yes\n", preexec_fn=lambda: os.umask(umask))
        assert done.returncode == 0, done.stderr
    found = {path: path.stat().st_mode & 0o777 for path in (tmp_path / "somewhere", *(tmp_path / "somewhere").rglob("*"))}
    assert {path.name for path in found} >= {"home", "evening.jsonl", "profile.toml", "yes.wav"}
    assert {path.name: mode for path, mode in found.items() if mode != (0o700 if path.is_dir() else 0o600)} == {}
