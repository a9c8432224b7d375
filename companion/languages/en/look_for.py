"""A target introduced, and what a person sees of it: our sentence of a showpiece; of Moon and planets what they show at that moment."""

from __future__ import annotations

from companion import observing, sky
from companion.equipment import FIST_DEG
from companion.languages.en.direction_words import sentence
from companion.languages.en.number_words import decimal
from companion.languages.en.sight_words import SUN_CAUTION, where_to_look
from companion.languages.en.spoken_names import kind_in_words, name_and_number
from companion.languages.tables import look_table
from companion.observing import JupiterMoon, Phase, RankedTarget, Rings, Shadowless
from companion.sky import Body, Kind, Moment, Sight

_RINGS = {
    Rings.EDGE_ON: "The rings are seen nearly edge-on: a thin straight line through the disc.",
    Rings.NARROW: "The rings are narrow now, seen from low over their plane; look for their shadow on the disc.",
    Rings.WIDE_OPEN: "The rings are wide open: look for the thin dark gap in them, and for a moon or two beside.",
}
_SHAPES = {
    Phase.CRESCENT: "a crescent",
    Phase.HALF: "a half moon",
    Phase.GIBBOUS: "more than half lit",
    Phase.NEARLY_FULL: "almost full",
}
_SHADOWLESS = {
    Shadowless.FULL: "It's full and has no shadows: look for the bright rays around the craters.",
    Shadowless.THIN: "A thin crescent: see the dark part glow.",
}
_DISCS = {
    "Mars": "A small orange disc: wait for steady moments, then try for a white cap and dark patches.",
    "Uranus": "A tiny pale green disc that stays a disc at high power, where stars stay points.",
    "Neptune": "A bluish dot, hardly more than a star: at high power it isn't quite a point.",
}


def introduce(target: RankedTarget, moment: Moment) -> str:
    """Introduce a target as in an evening, and say what to look for; by day the caution first."""
    parts = (
        SUN_CAUTION if sky.sun_state(moment).is_up else None,
        introduction(target.sight, target.sight.body.kind, target.eyepiece.focal_length_mm),
        look_for(target.sight.body, moment),
    )
    return " ".join(part for part in parts if part)


def introduction(sight: Sight, kind: Kind, eyepiece_mm: float | None, fist_deg: float = FIST_DEG) -> str:
    """Say a target's name and number, what it is, where it stands and which eyepiece to take; None where the eyepieces aren't known."""
    what = "" if kind == "moon" else f": {kind_in_words(kind)}"
    eyepiece = "low-power eyepiece first" if eyepiece_mm is None else f"{millimetres(eyepiece_mm)} eyepiece"
    return f"{sentence(name_and_number(sight.body) + what)} {where_to_look(sight, fist_deg).removesuffix('.')}; {eyepiece}."


def millimetres(focal_length_mm: float) -> str:
    """Return "ten millimetre"."""
    return f"{decimal(focal_length_mm)} millimetre"


def look_for(body: Body, moment: Moment) -> str | None:
    """Return what a person sees of it then, a sentence; None of the observer's own objects and of what nobody has rated."""
    if body.kind == "moon":
        return _on_the_moon(moment)
    if body.kind == "planet":
        return _DISCS.get(body.name) or _PLANETS[body.name](body, moment)
    if body.kind == "user" or (showpiece := observing.showpiece_of(body)) is None:
        return None
    return look_table("en").of_object(showpiece.key)


def _on_the_moon(moment: Moment) -> str:
    """Name what lies best at the terminator."""
    seen = observing.on_the_moon(moment)
    if isinstance(seen, Shadowless):
        return _SHADOWLESS[seen]
    told = look_table("en").of_feature(seen)
    return "" if told is None else f"Where the shadow begins lies {told[0]}. {told[1]}"


def _jupiter(_: Body, moment: Moment) -> str:
    """Say which moons stand on which side."""
    east, west = observing.from_east_to_west(observing.jupiter_moons(moment))
    if not east and not west:
        return "Look for two dark belts: none of its four bright moons shows just now."
    sides = [f"{_listed(moons)} to the {side}" for side, moons in (("east", east), ("west", west)) if moons]
    return f"Look for two dark belts, and its moons: {', '.join(sides)}."


def _listed(moons: tuple[JupiterMoon, ...]) -> str:
    """Return "Io and Europa", the order from east to west."""
    names = [moon.name for moon in moons]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _saturn(_: Body, moment: Moment) -> str:
    """Say how the rings lie."""
    return _RINGS[observing.rings(moment)]


def _inner(planet: Body, moment: Moment) -> str:
    """Say which phase an inner planet shows."""
    shape = _SHAPES[observing.phase(planet, moment)]
    return f"No detail, but a phase like the Moon's: {shape} now, best seen before the sky is dark."


_PLANETS = {"Jupiter": _jupiter, "Saturn": _saturn, "Venus": _inner, "Mercury": _inner}
