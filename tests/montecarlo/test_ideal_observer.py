"""The truth side itself: its mount, its ideal observer, and how far the diagnosis falls short of that."""

from __future__ import annotations

from datetime import UTC, datetime

import numpy as np
import pytest

from .diagnoses import TELLINGS, confident_and_wrong, confusion, draw_trials, judge, overall, trusted
from .evening import Evening, Telling, document_of, evening_of, run_mount, told_by_astropy, told_by_turning
from .held_out import CASES, HELD_OUT_SEED, TUNED_ON
from .ideal import IdealObserver
from .mistakes import CAUSES, FREQUENCY
from .truth import best, shortest, stars, tilted

VIENNA = (48.2, 16.4)


def vienna(telling: Telling = TELLINGS[3]) -> Evening:
    """Return an evening in October with Vega and Alpheratz."""
    chosen = [stars()[0].index(name) for name in ("Vega", "Alpheratz")][: telling.slews]
    return evening_of(telling, VIENNA, datetime(2026, 10, 14, 20, 30, tzinfo=UTC), chosen, 5.0)


def test_turning_the_sphere_is_what_astropy_does() -> None:
    """Where a mount believes its stars to be, by trigonometry and by astropy for the told place and time, to 0.05 degrees."""
    evening = vienna()
    for cause in ("hour", "date_month", "latitude", "longitude", "site"):
        mistakes = evening.mistakes(cause, np.random.default_rng(3), 3)
        turned, exact = told_by_turning(evening, mistakes), told_by_astropy(evening, mistakes)
        off = (turned - exact + 180.0) % 360.0 - 180.0
        assert np.all(np.abs(off * np.stack([np.cos(np.radians(exact[..., 1])), np.ones(exact.shape[:2])], axis=-1)) < 0.05)


def test_rotations_bring_one_direction_to_the_other() -> None:
    """Two exact pairs give back the rotation between them, and the shortest way brings a vector to its image."""
    rng = np.random.default_rng(1)
    sky = rng.normal(size=(5, 2, 3))
    sky /= np.linalg.norm(sky, axis=-1, keepdims=True)
    rotation = tilted(rng.normal(0.0, 40.0, 5), rng.normal(0.0, 40.0, 5))
    image = np.einsum("nij,nkj->nki", rotation, sky)
    assert np.allclose(best(sky, image), rotation, atol=1e-9)
    assert np.allclose(np.einsum("nij,nj->ni", shortest(sky[:, 0], image[:, 0]), sky[:, 0]), image[:, 0], atol=1e-9)


def test_shifted_zeros_are_exact_at_the_star_taken_in() -> None:
    """A mount with nothing but a leaning base that centred a star and is asked for it again stops on it."""
    names = [stars()[0].index("Vega")] * 2
    evening = evening_of(Telling(2, "measured"), VIENNA, datetime(2026, 10, 14, 20, 30, tzinfo=UTC), names, 5.0)
    mistakes = evening.mistakes("base_tilt", np.random.default_rng(2), 4)
    misses = run_mount(evening, mistakes, told_by_turning(evening, mistakes))
    assert np.all(np.abs(misses.up_deg[:, 0]) + np.abs(misses.right_deg[:, 0]) > 1.0)
    assert np.all(np.hypot(misses.right_deg[:, 1], misses.up_deg[:, 1]) < 0.35)  # what a lean adds while the sky turns for four minutes


def test_a_star_that_was_left_teaches_the_mount_nothing() -> None:
    """A mount without any error that solves rotations finds its third star, too, after the second was left: one star fixes no rotation."""
    names = [stars()[0].index(name) for name in ("Vega", "Alpheratz", "Capella")]
    evening = evening_of(Telling(3, "measured"), VIENNA, datetime(2026, 10, 14, 20, 30, tzinfo=UTC), names, 5.0)
    mistakes = evening.mistakes("none", np.random.default_rng(2), 2)
    mistakes.start_deg[:], mistakes.lean_deg[:], mistakes.rotation[:], mistakes.by_arc = 0.0, 0.0, True, np.array([False, True])
    misses = run_mount(evening, mistakes, told_by_turning(evening, mistakes), {1})
    assert np.all(np.hypot(misses.right_deg, misses.up_deg) < 0.01)


def test_the_ideal_observer_is_as_sure_as_it_is_right() -> None:
    """Its probabilities are those of the evenings it is shown: over all trials it is right as often as it says, within three errors."""
    rng = np.random.default_rng(7)
    said, right = [], []
    for telling in (Telling(1, "eye"), Telling(2, "measured")):
        evening = vienna(telling)
        ideal = IdealObserver(evening, rng, 8_000)
        possible = [cause for cause in CAUSES if cause != "slipped" or telling.slews > 1]
        weights = np.array([FREQUENCY[cause] for cause in possible])
        for cause in rng.choice(possible, 60, p=weights / weights.sum()):
            document = document_of(evening, evening.mistakes(str(cause), rng, 1), rng)
            posterior = ideal.posterior(document)
            first = max(posterior, key=lambda name: posterior[name])
            said.append(posterior[first])
            right.append(first == cause)
    error = np.sqrt(np.mean(np.array(said) * (1.0 - np.array(said))) / len(said))
    assert abs(np.mean(said) - np.mean(right)) < 3.0 * error


def test_what_is_put_aside_is_complete_and_apart() -> None:
    """Every cause has two evenings at least, and the seed is none of those tuned on."""
    assert HELD_OUT_SEED not in TUNED_ON
    assert all(sum(case.cause == cause for case in CASES) >= 2 for cause in CAUSES)


@pytest.mark.slow
def test_a_tenth_of_the_trials() -> None:
    """Beside an ideal observer, on a seed tuned on: the goal of 0.97, less what so few trials may be off; see DEVELOPERS.md."""
    outcomes = [outcome for telling in TELLINGS[3:6] for outcome in judge(draw_trials(telling, 12, TUNED_ON[1]))]
    print(confusion(outcomes))
    ours, ideal = overall(outcomes)
    assert ours / ideal >= 0.93
    assert trusted(outcomes, 0.9)[1] >= 0.88
    assert confident_and_wrong(outcomes) <= 0.03
