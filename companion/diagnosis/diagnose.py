"""Why did it fail: the likeliest single mistake behind one miss or several.

Every way to go wrong is put through the model of the mount (``mount_model``) and compared with where the star lay from where the tube
stopped. What every set-up has besides (a start not quite north, not quite level, a base not quite upright) is marginalised: the model
is linear in such small errors, so the predicted misses have a Gaussian spread with it. The posterior follows from Bayes' rule with the
priors of ``causes``.
"""

from __future__ import annotations

from datetime import UTC, datetime
from functools import lru_cache

import numpy as np

from companion.diagnosis.evidence import weigh_guesses
from companion.diagnosis.findings import Diagnosis, Hypothesis
from companion.diagnosis.guesses import DEGREES_PER_HOUR, Guess, Mistakable, all_guesses
from companion.diagnosis.mount_model import SMALL
from companion.diagnosis.request import DiagnoseRequest
from companion.places.declination import declination
from companion.sky.airless_directions import mistakable, standing, standing_together
from companion.sky.attitude import Floats
from companion.sky.positions import sights
from companion.sky.types import Moment, Sight, Site

_AS_A_STAR_MAG = 1.0
"""A planet is taken for a star no oftener than a star this bright: the steady light of the brightest gives them away; judgement."""

# Which small errors refine the value of which cause, told minus true, and how.
_REFINED = {
    ("start_azimuth", ""): ("start_azimuth", -1.0),
    ("start_altitude", ""): ("start_altitude", -1.0),
    ("hour", "clock"): ("clock", 1.0 / DEGREES_PER_HOUR),
    ("latitude", "value"): ("latitude", 1.0),
    ("longitude", "value"): ("clock", 1.0),
}


def diagnose(request: DiagnoseRequest) -> Diagnosis:
    """Return how likely each mistake is. Deterministic; about a tenth of a second."""
    east = request.declination_deg
    if east is None:
        east = declination(Moment(request.site, request.time)).declination_deg
    sky = standing(request.site, [miss.body for miss in request.misses], [miss.time for miss in request.misses])
    others = _others(request)
    weighed = weigh_guesses(request, east, all_guesses(request, east, sky, others), sky, others)
    posterior = np.exp(weighed.log_posterior - np.max(weighed.log_posterior))
    posterior /= np.sum(posterior)
    first = request.misses[0].body.name
    far = (first if was_far else None for was_far in weighed.first_was_far)
    seen = zip(weighed.believes_down.tolist(), weighed.believes_elsewhere.tolist(), far, strict=True)
    rows = zip(weighed.guesses, weighed.log_fit, weighed.small_deg, seen, strict=True)
    hypotheses = tuple(_hypothesis(guess, float(fit), small, flags) for guess, fit, small, flags in rows)
    return Diagnosis(hypotheses, tuple(posterior.tolist()))


def _others(request: DiagnoseRequest) -> Mistakable:
    """Return what may have been taken for the stars, where it stood at each miss."""
    bodies = mistakable()
    # Stars keep brightness and constellation; planets don't.
    wandering = sights(bodies[len(_fixed()) :], Moment(request.site, request.misses[0].time), refraction=False)
    seen = (*_fixed(), *wandering)
    magnitudes = [3.0 if sight.magnitude is None else sight.magnitude for sight in seen]
    magnitudes[len(_fixed()) :] = [max(_AS_A_STAR_MAG, magnitude) for magnitude in magnitudes[len(_fixed()) :]]
    return Mistakable(
        tuple(body.name for body in bodies),
        np.array(magnitudes),
        tuple(sight.constellation for sight in seen),
        np.stack([_all_standing(request.site, miss.time) for miss in request.misses]),
    )


@lru_cache(maxsize=8)
def _all_standing(site: Site, time: datetime) -> Floats:
    """Return where all that is mistakable stood, shape (m, 3). Kept, since each further star is weighed together with those before."""
    directions = standing_together(site, mistakable(), time)
    directions.flags.writeable = False
    return directions


@lru_cache(maxsize=1)
def _fixed() -> tuple[Sight, ...]:
    """Return the stars among what is mistakable as they stand somewhere at some time, for what doesn't change."""
    stars = [body for body in mistakable() if body.place is not None]
    return tuple(sights(stars, Moment(Site(0.0, 0.0), datetime(2000, 1, 1, tzinfo=UTC)), refraction=False))


def _hypothesis(guess: Guess, log_fit: float, small_deg: Floats, seen: tuple[bool, bool, str | None]) -> Hypothesis:
    """Return a guess as a hypothesis, its value refined by the likeliest small errors, shape (8,); ``seen``: its last three fields."""
    value = guess.value
    if isinstance(value, float):
        if guess.cause == "base_tilt":
            north, east = (x + small_deg[SMALL.index(name)] for x, name in zip(guess.lean_deg, ("tilt_north", "tilt_east"), strict=True))
            value = float(np.hypot(north, east))
        elif (guess.cause, guess.member) in _REFINED:
            small, factor = _REFINED[guess.cause, guess.member]
            value += factor * float(small_deg[SMALL.index(small)])
        value += 0.0  # no minus nought
    confused = guess.swap[0] if guess.swap else None
    return Hypothesis(guess.cause, guess.member, value, guess.value, confused, log_fit, *seen)
