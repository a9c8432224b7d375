"""The diagnosis: the mount's model, clear cases named by hand-made misses, bad requests."""

from __future__ import annotations

import json
import math
from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.diagnosis.causes import HABITS
from companion.diagnosis.diagnose import diagnose
from companion.diagnosis.findings import CauseFound, Diagnosis
from companion.documents.diagnose_request import read_diagnose_request
from companion.errors import BadRequest
from companion.sky.airless_directions import standing
from companion.sky.attitude import azimuth_altitude
from companion.sky.catalogue import MOON, find
from companion.sky.types import Body, Site

HERE = Site(48.2, 16.4)
T0 = datetime(2026, 11, 5, 18, 0, tzinfo=UTC)


def place(body: Body, site: Site = HERE, time: datetime = T0) -> tuple[float, float]:
    """Return airless azimuth and altitude, degrees."""
    azimuth, altitude = azimuth_altitude(standing(site, [body], [time])[0])
    return float(azimuth), float(altitude)


def miss(star: str, stop: tuple[float, float], time: datetime = T0, seen: str | None = None, **more: Any) -> dict[str, Any]:
    """Return the miss of a star (given for ``seen``) from where the telescope stopped, by the definition of right and up."""
    azimuth, altitude = place(find(seen or star), time=time)
    right = math.remainder(azimuth - stop[0], 360.0) * math.cos(math.radians(stop[1]))
    return {"star": star, "time": time.isoformat(), "right_deg": right, "up_deg": altitude - stop[1], "sigma_deg": 1.0, **more}


def document(*misses: dict[str, Any], **more: Any) -> dict[str, Any]:
    """Return a request as JSON, in a place where the compass points 5 degrees east."""
    site = {"latitude_deg": HERE.latitude_deg, "longitude_deg": HERE.longitude_deg}
    return {"site": site, "time": T0.isoformat(), "declination_deg": 5.0, "misses": list(misses), **more}


def causes(*misses: dict[str, Any], **more: Any) -> dict[str, CauseFound]:
    """Return the causes by name, likeliest first."""
    return {found.cause: found for found in diagnosis(*misses, **more).causes}


def diagnosis(*misses: dict[str, Any], **more: Any) -> Diagnosis:
    """Diagnose a request that went through JSON text."""
    return diagnose(read_diagnose_request(json.loads(json.dumps(document(*misses, **more)))))


def as_told(star: str, *, site: Site = HERE, hours: float = 0.0) -> tuple[float, float]:
    """Return where a perfectly set mount that was told a site and a time stops."""
    return place(find(star), site, T0 + timedelta(hours=hours))


def test_daylight_saving_told_on_in_winter() -> None:
    """An hour early by the clock: the first cause is the hour, minus one, by daylight saving; the pole's other turns are named."""
    first, *_ = found = list(causes(miss("Capella", as_told("Capella", hours=-1)), miss("Deneb", as_told("Deneb", hours=-1))).values())
    assert first.cause == "hour"
    assert first.members[0] == "daylight_saving"
    assert first.value == pytest.approx(-1.0)
    assert first.probability > 0.5
    assert sum(item.probability for item in found) == pytest.approx(1.0, abs=1e-12)
    assert [item.cause for item in found if item.probability > 0.01 and item.cause in first.same_turn]
    assert {item.cause for item in found} == set(HABITS)


@pytest.mark.parametrize(
    ("told", "cause", "member", "value"),
    [
        (Site(-48.2, 16.4), "latitude", "sign", -96.4),
        (Site(38.2, 16.4), "latitude", "value", -10.0),
        (Site(48.2, -16.4), "longitude", "sign", -32.8),
    ],
)
def test_a_wrong_place_is_named(told: Site, cause: str, member: str, value: float) -> None:
    """Both signs and a mistyped latitude come out with the right size, told minus true."""
    found = causes(*(miss(star, as_told(star, site=told)) for star in ("Vega", "Capella")))
    assert next(iter(found)) == cause
    assert found[cause].members[0] == member
    assert found[cause].value == pytest.approx(value, abs=1.0)


def test_the_start_of_the_tube() -> None:
    """A tube that was 30 degrees high, or faced 35 degrees east of north, or backwards: minus that is told minus true."""
    azimuth, altitude = place(find("Capella"))
    raised = causes(miss("Capella", (azimuth, altitude + 30.0)))
    assert next(iter(raised)) == "start_altitude"
    assert raised["start_altitude"].value == pytest.approx(-30.0, abs=1.0)
    turned = causes(*(miss(star, (place(find(star))[0] + 35.0, place(find(star))[1])) for star in ("Vega", "Capella")))
    assert next(iter(turned)) == "start_azimuth"
    assert turned["start_azimuth"].value == pytest.approx(-35.0, abs=1.0)
    backwards = causes(*(miss(star, (place(find(star))[0] + 180.0, place(find(star))[1])) for star in ("Vega", "Capella")))
    assert next(iter(backwards)) == "reversed"


@pytest.mark.parametrize(("times", "member"), [(1, "not_applied"), (-1, "applied_twice"), (2, "wrong_sign")])
def test_a_large_declination(times: int, member: str) -> None:
    """Where the compass points 18 degrees east, not allowing for it, twice, or to the wrong side has its own size."""
    found = causes(*(miss(s, (place(find(s))[0] + 18.0 * times, place(find(s))[1])) for s in ("Vega", "Capella")), declination_deg=18.0)
    assert next(iter(found)) == "magnetic_declination"
    assert found["magnetic_declination"].members[0] == member
    assert found["magnetic_declination"].value == -18.0 * times
    assert "start_azimuth" in found["magnetic_declination"].same_turn


def test_a_small_declination_explains_little() -> None:
    """Where the compass is right to a degree, its correction is no cause of a large miss."""
    found = causes(miss("Vega", (place(find("Vega"))[0] + 30.0, place(find("Vega"))[1])), declination_deg=1.0)
    assert found["magnetic_declination"].probability < 0.01


def test_a_wrong_star_is_named() -> None:
    """Deneb taken for Vega by a mount that then shifts its zeros: the second star misses by as much, and Deneb is named."""
    wrong, right = place(find("Deneb")), place(find("Vega"))
    shifted = tuple(np.array(place(find("Capella"))) + np.array(wrong) - np.array(right))
    found = causes(
        miss("Vega", right, seen="Deneb"),
        miss("Capella", shifted, synced=True),  # type: ignore[arg-type]
        corrections="zeros",
        message="failed",
    )
    assert next(iter(found)) == "wrong_star"
    assert (found["wrong_star"].value, found["wrong_star"].star) == ("Deneb", "Vega")


def test_a_slip_needs_a_good_miss_before_a_bad_one() -> None:
    """With one miss nothing can have slipped; a second one far off along one axis where no star stands is a slip."""
    azimuth, altitude = place(find("Capella"))
    assert causes(miss("Capella", (azimuth + 60.0, altitude)))["slipped"].probability == 0.0
    found = causes(miss("Vega", place(find("Vega"))), miss("Capella", (azimuth + 60.0, altitude), synced=True))
    assert next(iter(found)) == "slipped"
    assert found["slipped"].value == pytest.approx(-60.0, abs=6.0)


def test_an_ordinary_miss_is_none() -> None:
    """Two degrees off is what every start has."""
    assert next(iter(causes(miss("Vega", (place(find("Vega"))[0] + 2.0, place(find("Vega"))[1] - 1.0))))) == "none"


def test_a_star_offered_below_the_horizon_speaks_of_time_and_place() -> None:
    """Spica is down: a mount that goes there was told another time, date or place; the tube's start has nothing to do with it."""
    assert place(find("Spica"))[1] < -20.0
    found = causes({"star": "Spica", "time": T0.isoformat(), "not_visible": True})
    told = ("hour", "date_month", "latitude", "longitude", "site", "date_day")
    assert sum(found[cause].probability for cause in told) > 0.85  # type: ignore[index]
    assert next(iter(found)) == "hour"


def test_message_failed_speaks_against_a_turn_of_the_whole_sky() -> None:
    """A mount that solves a rotation reports success when only the clock is wrong: "failed" makes the hour less likely."""
    azimuth, altitude = as_told("Capella", hours=-1)
    misses = (miss("Capella", (azimuth, altitude), sigma_deg=3.0),)
    failed, success = (causes(*misses, message=m, corrections="rotation") for m in ("failed", "success"))
    assert failed["hour"].probability < success["hour"].probability
    assert failed["wrong_star"].probability > 3.0 * success["wrong_star"].probability


def test_the_moon_tells_the_date() -> None:
    """Yesterday's date leaves the stars a degree off but the Moon thirteen: with a Moon miss the day is named."""
    time = datetime(2026, 11, 20, 18, 0, tzinfo=UTC)
    up = place(MOON, time=time)
    assert up[1] > 20.0
    stop = place(MOON, time=time - timedelta(days=1))
    star_stop = place(find("Vega"), time=time - timedelta(days=1))
    off = {"right_deg": 0.0, "up_deg": 0.0, "sigma_deg": 1.0}
    right = math.remainder(up[0] - stop[0], 360.0) * math.cos(math.radians(stop[1]))
    vega = place(find("Vega"), time=time)
    off = {
        "right_deg": math.remainder(vega[0] - star_stop[0], 360.0) * math.cos(math.radians(star_stop[1])),
        "up_deg": vega[1] - star_stop[1],
    }
    found = causes(
        {"star": "Vega", "time": time.isoformat(), "sigma_deg": 1.0} | off,
        {"star": "Moon", "time": time.isoformat(), "right_deg": right, "up_deg": up[1] - stop[1], "sigma_deg": 1.0},
    )
    assert next(iter(found)) == "date_day"
    assert found["date_day"].value == -1.0


def test_the_same_request_gives_the_same_answer() -> None:
    """Nothing is drawn at random."""
    asked = (miss("Capella", as_told("Capella", hours=2)),)
    assert diagnosis(*asked) == diagnosis(*asked)


@given(
    st.lists(
        st.tuples(st.floats(-180, 180), st.floats(-90, 90), st.booleans(), st.sampled_from(("Vega", "Capella", "Spica", "Moon"))),
        min_size=1,
        max_size=3,
    )
)
@settings(deadline=None, max_examples=10)
def test_any_misses_have_an_answer(misses: list[tuple[float, float, bool, str]]) -> None:
    """Whatever was seen, the probabilities are finite and sum to 1."""
    asked = [{"star": s, "time": T0.isoformat(), "right_deg": r, "up_deg": u, "synced": synced} for r, u, synced, s in misses]
    probabilities = [found.probability for found in diagnosis(*asked).causes]
    assert probabilities == sorted(probabilities, reverse=True)
    assert sum(probabilities) == pytest.approx(1.0, abs=1e-12)


# --- priors ------------------------------------------------------------------------------------------------------------


def test_priors_are_a_distribution() -> None:
    """The table of habits sums to 1 and gives a reason for each."""
    assert sum(habit.prior for habit in HABITS.values()) == pytest.approx(1.0)
    assert all(habit.reason for habit in HABITS.values())


# --- bad requests ------------------------------------------------------------------------------------------------------

GOOD = {"star": "Vega", "time": T0.isoformat(), "right_deg": 1.0, "up_deg": 2.0}


@pytest.mark.parametrize(
    ("asked", "complaint"),
    [
        (3, "the file: this must be an object"),
        (document(), "misses: there are 0"),
        (document(GOOD | {"up_deg": math.inf}), r"misses\[0\].up_deg: inf is not possible"),
        (document({"star": "Vega", "time": T0.isoformat(), "right_deg": 1.0}), r"misses\[0\].up_deg: this is missing"),
        (document(GOOD | {"not_visible": True}), r"misses\[0\]: a star that is not_visible has no right_deg"),
        (document(GOOD | {"centred": True}), r"misses\[0\]: a star that was centred freely has no miss"),
        (document(GOOD | {"turn_deg": 90.0}), r"misses\[0\]: give turn_deg or right_deg, not both"),
        (document(GOOD | {"turn_sigma_deg": 9.0}), r"misses\[0\]: turn_sigma_deg belongs to a turn_deg"),
        (document({"star": "Vega", "time": T0.isoformat(), "turn_deg": 181.0}), r"misses\[0\].turn_deg: 181"),
        (document({"star": "Vega", "time": T0.isoformat(), "up_deg": 1.0}), r"misses\[0\].right_deg: this is missing"),
        (document({"star": "Vega", "time": T0.isoformat(), "centred": True, "not_visible": True}), "wasn't centred"),
        (document(GOOD | {"star": "Capela"}), r"misses\[0\].star: .*did you mean Capella"),
        (document(GOOD | {"synced": "yes"}), r"misses\[0\].synced: this must be true or false"),
        (document(GOOD | {"sigma_deg": 0}), r"misses\[0\].sigma_deg: 0 is not possible"),
        (document(GOOD | {"left_deg": 1}), r"misses\[0\].left_deg: I don't know this field"),
        (document(GOOD, start={"faces": "south"}), "start.faces: 'south' is not one of"),
        (document(GOOD, corrections="some"), "corrections: 'some' is not one of"),
        (document(GOOD, message="beep"), "message: 'beep' is not one of"),
        (document(GOOD) | {"time": "2026-11-05T18:00:00"}, "time: .*has no offset"),
        (document(*[GOOD] * 9), "misses: there are 9"),
    ],
)
def test_a_wrong_field_is_named(asked: Any, complaint: str) -> None:
    """Every wrong, missing or unknown field is refused by its path."""
    with pytest.raises(BadRequest, match=complaint):
        read_diagnose_request(asked)
