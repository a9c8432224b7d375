"""English for the starting pose and the power: level, true north, tube level, switch on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from companion import places
from companion.equipment import CompassKind
from companion.languages.en.direction_words import degrees
from companion.languages.en.north_words import north_by_a_mark, north_by_the_pole, north_by_the_shadow, north_by_the_sunset
from companion.languages.en.number_words import digits
from companion.languages.phrase import Chapter, Scene
from companion.talk.answers import BearingAnswer, LevelAnswer, NorthAnswer, PowerAnswer, TubeAnswer
from companion.talk.pose_phrases import (
    FaceTrueNorth,
    ItRestarted,
    LetItFindItsPose,
    LevelAgain,
    LevelTheBase,
    LevelTheTube,
    NoOtherWay,
    NoPower,
    NorthAgain,
    NorthByAMark,
    NorthByLandmark,
    NorthByThePole,
    NorthByTheShadow,
    NorthByTheSunset,
    PoseBeforePowerThen,
    SayFacingNorth,
    SayWhenItIsOn,
    SwitchOn,
    TubeLevelAgain,
    TurnByCompass,
    WhatDoesItRead,
)


def compass_shown(scene: Scene, compass: CompassKind | Literal["unknown"]) -> str | None:
    """Return what the compass shows there, digit by digit; None where nobody knows how far off it is."""
    heading_deg = places.compass_heading(scene, compass)
    return None if heading_deg is None else digits(heading_deg, 3)


def face_true_north(scene: Scene, *, compass: CompassKind | Literal["unknown"] = "unknown") -> str:
    """Turn the declination into what to do with the compass at hand."""
    declination_deg, shown = places.declination(scene).declination_deg, compass_shown(scene, compass)
    if declination_deg is None or shown is None:
        return "Now true north. I don't know how far off a compass is on that date. Ask for another way."
    if compass == "needle":
        how = f"Hold it flat, and turn it until the needle's north end lies over {shown}. Find a distant landmark over the zero."
    else:
        how = f"Find a distant landmark where {_COMPASSES[compass]} reads {shown}."
    return f"Now true north. {_how_far_off(declination_deg, compass)}Step well away from tripod and cars. {how} {_COME_BACK}"


_COMPASSES: Mapping[str, str] = {
    "true": "the compass",
    "card": "the compass",
    "unknown": "a magnetic compass",
    "none": "a magnetic compass",
}
_COME_BACK = "Come back, and point the tube at it. A few degrees either way is fine."


def _how_far_off(declination_deg: float, compass: CompassKind | Literal["unknown"]) -> str:
    """Say on which side of true north a magnet points here, and how far; nothing where the compass allows for it."""
    if compass == "true":
        return ""
    if round(declination_deg) == 0:
        return "Here a compass needs no correction. "
    return f"Here a magnet points {degrees(abs(declination_deg))} to the {'right' if declination_deg > 0 else 'left'} of it. "


def face_true_north_tersely(scene: Scene, *, compass: CompassKind | Literal["unknown"] = "unknown") -> str:
    """Say only what the compass must show, away from the mount."""
    shown = compass_shown(scene, compass)
    if shown is None:
        return "True north, without the compass. Ask for another way."
    if compass == "needle":
        return f"Away from the mount, lay the needle's north end over {shown}: true north is at the zero. Point the tube there."
    return f"Away from the mount, true north is where {_COMPASSES[compass]} reads {shown}. Point the tube there."


def turn_by_compass(scene: Scene, *, compass: CompassKind | Literal["unknown"], reads_deg: int) -> str:
    """Say how far to turn from what the compass reads now."""
    off_deg = places.compass_off_deg(scene, compass, reads_deg)
    if off_deg is None:
        return "I don't know how far off a compass is on that date."
    if off_deg == 0:
        return "That's near enough."
    return f"Move the tube {degrees(abs(off_deg))} to the {'left' if off_deg > 0 else 'right'}."


POSE = Chapter(
    phrases={
        PoseBeforePowerThen: "Then we'll set it level and facing north before switching on.",
        LevelTheBase: "Now the start position. The weight may have moved the bubble: check it on the base. Say when it's level.",
        FaceTrueNorth: face_true_north,
        TurnByCompass: turn_by_compass,
        WhatDoesItRead: "Step well behind the mount, and sight along the tube. What does the compass read?",
        NorthByThePole: north_by_the_pole,
        NorthByTheShadow: north_by_the_shadow,
        NorthByTheSunset: north_by_the_sunset,
        NorthByAMark: north_by_a_mark,
        NoOtherWay: (
            "Those are all the ways I have now. Point it as well as you can: a fist off is no harm. "
            "The first star shows it. To hear the last way again, say go back."
        ),
        NorthByLandmark: "Take a landmark due north on the map, a hill or a mast, and point the tube at it. Say facing north.",
        SayFacingNorth: "Say facing north when it does.",
        LevelTheTube: "Bring the tube level, by a spirit level laid along it. Say when the tube is level.",
        LevelAgain: "From the start position again. First the bubble of the base: say when it's level.",
        NorthAgain: "Now the tube to north, as before. Say facing north.",
        TubeLevelAgain: "And bring the tube level. Say when the tube is level.",
        LetItFindItsPose: "Stand clear: this mount finds its own start position. Start that. Say ready when it's still.",
        SwitchOn: (
            "It may move: hands clear of tube and arms. I can't halt it: only its own controls or its switch can. "
            "Household current only through a safety breaker, plugs off wet grass. Now switch on. Say when it's on."
        ),
        SayWhenItIsOn: "Say when it's on.",
        NoPower: "Check the plug at both ends, then the switch, then the battery. If a fuse blows twice, leave it for daylight.",
        ItRestarted: "That's a tired battery or a loose plug. See to that first: it has forgotten its settings.",
    },
    terse={
        LevelTheBase: "Check the bubble on the base.",
        FaceTrueNorth: face_true_north_tersely,
        LevelTheTube: "Bring the tube level.",
        SwitchOn: "It may move, and I can't halt it: hands clear. Keep plugs off wet grass. Switch it on.",
    },
    sayable={
        LevelAnswer: ("it's level", "ready"),
        NorthAnswer: ("facing north", "another way", "let me read it to you"),
        BearingAnswer: ("three five zero", "it reads three five six"),
        TubeAnswer: ("the tube is level", "ready"),
        PowerAnswer: ("it's on", "it won't turn on", "it restarted"),
    },
    step_help={
        LevelTheBase: "Use the bubble on the base, or a small spirit level laid two ways. A finger's tilt is a finger's error.",
        FaceTrueNorth: (
            "True north, not the needle's. Without a compass, say another way: by the stars, a shadow or a map. Never force the mount."
        ),
        SayFacingNorth: "Or say another way, if you don't trust the compass.",
        SayWhenItIsOn: "Wait for the handset to light up. If it stays dark, say: it won't turn on.",
        NorthByThePole: "The sky turns about that point, so nothing shows north better. If you can't find it, say another way.",
        NorthByTheShadow: "Look at the shadow only, never at the Sun.",
        NorthByTheSunset: "If you didn't see it go down, or hills were in the way, say another way.",
        NorthByAMark: "Its direction is worked out for this very minute. Or say another way.",
        NoOtherWay: "The mount corrects a rough north itself, once it has seen two stars. Say facing north to go on.",
        NorthByLandmark: "A map on paper shows north at its top. Draw the line from here before it gets dark.",
        WhatDoesItRead: "Read me the digits one by one: three five zero.",
        LevelTheTube: "Lay the spirit level along the tube, or use the zero of the altitude scale.",
        LevelAgain: "The mount takes this position for its start, so it must be as good as the first time.",
        NorthAgain: "By the same landmark or compass reading. Or say another way.",
        TubeLevelAgain: "By the spirit level along it, or the zero of the altitude scale.",
        LetItFindItsPose: "Its manual says how to start that. It turns and tilts by itself for a minute or two.",
        SwitchOn: "Plug in, press the switch, and wait for the handset to light up.",
    },
)
