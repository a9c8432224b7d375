"""How well each guess explains what was seen: the likelihood of the misses, small errors marginalised, and of what has no degrees."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta

import numpy as np
from numpy.typing import NDArray

from companion.diagnosis.causes import HABITS
from companion.diagnosis.guesses import DEGREES_PER_DAY, Guess, Mistakable
from companion.diagnosis.mount_model import SMALL, Scheme, Setups, Slews, slew
from companion.diagnosis.request import DiagnoseRequest
from companion.diagnosis.telling import Told, told_in
from companion.sky.airless_directions import standing
from companion.sky.attitude import (
    Floats,
    azimuth_altitude,
    direction,
    horizon_to_hour_angle,
    hour_angle_to_horizon,
    separation_deg,
    wrapped,
)

# Standard deviations of what every start has, with weights. North by the pole star or a landmark, else by a compass; by common
# practice, no published source. A start nobody vouches for is wider.
_AZIMUTH_SIGMAS = {
    "true_north": ((2.0, 0.5), (6.0, 0.5)),
    "magnetic_north": ((6.0, 1.0),),
    "unknown": ((6.0, 0.6), (15.0, 0.4)),
}
_ALTITUDE_SIGMA = {"level": 1.5, "unknown": 4.0}
_TILT_SIGMA = 1.0
_UNNOTICED_DEG = 2.5  # a declination of this size is as often lost among the everyday errors as complained of
_OWN_SIGMA = 0.3  # our clock to a minute, our place to a quarter of a degree: both are among the suspects, a little
_READINGS = ((1.0, 0.9), (2.0, 0.1))  # some readings are worse than their sigma says: times as wide, with what weight

_SCHEMES: dict[str, tuple[tuple[Scheme, float], ...]] = {
    "zeros": (("zeros", 1.0),),
    # One star doesn't fix a rotation: mounts shift their zeros then, or turn by the shortest way.
    "rotation": (("rotation", 0.7), ("arc", 0.3)),
    "none": (("none", 1.0),),
    "unknown": (("zeros", 0.5), ("rotation", 0.3), ("arc", 0.2)),
}

_REFUSED = 0.5  # many a mount doesn't slew to what it believes to be down, but some sums are simple
_ELSEWHERE_DEG = 5.0  # what the mount shows of a star is compared by the whole fist
_FAR_DEG = 10.0  # a fist
_REFUSED_UNSEEN = 0.02  # and where the star is not seen it was the mount's belief alone that sent the tube there


@dataclass(frozen=True)
class Weighed:
    """Every guess with what the evidence makes of it; N guesses."""

    guesses: Sequence[Guess]
    log_fit: Floats
    """Shape (N,): log likelihood of the evidence with degrees."""
    log_posterior: Floats
    """Shape (N,): with priors and evidence without degrees; not normalised."""
    small_deg: Floats
    """Shape (N, 8): the likeliest small errors under each guess."""
    believes_down: NDArray[np.bool_]
    """Shape (N,): whether the mount takes the last star to be below the horizon."""
    believes_elsewhere: NDArray[np.bool_]
    """Shape (N,): whether it takes the last star to be farther from where it is than anybody overlooks."""
    first_was_far: NDArray[np.bool_]
    """Shape (N,): whether the first star lay farther than a fist from where the telescope stopped; nowhere where that was told."""


def weigh_guesses(
    request: DiagnoseRequest, declination_deg: float | None, guesses: Sequence[Guess], sky: Floats, others: Mistakable
) -> Weighed:
    """Return the guesses weighed against the misses; ``sky``, shape (n, 3), holds where the offered stars truly were."""
    setups = _setups(request, guesses, sky, others)
    spreads = _spreads(guesses, request)
    parts = list(_fits(request, setups, spreads, sky))
    fits = np.array([fit for fit, _ in parts])
    best = np.argmax(fits, axis=0)
    log_fit = np.logaddexp.reduce(fits, axis=0)
    small = np.array([small for _, small in parts])[best, np.arange(len(guesses))]
    log_weight = np.log(np.maximum([guess.weight for guess in guesses], 1e-300))
    habit = {cause: np.log(max(_prior(request, cause, declination_deg), 1e-300)) for cause in HABITS}
    log_prior = np.array([habit[guess.cause] for guess in guesses]) + log_weight
    hour_angle = setups.hour_angle_deg[:, -1] + setups.clock_deg
    told_azimuth, told_altitude = hour_angle_to_horizon(hour_angle, setups.declination_deg[:, -1], setups.latitude_deg)
    away = separation_deg(direction(told_azimuth, told_altitude), sky[-1])
    return Weighed(
        guesses, log_fit, log_fit + log_prior, small, told_altitude < 0.0, away > _ELSEWHERE_DEG, _first_was_far(request, setups)
    )


def _first_was_far(request: DiagnoseRequest, setups: Setups) -> NDArray[np.bool_]:
    """Return whether a first star that was steered to freely lay far off, shape (N,); of one whose miss was told nobody is asked."""
    if not request.misses[0].centred:
        return np.zeros(len(setups.clock_deg), dtype=np.bool_)
    slews = slew(setups, request.taken_in, ("none",))[0]
    return np.asarray(np.hypot(slews.right_deg[:, 0], slews.up_deg[:, 0]) > _FAR_DEG)


def _schemes(request: DiagnoseRequest) -> tuple[tuple[Scheme, float], ...]:
    """Return the ways the mount may take in a star, with weights, each told from the others by what was seen so far."""
    stars = sum(request.taken_in)
    if stars == 0:
        return _SCHEMES["none"]
    weights: dict[Scheme, float] = {}
    for scheme, weight in _SCHEMES[request.corrections]:
        same = "zeros" if scheme == "rotation" and stars == 1 else scheme  # one star fixes no rotation
        weights[same] = weights.get(same, 0.0) + weight
    return tuple(weights.items())


def _prior(request: DiagnoseRequest, cause: str, declination_deg: float | None) -> float:
    """Return the weight of a cause before the misses: habit, how the start is vouched for, and what the mount said."""
    habit = HABITS[cause]  # type: ignore[index]
    prior = habit.prior
    if cause == "start_azimuth" and request.faces == "unknown":
        prior *= 2.0
    if cause == "magnetic_declination" and request.faces == "magnetic_north":
        prior *= 3.0
    if cause == "magnetic_declination" and declination_deg is not None:
        prior *= declination_deg**2 / (declination_deg**2 + _UNNOTICED_DEG**2)
    if cause == "start_altitude" and request.tube == "unknown":
        prior *= 2.0
    fails = {"rotation": habit.fails_rotation, "zeros": habit.fails_zeros}.get(
        request.corrections, 0.5 * (habit.fails_rotation + habit.fails_zeros)
    )
    return prior * {"failed": fails, "success": 1.0 - fails, "none": 1.0}[request.message]


def _setups(request: DiagnoseRequest, guesses: Sequence[Guess], sky: Floats, others: Mistakable) -> Setups:
    """Return the guesses as set-ups of the mount."""
    site, count = request.site, len(request.misses)
    hour_angle, body_declination = horizon_to_hour_angle(*azimuth_altitude(sky), site.latitude_deg)
    hour_angles, declinations = (np.tile(x, (len(guesses), 1)) for x in (hour_angle, body_declination))
    days = np.array([guess.days for guess in guesses])
    for k, miss in enumerate(request.misses):
        if miss.body.place is None:  # it moves among the stars: the mount looks where it is on the date it was told
            hour_angles[:, k], declinations[:, k] = _elsewhere(request, k, days)
    centred = np.broadcast_to(sky, (len(guesses), count, 3)).copy()
    seen = centred.copy()
    slip = np.zeros((len(guesses), count, 2))
    for i, guess in enumerate(guesses):
        if guess.swap is not None:
            star, other, given_for_it = guess.swap
            for k, miss in enumerate(request.misses):
                if miss.body.name == star:
                    centred[i, k] = others.directions[k, other]
                    if given_for_it:
                        seen[i, k] = centred[i, k]
        if guess.slip is not None:
            slip[i, guess.slip[0] :] = guess.slip[1:]
    return Setups(
        start_deg=np.array([guess.start_deg for guess in guesses]),
        clock_deg=np.array([guess.clock_deg for guess in guesses]),
        latitude_deg=site.latitude_deg + np.array([guess.latitude_deg for guess in guesses]),
        hour_angle_deg=hour_angles,
        declination_deg=declinations,
        centred=centred,
        seen=seen,
        lean_deg=np.array([guess.lean_deg for guess in guesses]),
        slip_deg=slip,
    )


def _elsewhere(request: DiagnoseRequest, k: int, days: Floats) -> tuple[Floats, Floats]:
    """Return hour angle (at the true time) and declination of a moving body as it is ``days`` away from the true time."""
    distinct, which = np.unique(days, return_inverse=True)
    miss = request.misses[k]
    times = [miss.time + timedelta(days=float(day)) for day in distinct]
    there = standing(request.site, [miss.body] * len(times), times)
    hour_angle, body_declination = horizon_to_hour_angle(*azimuth_altitude(there), request.site.latitude_deg)
    return wrapped(hour_angle - distinct * DEGREES_PER_DAY)[which], body_declination[which]


def _spreads(guesses: Sequence[Guess], request: DiagnoseRequest) -> list[tuple[Floats, float]]:
    """Return variances of the small errors, shape (N, 8), one for each way north may have been found, with its log weight."""
    slack = np.zeros((len(guesses), len(SMALL)))
    for i, guess in enumerate(guesses):
        for name, width in guess.slack_deg:
            slack[i, SMALL.index(name)] = width**2
    spreads = []
    for sigma, weight in _AZIMUTH_SIGMAS[request.faces]:
        own = np.array([sigma, _ALTITUDE_SIGMA[request.tube], _TILT_SIGMA, _TILT_SIGMA, _OWN_SIGMA, _OWN_SIGMA, 0.0, 0.0])
        spreads.append((slack + own**2, float(np.log(weight))))
    return spreads


def _fits(request: DiagnoseRequest, setups: Setups, spreads: list[tuple[Floats, float]], sky: Floats) -> Iterator[tuple[Floats, Floats]]:
    """Yield log likelihood, shape (N,), and likeliest small errors, shape (N, 8), for each scheme, spread of the start and reading."""
    schemes, weights = zip(*_schemes(request), strict=True)
    told = told_in(request)
    at = slew(setups, request.taken_in, schemes)
    lefts = [told.left(slews) for slews in at]
    for slews, left, slopes, weight in zip(at, lefts, _slopes(request, setups, schemes, told, lefts), weights, strict=True):
        known = float(np.log(weight)) + _without_degrees(request, slews, sky)
        for fit, small in _spread_out(told, spreads, left, slopes):
            yield known + fit, small


def _slopes(request: DiagnoseRequest, setups: Setups, schemes: Sequence[Scheme], told: Told, lefts: Sequence[Floats]) -> list[Floats]:
    """Return for each scheme how fast what is left, shape (N, m), changes with the small errors, shape (N, m, 8)."""
    step = 0.5  # degrees: small against the errors, large against rounding
    slopes = [np.zeros((*left.shape, len(SMALL))) for left in lefts]
    slipped = np.any(setups.slip_deg != 0.0, axis=(1, 2))
    everywhere, where_slipped = setups, setups.only(slipped)
    for i, (name, unit) in enumerate(zip(SMALL, np.eye(len(SMALL)), strict=True)):
        if name.startswith("slip"):  # nothing else moves with a slip
            rows, some = slipped, where_slipped
        else:
            rows, some = np.ones_like(slipped), everywhere
        if np.any(rows):
            near = slew(some, request.taken_in, schemes, step * unit)
            for slope, slews, left in zip(slopes, near, lefts, strict=True):
                slope[rows, :, i] = (left[rows] - told.left_near(slews, left[rows])) / step
    return slopes


def _spread_out(told: Told, spreads: list[tuple[Floats, float]], left: Floats, slopes: Floats) -> Iterator[tuple[Floats, Floats]]:
    """Yield log likelihood and likeliest small errors for each spread of the start and of the reading."""
    for spread, log_weight in spreads:
        moved = slopes * spread[:, np.newaxis, :]
        covariance = moved @ np.swapaxes(slopes, 1, 2)
        # How well a miss is read by eye depends on how large it was, not on how large it was called.
        first = np.broadcast_to(told.sigma_deg, left.shape)
        sigma = told.sigma_of(told.deg - first**2 * _solved(covariance, first, left))
        for times, weight in _READINGS:
            solved = _solved(covariance, times * sigma, left)
            square = np.sum(left * solved, axis=1)
            size = np.linalg.slogdet(_with_reading(covariance, times * sigma))[1]
            yield -0.5 * (square + size) + log_weight + np.log(weight), np.einsum("nij,ni->nj", moved, solved)


def _with_reading(covariance: Floats, sigma_deg: Floats) -> Floats:
    """Return covariances, shape (N, m, m), with errors of reading, shape (N, m)."""
    return covariance + sigma_deg[:, :, np.newaxis] ** 2 * np.eye(covariance.shape[-1])


def _solved(covariance: Floats, sigma_deg: Floats, left: Floats) -> Floats:
    """Return what is left, shape (N, m), divided by its covariance."""
    return np.asarray(np.linalg.solve(_with_reading(covariance, sigma_deg), left[..., np.newaxis])[..., 0])


def _without_degrees(request: DiagnoseRequest, slews: Slews, sky: Floats) -> Floats:
    """Return the log likelihood, shape (N,), of the mount slewing at all, and of stars not being seen."""
    total = np.zeros(len(slews.right_deg))
    for k, miss in enumerate(request.misses):
        unseen = miss.is_unseen
        if miss.centred:
            continue
        refused = slews.told_altitude_deg[:, k] < -1.0
        total += np.where(refused, np.log(_REFUSED_UNSEEN if unseen else _REFUSED), 0.0)
        if unseen and sky[k, 2] > 0.0:  # it was up, so it was not seen for being far away, or behind a cloud or a tree
            away = np.hypot(slews.right_deg[:, k], slews.up_deg[:, k])
            total += np.log(0.1 + 0.8 / (1.0 + np.exp(-(away - 25.0) / 8.0)))
    return total
