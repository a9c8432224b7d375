"""Every command of the program in one table: its name, what it does, what it takes, and the function that does it.

The functions are named, not imported: what a command needs is loaded when it is called, so that ``--help`` and a wrong request are
answered at once.
"""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from companion.errors import BadRequest


@dataclass(frozen=True)
class Option:
    """Something a command takes."""

    names: tuple[str, ...]
    """``--like-this``, or a bare name for what is given by its place."""
    settings: Mapping[str, Any]
    """What ``argparse`` takes for it."""


@dataclass(frozen=True)
class Command:
    """Something the program does."""

    name: str
    summary: str
    function: str
    """``module:function`` within ``companion.commands``; it takes the options and returns the exit code."""
    options: tuple[Option, ...] = ()
    """What it takes beside the common options."""
    actions: tuple[Command, ...] = ()
    """What may follow its name; without one it does what ``function`` does."""


def option(*names: str, **settings: Any) -> Option:
    """Return an option; without a value, None."""
    return Option(names, settings)


def switch(name: str, summary: str) -> Option:
    """Return an option that is true when given."""
    return Option((name,), {"action": "store_true", "help": summary})


def count(text: str) -> int:
    """Read how many are asked for."""
    number = int(text)
    if number < 1:
        raise BadRequest(f"--count {number} is too few; ask for one or more")
    return number


COMMON = (
    option("--profile", metavar="FILE", help="a TOML file with your site, equipment, voice and engine"),
    option("--lat", type=float, metavar="DEG", help="latitude in degrees, north positive"),
    option("--lon", type=float, metavar="DEG", help="longitude in degrees, east positive"),
    option("--elevation", type=float, metavar="M", help="metres above sea level (default 0)"),
    option("--at", metavar="TIME", help="use this time instead of the clock: ISO 8601 with an offset or Z"),
    option("--language", default="en", help="the language to listen and speak in: en (default) or ko (no native speaker has reviewed it)"),
    switch("--json", "print one JSON document and nothing else (start, a conversation, refuses it)"),
)
"""What every command takes, before its name or after it."""

_LISTENING = (
    option("--engine", metavar="E", help="which recogniser listens (default auto)"),
    option("--model", type=Path, metavar="DIR", help="use the model in this directory"),
)
_COUNT = option("--count", type=count, metavar="N", help="how many at most")
_MOUNT = option("--mount", metavar="ADDRESS", help="alpaca://HOST:PORT/NUMBER, indi://HOST:PORT/DEVICE%%20NAME or discover")
_MOUNT_AFTER_ACTION = Option(_MOUNT.names, {**_MOUNT.settings, "default": argparse.SUPPRESS})
"""Left out after ``stop``, it is as it was given before."""
_JSON_FILE = option("file", type=Path, metavar="FILE.json")

COMMANDS = (
    Command(
        "start",
        "hold an evening: the set-up from check-in to good night",
        "evenings:start",
        (
            switch("--text", "typed answers and printed lines instead of microphone and loudspeaker"),
            option("--microphone", metavar="NAME", help="listen with the microphone whose name holds NAME"),
            option("--loudspeaker", metavar="NAME", help="speak on the loudspeaker whose name holds NAME"),
            switch("--headset", "our voice cannot reach the microphone: any word is heard while we speak"),
            _MOUNT,
            switch("--key-to-talk", "listen only while the space bar is held, or for one answer after a tap"),
            *_LISTENING,
        ),
    ),
    Command(
        "rehearse",
        "a whole evening on recorded answers",
        "evenings:rehearse",
        (
            option("scenario", nargs="?", help="the folder or name of a scenario"),
            option("--out", type=Path, metavar="DIR", help="write the evening there as text and as one WAV"),
            *_LISTENING,
        ),
    ),
    Command(
        "hear",
        "say what each sound file says, one utterance a file",
        "ear_and_voice:hear",
        (
            option("wav", nargs="*", metavar="WAV"),
            option("--bench", type=Path, metavar="DIR", help="one page on how it hears a folder with a manifest.csv, also in noise"),
            option("--grammar", metavar="FILE.jsgf", help="listen for the phrases of this grammar"),
            option("--rule", metavar="NAME", help="listen for this public rule only"),
            *_LISTENING,
        ),
    ),
    Command(
        "help",
        "how to talk with it, with gloves, in wind, without sight, with children; without a topic the list of them",
        "help_topics:tell",
        (
            option("topic", nargs="?", metavar="TOPIC", help="such as tour, sight or safety"),
            switch("--aloud", "speak it, too"),
        ),
    ),
    Command(
        "say",
        "speak words, or write them as sound",
        "ear_and_voice:say",
        (
            option("words", metavar="TEXT"),
            option("--out", type=Path, metavar="FILE.wav", help="write the words to this file"),
        ),
    ),
    Command(
        "model",
        "fetch a recogniser's model (the one command that uses the internet)",
        "machine:model",
        (
            option("action", choices=["get"]),
            option("model_language", metavar="LANGUAGE", help="such as en"),
        ),
    ),
    Command(
        "profile",
        "show your profile, or make one: your place, your telescope, how you work",
        "profiles:show",
        actions=(
            Command("show", "show the profile, as it is shown without an action", "profiles:show"),
            Command(
                "set",
                "change keys; all else in the file stays as it is",
                "profiles:change",
                (option("pairs", nargs="+", metavar="KEY VALUE", help="such as: instrument.focal_length_mm 1200"),),
            ),
            Command(
                "near",
                "place the profile at a town",
                "profiles:place_near",
                (option("town", nargs="+", metavar="TOWN", help="such as: Nairobi, or: London, GB"),),
            ),
            Command("ask", "fill the profile by questions and typed answers", "profiles:ask"),
        ),
    ),
    Command(
        "check",
        "look at every part this machine needs, and its remedy",
        "machine:check",
        (switch("--aloud", "say what is missing and what helps, too"),),
    ),
    Command(
        "key",
        "the talk key of your own: any key on any input device (Linux)",
        "talk_key:show",
        actions=(
            Command("show", "name it, as without an action", "talk_key:show"),
            Command("choose", "press the one you want", "talk_key:choose"),
            Command("forget", "use the space bar again", "talk_key:forget"),
        ),
    ),
    Command(
        "autostart",
        "have an evening begin when this machine is switched on (systemd)",
        "autostart:show",
        actions=(
            Command("show", "print the unit and what 'on' would do, as without an action", "autostart:show"),
            Command("on", "print the unit, write it and switch it on", "autostart:on"),
            Command("off", "remove exactly that", "autostart:off"),
        ),
    ),
    Command(
        "where",
        "where a star, planet, the Moon or a deep-sky object is",
        "sky_answers:where",
        (
            option("name", metavar="NAME", nargs="+"),
            switch("--no-refraction", "the airless direction"),
        ),
    ),
    Command(
        "what",
        "what bright thing stands there",
        "sky_answers:what",
        (
            option("--azimuth", type=float, required=True, metavar="DEG", help="0 to 360 degrees, from north through east"),
            option("--altitude", type=float, required=True, metavar="DEG"),
        ),
    ),
    Command("night", "Sun, twilight and Moon for tonight", "sky_answers:night"),
    Command("prepare", "the night that begins next: dark hours, Moon, what to charge and pack, what not to miss", "prepare:prepare"),
    Command("stars", "reference stars to use now", "sky_answers:stars", (_COUNT,)),
    Command(
        "tonight",
        "targets worth seeing now, in your telescope",
        "tonight:show",
        (
            _COUNT,
            option("--aperture", type=float, metavar="MM", help="the telescope's aperture (default: the profile's)"),
            option("--focal-length", type=float, metavar="MM", help="its focal length"),
            option("--eyepieces", metavar="MM:FIELD_DEG,...", help="focal length and apparent field of each, such as 25:60,10:50"),
            option("--sky", type=float, metavar="MAG", help="darkness overhead, magnitudes per square arcsecond"),
        ),
    ),
    Command(
        "log",
        "what was seen and noted",
        "observation_log:show",
        (option("--export", choices=["json", "csv", "oal"], help="write all of it in this format: oal is OpenAstronomyLog 2.1"),),
        actions=(Command("forget", "remove all that was written down", "observation_log:forget"),),
    ),
    Command("fit", "where the mount's axes really point", "sky_answers:fit", (_JSON_FILE,)),
    Command("diagnose", "why the mount missed its stars", "sky_answers:diagnose", (_JSON_FILE,)),
    Command(
        "mount",
        "what the mount on the line says of itself",
        "mount:show",
        (_MOUNT,),
        actions=(Command("stop", "stop the mount, then say the same", "mount:stop", (_MOUNT_AFTER_ACTION,)),),
    ),
    Command("declination", "magnetic declination", "sky_answers:declination"),
    Command("settings", "what the mount's hand control asks for", "sky_answers:settings"),
)
