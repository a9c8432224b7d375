"""How one thing in the sky is described aloud: name, place, brightness, and what could be mistaken for it."""

from __future__ import annotations

from companion import alignment, sky
from companion.equipment import FIST_DEG
from companion.languages.en.direction_words import brightness, compass_point, degrees, fists, place_in_sky, sentence, side
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Scene
from companion.sky import Moment, Sight, bands

SUN_CAUTION = "Never look at the Sun, or near it, through the telescope or the finder: it blinds at once."


def describe(sight: Sight, fist_deg: float = FIST_DEG, *, by_day: bool = False) -> str:
    """Say where a body is and, but for ``by_day``, how bright it looks: words first, then the height in fists."""
    body = sight.body
    if body.kind == "sun":
        return SUN_CAUTION
    name = sentence(spoken_name(body.name))
    if sight.altitude_deg < 0:
        return f"{name} It is below the horizon."
    look = ""
    if sight.magnitude is not None and body.kind != "moon" and not by_day:
        look = f", {brightness(sight.magnitude + sky.dimming_mag(sight.altitude_deg))}"
    place = sentence(f"{place_in_sky(sight.altitude_deg, sight.azimuth_deg)}{look}")
    return f"{name} {place} {sentence(f'{fists(sight.altitude_deg, fist_deg)} up, {degrees(sight.altitude_deg)}')}"


def describe_now(sight: Sight, moment: Moment, fist_deg: float = FIST_DEG) -> str:
    """Describe a body as it shows at that moment: by day all but the Moon hardly do, however bright they are at night."""
    if sight.body.kind in ("moon", "sun") or sight.altitude_deg < 0 or not sky.sun_state(moment).is_up:
        return describe(sight, fist_deg)
    return f"{describe(sight, fist_deg, by_day=True)} By day it hardly shows."


def describe_with_caution(sight: Sight, moment: Moment) -> str:
    """Describe a body, with the caution first when it stands near a Sun that shines, or may from where the observer stands."""
    return f"{caution_near(sight, moment)} {describe_now(sight, moment)}".strip()


def caution_near(sight: Sight, moment: Moment) -> str:
    """Return the Sun's warning where something stands near a Sun that shines, else nothing."""
    return SUN_CAUTION if sky.is_near_the_sun(sight, moment) else ""


def describe_rivals(star: Sight, moment: Moment, fist_deg: float = FIST_DEG) -> str:
    """Warn of the nearest thing that could be mistaken for a star, or say that there is none."""
    rivals = alignment.rivals(star.body, moment)
    if not rivals:
        return "Nothing as bright stands near it."
    rival, separation_deg = rivals[0]
    return f"{sentence(spoken_name(rival.body.name))[:-1]}, {fists(separation_deg, fist_deg)} {side_of(rival, star)}, looks much like it."


def side_of(other: Sight, star: Sight) -> str:
    """Return on which side of a star another one stands, as seen facing it: "to the left", "above", "to the right and below"."""
    right_deg, up_deg = other.azimuth_deg - star.azimuth_deg, other.altitude_deg - star.altitude_deg
    return side(bands.side_of(right_deg, up_deg, star.altitude_deg))


def where_to_look(sight: Sight, fist_deg: float = FIST_DEG) -> str:
    """Return the direction, height words and fists, without the name."""
    if sight.altitude_deg < 0:
        return "It has gone below the horizon."
    return sentence(f"{place_in_sky(sight.altitude_deg, sight.azimuth_deg)}, {fists(sight.altitude_deg, fist_deg)} up")


def place_of(scene: Scene, name: str) -> str:
    """Return a name and, in a word or two, where it stands."""
    sight = sky.sight(scene.find(name), scene)
    if sight.body.kind == "sun":
        return "the Sun"
    return f"{spoken_name(name)}, {place_in_sky(sight.altitude_deg, sight.azimuth_deg) if sight.altitude_deg >= 0 else 'down now'}"


def turn_towards(sight: Sight) -> str:
    """Return which way to face."""
    return f"Face {compass_point(sight.azimuth_deg)}"
