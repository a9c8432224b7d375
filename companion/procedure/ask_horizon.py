"""Ask what hides the sky near the horizon: trees, houses, hills."""

from __future__ import annotations

from collections.abc import Generator
from typing import Any

from companion.equipment import FIST_DEG
from companion.messages import Answer, Ask, Note, Say
from companion.procedure.spoken_figures import fists_of

_MOST_PARTS = 12
_HALF_A_POINT_DEG = 22.5  # what one of eight compass points covers to either side


def ask_horizon(fist_deg: float = FIST_DEG) -> Generator[Say | Ask | Note, Answer, list[dict[str, Any]] | None]:
    """Ask for what stands in the way, part by part; return the tables of ``horizon``, [] for an open one, None where it was skipped.

    Heights are told in fists of ``fist_deg`` degrees.
    """
    parts: list[dict[str, Any]] = []
    while len(parts) < _MOST_PARTS:
        answer = yield Ask("anything-else-in-the-way" if parts else "what-is-in-the-way", expects="horizon")
        part = _part(answer, fist_deg)
        if part is None:
            return parts if parts or answer.command == "done" else None
        confirmed = yield Ask("in-the-way-heard", expects="yes_no", facts={**part, "fists": fists_of(answer.slots)})
        if confirmed.command == "yes":
            parts.append(part)
    return parts


def _part(answer: Answer, fist_deg: float) -> dict[str, Any] | None:
    """Return the obstruction an answer tells of, None where it tells of none."""
    fists = fists_of(answer.slots)
    if fists is None or "side" not in answer.slots:
        return None
    sides = [float(side) for side in answer.slots["side"].split()]
    from_deg, to_deg = sides[0], sides[-1]
    if from_deg == to_deg:
        from_deg, to_deg = (from_deg - _HALF_A_POINT_DEG) % 360, (to_deg + _HALF_A_POINT_DEG) % 360
    elif (to_deg - from_deg) % 360 > 180:
        # People name the ends in any order; the shorter way round is meant.
        from_deg, to_deg = to_deg, from_deg
    return {
        "from_azimuth_deg": from_deg,
        "to_azimuth_deg": to_deg,
        "altitude_deg": min(90.0, fists * fist_deg),
        "what": answer.slots.get("what", "trees"),
    }
