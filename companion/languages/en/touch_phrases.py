"""English for who sees nothing: by touch and ear. A talking phone or compass, a level with a raised mark, keys by feel."""

from __future__ import annotations

from typing import Literal

from companion import sky
from companion.equipment import CompassKind
from companion.languages.en.direction_words import compass_point, fists
from companion.languages.en.number_words import cardinal
from companion.languages.en.pose_phrases import compass_shown
from companion.languages.en.story import story_of_a_target
from companion.languages.phrase import Chapter, Scene
from companion.talk import centring_phrases as centring
from companion.talk import ground_phrases as ground
from companion.talk import night_phrases as night
from companion.talk import packing_phrases as packing
from companion.talk import pose_phrases as pose
from companion.talk import stars_phrases as stars
from companion.talk import targets_phrases as targets
from companion.talk.answers import ArrowByCableAnswer, KeyPlaceAnswer
from companion.talk.settings_phrases import BeforeTheSettings
from companion.talk.sight_phrases import ConfirmKeyAt, NobodyLooks, WhereIsTheConfirmKey, WhichArrowIsByTheCable


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


def face_true_north(scene: Scene, *, compass: CompassKind | Literal["unknown"] = "unknown") -> str:
    """Have north found with a talking compass and a cord."""
    shown = compass_shown(scene, "card" if compass == "needle" else compass)
    if shown is None:
        return "Now true north. I don't know how far off a compass is on that date. Ask for another way."
    return (
        "Now true north. Tie a cord to the tripod, and step back five paces with its end. "
        f"Move round until a talking compass, facing the tripod along the cord, says {shown}. "
        "Lay the tube along the cord, pointing away from where you stood, and take the cord up: it trips."
    )


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


TOUCH = Chapter(
    phrases={
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
        ground.LevelTheTripod: "Lay a talking phone flat on its top, or a level with a raised mark, two ways. Say when it's level.",
        ground.ClampAndBalance: (
            "Put in the largest eyepiece. Hold the tube whenever you loosen a clamp. Balance it, then tighten the clamp. Ready?"
        ),
        ground.CapsAndCooling: caps_and_cooling,
        ground.CapsAndTheSun: caps_and_the_sun,
        ground.ShallWeDoTheFinder: (
            "Lining up the finder needs an eye. If somebody is with you, say: someone looks for me. Alone say no. Shall we do it?"
        ),
        pose.LevelTheBase: (
            "Now the start position. The weight may have moved it: lay the talking phone, or the raised mark, on the base. "
            "Say when it's level."
        ),
        pose.LevelAgain: "From the start position again. The talking phone, or the raised mark, on the base: say when it's level.",
        pose.FaceTrueNorth: face_true_north,
        pose.NorthByLandmark: "Take a wall or a street whose direction you know, and lay the tube along north. Say facing north.",
        pose.WhatDoesItRead: "Step well back along the cord, and face the tripod. What does the talking compass say?",
        pose.LevelTheTube: "Lay the talking phone, or the raised mark, along the tube. Say when the tube is level.",
        pose.TubeLevelAgain: "And the tube, by the phone or the raised mark along it. Say when the tube is level.",
        BeforeTheSettings: (
            "Now the settings. Have the display read to you, by someone or by a phone, and tell me what it asks for. "
            "Key what I say by feel, then say next line."
        ),
        stars.WhatDoesTheMountSay: "Have the display read. Did it accept the alignment, refuse it, or does it want another star?",
        centring.ConfirmStar: confirm_star,
        targets.SteerByHand: "The mount doesn't know the sky tonight. I tell you what stands up there.",
        night.IntroduceTarget: story_of_a_target,
        packing.SearchTheGround: "Now feel the ground where the tripod stood, with a flat hand: caps, screws, eyepieces. Done?",
        packing.WhereThingsHide: "Stand still first. Feel in the focuser and your pockets, then around your feet.",
    },
    relayed={
        ground.CapsAndCooling: caps_and_cooling,
        ground.CapsAndTheSun: caps_and_the_sun,
        packing.SearchTheGround: "Eyes: a bright torch, and the ground where the tripod stood: caps, screws, eyepieces. Done?",
    },
    sayable={
        ArrowByCableAnswer: ("the down arrow", "up", "I can't tell"),
        KeyPlaceAnswer: ("row three key two", "I can't tell"),
    },
    step_help={
        WhichArrowIsByTheCable: "I name the arrows by where they lie. If you don't know which is which, say: I can't tell.",
        WhereIsTheConfirmKey: "It may say enter, okay or select. Ask once who can read it; I keep it. Or say: I can't tell.",
        NobodyLooks: "A child's eyes will do. Or skip this, and say next target for a story.",
    },
)
