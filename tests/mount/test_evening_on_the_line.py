"""An evening with a mount on the line: what is seen, what is given, what is never sent again, and a line that is cut."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.live import journal_path
from tests.mount.altaz_server import altaz_server
from tests.mount.evening import SITE, evening, right_clock


@pytest.mark.parametrize(
    ("clock_s", "longitude_deg", "seen"),
    [
        (3600.0, SITE.longitude_deg, "one hour ahead"),
        (-86_400.0, SITE.longitude_deg, "one day behind"),
        (0.0, -SITE.longitude_deg, "east and west mixed up"),
        (-5.5 * 3600, SITE.longitude_deg, "five hours and thirty minutes behind"),
    ],
)
def test_what_is_wrong_in_the_mount_is_seen_and_mended_after_one_question(
    tmp_path: Path, clock_s: float, longitude_deg: float, seen: str
) -> None:
    """A wrong hour, day, zone or side of Greenwich is said as such; one yes, and the mount has the right time and place."""
    mount = {"clock_error_s": right_clock() + clock_s, "latitude_deg": SITE.latitude_deg, "longitude_deg": longitude_deg}
    with altaz_server(**mount) as server, evening(server, tmp_path) as held:
        asked = held.hear("yes", "go to the settings")
        assert seen in asked
        assert asked.endswith("Shall I give it the time and place?")
        assert not [request for request in server.requests if request in ("PUT utcdate", "PUT sitelongitude")]
        assert "my time and place now" in held.hear("yes")
        # What a busy machine takes between the evening's beginning and here counts, too.
        assert abs(server.mount.clock_error_s - right_clock()) < 60
        assert server.mount.longitude_deg == pytest.approx(SITE.longitude_deg)


def test_nothing_is_asked_or_sent_where_all_is_right(tmp_path: Path) -> None:
    """A mount that knows time and place is told so and left alone."""
    mount = {"clock_error_s": right_clock(), "latitude_deg": SITE.latitude_deg, "longitude_deg": SITE.longitude_deg}
    with altaz_server(**mount) as server, evening(server, tmp_path) as held:
        assert "the same time and place" in held.hear("yes", "go to the settings")
        assert {request for request in server.requests if request.startswith("PUT")} <= {"PUT connected"}


def test_no_repetition_going_back_or_resume_sends_a_command_again(tmp_path: Path) -> None:
    """Only a new yes sends the time anew: not "say that again", not "go back", not a resumed evening."""
    with altaz_server(clock_error_s=right_clock() + 3600.0) as server:
        with evening(server, tmp_path) as held:
            held.hear("yes", "go to the settings", "yes")
            assert server.requests.count("PUT utcdate") == 1
            held.hear("say that again", "I'm lost", "go back")
        with evening(server, tmp_path) as again:
            assert "go on" in again.said[0].lower()
            again.hear("yes", "say that again")
        assert server.requests.count("PUT utcdate") == 1
        assert server.requests.count("PUT sitelatitude") == 1


def test_a_command_that_a_crash_cut_off_is_not_sent_after_it(tmp_path: Path) -> None:
    """The journal ends where the time was about to be sent: the resumed evening doesn't send it, reads, and says how it is."""
    with altaz_server(clock_error_s=right_clock() + 3600.0) as server:
        with evening(server, tmp_path) as held:
            held.hear("yes", "go to the settings", "yes")
        journal = journal_path(tmp_path)
        lines = journal.read_bytes().splitlines(keepends=True)
        cut = next(place for place, line in enumerate(lines) if b'"kind": "sending"' in line and b"give-time" in line)
        journal.write_bytes(b"".join(lines[: cut + 1]))
        server.mount.clock_error_s = right_clock() + 3600.0
        with evening(server, tmp_path) as again:
            resumed = again.hear("yes")
        assert "didn't take them" in resumed
        assert server.requests.count("PUT utcdate") == 1


def test_told_not_to_move_it_we_only_read(tmp_path: Path) -> None:
    """After "don't move it" nothing is sent, also not after a resume, until it is allowed again."""
    with altaz_server(clock_error_s=right_clock() + 3600.0) as server:
        with evening(server, tmp_path) as held:
            assert "won't move it" in held.hear("yes", "don't move it")
            held.hear("go to the settings", "yes")
        with evening(server, tmp_path) as again:
            again.hear("yes", "go to the settings", "yes")
        assert {request for request in server.requests if request.startswith("PUT")} <= {"PUT connected"}


def test_a_lost_line_is_said_once_and_mended(tmp_path: Path) -> None:
    """Cut and back: each is said once, and the evening goes on meanwhile."""
    with altaz_server() as server, evening(server, tmp_path) as held:
        held.until_said("on the line")
        server.cut()
        held.until_said("doesn't answer any more")
        held.hear("yes")
        server.restore()
        said = held.until_said("answers again")
        assert "doesn't answer" not in said
