"""The sky over the observer, and the mount under it."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from companion import alignment, diagnosis, places, sky
from companion.commands.options import document_of, language_of, moment_of
from companion.documents.diagnose_request import read_diagnose_request
from companion.documents.fit_request import read_fit_request
from companion.errors import BadRequest
from companion.languages import SkyWords
from companion.printing import Printer, site_time
from companion.sky import Sight
from companion.talk.check_in_phrases import HowDarkItIs
from companion.talk.question_phrases import HowFarTheCompassIsOff
from companion.talk.saying import Say, Saying
from companion.talk.settings_phrases import KeyDaylightSaving, KeyTheDate, KeyTheLatitude, KeyTheLongitude, KeyTheTime, KeyTheZone
from companion.talk.sky_phrases import NoReferenceStarNow, NothingBrightThere

DONE = 0
MOST_CAUSES_TOLD, LEAST_TOLD = 3, 0.05
"""How many causes are listed for a person, and how likely they must be beside the first."""
STAR_COUNT = 6
"""How many stars are listed unless another number is asked for."""


def where(options: argparse.Namespace) -> int:
    """Say where something is."""
    moment, language = moment_of(options), language_of(options)
    words, name = language.sky, language.body_called(" ".join(options.name))
    sight = sky.sight(sky.find(name), moment, refraction=not options.no_refraction)
    spoken = words.describe(sight, moment)
    printer = Printer(options.json)
    printer.lines(spoken, words.place_line(sight.altitude_deg, sight.azimuth_deg, sight.constellation))
    printer.document({**place_of(sight), "constellation": sight.constellation, "spoken": spoken})
    return DONE


def what(options: argparse.Namespace) -> int:
    """Say what bright thing stands at a place in the sky."""
    moment, words = moment_of(options), language_of(options).sky
    if not 0.0 <= options.azimuth <= 360.0:
        raise BadRequest(f"--azimuth {options.azimuth:g} is no direction; give 0 to 360 degrees, from north through east")
    candidates = sky.standing_at(options.azimuth, options.altitude, moment)
    return print_list(
        options,
        [
            {
                **place_of(candidate.sight),
                "kind": candidate.sight.body.kind,
                "distance_deg": round(candidate.distance_deg, 4),
                "spoken": words.describe(candidate.sight, moment),
            }
            for candidate in candidates
        ],
        nothing=NothingBrightThere(),
    )


def night(options: argparse.Namespace) -> int:
    """Say when the Sun sets and rises, when it is dark, and what the Moon does."""
    moment, words = moment_of(options), language_of(options).sky
    night, moon = sky.night_around(moment), sky.moon_state(moment)
    zone = ZoneInfo(moment.site.zone)
    times = {name: _at(getattr(night, name), zone) for name in _NIGHT_EVENTS}
    rises, sets = _at(moon.rise, zone), _at(moon.set, zone)
    printer = Printer(options.json)
    printer.lines(*words.night_lines(times, moment.site.zone), words.moon_line(moon.illuminated_fraction, rises, sets))
    events = {name: site_time(time, moment.site) for name, time in times.items()}
    moon_times = {"rise": site_time(rises, moment.site), "set": site_time(sets, moment.site)}
    lit = {"phase_deg": round(moon.phase_deg, 3), "illuminated_fraction": round(moon.illuminated_fraction, 4)}
    printer.document({**events, "moon": {**lit, **moon_times}})
    return DONE


def _at(time: datetime | None, zone: ZoneInfo) -> datetime | None:
    return None if time is None else time.astimezone(zone)


def stars(options: argparse.Namespace) -> int:
    """List the reference stars to use now, best first, and why; by day each with the caution."""
    moment, words = moment_of(options), language_of(options).sky
    ranked = alignment.reference_stars(moment, options.count or STAR_COUNT)
    by_day = sky.sun_state(moment).is_up
    if by_day or not sky.stars_come_out(moment):
        Printer(options.json).lines(language_of(options).words(HowDarkItIs(), moment))
    return print_list(
        options,
        [
            {
                **place_of(star.sight),
                "score": round(star.score, 4),
                "reasons": words.reasons(star.reasons),
                "spoken": _with_caution(words.describe(star.sight, moment), words) if by_day else words.describe(star.sight, moment),
            }
            for star in ranked
        ],
        nothing=NoReferenceStarNow(),
        warned=by_day,
    )


def declination(options: argparse.Namespace) -> int:
    """Say how far magnetic north lies from true north."""
    moment, language = moment_of(options), language_of(options)
    found, warning = places.declination(moment), language.sky.warning(places.declination(moment).warning)
    printer = Printer(options.json)
    printer.lines(language.words(HowFarTheCompassIsOff(), moment))
    printer.lines(*([warning] if warning else []))
    printer.document(
        {
            "declination_deg": _rounded(found.declination_deg),
            "model": found.model,
            "epoch_valid": found.epoch_valid,
            "warning": warning,
        }
    )
    return DONE


def settings(options: argparse.Namespace) -> int:
    """Say what the mount's hand control asks for."""
    moment, language = moment_of(options), language_of(options)
    keyed = places.mount_settings(moment)
    document = asdict(keyed) | {"declination_deg": _rounded(keyed.declination_deg)}
    printer = Printer(options.json)
    printer.lines(*(language.words(line, moment) for line in _SETTINGS))
    printer.document(document)
    return DONE


_SETTINGS: tuple[Saying, ...] = (
    KeyTheDate(),
    KeyTheTime(),
    KeyDaylightSaving(),
    KeyTheZone(),
    KeyTheLatitude(),
    KeyTheLongitude(),
    HowFarTheCompassIsOff(),
)
"""Each as it is read out in an evening."""
_NIGHT_EVENTS = (
    "sunset",
    "civil_dusk",
    "nautical_dusk",
    "astronomical_dusk",
    "astronomical_dawn",
    "nautical_dawn",
    "civil_dawn",
    "sunrise",
)


def fit(options: argparse.Namespace) -> int:
    """Say where the mount's axes really point, from sightings in a file."""
    found = alignment.fit(read_fit_request(document_of(options)))
    printer = Printer(options.json)
    printer.lines(
        f"azimuth zero {found.azimuth_zero_deg:.3f} degrees",
        f"tilt {_or_unseen(found.tilt_deg)}, altitude index {_or_unseen(found.altitude_index_deg)}",
        f"residuals {', '.join(f'{residual:.3f}' for residual in found.residuals_deg)} degrees, rms {found.rms_deg:.3f}",
        *(f"sighting {suspect.sighting + 1} of {suspect.star} fits {suspect.instead} better" for suspect in found.suspects),
        *(f"{p.name}: azimuth {p.reported_azimuth_deg:.3f}, altitude {p.reported_altitude_deg:.3f}" for p in found.predictions),
        *(["One direction only: these are zeros, a tilt can't be seen."] if found.tilt_deg is None else []),
    )
    printer.document(asdict(found))
    return DONE


def diagnose(options: argparse.Namespace) -> int:
    """Say why the mount missed its stars, from the misses in a file."""
    words = language_of(options).sky
    found = diagnosis.diagnose(read_diagnose_request(document_of(options)))
    printer = Printer(options.json)
    first, *rest = found.causes[:MOST_CAUSES_TOLD]
    likely = [first, *(cause for cause in rest if cause.probability >= LEAST_TOLD)]
    printer.lines(*(f"{cause.probability:4.0%}  {words.sum_up(cause)} {words.remedy(cause.cause)}" for cause in likely))
    if (deciding := words.what_would_decide(likely)) is not None:
        printer.lines(deciding)
    printer.document(
        {
            "causes": [
                {
                    "cause": cause.cause,
                    "probability": cause.probability,
                    "value": cause.value,
                    "members": list(cause.members),
                    "explanation": words.explain(cause),
                    "remedy": words.remedy(cause.cause),
                    **({"star": cause.star} if cause.cause == "wrong_star" else {}),
                }
                for cause in found.causes
            ]
        }
    )
    return DONE


def _or_unseen(angle_deg: float | None) -> str:
    return "can't be seen" if angle_deg is None else f"{angle_deg:.3f} degrees"


def place_of(sight: Sight) -> dict[str, Any]:
    """Return what a document says of a sight: name, direction, magnitude."""
    return {
        "name": sight.body.name,
        "altitude_deg": round(sight.altitude_deg, 5),
        "azimuth_deg": round(sight.azimuth_deg, 5) % 360,
        "magnitude": None if sight.magnitude is None else round(sight.magnitude, 2),
    }


def _rounded(angle_deg: float | None) -> float | None:
    return None if angle_deg is None else round(angle_deg, 4)


def _with_caution(spoken: str, words: SkyWords) -> str:
    return spoken if spoken.startswith(words.sun_caution) else f"{words.sun_caution} {spoken}"


def print_list(options: argparse.Namespace, found: Sequence[Mapping[str, Any]], *, nothing: Say, warned: bool = False) -> int:
    """Print a list, what is spoken of each for a person, or that there is nothing.

    A program may speak any entry alone, so each has its caution; a person reads it once, before the list, or has been ``warned`` already.
    """
    printer, language = Printer(options.json), language_of(options)
    caution = language.sky.sun_caution
    spoken = [entry["spoken"] for entry in found] or [language.words(nothing, moment_of(options))]
    first = [caution] if not warned and any(line.startswith(caution) for line in spoken) else []
    printer.lines(*first, *(line for line in (words.removeprefix(caution).strip() for words in spoken) if line))
    printer.document(list(found))
    return DONE
