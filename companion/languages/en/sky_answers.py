"""English for where and when things stand, as it is answered when somebody asks."""

from __future__ import annotations

from datetime import datetime

from companion import alignment, observing, places, sky
from companion.languages.en import clock_words
from companion.languages.en.direction_words import compass_point, degrees, fists, height, place_in_sky, sentence, sweep
from companion.languages.en.sight_words import SUN_CAUTION, caution_near, describe_now
from companion.languages.en.spoken_names import kind_in_words, spoken_name
from companion.languages.phrase import Scene
from companion.sky import Body, Moment, Sight
from companion.sky.bands import CompassPoint

_NAMES = {point: compass_point(point.value * 45.0) for point in CompassPoint}
_PHASES = ("new", "a waxing crescent", "at first quarter", "waxing, more than half lit", "full")
_WANING = {
    "a waxing crescent": "a waning crescent",
    "at first quarter": "at last quarter",
    "waxing, more than half lit": "waning, still more than half lit",
}
# The Moon's way from the Sun, degrees, up to which each is called so: a day is twelve degrees. Judgement.
_UP_TO_DEG = (12.0, 82.0, 98.0, 168.0, 180.0)


def bright_one(scene: Scene, *, names: tuple[str, ...]) -> str:
    """Name the likeliest first, with what tells it apart; then what else it may be."""
    first, *others = (sky.sight(sky.find(name), scene) for name in names)
    told = f"Most likely {spoken_name(first.body.name)}: {_look(first)}. {caution_near(first, scene)}".strip()
    if not others:
        return told
    other = others[0]
    return f"{told} Or {spoken_name(other.body.name)}: {_look(other)}, {place_in_sky(other.altitude_deg, other.azimuth_deg)}."


def planets_up(scene: Scene) -> str:
    """Name the planets for the naked eye that are up, each with its place; where none is, when the first comes up."""
    seen = [sky.sight(planet, scene) for planet in sky.NAKED_EYE_PLANETS]
    up = sorted((sight for sight in seen if sight.altitude_deg > 0), key=lambda sight: -sight.altitude_deg)
    if not up:
        coming = [(rises, planet) for planet in sky.NAKED_EYE_PLANETS if (rises := observing.rises_at(planet, scene)) is not None]
        rise, first = min(coming, key=lambda one: one[0], default=(None, sky.MOON))
        return "No bright planet is up." + (f" The first is {spoken_name(first.name)}, {_when(rise, scene)}." if rise else "")
    places_told = (sentence(f"{spoken_name(sight.body.name)}: {place_in_sky(sight.altitude_deg, sight.azimuth_deg)}") for sight in up)
    caution = next((caution for sight in up if (caution := caution_near(sight, scene))), "")
    return " ".join(part for part in (caution, *places_told) if part)


def bright_pair(scene: Scene, *, names: tuple[str, str]) -> str:
    """Name two, and say which is which."""
    one, other = sorted((sky.sight(sky.find(name), scene) for name in names), key=lambda sight: -sight.altitude_deg)
    words = f"The upper one is {spoken_name(one.body.name)}, {_look(one)}. The lower one is {spoken_name(other.body.name)}, {_look(other)}."
    return f"{words} {caution_near(one, scene) or caution_near(other, scene)}".strip()


def _look(sight: Sight) -> str:
    """Return what something looks like, in a few words."""
    if sight.body.kind == "moon":
        return "you can't mistake it"
    colour = sky.colour(sight.body)
    if sight.body.kind == "planet":
        return f"a steady {colour} light, it hardly twinkles" if colour else "a steady light, it hardly twinkles"
    return f"it looks {colour} and twinkles" if colour else "it looks white and twinkles"


def where_it_stands(scene: Scene, *, name: str) -> str:
    """Say where a thing stands, or when it comes up; of the Sun only the caution."""
    body = scene.find(name)
    sight = sky.sight(body, scene)
    if body.kind == "sun":
        return SUN_CAUTION
    if sight.altitude_deg < 0:
        return f"{sentence(f'{spoken_name(body.name)} is down now')} {_comes_up(body, scene)}"
    kind = "" if body.kind in ("star", "planet", "moon") else sentence(f"it's {kind_in_words(body.kind)}")
    return " ".join(part for part in (caution_near(sight, scene), describe_now(sight, scene, scene.fist_deg), kind) if part)


def is_it_up(scene: Scene, *, name: str) -> str:
    """Say whether a thing is up, and until or from when."""
    body = scene.find(name)
    sight = sky.sight(body, scene)
    if body.kind == "sun":
        return f"{'It is up' if sky.sun_state(scene).is_up else 'It is down'}. {SUN_CAUTION}"
    if sight.altitude_deg < 0:
        return f"No. {_comes_up(body, scene)}"
    place = sentence(f"yes: {place_in_sky(sight.altitude_deg, sight.azimuth_deg)}")
    return " ".join(part for part in (caution_near(sight, scene), place, _goes_down(body, scene)) if part)


def when_it_rises(scene: Scene, *, name: str) -> str:
    """Say when a thing rises; of one that is up, when it sets."""
    body = scene.find(name)
    if sky.sight(body, scene).altitude_deg < 0:
        words = f"{_comes_up(body, scene)}"
    else:
        words = f"{sentence(f'{spoken_name(body.name)} is up already')} {_goes_down(body, scene)}"
    return f"{words} {SUN_CAUTION}" if body.kind == "sun" else words


def when_it_sets(scene: Scene, *, name: str) -> str:
    """Say when a thing sets; of one that is down, when it rises."""
    body = scene.find(name)
    if sky.sight(body, scene).altitude_deg < 0:
        words = f"{sentence(f'{spoken_name(body.name)} is down already')} {_comes_up(body, scene)}"
    else:
        words = _goes_down(body, scene)
    return f"{words} {SUN_CAUTION}" if body.kind == "sun" else words


def how_high_it_stands(scene: Scene, *, name: str) -> str:
    """Say how high a thing stands; of the Sun only the caution."""
    body = scene.find(name)
    sight = sky.sight(body, scene)
    if body.kind == "sun":
        return SUN_CAUTION
    if sight.altitude_deg < 0:
        return f"{sentence(f'{spoken_name(body.name)} is down now')} {_comes_up(body, scene)}"
    figures = f"{fists(sight.altitude_deg, scene.fist_deg)} up, {degrees(sight.altitude_deg)}"
    return " ".join(
        part
        for part in (caution_near(sight, scene), sentence(f"{spoken_name(body.name)}, {height(sight.altitude_deg)}"), sentence(figures))
        if part
    )


def _comes_up(body: Body, scene: Moment) -> str:
    rising = observing.rises_at(body, scene)
    return f"It rises {_when(rising, scene)}." if rising else "It doesn't rise here within a day."


def _goes_down(body: Body, scene: Moment) -> str:
    setting = observing.sets_at(body, scene)
    return f"It sets {_when(setting, scene)}." if setting else "It doesn't set here within a day."


def _when(time: datetime, scene: Moment) -> str:
    """Return "in two hours, at ten past six in the evening"."""
    local = places.local_time(Moment(scene.site, time))
    clock = clock_words.time_of_day(local)
    return f"in {clock_words.duration(time - scene.time)}, at {clock}"


def moon_look(phase_deg: float) -> str:
    """Return what the Moon looks like by its ecliptic longitude beyond the Sun's."""
    from_sun_deg = min(phase_deg, 360.0 - phase_deg)
    phase = next(words for words, up_to_deg in zip(_PHASES, _UP_TO_DEG, strict=True) if from_sun_deg <= up_to_deg)
    return phase if phase_deg <= 180.0 else _WANING.get(phase, phase)


def the_moon_now(scene: Scene) -> str:
    """Say what the Moon looks like, and when it rises or sets."""
    look = moon_look(sky.moon_state(scene).phase_deg)
    sight = sky.sight(sky.MOON, scene)
    if sight.altitude_deg < 0:
        return f"The Moon is {look}. {_comes_up(sky.MOON, scene)}"
    place = sentence(f"it stands {place_in_sky(sight.altitude_deg, sight.azimuth_deg)}")
    return " ".join(part for part in (caution_near(sight, scene), f"The Moon is {look}.", place, _goes_down(sky.MOON, scene)) if part)


def until_light(scene: Scene) -> str:
    """Say when morning comes."""
    night, now = sky.night_around(scene), scene.time
    if sky.sun_state(scene).is_up:
        return f"It is light: the Sun is up. {SUN_CAUTION}"
    parts = []
    if night.astronomical_dawn and night.astronomical_dawn > now:
        parts.append(f"The first grey comes {_when(night.astronomical_dawn, scene)}.")
    if night.sunrise and night.sunrise > now:
        parts.append(f"The Sun rises {_when(night.sunrise, scene)}. Caps on before that.")
    return " ".join(parts) or "The Sun doesn't rise here within a day."


def where_on_earth(scene: Scene) -> str:
    """Say the place."""
    site = scene.site
    north = f"{degrees(abs(site.latitude_deg))} {'north' if site.latitude_deg >= 0 else 'south'}"
    east = f"{degrees(abs(site.longitude_deg))} {'east' if site.longitude_deg >= 0 else 'west'}"
    return f"{f'At {site.name}. ' if site.name else ''}{sentence(f'{north}, {east}')}"


def which_way_it_is(scene: Scene, *, point: CompassPoint) -> str:
    """Show a compass point by something bright that stands over it; by day by a shadow."""
    name = _NAMES[point]
    azimuth_deg = point.value * 45.0
    if sky.sun_state(scene).is_up:
        shadow_deg = alignment.shadow_direction(scene)
        if shadow_deg is None:
            return f"No shadow shows it now. Take a compass, or a map, for {name}."
        off_deg = (azimuth_deg - shadow_deg + 180.0) % 360.0 - 180.0
        there = f"An upright stick's shadow points {compass_point(shadow_deg)} now. From there to {name}: {_turned(off_deg, scene)}."
        return f"Never look at the Sun. {there}"
    mark = sky.mark_towards(azimuth_deg, scene)
    if mark is None:
        return f"No bright star shows it now. Take a compass for {name}."
    off_deg = (azimuth_deg - mark.azimuth_deg + 180.0) % 360.0 - 180.0
    star = f"{spoken_name(mark.body.name)}, {height(mark.altitude_deg)}"
    if abs(off_deg) < scene.fist_deg / 2:
        return f"{sentence(name)} Straight below {star}."
    return f"{sentence(name)} Find {star}, {_look(mark)}. From there, {_turned(off_deg, scene)}."


def _turned(off_deg: float, scene: Scene) -> str:
    """Return a turn on one's feet, to its side."""
    return f"{sweep(abs(off_deg), scene.fist_deg)} to the {'right' if off_deg > 0 else 'left'}"
