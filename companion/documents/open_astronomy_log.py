"""Observations as an OpenAstronomyLog 2.1 document, the open exchange format for visual observations.

Its schema was written by T. Pfleger, D. Lehmann and P. Lang (2011); tests validate what is written here against it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any, TypeAlias
from xml.etree import ElementTree
from xml.etree.ElementTree import Element, SubElement

from companion import places
from companion.observing.observation import Observation, Seen
from companion.sky import Body, Kind, Moment, Site

_NAMESPACE = "http://groups.google.com/group/openastronomylog"
_TYPE = "{http://www.w3.org/2001/XMLSchema-instance}type"
_VERSION = "2.1"
_OBSERVER = "observer"
_SOURCE = "companion"
_Ids: TypeAlias = dict[Any, str]
"""The id that each site, night, target, telescope or eyepiece has in the document, in order of appearance."""
Find: TypeAlias = Callable[[str], Body | None]
"""Gives a body by its name, None where it isn't known any more."""


@dataclass(frozen=True)
class _Session:
    """A night at a site: one evening and what of it is past midnight. The log knows no more of it than what was noted."""

    site: str
    """Its id in the document."""
    night: date
    """On which it began."""


_TARGET_TYPES: Mapping[Kind, str] = {
    "star": "starTargetType",
    "carbon star": "variableStarTargetType",
    "variable star": "variableStarTargetType",
    "double star": "deepSkyDS",
    "planet": "PlanetTargetType",
    "moon": "MoonTargetType",
    "sun": "SunTargetType",
    "open cluster": "deepSkyOC",
    "globular cluster": "deepSkyGC",
    "galaxy": "deepSkyGX",
    "nebula": "deepSkyGN",
    "planetary nebula": "deepSkyPN",
    "star cloud": "deepSkySC",
    "user": "deepSkyNA",
}
_RATINGS: Mapping[Seen | None, int] = {"easily": 1, "just": 5, "suspected": 6, "not at all": 7, None: 99}
"""The schema's rating, 1 to 7, 99 unknown. Its meaning is value from memory: 1 conspicuous, 5 hardly seen, 6 doubtful, 7 not seen; which of
them our words come nearest to is judgement, so the words stand in the description, too."""
_NO_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Characters that XML 1.0 can't hold."""


def open_astronomy_log(observations: Sequence[Observation], described: Callable[[Observation], str], find: Find, language: str) -> str:
    """Return the document, all of it ASCII; ``described`` gives what was seen in words of ``language``."""
    sites: _Ids = {}
    sessions: _Ids = {}
    times: dict[_Session, list[datetime]] = {}
    targets: _Ids = {}
    telescopes: _Ids = {}
    eyepieces: _Ids = {}
    entries: list[Element] = []
    for seen in observations:
        site = _id(sites, (seen.site, _standard_offset_min(seen)), "site")
        session = _Session(site, _night(seen))
        times.setdefault(session, []).append(seen.time)
        entry = Element("observation", id=f"observation_{len(entries) + 1}")
        _add(entry, "observer", _OBSERVER)
        _add(entry, "site", site)
        _add(entry, "session", _id(sessions, session, "session"))
        _add(entry, "target", _id(targets, (seen.target, seen.catalogue, seen.kind), "target"))
        _add(entry, "begin", _written(seen.time))
        if seen.steadiness is not None:
            # There 1 is best, as on Antoniadi's scale; with us 5 is.
            _add(entry, "seeing", 6 - seen.steadiness)
        if seen.aperture_mm is not None and seen.focal_length_mm is not None:
            _add(entry, "scope", _id(telescopes, (seen.aperture_mm, seen.focal_length_mm), "telescope"))
        if seen.eyepiece_mm is not None:
            _add(entry, "eyepiece", _id(eyepieces, seen.eyepiece_mm, "eyepiece"))
            if seen.focal_length_mm is not None and seen.focal_length_mm >= seen.eyepiece_mm:
                _add(entry, "magnification", f"{seen.focal_length_mm / seen.eyepiece_mm:.1f}")
        _add_result(entry, seen, described(seen), language)
        entries.append(entry)
    ElementTree.register_namespace("oal", _NAMESPACE)
    root = Element(f"{{{_NAMESPACE}}}observations", version=_VERSION)
    _add_observer(SubElement(root, "observers"))
    _add_each(root, "site", sites, lambda site, told: _fill_site(site, *told))
    _add_each(root, "session", sessions, lambda entry, session: _fill_session(entry, session, times[session]))
    _add_each(root, "target", targets, lambda target, told: _fill_target(target, told, find))
    _add_each(root, "scope", telescopes, _fill_telescope)
    _add_each(root, "eyepiece", eyepieces, _fill_eyepiece)
    for nothing in ("lenses", "filters", "imagers"):
        SubElement(root, nothing)
    root.extend(entries)
    ElementTree.indent(root)
    document: bytes = ElementTree.tostring(root, encoding="us-ascii", xml_declaration=True)
    return document.decode("ascii")


def _id(ids: _Ids, what: Any, kind: str) -> str:
    return ids.setdefault(what, f"{kind}_{len(ids) + 1}")


def _add(parent: Element, name: str, content: object, **attributes: str) -> None:
    SubElement(parent, name, attributes).text = _NO_XML.sub(" ", str(content))


def _add_each(root: Element, name: str, ids: _Ids, fill: Callable[[Element, Any], None]) -> None:
    section = SubElement(root, f"{name}s")
    for what, key in ids.items():
        fill(SubElement(section, name, id=key), what)


def _add_observer(section: Element) -> None:
    observer = SubElement(section, "observer", id=_OBSERVER)
    # Nobody is asked for a name.
    _add(observer, "name", "Observer")
    _add(observer, "surname", "(not given)")


def _standard_offset_min(seen: Observation) -> int:
    """Return how far the site's zone is ahead of UTC, minutes, without daylight saving."""
    return round(places.mount_settings(Moment(seen.site, seen.time)).standard_offset_hours * 60)


def _night(seen: Observation) -> date:
    """Return the day on which the night of an observation began: from noon to noon by the mean Sun at the site."""
    return (seen.time.astimezone(UTC) + timedelta(hours=seen.site.longitude_deg / 15.0 - 12.0)).date()


def _written(time: datetime) -> str:
    return time.isoformat(timespec="seconds")


def _fill_session(entry: Element, session: _Session, times: Sequence[datetime]) -> None:
    """Fill in an evening from the first to the last thing noted."""
    _add(entry, "begin", _written(min(times)))
    _add(entry, "end", _written(max(times)))
    _add(entry, "site", session.site)


def _fill_site(entry: Element, site: Site, standard_offset_min: int) -> None:
    _add(entry, "name", site.name or f"{places.latitude(site)} {places.longitude(site)}")
    _add(entry, "longitude", site.longitude_deg, unit="deg")
    _add(entry, "latitude", site.latitude_deg, unit="deg")
    _add(entry, "elevation", site.elevation_m)
    _add(entry, "timezone", standard_offset_min)


def _fill_target(entry: Element, told: tuple[str, str | None, Kind], find: Find) -> None:
    name, catalogue, kind = told
    entry.set(_TYPE, f"oal:{_TARGET_TYPES[kind]}")
    _add(entry, "datasource", _SOURCE)
    _add(entry, "name", catalogue or name)
    if catalogue and catalogue != name:
        _add(entry, "alias", name)
    # A name of the observer's own list may be somebody else's in ours.
    body = find(name) if kind != "user" else None
    if body is not None and body.place is not None:
        # ICRS at epoch J1991.25, which nothing in a log can tell from the J2000 that the format means.
        position = SubElement(entry, "position")
        _add(position, "ra", body.place.ra_deg, unit="deg")
        _add(position, "dec", body.place.dec_deg, unit="deg")


def _fill_telescope(entry: Element, figures: tuple[float, float]) -> None:
    aperture_mm, focal_length_mm = figures
    entry.set(_TYPE, "oal:scopeType")
    _add(entry, "model", f"{aperture_mm:g} mm, {focal_length_mm:g} mm")
    _add(entry, "aperture", aperture_mm)
    _add(entry, "focalLength", focal_length_mm)


def _fill_eyepiece(entry: Element, focal_length_mm: float) -> None:
    _add(entry, "model", f"{focal_length_mm:g} mm")
    _add(entry, "focalLength", focal_length_mm)


def _add_result(entry: Element, seen: Observation, words: str, language: str) -> None:
    result = SubElement(entry, "result", lang=language)
    deep_sky = _TARGET_TYPES[seen.kind].startswith("deepSky")
    result.set(_TYPE, f"oal:{'findingsDeepSkyType' if deep_sky else 'findingsType'}")
    _add(result, "description", words)
    if deep_sky:
        _add(result, "rating", _RATINGS[seen.seen])
        if "single stars" in seen.looks:
            result.set("resolved", "true")
