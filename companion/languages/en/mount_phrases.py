"""English for a mount on the line."""

from __future__ import annotations

from collections.abc import Mapping

from companion import sky
from companion.languages.en.direction_words import degrees, place_in_sky
from companion.languages.en.number_words import count_of
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.talk.answers import TurnAnswer, TurningAnswer
from companion.talk.mount_phrases import (
    FIT_TOGETHER_DEG,
    CanNotHaltIt,
    ClockFault,
    DoesItStandStill,
    GiveItTimeAndPlace,
    Halted,
    HandsOffIt,
    HandsOnAgain,
    IsItReallyThat,
    ItDidNotTakeThem,
    ItHasThemNow,
    ItHasTheRightOnes,
    ItMayStillTurn,
    ItSaysItTurns,
    ItStandsStill,
    MayITurnThere,
    MountBelieves,
    MountLineBack,
    MountLineLost,
    MountNotThere,
    MountOnTheLine,
    NobodyTellsWhereItPoints,
    NotTurned,
    NotTurning,
    PlaceFault,
    ToldItTheStar,
    WasHalted,
    WatchIt,
    WhatTheReadingsTell,
    WhereItPoints,
    WhileItTurns,
)

_BY_HAND = "Halt it from its controls, or switch it off."
_WHY_NOT: Mapping[NotTurned, str] = {
    "sun": "I won't turn it: the way there may pass too near the Sun.",
    "horizon": "I won't turn it: that leads below the horizon.",
    "limits": "I won't turn it: your profile says the tube can't go that way.",
    "unknown": "I won't turn it: I can't tell where it points.",
    "hands-off": "You asked me not to move it.",
    "unheard": "I won't turn it while I can't hear you.",
    "parked": "It is parked. Free it from its controls first.",
    "turning": "It is turning already.",
    "slow": "I won't turn it: it answers too slowly to be watched.",
    "journal": "I can't write my journal, so I won't turn it.",
    "interrupted": "I was cut off just then, so I sent nothing more.",
    "cannot": "It can't be turned over the line.",
    "unaligned": "I turn it only once it is aligned.",
    "line": "It doesn't answer.",
    "refused": "It refused.",
}
_HALTED: Mapping[Halted, str] = {
    "asked": "It stands still.",
    "off-course": "It strayed from the way I expected, so I halted it.",
    "near-sun": "It came near the Sun, so I halted it.",
    "silent": "It went silent on its way, so I halted it.",
    "unheard": "I couldn't hear you any more, so I halted it.",
    "line": "I lost it on its way. I'll halt it as soon as it answers.",
    "refused": "It refused to turn.",
    "unwatched": "It was turning with nobody watching it, so I halted it.",
    "short": "It stands still, but not where I sent it.",
}
_PLACES: Mapping[PlaceFault, str] = {
    "longitude-side": "It has east and west mixed up",
    "latitude-side": "It has north and south mixed up",
    "longitude": "Its longitude is wrong",
    "latitude": "Its latitude is wrong",
    "place": "It is set for another place",
}


def mount_line_lost(scene: Scene, *, may_turn: bool) -> str:
    """Tell that the mount doesn't answer, and what halts it by hand."""
    return f"The mount doesn't answer any more.{f' It may be turning. {_BY_HAND}' if may_turn else ''}"


def mount_believes(scene: Scene, *, clock: ClockFault | None, clock_off: float, place: PlaceFault | None, place_off_km: float) -> str:
    """Tell what is wrong in the mount's time and place."""
    said = []
    if clock is not None:
        said.append(f"The mount's {_clock(clock, clock_off)}.")
    if place is not None:
        said.append(f"{_PLACES[place]}: {count_of(max(1, round(place_off_km)), 'kilometre')} off.")
    return " ".join(said)


def _clock(fault: ClockFault, off: float) -> str:
    """Return "clock is one hour ahead: perhaps its zone, or daylight saving"."""
    ahead = "ahead" if off > 0 else "behind"
    match fault:
        case "hours":
            hours, minutes = divmod(round(abs(off) * 60), 60)
            parts = [*([count_of(hours, "hour")] if hours else []), *([count_of(minutes, "minute")] if minutes else [])]
            return f"clock is {' and '.join(parts)} {ahead}: perhaps its zone, or daylight saving"
        case "date":
            return f"date is {count_of(round(abs(off)), 'day')} {ahead}"
        case "clock":
            minutes = round(abs(off))
            return f"clock is {count_of(minutes, 'minute') if minutes else 'less than a minute'} {ahead}"


def angle_words(angle_deg: float) -> str:
    """Return an angle in whole arcminutes, in degrees from two on: "twelve arcminutes", "three degrees"."""
    minutes = round(abs(angle_deg) * 60)
    if minutes < 1:
        return "less than an arcminute"
    return count_of(minutes, "arcminute") if minutes < 120 else count_of(round(minutes / 60), "degree")


def told_it_the_star(scene: Scene, *, star: str) -> str:
    """Tell that the mount knows now where it points."""
    return f"Good. I've told the mount that this is {spoken_name(star)}."


def what_the_readings_tell(scene: Scene, *, rms_deg: float, tilt_deg: float | None) -> str:
    """Tell how well the readings agree, and how far the base leans."""
    if rms_deg > FIT_TOGETHER_DEG:
        return f"By its readings the stars don't fit together, by {angle_words(rms_deg)}: one of them may be another star."
    agreed = f"By its readings the stars agree to {angle_words(rms_deg)}."
    return agreed if tilt_deg is None else f"{agreed} The base leans by {angle_words(tilt_deg)}."


def to_prove_it(scene: Scene, name: str) -> str:
    """Name the thing that proves the alignment, and where it stands."""
    sight = sky.sight(scene.find(name), scene)
    return f"To prove it: {spoken_name(name)}, {place_in_sky(sight.altitude_deg, sight.azimuth_deg)}."


def may_i_turn_there(scene: Scene, *, name: str) -> str:
    """Announce a turn and ask for it."""
    return (
        f"{to_prove_it(scene, name)} Stand more than the tube's length off, cables clear: it may swing either way round. "
        "Shall I turn it: turn there, or by hand?"
    )


def may_i_turn_there_tersely(scene: Scene, *, name: str) -> str:
    """Announce a turn in few words."""
    return f"{to_prove_it(scene, name)} Stand clear. Turn there, or by hand?"


def is_it_really_that(scene: Scene, *, name: str, away_deg: float) -> str:
    """Ask whether it points at a thing that it reads itself to be far from."""
    return f"By its own reading it points {angle_words(away_deg)} away from {spoken_name(name)}. Is it really {spoken_name(name)}?"


def where_it_points(scene: Scene, *, altitude_deg: float | None, azimuth_deg: float | None, turns: bool) -> str:
    """Tell where it says that it points, or only that it turns."""
    now = "It's turning just now. " if turns else ""
    if altitude_deg is None or azimuth_deg is None:
        return f"{now}The mount doesn't say where it points."
    return f"{now}By its own reading it points {place_in_sky(altitude_deg, azimuth_deg)}, {degrees(abs(altitude_deg))} {_up(altitude_deg)}."


def _up(altitude_deg: float) -> str:
    return "up" if altitude_deg >= 0 else "below level"


def not_turning(scene: Scene, *, why: NotTurned) -> str:
    """Tell why it isn't turned."""
    return _WHY_NOT[why]


def was_halted(scene: Scene, *, why: Halted) -> str:
    """Tell why it stands."""
    return _HALTED[why]


MOUNT = Chapter(
    phrases={
        MountOnTheLine: "The mount is on the line.",
        MountNotThere: "The mount doesn't answer. We'll begin without it, and I'll keep trying.",
        MountLineLost: mount_line_lost,
        MountLineBack: "The mount answers again.",
        ItStandsStill: "It stands still.",
        CanNotHaltIt: f"I can't halt it. {_BY_HAND}",
        WatchIt: "I told it to halt, but it doesn't say that it stands. Watch it.",
        HandsOffIt: "I won't move it or tell it anything. I only read it.",
        HandsOnAgain: "I may move it again, and I'll ask before I do.",
        ItHasTheRightOnes: "The mount has the same time and place as I have.",
        MountBelieves: mount_believes,
        GiveItTimeAndPlace: "Shall I give it the time and place?",
        ItHasThemNow: "It has my time and place now.",
        ItDidNotTakeThem: "It didn't take them, so we'll set them by hand.",
        ToldItTheStar: told_it_the_star,
        WhatTheReadingsTell: what_the_readings_tell,
        MayITurnThere: may_i_turn_there,
        WhileItTurns: "It's turning. Any key makes it stand still.",
        ItSaysItTurns: "The line says that it still turns. Look again: does it stand still?",
        ItMayStillTurn: f"It was turning when I was cut off, and may turn still. {_BY_HAND} Say: it has arrived, or it was halted.",
        DoesItStandStill: "The line says that it still turns. Does it stand still?",
        WhereItPoints: where_it_points,
        NobodyTellsWhereItPoints: "No mount is on the line, so nothing tells me. Sight along the tube, and ask what is bright there.",
        IsItReallyThat: is_it_really_that,
        NotTurning: not_turning,
        WasHalted: was_halted,
    },
    terse={MayITurnThere: may_i_turn_there_tersely},
    sayable={
        TurnAnswer: ("turn there", "by hand"),
        TurningAnswer: ("it has arrived", "it was halted"),
    },
    step_help={
        GiveItTimeAndPlace: "Then nothing need be keyed. Yes gives it mine, no leaves it as it is.",
        MayITurnThere: "I turn it only when you say turn there. By hand means you send it from its own controls.",
        WhileItTurns: "I watch it on its way. When it has arrived I'll ask what you see.",
        DoesItStandStill: "Look at the tube. Yes where nothing moves, no where it turns.",
        IsItReallyThat: "Yes and I believe you. No, and I tell you again where it stands.",
        ItSaysItTurns: "Say it has arrived when nothing moves any more.",
    },
)
