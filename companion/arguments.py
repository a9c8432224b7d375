"""Reads the command line into options, and options into the site, the time and the profile they mean."""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import NoReturn

from companion.errors import BadRequest
from companion.profile import Profile, load_profile, site_with_zone
from companion.sky import Moment, Site


class _Parser(argparse.ArgumentParser):
    """Complains in one line, as every command does, instead of printing its usage."""

    def error(self, message: str) -> NoReturn:
        raise BadRequest(f"{message}; 'companion --help' lists what there is")


def read_arguments(arguments: Sequence[str] | None = None) -> argparse.Namespace:
    """Return the options of one call; ``command`` names the command. BadRequest when they make no sense."""
    # Options left out are absent while parsing, so that one given before the command isn't overwritten by the command's default.
    common = _Parser(add_help=False, argument_default=argparse.SUPPRESS)
    common.add_argument("--profile", metavar="FILE", help="a TOML file with your site, equipment, voice and engine")
    common.add_argument("--lat", type=float, metavar="DEG", help="latitude in degrees, north positive")
    common.add_argument("--lon", type=float, metavar="DEG", help="longitude in degrees, east positive")
    common.add_argument("--elevation", type=float, metavar="M", help="metres above sea level (default 0)")
    common.add_argument("--at", metavar="TIME", help="use this time instead of the clock: ISO 8601 with an offset or Z")
    common.add_argument("--language", help="the language to listen and speak in (default en)")
    common.add_argument("--json", action="store_true", help="print one JSON document and nothing else")

    parser = _Parser(prog="companion", description="A hands-free voice companion for setting up a telescope in the dark.", parents=[common])
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)

    def command(name: str, summary: str) -> argparse.ArgumentParser:
        return commands.add_parser(name, help=summary, description=summary, parents=[common], argument_default=argparse.SUPPRESS)

    start = command("start", "hold an evening: the set-up from check-in to good night")
    start.add_argument("--text", action="store_true", help="typed answers and printed lines instead of microphone and loudspeaker")
    start.add_argument("--microphone", metavar="NAME", help="listen with the microphone whose name holds NAME")
    start.add_argument("--loudspeaker", metavar="NAME", help="speak on the loudspeaker whose name holds NAME")
    start.add_argument("--headset", action="store_true", help="our voice cannot reach the microphone: any word is heard while we speak")
    start.add_argument("--key-to-talk", action="store_true", help="listen only while the space bar is held, or for one answer after a tap")

    rehearse = command("rehearse", "a whole evening on recorded answers")
    rehearse.add_argument("scenario", nargs="?", help="the folder or name of a scenario")
    rehearse.add_argument("--out", type=Path, metavar="DIR", help="write the evening there as text and as one WAV")

    hear = command("hear", "say what each sound file says, one utterance a file")
    hear.add_argument("wav", nargs="+", metavar="WAV")
    hear.add_argument("--grammar", metavar="FILE.jsgf", help="listen for the phrases of this grammar")
    hear.add_argument("--rule", metavar="NAME", help="listen for this public rule only")
    for listening in (start, rehearse, hear):
        listening.add_argument("--engine", metavar="E", help="which recogniser listens (default auto)")
        listening.add_argument("--model", type=Path, metavar="DIR", help="use the model in this directory")

    say = command("say", "speak words, or write them as sound")
    say.add_argument("words", metavar="TEXT")
    say.add_argument("--out", type=Path, metavar="FILE.wav", help="write the words to this file")

    model = command("model", "fetch a recogniser's model (the one command that uses the network)")
    model.add_argument("action", choices=["get"])
    model.add_argument("model_language", metavar="LANGUAGE", help="such as en")

    _add_profile_actions(command("profile", "show your profile, or make one: your place, your telescope, how you work"), common)

    command("check", "look at every part this machine needs, and its remedy")

    where = command("where", "where a star, planet, the Moon or a deep-sky object is")
    where.add_argument("name", metavar="NAME")
    where.add_argument("--no-refraction", action="store_true", help="the airless direction")

    what = command("what", "what bright thing stands there")
    what.add_argument("--azimuth", type=float, required=True, metavar="DEG")
    what.add_argument("--altitude", type=float, required=True, metavar="DEG")

    command("night", "Sun, twilight and Moon for tonight")
    for ranked in (command("stars", "reference stars to use now"), command("tonight", "targets worth seeing now")):
        ranked.add_argument("--count", type=int, metavar="N", help="how many at most")
    for name, summary in (("fit", "where the mount's axes really point"), ("diagnose", "why the mount missed its stars")):
        command(name, summary).add_argument("file", type=Path, metavar="FILE.json")
    command("declination", "magnetic declination")
    command("settings", "what the mount's hand control asks for")

    options = argparse.Namespace(**_DEFAULTS)
    parser.parse_args(arguments, options)
    if getattr(options, "count", None) is not None and options.count < 1:
        raise BadRequest(f"--count {options.count} is too few; ask for one or more")
    return options


def _add_profile_actions(profile: argparse.ArgumentParser, common: argparse.ArgumentParser) -> None:
    actions = profile.add_subparsers(dest="profile_action", metavar="ACTION")

    def action(name: str, summary: str) -> argparse.ArgumentParser:
        return actions.add_parser(name, help=summary, description=summary, parents=[common], argument_default=argparse.SUPPRESS)

    action("show", "show the profile, as it is shown without an action")
    changes = action("set", "change keys; the file is written anew, without its comments")
    changes.add_argument("pairs", nargs="+", metavar="KEY VALUE", help="such as: instrument.focal_length_mm 1200")
    action("near", "place the profile at a town").add_argument("town", nargs="+", metavar="TOWN", help="such as: Nairobi, or: London, GB")
    action("ask", "fill the profile by questions and typed answers")


_DEFAULTS = {
    "profile": None,
    "lat": None,
    "lon": None,
    "elevation": None,
    "at": None,
    "language": "en",
    "json": False,
    "text": False,
    "microphone": None,
    "loudspeaker": None,
    "headset": False,
    "key_to_talk": False,
    "scenario": None,
    "out": None,
    "grammar": None,
    "rule": None,
    "engine": None,
    "model": None,
    "no_refraction": False,
    "count": None,
    "profile_action": None,
}


def profile_of(options: argparse.Namespace) -> Profile:
    """Return the profile named, or the one at home, or an empty one."""
    return load_profile(options.profile)


def site_of(options: argparse.Namespace) -> Site:
    """Return the site meant, as ``known_site``; BadRequest where none is."""
    site = known_site(options)
    if site is None:
        raise BadRequest("I need to know where you are: give --lat and --lon, or --profile with a site in it")
    return site


def known_site(options: argparse.Namespace) -> Site | None:
    """Return the site meant, if any: ``--lat`` and ``--lon`` replace the profile's site and its zone."""
    if (options.lat is None) != (options.lon is None):
        raise BadRequest("--lat and --lon go together; give both")
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
        raise BadRequest(f"--at {options.at} is no ISO 8601 time; write it like 2026-10-15T19:42:00-03:00") from error
    if time.tzinfo is None:
        raise BadRequest(f"--at {options.at} has no offset; add one, such as Z or -03:00")
    return time


def document_of(options: argparse.Namespace) -> object:
    """Return the JSON document in the file named."""
    try:
        return json.loads(options.file.read_text("utf-8"), parse_constant=_no_number)
    except OSError as error:
        raise BadRequest(f"{options.file}: can't be read ({error.strerror}); check the path") from error
    except (ValueError, RecursionError) as error:
        raise BadRequest(f"{options.file}: not a JSON document ({error})") from error


def _no_number(constant: str) -> float:
    raise ValueError(f"{constant} is not a number")


def moment_of(options: argparse.Namespace) -> Moment:
    """Return the site and time meant."""
    return Moment(site_of(options), time_of(options))
