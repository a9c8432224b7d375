"""Where a star lay when the mount stopped: what the observer answers, as degrees."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any, Literal, TypeAlias

from companion import diagnosis, sky
from companion.equipment import FIST_DEG
from companion.messages import Answer

# By eye along the tube, in fists and fingers: 2 degrees and a fifth of the miss. Common practice, no published source.
_BY_EYE_DEG, _BY_EYE_SHARE = 2.0, 0.2
_JUST_OUTSIDE_DEG = 4.0  # a finder shows five to eight degrees across

Message: TypeAlias = Literal["failed", "success", "none"]
"""What the mount said of the alignment."""


@dataclass(frozen=True)
class SpokenMiss:
    """One answer, as plain values that a journal can hold."""

    star: str
    time: str
    """ISO 8601."""
    right_deg: float | None
    """None where the star could not be seen at all."""
    up_deg: float | None
    synced: bool
    """Whether the mount had taken in a star before."""
    sigma_deg: float

    @property
    def is_large(self) -> bool:
        """Whether it is more than a sloppy start explains: beyond half a fist."""
        return self.right_deg is None or self.up_deg is None or max(abs(self.right_deg), abs(self.up_deg)) > 5.0

    def as_facts(self) -> Mapping[str, Any]:
        """Return the facts of a note."""
        return asdict(self)


def spoken_miss(star: str, answer: Answer, before: Sequence[SpokenMiss], *, synced: bool, fist_deg: float = FIST_DEG) -> SpokenMiss | None:
    """Return the miss an answer means; None where it says no direction ("just outside the finder" is an ordinary miss)."""
    right_deg: float | None
    up_deg: float | None
    match answer.command:
        case "miss":
            right_deg = _signed(answer.slots.get("across"), "right") * fist_deg / FIST_DEG
            up_deg = _signed(answer.slots.get("upright"), "up") * fist_deg / FIST_DEG
        case "same" if before:
            right_deg, up_deg = before[-1].right_deg, before[-1].up_deg
        case "behind":
            right_deg, up_deg = 180.0, 0.0
        case "nowhere":
            right_deg = up_deg = None
        case _:
            return None
    size_deg = max(abs(right_deg or 0.0), abs(up_deg or 0.0))
    # "Behind me" is a rough half turn: anything beyond a quarter fits it.
    sigma_deg = 40.0 if answer.command == "behind" else _BY_EYE_DEG + _BY_EYE_SHARE * size_deg
    return SpokenMiss(star, answer.time.isoformat(), right_deg, up_deg, synced, sigma_deg)


def as_request(site: sky.Site, started: datetime, misses: Sequence[SpokenMiss], message: Message) -> diagnosis.DiagnoseRequest:
    """Return what the sky's diagnosis works on."""
    return diagnosis.DiagnoseRequest(
        site=site,
        time=started,
        misses=tuple(
            diagnosis.Miss(sky.find(miss.star), datetime.fromisoformat(miss.time), miss.right_deg, miss.up_deg, miss.synced, miss.sigma_deg)
            for miss in misses
        ),
        message=message,
    )


def _signed(said: str | None, positive: str) -> float:
    """Return "8 right" as 8, "8 left" as -8, nothing as 0."""
    if said is None:
        return 0.0
    amount, side = said.split()
    return float(amount) if side == positive else -float(amount)
