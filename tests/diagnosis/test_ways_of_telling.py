"""What the diagnosis makes of turns told by the body, of a first star centred freely, and of a base that leans; and how answers go in."""

from __future__ import annotations

import json
import math
from datetime import UTC, datetime
from typing import Any

import numpy as np
import pytest

from companion.diagnosis.diagnose import diagnose
from companion.diagnosis.findings import CauseFound, Diagnosis
from companion.diagnosis.mount_model import _solved_from_two
from companion.documents.diagnose_request import read_diagnose_request
from companion.languages.en.cause_words import explain_cause, sum_up_cause, what_would_decide
from companion.sky.airless_directions import standing
from companion.sky.attitude import azimuth_altitude, rotation_between
from companion.sky.catalogue import find
from companion.sky.types import Site
from tests.montecarlo.truth import angles, tilted, vector

HERE = Site(46.3, -67.5)
T0 = datetime(2026, 9, 6, 1, 0, tzinfo=UTC)


def stands(star: str, time: datetime = T0) -> np.ndarray:
    """Return airless azimuth and altitude, shape (2,), degrees."""
    return np.array([float(x) for x in azimuth_altitude(standing(HERE, [find(star)], [time])[0])])


def beside(star: str, azimuth_deg: float, altitude_deg: float) -> np.ndarray:
    """Return the direction so far from a star in azimuth and altitude."""
    return stands(star) + np.array([azimuth_deg, altitude_deg])


def told(star: str, **more: Any) -> dict[str, Any]:
    """Return a miss with what is told of it."""
    return {"star": star, "time": T0.isoformat(), **more}


def seen_from(star: str, stop: np.ndarray, **more: Any) -> dict[str, Any]:
    """Return the miss of a star from where the telescope stopped, azimuth and altitude."""
    azimuth, altitude = stands(star)
    right = math.remainder(azimuth - stop[0], 360.0) * math.cos(math.radians(stop[1]))
    return told(star, right_deg=right, up_deg=altitude - stop[1], sigma_deg=1.0, **more)


def diagnosis(*misses: dict[str, Any], **more: Any) -> Diagnosis:
    """Diagnose a request that went through JSON text."""
    site = {"latitude_deg": HERE.latitude_deg, "longitude_deg": HERE.longitude_deg}
    document = {"site": site, "time": T0.isoformat(), "declination_deg": 5.0, "misses": list(misses), **more}
    return diagnose(read_diagnose_request(json.loads(json.dumps(document))))


def cause(found: Diagnosis, name: str) -> CauseFound:
    """Return one cause."""
    return next(item for item in found.causes if item.cause == name)


# --- turns told by the body ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("height", [{}, {"up_deg": 0.0}], ids=["nothing said of the height", "as high"])
def test_behind_me_when_the_star_is_high(height: dict[str, float]) -> None:
    """Altair half-way up, the tube started facing south: "behind me" says reversed, and more than twice as likely as anything else."""
    assert 48.0 < stands("Altair")[1] < 58.0
    first, second, *_ = diagnosis(told("Altair", turn_deg=180.0, **height)).causes
    assert first.cause == "reversed"
    assert first.probability > 0.5
    assert first.probability > 2.0 * second.probability


def test_a_turn_goes_round() -> None:
    """Half a turn left is half a turn right."""
    right, left = (diagnosis(told("Altair", turn_deg=turn)).causes for turn in (180.0, -180.0))
    assert [item.cause for item in right] == [item.cause for item in left]
    assert [item.probability for item in right] == pytest.approx([item.probability for item in left])


def test_a_turn_is_an_azimuth_however_high_the_star() -> None:
    """A tube that faced 60 degrees east is a 60 degree turn to the left, high or low: its size comes out within the spread told."""
    for star in ("Altair", "Vega"):
        found = cause(diagnosis(told(star, turn_deg=-60.0, turn_sigma_deg=5.0, up_deg=0.0)), "start_azimuth")
        assert found.value == pytest.approx(-60.0, abs=5.0)


def test_a_vague_turn_tells_less() -> None:
    """The wider the spread of a turn, the less sure the first cause; absent it is 15 degrees."""
    sure, usual, vague = (
        diagnosis(told("Altair", turn_deg=180.0, **spread)) for spread in ({"turn_sigma_deg": 5.0}, {}, {"turn_sigma_deg": 40.0})
    )
    assert sure.causes[0].probability > usual.causes[0].probability > vague.causes[0].probability
    assert usual.causes == diagnosis(told("Altair", turn_deg=180.0, turn_sigma_deg=15.0)).causes


# --- the first star -----------------------------------------------------------------------------------------------------


def test_the_second_star_accuses_the_first() -> None:
    """Deneb taken for Vega and taken in; Altair then misses by as much: Vega is the one that was wrong, and Deneb what it really was."""
    off = stands("Deneb") - stands("Vega")
    miss = seen_from("Altair", stands("Altair") + off, synced=True)
    found = diagnosis(told("Vega", centred=True), miss, corrections="zeros")
    assert found.causes[0].cause == "wrong_star"
    assert (found.causes[0].star, found.causes[0].value) == ("Vega", "Deneb")
    assert "Deneb instead of Vega" in explain_cause(found.causes[0])


def test_a_star_centred_freely_is_taken_in() -> None:
    """``synced`` need not be said after a star that was centred: its correction is what "centred" means."""
    miss = seen_from("Altair", beside("Altair", 20.0, -8.0))
    free = told("Vega", centred=True)
    assert diagnosis(free, miss).causes == diagnosis(free, miss | {"synced": True}).causes


def test_what_was_steered_out_is_no_cause_any_more() -> None:
    """A tube that faced elsewhere is taken out with the first star: a large second miss doesn't speak of it."""
    miss = seen_from("Altair", beside("Altair", 30.0, 0.0))
    alone, after = diagnosis(miss), diagnosis(told("Vega", centred=True), miss, corrections="zeros")
    assert cause(alone, "start_azimuth").probability > 0.3
    assert cause(after, "start_azimuth").probability < 0.05


def test_nobody_took_a_star_that_was_never_seen_for_another() -> None:
    """One star that can't be seen and was not taken in can't have been the wrong one."""
    assert cause(diagnosis(told("Altair", not_visible=True)), "wrong_star").probability == 0.0


def test_the_likely_double_comes_first() -> None:
    """When the direction fits two stars, the bright one of the same constellation is the more likely: Castor for Pollux."""
    time = datetime(2026, 1, 21, 1, 0, tzinfo=UTC)
    pollux, castor = stands("Pollux", time), stands("Castor", time)
    right = math.remainder(castor[0] - pollux[0], 360.0) * math.cos(math.radians(pollux[1]))
    miss = {"star": "Pollux", "time": time.isoformat(), "right_deg": right, "up_deg": castor[1] - pollux[1]}
    assert (cause(diagnosis(miss), "wrong_star").star, cause(diagnosis(miss), "wrong_star").value) == ("Pollux", "Castor")


# --- the base -----------------------------------------------------------------------------------------------------------


def leaning_stop(star: str, lean_deg: tuple[float, float], centred: str | None = None) -> np.ndarray:
    """Return where a perfect mount on a base that leans north and east stops, by the truth side's matrices.

    After a star was centred the zeros of its own circles, which lean with it, are shifted to what they should have read there.
    """
    tilt = tilted(-lean_deg[0], lean_deg[1])
    zero = np.zeros(2)
    if centred is not None:
        zero = angles(tilt.T @ vector(*stands(centred))) - stands(centred)
    return np.asarray(angles(tilt @ vector(*(stands(star) + zero))))


@pytest.mark.parametrize(("lean", "point"), [((7.0, 0.0), "north"), ((0.0, -7.0), "west"), ((-5.0, 5.0), "south_east")])
def test_two_misses_show_a_base_that_leans(lean: tuple[float, float], point: str) -> None:
    """Seven degrees of lean are named with their size and the compass point, from two stars in different directions."""
    found = diagnosis(*(seen_from(star, leaning_stop(star, lean)) for star in ("Vega", "Arcturus", "Alpheratz")))
    tilt = cause(found, "base_tilt")
    assert found.causes[0].cause == "base_tilt"
    assert tilt.members[0] == point
    assert tilt.value == pytest.approx(7.0, abs=1.0)
    assert f"towards the {point.replace('_', '-')}" in sum_up_cause(tilt)


def test_a_lean_comes_back_far_from_the_star_taken_in() -> None:
    """With the zeros shifted at the first star, the second one, elsewhere, still misses by the lean of the circles: it fits best."""
    lean = (6.0, 4.0)
    misses = [told("Arcturus", centred=True)]
    misses += [seen_from(star, leaning_stop(star, lean, "Arcturus")) for star in ("Alpheratz",)]
    found = diagnosis(*misses, corrections="zeros")
    best = {item.cause: max(h.log_fit for h in found.hypotheses if h.cause == item.cause) for item in found.causes}
    assert best["base_tilt"] > best["none"] + 2.0
    assert cause(found, "base_tilt").probability > 0.15


def test_a_rotation_takes_a_lean_out() -> None:
    """A mount that has solved a rotation from two stars misses nothing because of its base: a third miss speaks against it."""
    lean = (6.0, 4.0)
    misses = [told("Arcturus", centred=True), told("Alpheratz", centred=True)]
    miss = seen_from("Altair", leaning_stop("Altair", lean))
    zeros, rotation = (cause(diagnosis(*misses, miss, corrections=c), "base_tilt").probability for c in ("zeros", "rotation"))
    assert rotation < 0.5 * zeros


def test_the_rotation_of_two_stars_is_the_best_one() -> None:
    """The short way for two stars is the least-squares rotation, also where the two pairs stand unequally far apart."""
    rng = np.random.default_rng(4)
    told = rng.normal(size=(2, 50, 3))
    told /= np.linalg.norm(told, axis=-1, keepdims=True)
    read = np.einsum("nij,knj->kni", tilted(rng.normal(0.0, 40.0, 50), rng.normal(0.0, 40.0, 50)), told) + rng.normal(0.0, 0.05, told.shape)
    read /= np.linalg.norm(read, axis=-1, keepdims=True)
    best = rotation_between(np.swapaxes(told, 0, 1), np.swapaxes(read, 0, 1))
    assert np.allclose(_solved_from_two(told, read), best, atol=1e-9)
    assert np.all(np.isfinite(_solved_from_two(told[[0, 0]], read[[0, 0]])))


def test_the_ordinary_lean_is_none() -> None:
    """A base that is a degree and a quarter out is what every field has."""
    misses = [seen_from(star, leaning_stop(star, (1.0, -0.75))) for star in ("Vega", "Arcturus")]
    assert diagnosis(*misses).causes[0].cause == "none"


# --- answers of a conversation -------------------------------------------------------------------------------------------


def test_answers_multiply_in() -> None:
    """A likelihood of the star, the size or the variety goes into every hypothesis, and the order of two answers doesn't matter."""
    found = diagnosis(seen_from("Altair", beside("Altair", 15.0, -4.0)))
    one = found.weighed(lambda h: 0.9 if h.cause == "hour" and isinstance(h.value, float) and abs(h.value - 1.0) < 0.2 else 0.1)
    both = one.weighed(lambda h: 0.2 if h.member == "clock" else 0.8)
    other = found.weighed(lambda h: 0.2 if h.member == "clock" else 0.8)
    swapped = other.weighed(lambda h: 0.9 if h.cause == "hour" and isinstance(h.value, float) and abs(h.value - 1.0) < 0.2 else 0.1)
    assert cause(one, "hour").probability > cause(found, "hour").probability
    assert cause(both, "hour").probability == pytest.approx(cause(swapped, "hour").probability)
    assert sum(both.probabilities) == pytest.approx(1.0)
    assert sum(item.probability for item in both.causes) == pytest.approx(1.0)


def test_an_answer_that_nothing_allows_changes_nothing() -> None:
    """A likelihood of nought everywhere is no evidence."""
    found = diagnosis(seen_from("Altair", stands("Altair")))
    assert found.weighed(lambda _: 0.0) == found


def test_what_would_decide() -> None:
    """Two causes are told apart by what can be checked of each, said once; a single one needs nothing."""
    found = diagnosis(told("Vega", centred=True), seen_from("Altair", beside("Altair", 8.0, -8.0)))
    tilt, latitude, month, day = (cause(found, name) for name in ("base_tilt", "latitude", "date_month", "date_day"))
    assert what_would_decide([tilt]) is None
    assert what_would_decide([tilt, latitude]) == "What would decide: the bubble of the base; the latitude that the mount shows."
    assert (what_would_decide([month, day, tilt]) or "").count("date") == 1


def test_only_centred_stars_leave_the_habits() -> None:
    """Where no miss was told at all the causes are as likely as they are beforehand, and something is still answered."""
    found = diagnosis(told("Vega", centred=True), told("Altair", centred=True), message="failed")
    assert sum(item.probability for item in found.causes) == pytest.approx(1.0)
    assert found.causes[0].cause == "wrong_star"
