"""Why did it fail: the likeliest single mistake behind one miss or several.

Every way to go wrong is put through the model of the mount (``mount_model``) and compared with where the star lay from where the tube
stopped. What every set-up has besides (a start not quite north, not quite level, a base not quite upright) is marginalised: the model
is linear in such small errors, so the predicted misses have a Gaussian spread with it. The posterior follows from Bayes' rule with the
priors of ``miss_causes``.
"""

from __future__ import annotations

from datetime import datetime

import numpy as np

from companion.diagnosis.causes import HABITS, HOUR_MEMBERS, SAME_TURN, Cause
from companion.diagnosis.evidence import Weighed, weigh_guesses
from companion.diagnosis.guesses import DEGREES_PER_HOUR, Mistakable, all_guesses
from companion.diagnosis.mount_model import SMALL
from companion.diagnosis.request import CauseFound, DiagnoseRequest, Diagnosis
from companion.places.declination import declination
from companion.sky.airless_directions import mistakable, standing, standing_together
from companion.sky.attitude import Floats
from companion.sky.positions import sights
from companion.sky.types import Moment

_LIKELY = 0.03  # below this a cause is no rival worth naming
_AS_WELL = 1.0  # difference of log likelihood that decides nothing
_POSSIBLE = 0.01  # members less likely than this are left out

# Which small errors refine the value of which cause, told minus true, and how.
_REFINED = {
    ("start_azimuth", ""): ("start_azimuth", -1.0),
    ("start_altitude", ""): ("start_altitude", -1.0),
    ("hour", "clock"): ("clock", 1.0 / DEGREES_PER_HOUR),
    ("latitude", "value"): ("latitude", 1.0),
    ("longitude", "value"): ("clock", 1.0),
}


def diagnose(request: DiagnoseRequest) -> Diagnosis:
    """Return how likely each cause is. Deterministic; a few tenths of a second."""
    moment = Moment(request.site, request.time)
    east = request.declination_deg
    if east is None:
        east = declination(moment).declination_deg
    sky = standing(request.site, [miss.body for miss in request.misses], [miss.time for miss in request.misses])
    others = _others(request)
    names = tuple(miss.body.name for miss in request.misses)
    synced = tuple(miss.synced for miss in request.misses)
    guesses = all_guesses(moment, east, stars=names, sky=sky, synced=synced, others=others)
    return Diagnosis(_causes_found(weigh_guesses(request, east, guesses, sky, others)))


def _others(request: DiagnoseRequest) -> Mistakable:
    """Return what may have been taken for the stars, where it stood at each miss."""
    bodies = mistakable()
    times: dict[datetime, Floats] = {}
    for miss in request.misses:
        if miss.time not in times:
            times[miss.time] = standing_together(request.site, bodies, miss.time)
    magnitudes = [sight.magnitude for sight in sights(bodies, Moment(request.site, request.misses[0].time), refraction=False)]
    return Mistakable(
        tuple(body.name for body in bodies),
        np.array([3.0 if magnitude is None else magnitude for magnitude in magnitudes]),
        np.stack([times[miss.time] for miss in request.misses]),
    )


def _causes_found(weighed: Weighed) -> tuple[CauseFound, ...]:
    """Return the posterior by cause, likeliest first."""
    posterior = np.exp(weighed.log_posterior - np.max(weighed.log_posterior))
    posterior /= np.sum(posterior)
    rows: dict[Cause, list[int]] = {cause: [] for cause in HABITS}
    for i, guess in enumerate(weighed.guesses):
        rows[guess.cause].append(i)
    probability = {cause: float(np.sum(posterior[members])) for cause, members in rows.items()}
    best = {cause: max(members, key=lambda i: float(weighed.log_posterior[i]), default=-1) for cause, members in rows.items()}
    fit = {cause: float(weighed.log_fit[i]) if i >= 0 else -np.inf for cause, i in best.items()}
    likely = [cause for cause in sorted(rows, key=lambda cause: -probability[cause]) if probability[cause] >= _LIKELY]
    found = []
    for cause in sorted(rows, key=lambda cause: -probability[cause]):
        members = _members(cause, rows[cause], weighed, posterior)
        values = [_value(rows[cause], weighed, posterior, member) for member, _ in members]
        value, named = values[0] if values else _value(rows[cause], weighed, posterior, "")
        rivals = [rival for rival in likely if rival != cause]
        found.append(
            CauseFound(
                cause=cause,
                probability=probability[cause],
                value=value,
                members=tuple(member for member, _ in members),
                member_probabilities=tuple(share for _, share in members),
                member_values=tuple(value for value, _ in values),
                fits_as_well=tuple(rival for rival in rivals if abs(fit[rival] - fit[cause]) < _AS_WELL),
                same_turn=tuple(rival for rival in rivals if any({rival, cause} <= turn for turn in SAME_TURN)),
                star_named=named,
            )
        )
    return tuple(found)


def _members(cause: Cause, rows: list[int], weighed: Weighed, posterior: Floats) -> list[tuple[str, float]]:
    """Return the possible varieties of a cause with their shares, likeliest first."""
    shares: dict[str, float] = dict.fromkeys(HOUR_MEMBERS, 0.0) if cause == "hour" else {}
    for i in rows:
        member = weighed.guesses[i].member
        if member:
            shares[member] = shares.get(member, 0.0) + float(posterior[i])
    total = sum(shares.values())
    if total <= 0.0:
        return [(member, 1.0 / len(shares)) for member in shares]
    kept = {member: share for member, share in shares.items() if share >= _POSSIBLE * total}
    return [(member, share / sum(kept.values())) for member, share in sorted(kept.items(), key=lambda item: -item[1])]


def _value(rows: list[int], weighed: Weighed, posterior: Floats, member: str) -> tuple[float | str | None, str | None]:
    """Return the likeliest value of a cause's likeliest variety, and for a wrong star the one that was meant."""
    inside = [i for i in rows if weighed.guesses[i].member == member]
    if not inside:
        return None, None
    shares: dict[float | str | None, float] = {}
    for i in inside:
        shares[weighed.guesses[i].value] = shares.get(weighed.guesses[i].value, 0.0) + float(posterior[i])
    best = max(shares, key=lambda value: shares[value])
    i = max((i for i in inside if weighed.guesses[i].value == best), key=lambda i: float(weighed.log_posterior[i]))
    guess = weighed.guesses[i]
    named = guess.swap[0] if guess.swap else None
    if isinstance(best, float) and (guess.cause, member) in _REFINED:
        small, factor = _REFINED[guess.cause, member]
        return best + factor * float(weighed.small_deg[i, SMALL.index(small)]), named
    return best + 0.0 if isinstance(best, float) else best, named  # no minus nought
