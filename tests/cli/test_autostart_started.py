"""``companion autostart`` with a real systemd: a user manager of the test's own, in a mount namespace whose /run is empty."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from companion.autostart import NAME

MANAGER = "/lib/systemd/systemd"
SCRIPT = f"""
set -u
mount --make-rprivate / && mount -t tmpfs tmpfs /run && mkdir -p /run/systemd/system "$XDG_RUNTIME_DIR" && chmod 700 "$XDG_RUNTIME_DIR"
timeout 60 {MANAGER} --user >manager.log 2>&1 &
for _ in $(seq 50); do systemctl --user is-system-running >state 2>&1; grep -q running state && break; sleep 0.1; done
"$@" autostart on >on || exit 9
echo enabled: $(systemctl --user is-enabled {NAME})
systemctl --user start {NAME}
for _ in $(seq 200); do grep -q "waiting up to" "$COMPANION_HOME/companion.log" 2>/dev/null && break; sleep 0.1; done
echo started: $(systemctl --user is-active {NAME})
systemctl --user stop {NAME}
systemctl --user show {NAME} -p Result -p ExecMainStatus -p NRestarts
"$@" autostart off >off || exit 9
echo after: $(systemctl --user is-enabled {NAME} 2>&1)
systemctl --user exit
wait
"""


@pytest.mark.slow
def test_a_manager_enables_starts_and_stops_it(tmp_path: Path) -> None:
    """It is enabled by systemctl, runs without a terminal, waits for sound, ends well on a stop, and is unknown once it is off."""
    if shutil.which("unshare") is None or not Path(MANAGER).exists() or os.geteuid() != 0:
        assert os.environ.get("CI") != "true", "CI must be root and have systemd: apt install systemd"
        pytest.skip("this needs root and systemd")
    if subprocess.run(["unshare", "--mount", "mount", "-t", "tmpfs", "tmpfs", str(tmp_path)], capture_output=True, check=False).returncode:
        pytest.skip("this machine lets nobody mount in a namespace of their own")
    own = {"XDG_RUNTIME_DIR": "/run/user/0", "XDG_CONFIG_HOME": str(tmp_path / "config"), "COMPANION_HOME": str(tmp_path / "home")}
    kept = {key: value for key, value in os.environ.items() if not key.startswith(("PULSE_", "ALSA_", "XDG_", "DBUS_"))}
    command = ("unshare", "--mount", "bash", "-c", SCRIPT, "bash", sys.executable, "-m", "companion")
    environment = {**kept, **own, "HOME": str(tmp_path), "PYTHONPATH": str(Path(__file__).parents[2])}
    done = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True, timeout=90, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    told = dict(line.replace("=", ": ").split(": ", 1) for line in done.stdout.splitlines())
    assert told["enabled"] == "enabled"
    assert told["started"] == "active"
    assert (told["Result"], told["ExecMainStatus"], told["NRestarts"]) == ("success", "143", "0")
    assert "No such file" in told["after"]
    assert not [path for path in (tmp_path / "config").rglob("*") if not path.is_dir()]
