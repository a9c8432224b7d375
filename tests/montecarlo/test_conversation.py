"""Whole conversations with people who err, and the people themselves."""

from __future__ import annotations

from datetime import UTC, datetime

import numpy as np
import pytest

from .conversation import SURE, TELLINGS, by_cause, draw_talks, reliability, summary
from .evening import Telling, evening_of
from .held_out import HELD_OUT_SEED, HELD_OUT_TALKS_SEED, TUNED_ON
from .mistakes import Mistakes
from .people import Person
from .truth import stars

VIENNA = (48.2, 16.4)


def person(cause: str, **wrong: object) -> Person:
    """Return somebody in Vienna on an October evening with one mistake, who never errs."""
    chosen = [stars()[0].index(name) for name in ("Vega", "Alpheratz")]
    evening = evening_of(Telling(2, "eye"), VIENNA, datetime(2026, 10, 14, 20, 30, tzinfo=UTC), chosen, 5.0)
    mistakes: Mistakes = evening.mistakes("none", np.random.default_rng(3), 1)
    mistakes.cause, mistakes.start_deg[:], mistakes.lean_deg[:] = cause, 0.0, 0.0
    for name, value in wrong.items():
        getattr(mistakes, name)[0] = value
    return Person(evening, mistakes, answers_wrongly=0.0, cant_tell=0.0)


@pytest.mark.parametrize(
    ("wrong", "about", "answer"),
    [
        (person("reversed", start_deg=(180.0, 0.0)), "facing", "south"),
        (person("start_azimuth", start_deg=(-80.0, 0.0)), "facing", "west"),
        (person("base_tilt", lean_deg=(0.0, 7.0)), "bubble", "no"),
        (person("none"), "bubble", "yes"),
        (person("hour", members="daylight_saving", hours=1.0), "daylight_saving", "no"),
        (person("hour", members="daylight_saving", hours=1.0), "time", "yes"),
        (person("longitude", longitude_deg=-16.4), "longitude_side", "no"),
        (person("longitude", longitude_deg=30.0), "longitude_side", "yes"),
        (person("hour", members="am_pm", hours=12.0), "below_horizon", "yes"),
        (person("none"), "below_horizon", "no"),
        (person("site", latitude_deg=-48.2, longitude_deg=-163.6), "below_horizon", "yes"),
    ],
)
def test_people_know_what_they_see(wrong: Person, about: str, answer: str) -> None:
    """Who never errs answers as it is. By hand: Alpheratz, half-way up in Vienna's east, is down twelve hours on, and at the antipodes."""
    assert wrong.answer(about, None, None, 1, np.random.default_rng(1)) == answer


def test_people_err_as_often_as_they_are_said_to() -> None:
    """One time in ten wrongly, one time in ten not at all, within three standard errors."""
    somebody, rng = person("none"), np.random.default_rng(5)
    erring = Person(somebody.evening, somebody.mistakes)
    answers = [erring.answer("bubble", None, None, 0, rng) for _ in range(1000)]
    assert all(abs(answers.count(answer) - 100) < 3.0 * np.sqrt(90.0) for answer in ("no", "cant_tell"))


def test_what_is_put_aside_for_conversations_is_apart() -> None:
    """The seed is none of those tuned on, nor the geometry's."""
    assert HELD_OUT_TALKS_SEED not in (*TUNED_ON, HELD_OUT_SEED)


@pytest.mark.slow
def test_a_few_conversations() -> None:
    """On a seed tuned on, 19 of 20 first cures were right, and the other was called sure: one or two worse may pass, none called sure."""
    talks = [talk for telling in TELLINGS for talk in draw_talks(telling, 10, TUNED_ON[1])]
    print(summary(talks), reliability(talks), by_cause(talks), sep="\n\n")
    assert max(talk.questions for talk in talks) <= 4
    assert np.mean([talk.right for talk in talks]) >= 0.85
    assert np.mean([talk.second_right for talk in talks]) >= 0.9
    assert np.mean([talk.said >= SURE and not talk.right for talk in talks]) <= 0.05
