"""English for the starting pose: level, true north, tube level, power."""

from __future__ import annotations

from collections.abc import Mapping

from companion import sky
from companion.sky import Moment
from companion.wording.directions import degrees, fists
from companion.wording.numerals import digits
from companion.wording.phrase import Phrase


def compass_heading(declination_deg: float) -> int:
    """Return what a card or phone compass set to magnetic north reads, in whole degrees 0..359, when it faces true north."""
    return round(-declination_deg) % 360


def face_true_north(moment: Moment) -> str:
    """Turn the declination into what to do with the compass at hand."""
    declination_deg = sky.declination(moment).declination_deg
    if declination_deg is None:
        return "Now true north. I don't know how far off the compass is on that date: use the pole star, or a landmark."
    if round(declination_deg) == 0:
        return "Now true north. Here the compass needs no correction: turn until it reads zero zero zero. Hold it metres away from metal."
    side = "right" if declination_deg > 0 else "left"
    return (
        f"Now true north. Here a compass needle points {degrees(abs(declination_deg))} to the {side} of it. "
        f"Turn until a card or phone compass reads {digits(compass_heading(declination_deg), 3)}. "
        "Hold it metres away from metal."
    )


def where_north_is(moment: Moment) -> str:
    """Describe another way to north than the compass: the pole star where there is one."""
    pole_star = sky.sight(sky.find("Polaris"), moment)
    if pole_star.altitude_deg < 15:
        return "Stand well away from metal and read the compass twice. The pole star is too low to help here."
    return (
        f"If you see the pole star, it stands due north, {fists(pole_star.altitude_deg)} up. "
        "Drop straight down from it to the ground: that is north."
    )


PHRASES: Mapping[str, Phrase] = {
    "mind-the-weight": (
        "First, firm ground, and legs locked. The mount is heavy: lift with your legs, and mind legs and cables in the dark."
    ),
    "level-the-base": "Keep one hand on the tube before you loosen any clamp. Level the base, then say: it's level.",
    "face-true-north": face_true_north,
    "where-north-is": where_north_is,
    "level-the-tube": "Bring the tube level, by the spirit level along it. Say when the tube is level.",
    "switch-on": "Now switch on. Keep fingers and cables clear of the fork: it may move. Say when it's on.",
    "no-power": "Check the plug at both ends, then the switch, then the battery. If a fuse blows twice, leave it for daylight.",
}
