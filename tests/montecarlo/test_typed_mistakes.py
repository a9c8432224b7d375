"""Six mistakes as an observer would live them, typed: each ends in its cure."""

from __future__ import annotations

from typing import Any

import pytest

from .truth import stars
from .typed import DECLINATION_DEG, LONGITUDE_DEG, Observer, evening_typed, no_mistake


def mistake(cause: str, **wrong: Any) -> Any:
    """Return a mount with that mistake and no other error."""
    mistakes = no_mistake()
    mistakes.cause = cause
    for name, value in wrong.items():
        getattr(mistakes, name)[0] = value
    return mistakes


def slipped(after: int, azimuth_deg: float, altitude_deg: float) -> Any:
    """Return one that was kicked before a slew, so that its axes slipped."""
    mistakes = mistake("slipped")
    mistakes.slip_deg[0, after:] = azimuth_deg, altitude_deg
    return mistakes


MISTAKES = {
    "wrong hour": (mistake("hour", hours=1.0, members="daylight_saving"), "daylight_saving"),
    "wrong star first": (mistake("wrong_star", wrong=0, instead=stars()[0].index("Vega"), told_of_it=False), "star"),
    "compass corrected the wrong way": (
        mistake("magnetic_declination", start_deg=(2.0 * DECLINATION_DEG, 0.0), members="wrong_sign"),
        "north",
    ),
    "tube not level": (mistake("start_altitude", start_deg=(0.0, 20.0)), "tube_level"),
    "kicked": (slipped(1, 14.0, 7.0), "clamps"),
    "longitude side": (mistake("longitude", longitude_deg=-LONGITUDE_DEG, members="sign"), "longitude"),
}


@pytest.mark.slow
@pytest.mark.parametrize("name", MISTAKES)
def test_an_honest_observer_is_led_to_the_cure(name: str) -> None:
    """All answers are true: what is to be done mends it at the first or second go, four questions each at most."""
    mistakes, cure = MISTAKES[name]
    observer = Observer(mistakes, knocked=name == "kicked")
    lines = evening_typed(observer)
    print(*lines[-30:], sep="\n")
    assert any(cure in cures for cures in observer.cures[:2]), observer.cures
    assert observer.questions <= 4 * len(observer.cures)
    assert "Did the mount accept the alignment" in lines[-1]


@pytest.mark.slow
def test_a_compass_not_corrected_is_steered_away() -> None:
    """Sixteen degrees aside, and north found off: a turn about the vertical is taken in with the first star, so nothing begins again."""
    observer = Observer(mistake("magnetic_declination", start_deg=(DECLINATION_DEG, 0.0), members="not_applied"))
    lines = evening_typed(observer)
    print(*lines[-20:], sep="\n")
    assert not observer.cures
    assert any("North was a little off." in line for line in lines)
    assert not any("nothing wrong" in line for line in lines)
    assert "Did the mount accept the alignment" in lines[-1]
