"""The pointing fit: published values, exact recovery, and answers to bad or degenerate requests."""

from __future__ import annotations

import json
import math
from datetime import UTC, datetime
from typing import Any

import erfa
import numpy as np
import pytest
from astropy.time import Time
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.alignment.pointing import Fit, fit
from companion.documents.fit_request import read_fit_request
from companion.errors import BadRequest
from companion.sky.airless_directions import standing, standing_together
from companion.sky.attitude import (
    azimuth_altitude,
    direction,
    horizon_to_hour_angle,
    hour_angle_to_horizon,
    rotation_between,
    rotation_vector,
    separation_deg,
    shortest_arc,
)
from companion.sky.catalogue import bright_stars, find
from companion.sky.types import Site

SITE = {"latitude_deg": 48.2, "longitude_deg": 16.4, "elevation_m": 200.0}
HERE = Site(48.2, 16.4, 200.0)
TIME = "2026-11-05T20:00:00+00:00"
T0 = datetime(2026, 11, 5, 20, 0, tzinfo=UTC)
UP = ("Vega", "Capella", "Fomalhaut", "Aldebaran", "Polaris")


def sighting(star: str, azimuth: float, altitude: float, time: str = TIME) -> dict[str, Any]:
    """Return one sighting as JSON."""
    return {"star": star, "time": time, "reported_azimuth_deg": azimuth, "reported_altitude_deg": altitude}


def request(sightings: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    """Return a request as JSON."""
    return {"site": SITE, "sightings": sightings, "find": [], **more}


def solve(document: dict[str, Any]) -> Fit:
    """Read and fit a request that went through JSON text."""
    return fit(read_fit_request(json.loads(json.dumps(document))))


def mount_readings(
    stars: tuple[str, ...], zero: float, tilt: tuple[float, float] = (0.0, 0.0), index: float = 0.0, sense: float = 1.0
) -> list[dict[str, Any]]:
    """Return noiseless sightings by a mount with an azimuth zero, a tilt (degrees about north and east) and an altitude index."""
    sky = standing(HERE, [find(star) for star in stars], [datetime.fromisoformat(TIME)] * len(stars))
    turn = rotation_vector(np.radians([*tilt, 0.0])) @ rotation_vector(np.radians([0.0, 0.0, -zero]))
    azimuths, altitudes = azimuth_altitude(sky @ turn.T)
    return [sighting(s, float(sense * a) % 360.0, float(h) + index) for s, a, h in zip(stars, azimuths, altitudes, strict=True)]


# --- published values --------------------------------------------------------------------------------------------------


def test_separation_of_arcturus_and_spica() -> None:
    """Meeus, Astronomical Algorithms, example 17.a: 32 degrees 47 arcminutes 35 arcseconds (by way of soniakeys/meeus, MIT)."""
    arcturus, spica = direction(213.9154, 19.1825), direction(201.2983, -11.1614)
    assert float(separation_deg(arcturus, spica)) == pytest.approx(32 + 47 / 60 + 35 / 3600, abs=0.5 / 3600)


def test_horizon_and_equator_as_in_sofa() -> None:
    """IAU SOFA test values of iauAe2hd(5.5, 1.1, 0.7) and iauHd2ae(1.1, 1.2, 0.3), radians."""
    hour_angle, declination = horizon_to_hour_angle(*np.degrees([5.5, 1.1, 0.7]))
    assert np.radians(hour_angle) == pytest.approx(0.5933291115507309663, abs=1e-14)
    assert np.radians(declination) == pytest.approx(0.9613934761647817620, abs=1e-14)
    azimuth, altitude = hour_angle_to_horizon(*np.degrees([1.1, 1.2, 0.3]))
    assert np.radians(azimuth) == pytest.approx(5.916889243730066, abs=1e-14)
    assert np.radians(altitude) == pytest.approx(0.44721863049904856, abs=1e-14)


BODY = np.array([[0.8273, 0.5541, -0.0920], [-0.8285, 0.5522, -0.0955]])
REFERENCE = np.array([[-0.1517, -0.9669, 0.2050], [-0.8393, 0.4494, -0.3044]])


def normalised(vectors: np.ndarray) -> np.ndarray:
    """Return unit vectors."""
    return np.asarray(vectors / np.linalg.norm(vectors, axis=1, keepdims=True))


def test_attitude_of_davenports_worked_example() -> None:
    """Row 1 of Davenport's attitude with weights 2:1, from a public unit test (a secondary source)."""
    attitude = rotation_between(normalised(REFERENCE), normalised(BODY), np.array([2.0, 1.0]))
    assert attitude[0] == pytest.approx([0.4158105, -0.8549593, 0.3100744], abs=5e-8)


def test_attitude_tends_to_triad() -> None:
    """With the first vector trusted alone, least squares becomes TRIAD, whose matrix is from the same public unit test."""
    attitude = rotation_between(normalised(REFERENCE), normalised(BODY), np.array([1e8, 1.0]))
    triad = [
        [0.41555875, -0.85509088, 0.31004921],
        [-0.83393237, -0.49427603, -0.24545471],
        [0.36313597, -0.15655922, -0.91848869],
    ]
    assert attitude == pytest.approx(np.array(triad), abs=3e-8)


def test_two_star_matrix_example() -> None:
    """Taki's two-star example (Matrix Strategy, rev. E 2004), numbers from memory and the printed answer unconfirmed: to 0.5 degrees."""
    stars = ((0 + 7 / 60 + 54 / 3600, 29.038, 21 + 27 / 60 + 56 / 3600), (2 + 21 / 60 + 45 / 3600, 89.222, 21 + 37 / 60 + 2 / 3600))
    target = (0 + 43 / 60 + 7 / 3600, -18.038, 21 + 52 / 60 + 12 / 3600)

    def turned(ra_hours: float, dec: float, hours: float) -> np.ndarray:
        """Return the direction on the celestial sphere, less the sky's turn so far (anticlockwise right ascension made clockwise)."""
        return direction(-(ra_hours - 1.0027379 * hours) * 15.0, dec)

    # His azimuth is measured anticlockwise, right ascension too, so both are turned round.
    readings = np.stack([direction(-99.25, 83.87), direction(-310.98, 35.04)])
    attitude = rotation_between(np.stack([turned(*star) for star in stars]), readings)
    azimuth, altitude = azimuth_altitude(attitude @ turned(*target))
    assert (-float(azimuth)) % 360.0 == pytest.approx(130.2, abs=0.5)
    assert float(altitude) == pytest.approx(37.65, abs=0.5)


# --- exact recovery and invariances ------------------------------------------------------------------------------------

angle = st.floats(-180.0, 180.0)
steep = st.floats(-85.0, 85.0)


@given(st.lists(st.tuples(angle, steep), min_size=2, max_size=6), st.tuples(angle, angle, angle))
@settings(deadline=None)
def test_rotation_is_recovered_from_noiseless_directions(places: list[tuple[float, float]], turn: tuple[float, float, float]) -> None:
    """Any rotation comes back to 1e-9 from two or more directions that are not along one line."""
    sky = np.stack([direction(*place) for place in places])
    true = rotation_vector(np.radians(turn))
    if np.linalg.svd(sky, compute_uv=False)[1] > 0.03:
        assert rotation_between(sky, sky @ true.T) == pytest.approx(true, abs=1e-9)


@given(st.tuples(angle, steep), st.tuples(angle, steep))
@settings(deadline=None)
def test_shortest_arc_leads_from_one_to_the_other(one: tuple[float, float], other: tuple[float, float]) -> None:
    """The shortest rotation takes the first direction to the second."""
    a, b = direction(*one), direction(*other)
    if float(separation_deg(a, b)) < 179.0:
        assert shortest_arc(a, b) @ a == pytest.approx(b, abs=1e-9)


@given(st.floats(0.0, 359.9), st.tuples(st.floats(-4, 4), st.floats(-4, 4)), st.floats(-4, 4), st.sampled_from((1.0, -1.0)))
@settings(deadline=None, max_examples=20)
def test_everything_is_recovered_from_four_stars(zero: float, tilt: tuple[float, float], index: float, sense: float) -> None:
    """Azimuth zero, tilt and altitude index come back exactly, in either sense of azimuth, whatever the order of the sightings."""
    readings = mount_readings(UP[:4], zero, tilt, index, sense)
    word = "clockwise" if sense > 0 else "anticlockwise"
    for order in (readings, readings[::-1]):
        found = solve(request(order, azimuth_sense=word, find=["Polaris"]))
        assert math.remainder(found.azimuth_zero_deg - zero, 360.0) == pytest.approx(0.0, abs=1e-9)
        assert found.tilt_deg == pytest.approx(math.hypot(*tilt), abs=1e-9)
        assert found.altitude_index_deg == pytest.approx(index, abs=1e-9)
        assert max(found.residuals_deg) < 1e-9
        wanted = mount_readings(("Polaris",), zero, tilt, index, sense)[0]
        assert found.predictions[0].reported_altitude_deg == pytest.approx(wanted["reported_altitude_deg"], abs=1e-9)
        off = math.remainder(found.predictions[0].reported_azimuth_deg - wanted["reported_azimuth_deg"], 360.0)
        assert off == pytest.approx(0.0, abs=1e-8)
        assert found.suspects == ()


def test_turning_the_azimuth_zero_changes_nothing_else() -> None:
    """A mount that starts counting elsewhere has the same residuals, tilt, index and separations."""
    readings = mount_readings(UP, 0.0, (1.0, 2.0))
    readings[1]["reported_altitude_deg"] += 0.7
    turned = [r | {"reported_azimuth_deg": (r["reported_azimuth_deg"] + 123.0) % 360.0} for r in readings]
    one, other = solve(request(readings)), solve(request(turned))
    assert other.residuals_deg == pytest.approx(one.residuals_deg, abs=1e-9)
    assert other.tilt_deg == pytest.approx(one.tilt_deg, abs=1e-9)
    assert other.altitude_index_deg == pytest.approx(one.altitude_index_deg, abs=1e-9)
    assert other.separation_error_deg == pytest.approx(one.separation_error_deg, abs=1e-9)
    assert math.remainder(other.azimuth_zero_deg - one.azimuth_zero_deg + 123.0, 360.0) == pytest.approx(0.0, abs=1e-9)


def test_index_is_not_seen_at_one_azimuth() -> None:
    """Two stars at the same azimuth can't tell an altitude index from a tilt: null, and it is taken for zero."""
    places = ((80.0, 25.0), (80.0, 60.0))
    ras = []
    for azimuth, altitude in places:
        hour_angle, declination = horizon_to_hour_angle(azimuth, altitude, HERE.latitude_deg)
        sidereal = local_sidereal()
        ras.append((float(sidereal - hour_angle) % 360.0, float(declination)))
    readings = [
        {"ra_deg": ra, "dec_deg": dec, "epoch": "of_date", "time": TIME, "reported_azimuth_deg": az, "reported_altitude_deg": alt}
        for (ra, dec), (az, alt) in zip(ras, places, strict=True)
    ]
    found = solve(request(readings))
    assert found.altitude_index_deg is None
    assert found.tilt_deg == pytest.approx(0.0, abs=1e-3)
    assert math.remainder(found.azimuth_zero_deg, 360.0) == pytest.approx(0.0, abs=1e-3)


def local_sidereal() -> float:
    """Return the apparent sidereal time at the test site by ERFA, degrees; UT1 is taken for UTC (0.0004 degrees in 2026)."""
    when = Time(T0)
    return float(np.degrees(erfa.gst06a(when.jd1, when.jd2, when.tt.jd1, when.tt.jd2))) + HERE.longitude_deg


# --- few, many, coincident, impossible ---------------------------------------------------------------------------------


def test_one_sighting_gives_zeros_only() -> None:
    """One star gives both zeros, no tilt, no residual, and predictions for a level mount."""
    found = solve(request(mount_readings(("Vega",), 77.0, index=1.25), find=["Vega"]))
    assert found.tilt_deg is None
    assert found.azimuth_zero_deg == pytest.approx(77.0, abs=1e-9)
    assert found.altitude_index_deg == pytest.approx(1.25, abs=1e-9)
    assert (found.tilt_deg, found.residuals_deg, found.rms_deg, found.separation_error_deg, found.suspects) == (None, (0.0,), 0.0, (), ())
    assert found.predictions[0].name == "Vega"


def test_the_same_star_twice_is_as_good_as_once() -> None:
    """Coincident sightings give zeros only, the mean of what each says."""
    once = mount_readings(("Vega",), 30.0)[0]
    found = solve(request([once, once | {"reported_altitude_deg": once["reported_altitude_deg"] + 0.2}]))
    assert found.tilt_deg is None
    assert found.altitude_index_deg == pytest.approx(0.1, abs=1e-9)
    assert found.residuals_deg == pytest.approx((0.1, 0.1), abs=1e-9)
    assert found.separation_error_deg == pytest.approx((0.2,), abs=1e-9)


def test_opposite_stars_give_zeros_only() -> None:
    """Two places opposite each other on the horizon leave a turn about their line open."""
    sidereal = local_sidereal()
    readings = []
    for azimuth in (70.0, 250.0):
        hour_angle, declination = horizon_to_hour_angle(azimuth, 0.2, HERE.latitude_deg)
        place = {"ra_deg": float(sidereal - hour_angle) % 360.0, "dec_deg": float(declination), "epoch": "of_date"}
        readings.append(place | {"time": TIME, "reported_azimuth_deg": azimuth - 5.0, "reported_altitude_deg": 0.2})
    found = solve(request(readings))
    assert found.tilt_deg is None
    assert found.azimuth_zero_deg == pytest.approx(5.0, abs=1e-3)


def test_sixty_four_sightings_are_averaged() -> None:
    """Many sightings of every bright star give the mount's zero far better than each alone, and none is suspected."""
    rng = np.random.default_rng(5)
    stars = [s for s, up in zip(bright_stars(3.0), standing_together(HERE, bright_stars(3.0), T0), strict=True) if up[2] > 0.3]
    names = tuple(stars[i % len(stars)].name for i in range(64))
    readings = mount_readings(names, 12.0)
    for reading in readings:
        reading["reported_azimuth_deg"] += rng.normal(0.0, 0.3) / math.cos(math.radians(reading["reported_altitude_deg"]))
        reading["reported_altitude_deg"] += rng.normal(0.0, 0.3)
    found = solve(request(readings))
    assert found.azimuth_zero_deg == pytest.approx(12.0, abs=0.1)
    assert found.rms_deg == pytest.approx(0.3 * math.sqrt(2.0), rel=0.15)
    assert len(found.separation_error_deg) == 64 * 63 // 2
    assert found.suspects == ()


def test_a_wrong_star_is_suspected() -> None:
    """Castor sighted where Pollux was meant is named, and by how much it explains the sighting better; the right stars are not."""
    late = "2026-11-06T02:00:00Z"
    stars = ("Castor", "Capella", "Regulus", "Aldebaran")
    sky = standing(HERE, [find(s) for s in stars], [datetime.fromisoformat(late)] * 4)
    azimuths, altitudes = azimuth_altitude(sky)
    named = ("Pollux", *stars[1:])
    found = solve(request([sighting(n, float(a), float(h), late) for n, a, h in zip(named, azimuths, altitudes, strict=True)]))
    first = found.suspects[0]
    assert (first.sighting, first.star, first.instead) == (0, "Pollux", "Castor")
    assert 2.0 < first.improvement_deg < 4.6  # the two are 4.5 degrees apart
    assert all(suspect.sighting == 0 for suspect in found.suspects)


def test_a_star_under_the_horizon_cannot_have_been_sighted() -> None:
    """The complaint names the sighting, the star and how far down it was."""
    with pytest.raises(BadRequest, match=r"sightings\[1\]: Spica was \d+° below the horizon"):
        solve(request([*mount_readings(("Vega",), 0.0), sighting("Spica", 10.0, 20.0)]))


def test_predictions_take_their_own_time() -> None:
    """An hour later Polaris hardly moves and Vega does; without a time it is the latest sighting's."""
    readings = mount_readings(UP, 0.0)
    later = {"name": "vega", "time": "2026-11-05T21:00:00Z"}
    now, then, pole = solve(request(readings, find=["VEGA", later, "Polaris"])).predictions
    assert now.reported_altitude_deg - then.reported_altitude_deg > 5.0
    assert now.name == then.name == "Vega"
    assert now.reported_altitude_deg == pytest.approx(readings[0]["reported_altitude_deg"], abs=1e-6)
    assert pole.reported_altitude_deg == pytest.approx(48.0, abs=1.0)


GOOD = sighting("Vega", 10.0, 20.0)


@pytest.mark.parametrize(
    ("document", "complaint"),
    [
        ([], "the file: this must be an object"),
        ({"sightings": [GOOD]}, "site: this is missing"),
        (request([]), "sightings: there are none"),
        (request([GOOD | {"reported_azimuth_deg": math.nan}]), r"sightings\[0\].reported_azimuth_deg: nan is not possible"),
        (request([GOOD | {"reported_altitude_deg": "20"}]), r"sightings\[0\].reported_altitude_deg: this must be a number, not a text"),
        (request([GOOD | {"reported_altitude_deg": True}]), r"sightings\[0\].reported_altitude_deg: this must be a number, not true"),
        (request([GOOD | {"star": "Vegga"}]), r"sightings\[0\].star: .*did you mean Vega"),
        (request([GOOD | {"ra_deg": 1.0, "dec_deg": 2.0}]), r"sightings\[0\]: give either star, or ra_deg and dec_deg"),
        (request([GOOD | {"time": "2026-11-05T20:00:00"}]), r"sightings\[0\].time: .*has no offset"),
        (request([GOOD | {"time": "yesterday"}]), r"sightings\[0\].time: 'yesterday' is not an ISO 8601 time"),
        (request([GOOD | {"azimuth": 3}]), r"sightings\[0\].azimuth: I don't know this field"),
        (request([GOOD], azimuth_sense="widdershins"), "azimuth_sense: 'widdershins' is not one of clockwise, anticlockwise"),
        (request([GOOD], find="Vega"), r"find: this must be a list"),
        (request([GOOD], find=["Nowhere Star"]), r"find\[0\]: "),
        ({"site": {"latitude_deg": 91, "longitude_deg": 0}, "sightings": [GOOD]}, "site.latitude_deg: 91 is not possible"),
    ],
)
def test_a_wrong_field_is_named(document: Any, complaint: str) -> None:
    """Every wrong, missing or unknown field is refused by its path."""
    with pytest.raises(BadRequest, match=complaint):
        read_fit_request(document)
