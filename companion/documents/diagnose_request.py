"""What ``diagnose`` is asked, in JSON: the site, how the mount was started, and where each star lay from where the telescope stopped."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Annotated

from companion.diagnosis import DiagnoseRequest, Miss
from companion.diagnosis.request import MOST_MISSES, TURN_SIGMA_DEG, Corrections, Faces, Message, Tube
from companion.documents.bodies import Named
from companion.documents.reader import read, wrong
from companion.documents.site_table import SiteTable
from companion.errors import BadRequest
from companion.ranges import Range

MISS_DEG = Range(-180, 180, "degrees")
SIGMA_DEG = Range(0.001, 180, "degrees")
DECLINATION_DEG = Range(-180, 180, "degrees, east positive")


@dataclass(frozen=True, kw_only=True)
class MissFields:
    """Where one star lay: to the right, or a turn of the body away, and up; or centred freely; or not to be seen."""

    star: Named
    time: datetime
    right_deg: Annotated[float, MISS_DEG] | None = None
    turn_deg: Annotated[float, MISS_DEG] | None = None
    turn_sigma_deg: Annotated[float, SIGMA_DEG] | None = None
    up_deg: Annotated[float, MISS_DEG] | None = None
    not_visible: bool = False
    centred: bool = False
    synced: bool = False
    sigma_deg: Annotated[float, SIGMA_DEG] | None = None

    def __post_init__(self) -> None:
        """Refuse a miss that is told in part or twice, or of a star that can't be seen or whose miss nobody told."""
        is_told = (self.right_deg, self.turn_deg, self.up_deg) != (None, None, None)
        if self.not_visible and (is_told or self.centred):
            raise BadRequest("a star that is not_visible has no right_deg and up_deg, and wasn't centred; leave them out")
        if self.centred and is_told:
            raise BadRequest("a star that was centred freely has no miss; leave out right_deg, turn_deg and up_deg")
        if self.turn_deg is not None and self.right_deg is not None:
            raise BadRequest("give turn_deg or right_deg, not both")
        if self.turn_sigma_deg is not None and self.turn_deg is None:
            raise BadRequest("turn_sigma_deg belongs to a turn_deg; add it or leave both out")
        for key in ("right_deg", "up_deg"):
            if not (self.not_visible or self.centred) and self.turn_deg is None and getattr(self, key) is None:
                raise wrong(key, f"this is missing; give {MISS_DEG}")

    @property
    def miss(self) -> Miss:
        """The miss as the diagnosis takes it."""
        return Miss(
            self.star,
            self.time,
            self.right_deg,
            self.up_deg,
            self.synced,
            self.sigma_deg,
            self.turn_deg,
            TURN_SIGMA_DEG if self.turn_sigma_deg is None else self.turn_sigma_deg,
            self.centred,
        )


@dataclass(frozen=True)
class StartFields:
    """How the tube stood when the mount was started."""

    faces: Faces = "true_north"
    tube: Tube = "level"


@dataclass(frozen=True, kw_only=True)
class DiagnoseFields:
    """The whole request."""

    site: SiteTable
    time: datetime
    declination_deg: Annotated[float, DECLINATION_DEG] | None = None
    start: StartFields = StartFields()
    corrections: Corrections = "unknown"
    message: Message = "none"
    misses: tuple[MissFields, ...]

    def __post_init__(self) -> None:
        """Refuse a request without misses, or with more than can be weighed."""
        if not 1 <= len(self.misses) <= MOST_MISSES:
            raise wrong("misses", f"there are {len(self.misses)}; give 1 to {MOST_MISSES}, in the order of the slews")


def read_diagnose_request(document: object) -> DiagnoseRequest:
    """Return the request in a parsed JSON document; anything wrong is a ``BadRequest`` that names the field."""
    fields = read(document, DiagnoseFields)
    return DiagnoseRequest(
        fields.site.site,
        fields.time,
        tuple(given.miss for given in fields.misses),
        fields.declination_deg,
        fields.start.faces,
        fields.start.tube,
        fields.corrections,
        fields.message,
    )
