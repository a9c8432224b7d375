"""English for who sees little or nothing: by touch and ear. A talking phone or compass, a level with a raised mark, keys by feel."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from companion import sky
from companion.equipment import CompassKind, LevelAid
from companion.languages.en.centring_phrases import ARROWS, press_these_keys
from companion.languages.en.direction_words import compass_point, fists, sentence
from companion.languages.en.number_words import cardinal
from companion.languages.en.pose_phrases import compass_shown
from companion.languages.en.sight_words import where_to_look
from companion.languages.en.spoken_names import spoken_name
from companion.languages.en.story import story_of_a_target
from companion.languages.phrase import Chapter, Phrase, Scene, Spoken
from companion.sky import Kind
from companion.talk import centring_phrases as centring
from companion.talk import equipment_phrases as equipment
from companion.talk import ground_phrases as ground
from companion.talk import night_phrases as night
from companion.talk import observation_phrases as observation
from companion.talk import packing_phrases as packing
from companion.talk import pose_phrases as pose
from companion.talk import stars_phrases as stars
from companion.talk import targets_phrases as targets
from companion.talk.answers import (
    ArrowByCableAnswer,
    KeyPlaceAnswer,
    LevelAidAnswer,
)
from companion.talk.centring_phrases import OPPOSITE, ArrowKey
from companion.talk.kinds import BY_EYE, FOR_AN_EYE
from companion.talk.settings_phrases import BeforeTheSettings
from companion.talk.sight_phrases import (
    AidNoted,
    ConfirmKeyAt,
    NobodyLooks,
    WhatTellsYouLevel,
    WhereIsTheConfirmKey,
    WhichArrowIsByTheCable,
)

_LEVELS: Mapping[LevelAid | None, str] = {
    "phone": "the talking phone",
    "mark": "the raised mark",
    "none": "the book and the marble",
    None: "the talking phone, or the raised mark,",
}


def where_the_sun_is(scene: Scene) -> str:
    """Say where the Sun stands, for who can't see it."""
    sun = sky.sight(sky.SUN, scene)
    return f"The Sun stands in the {compass_point(sun.azimuth_deg)}, {fists(sun.altitude_deg, scene.fist_deg)} up."


def caps_and_cooling(scene: Scene) -> str:
    """Say what stays capped, and where the Sun is while it is up."""
    if sky.sun_state(scene).is_up:
        return f"{where_the_sun_is(scene)} Keep both caps on, tube and finder, until I tell you. Dew shield on. Ready?"
    return "Caps off, dew shield on, and let the tube cool: half an hour does it good. Ready?"


def caps_and_the_sun(scene: Scene) -> str:
    """Say where the Sun is before anything is uncapped, and what must not be done."""
    return (
        f"{where_the_sun_is(scene)} Nobody looks towards it, not for a moment. "
        "Point the tube well away from it, then uncap. Cap both before any motor turns the tube."
    )


def level_the_tripod(scene: Scene, *, measures_its_lean: bool = False) -> str:
    """Have the tripod levelled by what there is for it."""
    match scene.level_aid:
        case "phone":
            how = "Lay the talking phone flat on its top, two ways."
        case "mark":
            how = "Lay the level with the raised mark on its top, two ways."
        case "none":
            how = "Lay a stiff book on its top, and a marble on the book. It rolls to the low side: make that leg longer."
        case None:
            how = "Lay a talking phone flat on its top, or a level with a raised mark, two ways."
    return f"{how} Say when it's level."


def level_the_base(scene: Scene) -> str:
    """Have the base tried again, now that the weight is on it."""
    return f"Now the start position. The weight may have moved it: {_LEVELS[scene.level_aid]} on the base again. Say when it's level."


def level_again(scene: Scene) -> str:
    """Begin the start position again."""
    return f"From the start position again: {_LEVELS[scene.level_aid]} on the base. Say when it's level."


def level_the_tube(scene: Scene) -> str:
    """Have the tube levelled."""
    return f"Lay {_LEVELS[scene.level_aid]} along the tube. Say when the tube is level."


def tube_level_again(scene: Scene) -> str:
    """Have it levelled once more."""
    return f"And the tube, by {_LEVELS[scene.level_aid].rstrip(',')} along it. Say when the tube is level."


def keys_by_feel(scene: Scene, *, keys: tuple[ArrowKey, ...], last: tuple[ArrowKey, ...]) -> str:
    """Name the keys, and where one of them lies."""
    return f"{press_these_keys(scene, keys=keys, last=last)}{where_keys_lie(scene, keys)}"


def where_keys_lie(scene: Scene, keys: tuple[ArrowKey, ...]) -> str:
    """Say where one of the keys lies, for who can't see them and has told once."""
    by_cable = None if scene.sight is None else scene.mount.arrow_by_cable
    if by_cable in keys:
        return f" The {ARROWS[by_cable]} arrow is nearest the cable."
    if by_cable is not None and (across := OPPOSITE[by_cable]) in keys:
        return f" The {ARROWS[across]} arrow is farthest from the cable."
    return ""


def find_it_wide(scene: Scene, *, watch: bool) -> str:
    """Have the star steered into the finder, or made as large as it can be."""
    return (
        "When it has turned, steer the star to the middle of the finder. "
        "If that is too dim, take the low-power eyepiece, out of focus: there it is a large disc. "
        "Is it there, not yet, or can't you see it?"
    )


def centre_it_wide(scene: Scene, *, star: str, first: bool, last: tuple[ArrowKey, ...]) -> str:
    """Have a disc centred instead of a point: that takes less sight, and is no less exact."""
    if star == sky.MOON.name:
        return "Now the low-power eyepiece. It dazzles but does no harm. Bring the middle of its whole disc to the middle. Is it centred?"
    if not first:
        return "Now the eyepiece, slowly. Is its disc in the middle?"
    return (
        "Now the low-power eyepiece, and a slow speed. Turn the focuser until the star is a large disc, and bring that to the middle. "
        "To hear which key to press, say: which arrow. Is it centred?"
    )


def face_true_north(scene: Scene, *, compass: CompassKind | Literal["unknown"] = "unknown") -> str:
    """Have north found with a talking compass and a cord."""
    shown = compass_shown(scene, "card" if compass == "needle" else compass)
    if shown is None:
        return "Now true north. I don't know how far off a compass is on that date. Ask for another way."
    return (
        "Now true north. Tie a cord to the tripod, and step back five paces with its end. "
        f"Move round until {'a' if compass == 'unknown' else 'the'} talking compass, facing the tripod along the cord, says {shown}. "
        "Lay the tube along the cord, pointing away from where you stood, and take the cord up: it trips."
    )


def face_true_north_tersely(scene: Scene, *, compass: CompassKind | Literal["unknown"] = "unknown") -> str:
    """Say only what the compass must say."""
    shown = compass_shown(scene, "card" if compass == "needle" else compass)
    if shown is None:
        return "True north, without the compass. Ask for another way."
    return f"Cord to the tripod: facing it, the compass must say {shown}. Lay the tube along the cord, and away from you. Take the cord up."


def where_it_stands(scene: Scene, *, target: str, kind: Kind) -> str:
    """Say where a target is; nobody looks for it."""
    return f"{sentence(spoken_name(target))} {where_to_look(sky.sight(scene.find(target), scene), scene.fist_deg)}"


def confirm_star(scene: Scene, *, star: str, key: str | None) -> str:
    """Say that it must be confirmed, by where the key lies."""
    row, place = scene.mount.confirm_row, scene.mount.confirm_key_in_row
    if row is None or place is None:
        return f"Good. Press {key}." if key else "Good. Confirm it on the handset."
    return f"Good. Confirm it: {_key_at(row, place)}."


def confirm_key_at(scene: Scene, *, row: int, key: int) -> str:
    """Confirm where the key that confirms lies."""
    return f"Noted: you confirm with {_key_at(row, key)}."


def _key_at(row: int, key: int) -> str:
    return f"row {cardinal(row)} from the cable, key {cardinal(key)}"


def nobody_looks(scene: Scene, *, linked: bool) -> str:
    """Say honestly what can't be done where nobody sees, and what can."""
    line = "A mount on the line still takes time and place from me. " if linked else ""
    return (
        "Now a star must be centred, and that needs an eye: alone, without sight, it can't be done. "
        f"{line}The stories, the times and the directions remain. "
        "If somebody comes, say: someone looks for me. Say ready then, or: skip this."
    )


_BY_TOUCH: Mapping[Spoken, Phrase] = {
    ground.LevelTheTripod: level_the_tripod,
    ground.ClampAndBalance: (
        "Put in the largest eyepiece. Hold the tube whenever you loosen a clamp. Balance it, then tighten the clamp. Ready?"
    ),
    ground.CapsAndCooling: caps_and_cooling,
    ground.CapsAndTheSun: caps_and_the_sun,
    pose.LevelTheBase: level_the_base,
    pose.LevelAgain: level_again,
    pose.FaceTrueNorth: face_true_north,
    pose.NorthByLandmark: "Take a wall or a street whose direction you know, and lay the tube along north. Say facing north.",
    pose.WhatDoesItRead: "Step well back along the cord, and face the tripod. What does the talking compass say?",
    pose.NorthAgain: "Now the tube to north, by the cord as before. Say facing north.",
    pose.LevelTheTube: level_the_tube,
    pose.TubeLevelAgain: tube_level_again,
    equipment.WhichCompass: "What tells you north: a talking phone, a talking compass, or no compass?",
    BeforeTheSettings: (
        "Now the settings. Have the display read to you, by someone or by a phone, and tell me what it asks for. "
        "Key what I say by feel, then say next line."
    ),
    stars.WhatDoesTheMountSay: "Have the display read. Did it accept the alignment, refuse it, or does it want another star?",
    centring.ConfirmStar: confirm_star,
    centring.PressTheseKeys: keys_by_feel,
    packing.SearchTheGround: "Now feel the ground where the tripod stood, with a flat hand: caps, screws, eyepieces. Done?",
    packing.WhereThingsHide: "Stand still first. Feel in the focuser and your pockets, then around your feet.",
}
"""What takes fine sight, and is done without: for who sees little, too."""

_NOT_ALONE = "That takes an eye. Say: someone looks for me. Or say next target, for its story."

TOUCH = Chapter(
    phrases={
        AidNoted: "Good: we go by that.",
        WhatTellsYouLevel: "What tells you when something is level: a talking phone, a level with a raised mark, or neither?",
        WhichArrowIsByTheCable: (
            "Take the handset, and find the four arrow keys. Which of them is nearest the cable: up, down, left or right?"
        ),
        WhereIsTheConfirmKey: (
            "Hold it with the cable away from you. Count rows from the cable, then keys from the left-hand side. "
            "Where is the key that confirms? Say it like: row three, key two."
        ),
        ConfirmKeyAt: confirm_key_at,
        NobodyLooks: nobody_looks,
    },
    by_touch={
        **_BY_TOUCH,
        ground.ShallWeDoTheFinder: (
            "Lining up the finder needs an eye. If somebody is with you, say: someone looks for me. Alone say no. Shall we do it?"
        ),
        targets.SteerByHand: "The mount doesn't know the sky tonight. I tell you what stands up there.",
        night.IntroduceTarget: story_of_a_target,
    },
    where_nobody_sees={
        **dict.fromkeys(FOR_AN_EYE, "This needs an eye. Say: someone looks for me. Or, to go on to the stories: leave this part."),
        night.FindTarget: where_it_stands,
        night.LookAtIt: "What it looks like you have heard. Say next target, or show me, and a name.",
        observation.HowDidItShow: "For who looked: easily, only just, suspected, or not at all? If nobody did, say skip this.",
        **dict.fromkeys(BY_EYE, _NOT_ALONE),
    },
    by_touch_tersely={
        ground.LevelTheTripod: "Say when its top is level.",
        ground.ClampAndBalance: "Hold the tube. Is it balanced and clamped?",
        pose.LevelTheBase: "The base once more: say when it's level.",
        pose.FaceTrueNorth: face_true_north_tersely,
        pose.LevelTheTube: "Bring the tube level.",
        BeforeTheSettings: "Now the settings.",
        packing.SearchTheGround: "Feel the ground for caps and screws. Done?",
    },
    in_poor_sight={
        **_BY_TOUCH,
        centring.IsItInTheFinder: find_it_wide,
        centring.IsItCentred: centre_it_wide,
    },
    relayed={
        ground.CapsAndCooling: caps_and_cooling,
        ground.CapsAndTheSun: caps_and_the_sun,
        packing.SearchTheGround: "Eyes: a bright torch, and the ground where the tripod stood: caps, screws, eyepieces. Done?",
    },
    sayable={
        LevelAidAnswer: ("a talking phone", "a raised mark", "neither"),
        ArrowByCableAnswer: ("the down arrow", "up", "I can't tell"),
        KeyPlaceAnswer: ("row three key two", "I can't tell"),
    },
    step_help={
        WhatTellsYouLevel: "I ask once, and tell you then how to use it. A phone that says its slope is one. Say neither if you have none.",
        WhichArrowIsByTheCable: "I name the arrows by where they lie. If you don't know which is which, say: I can't tell.",
        WhereIsTheConfirmKey: "It may say enter, okay or select. Ask once who can read it; I keep it. Or say: I can't tell.",
        NobodyLooks: "A child's eyes will do. Or skip this, and say next target for a story.",
    },
    help_by_touch={
        ground.LevelTheTripod: "What stands level turns true and can't tip. Make the leg on the low side longer.",
        pose.LevelTheBase: "The screws of the tripod's head or its legs bring it level. A finger's tilt is a finger's error.",
        pose.FaceTrueNorth: (
            "The cord keeps you in line with the tripod, and the compass away from its metal. Without a compass, say another way."
        ),
        pose.NorthByLandmark: "Ask somebody which way a street runs, or use a map that talks. The mount mends a rough north at two stars.",
        pose.NorthAgain: "By the same cord and compass, or the same wall. Or say another way.",
        pose.LevelTheTube: "Tilt it gently with the clamp a little loose, and tighten it again. Hold the tube all the while.",
        pose.TubeLevelAgain: "As before: the clamp a little loose, a hand on the tube.",
        pose.SwitchOn: "Plug in, press the switch, and listen: most mounts hum or beep. A warm handset is on. Or have somebody look.",
        pose.SayWhenItIsOn: "Listen for a hum or a beep, or have somebody look at the handset. If it stays dead, say: it won't turn on.",
        ground.ShallWeDoTheFinder: "Finder and tube must show the same thing, which needs an eye. Alone say no: it keeps.",
        equipment.WhichCompass: "They read differently away from true north, so I'll tell you what yours must say.",
        equipment.WhichNorthDoesThePhoneShow: "Have the compass settings read to you. If they don't name true north, it's magnetic north.",
        stars.WhatDoesTheMountSay: "A phone that reads print aloud will do, or anybody who passes. Or say skip this.",
    },
)
