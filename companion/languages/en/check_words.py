"""What is looked at to find a mistake, and what mends it, in words: where to look first, then what should be there."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Literal

from companion import places, sky
from companion.diagnosis import About, Cure
from companion.equipment import CompassKind
from companion.languages.en import clock_words
from companion.languages.en.number_words import cardinal, count_of, digits
from companion.languages.en.pose_phrases import compass_shown
from companion.languages.en.settings_phrases import key_the_date, key_the_latitude, key_the_longitude, key_the_time, key_the_zone
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Scene

_SIDES = {"N": "north", "S": "south", "E": "east", "W": "west"}


def question_about(
    about: About, scene: Scene, star: str = "", instead: str = "", compass: CompassKind | Literal["unknown"] = "unknown"
) -> str:
    """Ask about one thing; ``star`` and ``instead`` only where it is about stars."""
    if about == "position":
        return _position(scene, star)
    if about == "heading":
        return _heading(scene, compass)
    if about in _OF_STARS:
        return _OF_STARS[about].format(star=spoken_name(star), instead=spoken_name(instead))
    return _OF_SETTINGS[about](scene) if about in _OF_SETTINGS else _PLAIN[about]


def what_to_do(cure: Cure, scene: Scene, star: str, compass: CompassKind | Literal["unknown"]) -> str:
    """Say one thing that must be done again; of all but the hand control's settings it is always the same."""
    if cure == "star":
        return f"This time make sure that it is {spoken_name(star)}."
    if cure == "north":
        return f"Point the front of the tube to true north{_by_compass(scene, compass)}."
    return _SET_AGAIN[cure](scene) if cure in _SET_AGAIN else _DO_AGAIN[cure]


def found_in_words(found_wrong: Sequence[Cure]) -> str:
    """Say in a sentence what was found not to be as it should."""
    if set(found_wrong) == {"latitude", "longitude"}:
        return "The place is wrong on the handset."
    text = ", and ".join(_FOUND[cure] for cure in found_wrong)
    return f"{text[:1].upper()}{text[1:]}."


def _date(scene: Scene) -> str:
    local = places.local_time(scene)
    day = f"{digits(local.day, 2)}, month {digits(local.month, 2)}, year {digits(local.year, 4)}"
    return f"Look at the date on the handset. Is it day {day}?"


def _time(scene: Scene) -> str:
    return f"Look at the time on the handset. Is it about {clock_words.time_of_day(places.local_time(scene))}?"


def _daylight_saving(scene: Scene) -> str:
    return f"On the handset, is daylight saving switched {_on_or_off(scene)}?"


def _on_or_off(scene: Scene) -> str:
    return "on" if places.mount_settings(scene).daylight_saving else "off"


def _time_zone(scene: Scene) -> str:
    hours = places.mount_settings(scene).standard_offset_hours
    whole, minutes = divmod(round(abs(hours) * 60), 60)
    half = f" {cardinal(minutes)} minutes" if minutes else ""
    return f"On the handset, is the zone {'minus' if hours < 0 else 'plus'} {count_of(whole, 'hour')}{half}?"


def _latitude(scene: Scene) -> str:
    return f"On the handset, is the latitude {_to_the_minute(places.latitude(scene.site))}?"


def _longitude(scene: Scene) -> str:
    return f"On the handset, is the longitude {_to_the_minute(places.longitude(scene.site))}?"


def _longitude_side(scene: Scene) -> str:
    return f"On the handset, is the longitude {_SIDES[places.longitude(scene.site).side]}?"


def _place(scene: Scene) -> str:
    """Ask for whole degrees as the handset shows them, not rounded: enough to find a mistake."""
    degrees = (
        f"{digits(angle.degrees)} degrees {_SIDES[angle.side]}" for angle in (places.latitude(scene.site), places.longitude(scene.site))
    )
    return f"Look at the place on the handset. Is it {', '.join(degrees)}?"


def _position(scene: Scene, star: str) -> str:
    """Ask where the handset takes a star to be."""
    sight = sky.sight(sky.find(star), scene)
    below = "minus " if round(sight.altitude_deg) < 0 else ""
    altitude, azimuth = f"{below}{digits(abs(round(sight.altitude_deg)))}", digits(round(sight.azimuth_deg) % 360, 3)
    return f"Look up {spoken_name(star)} on the handset. Does it show about {altitude} for the altitude, and {azimuth} for the azimuth?"


def _heading(scene: Scene, compass: CompassKind | Literal["unknown"]) -> str:
    """Ask for a second look at north."""
    shown = _by_compass(scene, compass).removeprefix(": ")
    return f"Sight along your mark for north once more. Is it so that {shown}?" if shown else "Are you sure of your mark for north?"


def _to_the_minute(angle: places.Sexagesimal) -> str:
    return f"{digits(angle.degrees)} degrees, {digits(angle.minutes, 2)} minutes, {_SIDES[angle.side]}"


def _by_compass(scene: Scene, compass: CompassKind | Literal["unknown"]) -> str:
    """Say what the compass at hand shows when the tube faces true north."""
    shown = compass_shown(scene, compass)
    if shown is None:
        return ""
    if compass == "needle":
        return f": the needle lies over {shown}"
    return f": {'the' if compass == 'true' else 'a'} compass reads {shown}"


_OF_SETTINGS: Mapping[About, Callable[[Scene], str]] = {
    "date": _date,
    "time": _time,
    "daylight_saving": _daylight_saving,
    "time_zone": _time_zone,
    "latitude": _latitude,
    "longitude": _longitude,
    "longitude_side": _longitude_side,
    "place": _place,
}
_PLAIN: Mapping[About, str] = {
    "facing": "At the start, which way did the front of the tube face: north, east, south or west?",
    "bubble": "Look at the bubble of the base. Is it in the middle?",
    "tube_level": "At the start, was the tube level, by a spirit level along it?",
    "base_level": "Lay a spirit level on the base, one way, then across. Is it level both ways?",
    "altitude_circle": "At the start, did the marks on the altitude axis show level?",
    "clamps": "Hold the tube, and feel both clamps. Are both tight?",
    "soft_ground": "Does the tripod stand on grass, sand or other soft ground?",
    "knocked": "Since you levelled it, has anything knocked the tripod or the tube?",
    "tube_gives": "Nudge the tube gently, sideways, then up. Does it stay put?",
}
_OF_STARS: Mapping[About, str] = {
    "star": "Are you sure that the star was {star}, and not a neighbour?",
    "double": "Could it have been {instead}, and not {star}?",
    "first_far": "Before you steered to {star}, was it more than a fist off?",
    "below_horizon": "Does the handset say that {star} is below the horizon?",
}
_SET_AGAIN: Mapping[Cure, Callable[[Scene], str]] = {
    "time": lambda scene: f"Set the time again. {key_the_time(scene)}",
    "daylight_saving": lambda scene: f"Set daylight saving to {_on_or_off(scene)}, and check the time once more.",
    "time_zone": lambda scene: f"Set the zone again. {key_the_zone(scene)}",
    "date": lambda scene: f"Set the date again. {key_the_date(scene).removeprefix('The date. ')}",
    "latitude": lambda scene: f"Set the latitude again. {key_the_latitude(scene).removeprefix('Latitude. ')}",
    "longitude": lambda scene: f"Set the longitude again. {key_the_longitude(scene).removeprefix('Longitude. ')}",
}
_FOUND: Mapping[Cure, str] = {
    "bubble": "the base is not level",
    "north": "the tube did not start facing true north",
    "tube_level": "the tube was not level at the start",
    "time": "the time is wrong on the handset",
    "daylight_saving": "daylight saving is wrong on the handset",
    "time_zone": "the zone is wrong on the handset",
    "date": "the date is wrong on the handset",
    "latitude": "the latitude is wrong on the handset",
    "longitude": "the longitude is wrong on the handset",
    "star": "it was another star",
    "clamps": "a clamp is loose",
}
_DO_AGAIN: Mapping[Cure, str] = {
    "bubble": "Bring the bubble of the base to its middle.",
    "tube_level": "Bring the tube level, by a spirit level along it.",
    "clamps": "Hold the tube, then tighten both clamps.",
    "none": "Centre it with the arrows.",
}
