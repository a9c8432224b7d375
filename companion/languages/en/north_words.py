"""English for the ways to true north without a compass, each from where things stand at this minute."""

from __future__ import annotations

from companion import alignment, sky
from companion.alignment import PoleWay
from companion.languages.en.direction_words import compass_point, fists, turn_on_feet
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Scene
from companion.sky import Sight, bands

_POINTERS_DEG = 10.0
"""From this height on the two stars that point at the Cross help. Judgement."""
_OWN_SHADOW_SUN_DEG = 20.0
"""Lower, one's own shadow is longer than one can jump: three times one's height. Judgement."""


def north_by_the_pole(scene: Scene, *, way: PoleWay) -> str:
    """Lead to the pole by figures that everybody knows, from where they stand at this hour, and down to the ground."""
    if way in alignment.NORTHERN:
        down = "Drop straight down from it to the ground: that is north. Point the tube there."
        return f"The pole star needs finding. {find_the_pole_star(scene, way)} {down}"
    return _by_the_cross(scene) if way == "cross" else _between(scene)


def find_the_pole_star(scene: Scene, way: PoleWay) -> str:
    """Lead the eye to the pole star, and say how to be sure of it."""
    return _by_the_plough(scene) if way == "plough" else _by_the_w(scene)


def _by_the_plough(scene: Scene) -> str:
    dubhe, polaris = _seen(scene, "Dubhe", "Polaris")
    return (
        f"Look for the Plough, or Big Dipper, {_where(dubhe, scene)}. It's a saucepan of seven stars. "
        "Take the two at its end, away from the handle. "
        f"From the bottom through the rim, carry their line on: {_way_to(polaris, dubhe, scene)}. {_be_sure(polaris, scene)}"
    )


def _by_the_w(scene: Scene) -> str:
    middle, polaris = _seen(scene, alignment.MIDDLE_OF_THE_W, "Polaris")
    letter = "M" if polaris.altitude_deg < middle.altitude_deg else "W"
    return (
        f"Look for Cassiopeia, {_where(middle, scene)}: five stars like a letter {letter}. "
        f"From its middle star, the way the {letter} opens, go {_way_to(polaris, middle, scene)}. {_be_sure(polaris, scene)}"
    )


def _be_sure(polaris: Sight, scene: Scene) -> str:
    return f"There stands the pole star, {fists(polaris.altitude_deg, scene.fist_deg)} up: as bright as those, and alone."


def _by_the_cross(scene: Scene) -> str:
    head, foot, hadar, rigil = _seen(scene, "Gacrux", "Acrux", "Hadar", "Rigil Kentaurus")
    pointers = all(star.altitude_deg > _POINTERS_DEG for star in (hadar, rigil))
    sure = "Two bright stars beside it point at it." if pointers else "It is small: its long arm is half a fist."
    return (
        f"No bright star marks the southern pole. Find the Southern Cross, {_where(head, scene)}. {sure} "
        f"Carry its long arm on past its foot, {_onward(foot, head)}. Go on, four and a half times its length. {_DOWN_IS_SOUTH}"
    )


def _between(scene: Scene) -> str:
    hadar, achernar = _seen(scene, "Hadar", "Achernar")
    return (
        f"No bright star marks the southern pole. Find Achernar, {_where(achernar, scene)}. "
        f"Then Hadar, {_where(hadar, scene)}. Take the point half way between them. {_DOWN_IS_SOUTH}"
    )


_DOWN_IS_SOUTH = "From that empty spot drop straight down: that is south. Turn round: north is exactly behind you. Point the tube that way."


def _seen(scene: Scene, *names: str) -> list[Sight]:
    return sky.sights([sky.find(name) for name in names], scene)


def _where(sight: Sight, scene: Scene) -> str:
    """Return "in the north-east, two fists up"."""
    return f"in the {compass_point(sight.azimuth_deg)}, {fists(sight.altitude_deg, scene.fist_deg)} up"


def _way_to(there: Sight, here: Sight, scene: Scene) -> str:
    """Return how far and which way one star lies from another: "three fists, down and to the right"."""
    return f"{fists(sky.separation_deg(there, here), scene.fist_deg)}, {_onward(there, here)}"


def _onward(there: Sight, here: Sight) -> str:
    """Return which way the eye goes: "straight up", "to the left", "down and to the right"."""
    side = bands.side_of(there.azimuth_deg - here.azimuth_deg, there.altitude_deg - here.altitude_deg, here.altitude_deg)
    across = {1: "to the right", -1: "to the left", 0: ""}[side.right]
    upright = {1: "up", -1: "down", 0: ""}[side.up]
    return f"{upright} and {across}" if across and upright else across or f"straight {upright}"


def north_by_the_shadow(scene: Scene) -> str:
    """Describe the way to north by a shadow at this minute; a low Sun makes one's own long enough."""
    shadow_deg = alignment.shadow_direction(scene)
    if shadow_deg is None:
        return "The Sun stands wrong for a shadow now. Ask for another way."
    if sky.sun_state(scene).altitude_deg < _OWN_SHADOW_SUN_DEG:
        see = "Turn your back to the Sun, and never look at it. Face along your own shadow"
    else:
        see = "Look at the shadow, never at the Sun. Stand a stick upright, and face along its shadow"
    return f"{see}: that's {compass_point(shadow_deg)} now. {_north_from(shadow_deg, scene)}"


def north_by_the_sunset(scene: Scene) -> str:
    """Describe the way to north from where the Sun went down."""
    set_deg = alignment.sunset_direction(scene)
    if set_deg is None:
        return "It's too long since the Sun went down. Ask for another way."
    return f"Face the spot where the Sun went down. It must be a level horizon. {_north_from(set_deg, scene)}"


def north_by_a_mark(scene: Scene, *, mark: str) -> str:
    """Describe the way to north from below the Moon or a planet, at this minute."""
    sight = sky.sight(sky.find(mark), scene)
    look = "the Moon" if mark == sky.MOON.name else f"{spoken_name(mark)}, the brightest point of light in the sky"
    caution = "Never look at the Sun. " if sky.sun_state(scene).is_up else ""
    return (
        f"{caution}Face {look}: {_where(sight, scene)}. Drop straight down from it to the ground. {_north_from(sight.azimuth_deg, scene)}"
    )


def _north_from(facing_deg: float, scene: Scene) -> str:
    """Say how to turn to north for who faces an azimuth."""
    turn_deg = (180.0 - facing_deg) % 360.0 - 180.0
    if abs(turn_deg) < scene.fist_deg / 4:
        return "That is north. Point the tube there."
    if abs(turn_deg) > 180.0 - scene.fist_deg / 4:
        return "North is exactly behind you. Point the tube that way."
    way = f"From there, turn to your {'right' if turn_deg > 0 else 'left'}: {turn_on_feet(abs(turn_deg), scene.fist_deg)}"
    return f"{way}. That is north. Point the tube there."
