"""The site of a document, as people write it down."""

from __future__ import annotations

from dataclasses import dataclass, replace

from companion import places
from companion.documents.reader import read, wrong
from companion.errors import BadRequest
from companion.sky import Site
from companion.sky.types import Elevation, Latitude, Longitude, zone_info


@dataclass(frozen=True, kw_only=True)
class SiteTable:
    """A place; the zone follows from it where it isn't given."""

    name: str | None = None
    latitude_deg: Latitude
    longitude_deg: Longitude
    elevation_m: Elevation = 0.0
    zone: str | None = None

    def __post_init__(self) -> None:
        """Refuse a zone nobody knows."""
        try:
            zone_info(self.zone or "UTC")
        except BadRequest as unknown:
            raise wrong("zone", str(unknown)) from None

    @property
    def site(self) -> Site:
        """The place as the sky takes it."""
        return site_with_zone(Site(self.latitude_deg, self.longitude_deg, self.elevation_m, name=self.name or None), self.zone)


def site_from(table: object, where: str) -> Site:
    """Turn a ``[site]`` table into a site; ``where`` names it in complaints."""
    return read(table, SiteTable, where).site


def site_with_zone(site: Site, zone: str | None = None) -> Site:
    """Return the site with the zone given, or with the one its place lies in."""
    return replace(site, zone=zone or places.zone_at(site.latitude_deg, site.longitude_deg))


def site_table(site: Site) -> SiteTable:
    """Return a site as its table."""
    # A zone that follows from the place is left to follow from it, so that a place changed by hand takes its zone along.
    follows = site.zone == places.zone_at(site.latitude_deg, site.longitude_deg)
    return SiteTable(
        name=site.name,
        latitude_deg=site.latitude_deg,
        longitude_deg=site.longitude_deg,
        elevation_m=site.elevation_m,
        zone=None if follows else site.zone,
    )
