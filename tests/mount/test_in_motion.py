"""Real readings over the line put to use: a slew watched and stopped, and the lean of the base from what a mount tells."""

from __future__ import annotations

import threading
import time
from datetime import UTC, datetime

import pytest

from companion import alignment, sky
from companion.documents.fit_request import read_fit_request
from companion.mount import Equatorial, Finished, Horizontal, Line, Slew, Sync
from companion.mount.clear_way import Limits, Way, clear_way
from companion.mount.coordinates import horizontal_of
from companion.mount.flight_watch import Flight, Seen, judge_flight
from companion.sky import Moment, Site
from tests.mount.altaz_server import AltAzServer, altaz_server
from tests.mount.lines import line_to, state, tell, until
from tests.sky import astropy_reference


def _fly(line: Line, way: Way, sun: Horizontal | None = None) -> Flight:
    """Send the mount, watch it and stop it where it must be; return the last judgement."""
    assert isinstance(tell(line, Slew(way.end)), Finished)
    started_s, seen = time.monotonic(), []
    while True:
        now = line.state
        if now is not None and now.horizontal is not None and (not seen or now.horizontal != seen[-1].pointing):
            seen.append(Seen(time.monotonic(), now.horizontal))
        verdict = judge_flight(way, seen, started_s=started_s, now_s=time.monotonic(), sun=sun, uncertainty_deg=0.0)
        if verdict != "on_course":
            line.stop()
            return verdict
        if now is not None and not now.slewing and time.monotonic() - started_s > 1.0:
            return verdict
        time.sleep(0.05)


def _way(end: Horizontal) -> Way:
    way = clear_way(Horizontal(30.0, 180.0), end, None, Limits(), 0.0)
    assert isinstance(way, Way)
    return way


@pytest.mark.parametrize("long_way", [False, True])
def test_either_turn_of_a_real_slew_arrives_on_course(long_way: bool) -> None:
    """The short way or the long one, seen in what the mount tells twice a second."""
    with altaz_server(rate_deg_s=120.0 if long_way else 8.0, goes_long_way_round=long_way) as server, line_to(server.address) as line:
        assert _fly(line, _way(Horizontal(42.0, 200.0))) == "on_course"
        assert state(line).azimuth_deg == pytest.approx(200.0, abs=0.01)


@pytest.mark.alone
@pytest.mark.slow
def test_a_mount_that_runs_past_its_end_is_stopped() -> None:
    """It climbs on where it should have stood: stopped within the box's room and what it turns between two readings."""
    with altaz_server(rate_deg_s=2.0) as server, line_to(server.address) as line:
        way = _way(Horizontal(34.0, 181.0))
        slew = server.mount.slew
        server.mount.slew = lambda azimuth, altitude: slew(azimuth, altitude + 40.0)  # type: ignore[method-assign]
        assert _fly(line, way) == "off_course"
        until(lambda: not server.mount.slewing)
        # Three degrees of room, then two readings and the stop, for which a busy machine has two seconds.
        assert server.mount.says()[1] < 34.0 + 3.0 + 4.0


@pytest.mark.alone
@pytest.mark.slow
def test_a_line_cut_in_flight_is_silence() -> None:
    """Known within two seconds or little more, and the stop goes on trying: the mount stands when the line is back."""
    with altaz_server(rate_deg_s=2.0) as server, line_to(server.address) as line:
        way = _way(Horizontal(60.0, 300.0))
        cut_at: list[float] = []

        def cut() -> None:
            time.sleep(1.5)
            cut_at.append(time.monotonic())
            server.cut()

        threading.Thread(target=cut).start()
        assert _fly(line, way) == "silent"
        assert time.monotonic() - cut_at[0] < 4.0
        server.restore()
        until(lambda: not server.mount.slewing)


def _mount_points_at(server: AltAzServer, body: sky.Body, site: Site) -> Moment:
    """Let a person centre a star, where astropy has it; return the moment."""
    moment = Moment(site, datetime.now(UTC))
    altitude_deg, azimuth_deg = astropy_reference.altaz(body, site, astropy_reference.times(moment.time, 0.0))
    server.mount.turn_to(float(azimuth_deg), float(altitude_deg))
    return moment


def test_a_lean_of_three_degrees_is_found_from_three_readings() -> None:
    """Three stars centred, three readings, the fit: the lean to 0.05 degrees, and a sync after each reading does no harm to the next.

    A sync shifts the mount's zeros, so each reading has the shifts before it undone.
    """
    site = Site(46.3, -67.5, 100.0)
    with altaz_server(tilt_deg=3.0, tilt_towards_deg=70.0) as server, line_to(server.address) as line:
        now = Moment(site, datetime.now(UTC))
        high = [body for body in sky.bright_stars(2.5) if 25.0 < sky.sight(body, now, refraction=False).altitude_deg < 65.0]
        bodies = sorted(high, key=lambda body: sky.sight(body, now).azimuth_deg)[:: max(1, len(high) // 3)][:3]
        sightings, shifted_azimuth_deg, shifted_altitude_deg = [], 0.0, 0.0
        for body in bodies:
            moment = _mount_points_at(server, body, site)
            told = state(line)
            assert told.azimuth_deg is not None
            assert told.altitude_deg is not None
            sightings.append(
                {
                    "star": body.name,
                    "time": moment.time.isoformat(),
                    "reported_azimuth_deg": (told.azimuth_deg - shifted_azimuth_deg) % 360,
                    "reported_altitude_deg": told.altitude_deg - shifted_altitude_deg,
                }
            )
            true = sky.sight(body, moment, refraction=False)
            assert isinstance(tell(line, Sync(Horizontal(true.altitude_deg, true.azimuth_deg))), Finished)
            shifted_azimuth_deg += (true.azimuth_deg - told.azimuth_deg + 180) % 360 - 180
            shifted_altitude_deg += true.altitude_deg - told.altitude_deg
        place = {"latitude_deg": 46.3, "longitude_deg": -67.5, "elevation_m": 100.0}
        found = alignment.fit(read_fit_request({"site": place, "sightings": sightings, "find": []}))
    print(f"tilt {found.tilt_deg} from {[sighting['star'] for sighting in sightings]}")
    assert found.tilt_deg == pytest.approx(3.0, abs=0.05)


def test_a_swapped_longitude_shows_in_what_the_mount_tells() -> None:
    """East for west: its place is thousands of kilometres off, and its right ascension stands nowhere near where it points."""
    site = Site(46.3, -67.5, 100.0)
    with altaz_server(longitude_deg=67.5) as server, line_to(server.address) as line:
        told = state(line)
        assert told.equatorial == Equatorial(told.ra_deg or 0.0, told.dec_deg or 0.0, "of_date")
        believed = horizontal_of(told.equatorial, Moment(site, datetime.now(UTC)))
        assert told.horizontal is not None
        assert abs((believed.azimuth_deg - told.horizontal.azimuth_deg + 180) % 360 - 180) > 60.0
        server.mount.longitude_deg = -67.5
        right = state(line)
        assert right.equatorial is not None
        believed = horizontal_of(right.equatorial, Moment(site, datetime.now(UTC)))
        # The tests' own mount leaves out the equation of the equinoxes, 18 arcseconds at most.
        assert believed.azimuth_deg == pytest.approx(180.0, abs=0.02)
        assert believed.altitude_deg == pytest.approx(30.0, abs=0.02)
