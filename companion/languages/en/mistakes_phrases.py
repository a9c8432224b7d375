"""English for finding out why the mount missed: hand measures back, readings of the hand control, causes and remedies."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from typing import Literal

from companion.diagnosis import About, Cause, Cure
from companion.equipment import CompassKind
from companion.languages.en import clock_words
from companion.languages.en.cause_words import cause_in_words
from companion.languages.en.check_words import found_in_words, question_about, what_to_do
from companion.languages.en.direction_words import degrees, sentence
from companion.languages.en.settings_phrases import key_the_time
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.talk.answers import CheckAnswer, FacingAnswer, GroundAnswer, KnockAnswer, MissAnswer
from companion.talk.mistakes_phrases import (
    AnOrdinaryMiss,
    AnotherStarWillTell,
    CheckThis,
    CorrectThat,
    FairlySureOfTheCause,
    IsItsTimeRight,
    IsTheGroundSoft,
    KeyOurTimeAgain,
    MendThese,
    MissHeard,
    NorthWasALittleOff,
    OneAnswerDoesntFit,
    OneOfTheseCauses,
    PerhapsOurOwnClock,
    StillUnsure,
    ThatIsIt,
    ThatStarIsDown,
    WasItKnocked,
    WhereWasTheLastStar,
    WhichWayAndHowFar,
    WhichWayDidItFace,
)


def which_way_and_how_far(scene: Scene, *, star: str) -> str:
    """Ask for the miss in hand measures."""
    return f"Sight along the tube. How many fists left or right is {spoken_name(star)}? And up or down?"


def where_was_the_last_star(scene: Scene, *, star: str) -> str:
    """Ask for the last star's miss afterwards."""
    return f"When the mount stood still, how many fists left or right of the tube was {spoken_name(star)}? And up or down?"


def miss_heard(scene: Scene, *, right_deg: float | None, up_deg: float | None, turn_deg: float | None) -> str:
    """Say the miss back, so that a wrong one is noticed: a turn as a turn, the rest in degrees."""
    if right_deg is None and up_deg is None and turn_deg is None:
        return "Not to be seen at all."
    parts = [] if turn_deg is None else [_turn(turn_deg)]
    if right_deg is not None and round(right_deg):
        parts.append(f"{degrees(abs(right_deg))} {'right' if right_deg > 0 else 'left'}")
    if up_deg is not None and round(up_deg):
        parts.append(f"{degrees(abs(up_deg))} {'up' if up_deg > 0 else 'down'}")
    return sentence(", ".join(parts)) if parts else "Hardly off."


def _turn(turn_deg: float) -> str:
    """Return by how much one turns to face it."""
    side = "right" if turn_deg > 0 else "left"
    if abs(turn_deg) > 160:
        return "behind you"
    return f"behind you, on the {side}" if abs(turn_deg) > 110 else f"{'a' if abs(turn_deg) > 70 else 'half a'} quarter turn {side}"


def check_this(scene: Scene, *, about: About, star: str, instead: str | None, compass: CompassKind | Literal["unknown"]) -> str:
    """Ask whether something is as it should be."""
    return question_about(about, scene, star, instead or star, compass)


def is_its_time_right(scene: Scene) -> str:
    """Ask for the time it shows."""
    return question_about("time", scene)


def which_way_did_it_face(scene: Scene) -> str:
    """Ask how the tube stood at the start."""
    return question_about("facing", scene)


def still_unsure(scene: Scene, *, found_right: tuple[Cure, ...], perhaps: tuple[Cause, ...]) -> str:
    """Say that it isn't known, what is excluded, and what it may be."""
    in_part = {"latitude", "longitude"} & set(found_right)
    place = "place" if len(in_part) > 1 else "".join(in_part)
    excluded = list(dict.fromkeys(_EXCLUDED[cure].format(place=place) for cure in found_right if cure in _EXCLUDED))
    text = f"I can't tell yet. It isn't {', nor '.join(excluded[:_IN_A_BREATH])}." if excluded else "I can't tell yet."
    more = excluded[_IN_A_BREATH:]
    if more:
        text += f" Nor {', nor '.join(more)}."
    return f"{text} Perhaps {', or '.join(map(cause_in_words, perhaps))}." if perhaps else text


_IN_A_BREATH = 4
"""So many things are listed in one sentence."""
_EXCLUDED: Mapping[Cure, str] = {
    "bubble": "the base",
    "tube_level": "the level of the tube",
    "time": "the time",
    "daylight_saving": "daylight saving",
    "time_zone": "the zone",
    "date": "the date",
    "latitude": "the {place}",
    "longitude": "the {place}",
    "star": "the star",
    "clamps": "the clamps",
}


def fairly_sure_of_the_cause(scene: Scene, *, cause: Cause) -> str:
    """Name a cause we are fairly sure of."""
    return f"I'm fairly sure: {cause_in_words(cause)}."


def that_is_it(scene: Scene, *, found_wrong: tuple[Cure, ...], sure: bool) -> str:
    """Say that what was found wrong is the cause."""
    return f"{found_in_words(found_wrong)} " + ("I'm fairly sure that's it." if sure else "That may well be it.")


def one_of_these_causes(scene: Scene, *, causes: tuple[Cause, ...], sure: bool) -> str:
    """Name the likeliest causes, honestly."""
    first, *others = (cause_in_words(cause) for cause in causes)
    text = f"Most likely {first}." if sure or not others else f"I can't tell for certain. Most likely {first}."
    for other, how in zip(others, ("It could also be that", "Or that"), strict=False):
        text += f" {how} {other}."
    return text


def mend_these(scene: Scene, *, cures: tuple[Cure, ...], star: str, compass: CompassKind | Literal["unknown"], minutes: int) -> str:
    """Say the least that must be done again, in the order to do it in, and wait for it."""
    steps = [what_to_do(cure, scene, star, compass) for cure in cures if cure != "none"]
    if minutes:
        size = clock_words.duration(timedelta(minutes=abs(minutes)))
        steps.insert(0, f"Its clock is {size} {'ahead' if minutes > 0 else 'behind'}.")
    again = "Begin the alignment again." if cures == ("star",) else "Then begin the alignment again, from level and north."
    return f"{' '.join(steps)} {again} The finder is still good. Say ready."


def that_star_is_down(scene: Scene, *, star: str) -> str:
    """Say that the mount offers a star below the horizon."""
    return f"{spoken_name(star)} is below the horizon now. With correct settings the mount wouldn't offer it."


def key_our_time_again(scene: Scene, *, hours: Literal[12, 24] | None) -> str:
    """Say the corrected time once more, for the hand control has the wrong one from us."""
    return f"Then the handset has the wrong time from me. Set it again. {key_the_time(scene, hours=hours)} Begin from level and north."


MISTAKES = Chapter(
    phrases={
        WhichWayAndHowFar: which_way_and_how_far,
        WhereWasTheLastStar: where_was_the_last_star,
        ThatStarIsDown: that_star_is_down,
        MissHeard: miss_heard,
        CheckThis: check_this,
        IsItsTimeRight: is_its_time_right,
        WhichWayDidItFace: which_way_did_it_face,
        IsTheGroundSoft: lambda scene: question_about("soft_ground", scene),
        WasItKnocked: lambda scene: question_about("knocked", scene),
        CorrectThat: "Correct that now. One thing more.",
        AnOrdinaryMiss: "That can happen with nothing wrong. Steer it there with the arrows.",
        NorthWasALittleOff: "North was a little off. The mount takes that in: steer the star there with the arrows.",
        StillUnsure: still_unsure,
        AnotherStarWillTell: "Leave this one. Another star will tell.",
        FairlySureOfTheCause: fairly_sure_of_the_cause,
        OneAnswerDoesntFit: "Where the stars lay doesn't fit what you found. So look at this once more.",
        OneOfTheseCauses: one_of_these_causes,
        ThatIsIt: that_is_it,
        PerhapsOurOwnClock: "If all that is correct on the handset, my own clock may be wrong. Compare it with your watch.",
        KeyOurTimeAgain: key_our_time_again,
        MendThese: mend_these,
    },
    sayable={
        MissAnswer: ("a fist left and two fingers up", "a quarter turn right", "it's behind me", "nowhere near", "same as last time"),
        CheckAnswer: ("yes", "no", "I can't tell"),
        FacingAnswer: ("north", "south", "I can't tell"),
        GroundAnswer: ("yes", "it's on grass", "it's on concrete", "I can't tell"),
        KnockAnswer: ("yes", "no", "I can't tell"),
    },
    step_help={
        WhichWayAndHowFar: "Stretch your arm out. A fist spans ten degrees, three fingers five. Say right or left, then up or down.",
        WhereWasTheLastStar: "Stretch your arm out. A fist spans ten degrees, three fingers five. Skip this if you don't remember.",
        CheckThis: "Look, and say yes if it is as I say, no if not. If you can't tell, say so.",
        IsItsTimeRight: "Call up the time on the handset. Say yes or no, or read it to me, hours and minutes.",
        WhichWayDidItFace: "The front is the end that looks at the sky. Which way it faced just before you switched on.",
        IsTheGroundSoft: "On soft ground a leg sinks while you work, and the base leans. Feel under the feet of the tripod.",
        WasItKnocked: "A foot against a leg is enough, or an elbow against the tube. Say yes if anything touched it hard.",
        KeyOurTimeAgain: "It had my time, and mine was wrong. Only time and date must be set again.",
        MendThese: "Only that must be done again. Say ready when it is done.",
    },
)
