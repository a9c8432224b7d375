"""What ``fit`` is asked, in JSON: the site, the stars centred with what the mount read, and what is to be found."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Annotated, Literal

from companion.alignment.pointing import FitRequest, Sense, Sighting, Target
from companion.documents.bodies import Named
from companion.documents.reader import read, wrong
from companion.documents.site_table import SiteTable
from companion.errors import BadRequest
from companion.ranges import Range
from companion.sky.airless_directions import fixed_body

MOST_SIGHTINGS, MOST_TARGETS = 64, 256
"""The time a fit takes grows with both; nobody centres so many stars in a night."""
AZIMUTH_READ_DEG = Range(-720, 720, "degrees")
ALTITUDE_READ_DEG = Range(-180, 180, "degrees")
RA_DEG = Range(-360, 360, "degrees")
DEC_DEG = Range(-90, 90, "degrees")


@dataclass(frozen=True, kw_only=True)
class SightingFields:
    """A star, or a place in the sky, and what the mount read when it was centred."""

    star: Named | None = None
    ra_deg: Annotated[float, RA_DEG] | None = None
    dec_deg: Annotated[float, DEC_DEG] | None = None
    epoch: Literal["J2000", "of_date"] | None = None
    """Of ``ra_deg`` and ``dec_deg``; J2000 where it isn't given."""
    time: datetime
    reported_azimuth_deg: Annotated[float, AZIMUTH_READ_DEG]
    reported_altitude_deg: Annotated[float, ALTITUDE_READ_DEG]

    def __post_init__(self) -> None:
        """Refuse what is neither or both."""
        if (self.star is None) == (self.ra_deg is None):
            raise BadRequest("give either star, or ra_deg and dec_deg")
        if self.star is None and self.dec_deg is None:
            raise wrong("dec_deg", f"this is missing; give {DEC_DEG}")
        for key in ("dec_deg", "epoch"):
            if self.star is not None and getattr(self, key) is not None:
                raise wrong(key, "a star has its own place; leave this out, or give ra_deg and dec_deg instead of star")

    @property
    def sighting(self) -> Sighting:
        """The sighting as the fit takes it."""
        body = self.star
        if body is None:
            assert self.ra_deg is not None and self.dec_deg is not None  # noqa: PT018  (seen to when it was made)
            body = fixed_body(self.ra_deg, self.dec_deg)
        return Sighting(body, self.time, self.reported_azimuth_deg, self.reported_altitude_deg, self.epoch == "of_date")


@dataclass(frozen=True)
class TargetFields:
    """Something to be found, at its own time or the latest sighting's; the name alone will do."""

    name: Named
    time: datetime | None = None


@dataclass(frozen=True, kw_only=True)
class FitFields:
    """The whole request."""

    site: SiteTable
    sightings: tuple[SightingFields, ...]
    find: tuple[TargetFields, ...] = ()
    azimuth_sense: Sense = "clockwise"

    def __post_init__(self) -> None:
        """Refuse a request without sightings, or with more than anybody takes."""
        if not self.sightings:
            raise wrong("sightings", "there are none; give at least one star with the mount's readings")
        if len(self.sightings) > MOST_SIGHTINGS:
            raise wrong("sightings", f"there are {len(self.sightings)}; give {MOST_SIGHTINGS} at most")
        if len(self.find) > MOST_TARGETS:
            raise wrong("find", f"there are {len(self.find)}; ask for {MOST_TARGETS} at most at once")


def read_fit_request(document: object) -> FitRequest:
    """Return the request in a parsed JSON document; anything wrong is a ``BadRequest`` that names the field."""
    fields = read(document, FitFields)
    return FitRequest(
        fields.site.site,
        tuple(given.sighting for given in fields.sightings),
        tuple(Target(given.name, given.time) for given in fields.find),
        fields.azimuth_sense,
    )
