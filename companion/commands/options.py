"""What the options of a call mean: the profile, the site, the time, the document."""

from __future__ import annotations

import argparse
import json
from datetime import UTC, datetime

from companion.documents.profile_tables import Profile
from companion.documents.site_table import site_with_zone
from companion.errors import FileUnusable, PlaceMissing, TimeUnclear
from companion.files import LARGEST_DOCUMENT_BYTES, read_file
from companion.languages import Language, load_language
from companion.profile import load_profile
from companion.sky import Moment, Site
from companion.sky.types import checked_year
from companion.talk.saying import Saying


def profile_of(options: argparse.Namespace) -> Profile:
    """Return the profile named, or the one at home, or an empty one."""
    return load_profile(options.profile)


def language_of(options: argparse.Namespace) -> Language:
    """Return the language named."""
    return load_language(options.language)


def told(options: argparse.Namespace, saying: Saying) -> str:
    """Return the words, in the language named, of a saying in which neither place nor time is named."""
    return language_of(options).plain_words(saying)


def site_of(options: argparse.Namespace) -> Site:
    """Return the site meant, as ``known_site``; PlaceMissing where none is."""
    site = known_site(options)
    if site is None:
        raise PlaceMissing("I need to know where you are: give --lat and --lon, or --profile with a site in it")
    return site


def known_site(options: argparse.Namespace) -> Site | None:
    """Return the site meant, if any: ``--lat`` and ``--lon`` replace the profile's site and its zone."""
    if (options.lat is None) != (options.lon is None):
        raise PlaceMissing("--lat and --lon go together; give both")
    if options.lat is not None:
        return site_with_zone(Site(options.lat, options.lon, options.elevation or 0.0))
    site = profile_of(options).site
    if site is not None and options.elevation is not None:
        return Site(site.latitude_deg, site.longitude_deg, options.elevation, site.zone, site.name)
    return site


def time_of(options: argparse.Namespace) -> datetime:
    """Return ``--at``, or the clock's time."""
    if options.at is None:
        return datetime.now(UTC)
    try:
        time = datetime.fromisoformat(options.at)
    except ValueError as error:
        raise TimeUnclear(f"--at {options.at} is no ISO 8601 time; write it like 2026-10-15T19:42:00-03:00", given=options.at) from error
    if time.tzinfo is None:
        raise TimeUnclear(f"--at {options.at} has no offset; add one, such as Z or -03:00", given=options.at)
    return checked_year(time)


def document_of(options: argparse.Namespace) -> object:
    """Return the JSON document in the file named."""
    try:
        return json.loads(read_file(options.file, LARGEST_DOCUMENT_BYTES), parse_constant=_no_number)
    except OSError as error:
        raise FileUnusable(f"can't be read ({error.strerror}); check the path", file=options.file) from error
    except (ValueError, RecursionError) as error:
        raise FileUnusable(f"not a JSON document ({error})", file=options.file) from error


def _no_number(constant: str) -> float:
    raise ValueError(f"{constant} is not a number")


def moment_of(options: argparse.Namespace) -> Moment:
    """Return the site and time meant."""
    return Moment(site_of(options), time_of(options))
