"""English for firm ground, caps and cables, and for lining the finder up with the tube."""

from __future__ import annotations

import math
from typing import Literal

from companion import alignment, places, sky
from companion.languages.en.direction_words import FEET_PER_METRE, compass_point, fists
from companion.languages.en.north_words import find_the_pole_star
from companion.languages.en.number_words import cardinal
from companion.languages.phrase import Chapter, Scene
from companion.talk.answers import FinderCheckAnswer, MarkAnswer
from companion.talk.ground_phrases import (
    CablesAndFrost,
    CapBothAgain,
    CapsAndCooling,
    CapsAndTheSun,
    CentreTheMark,
    CheckAtHigherPower,
    ClampAndBalance,
    LegsAndGround,
    LevelTheTripod,
    MindTheWeight,
    PickAFarMark,
    PickAMarkAfterDark,
    PutItOn,
    ShallWeDoTheFinder,
    TakeAFartherMark,
    TurnTheFinderScrews,
)


def caps_and_cooling(scene: Scene) -> str:
    """Say what stays capped, and what may come off."""
    if sky.sun_state(scene).is_up:
        return "The Sun is up: keep both caps on, tube and finder, until I tell you. Dew shield on. Ready?"
    return "Caps off, dew shield on, and let the tube cool: half an hour does it good. Ready?"


def level_the_tripod(scene: Scene, *, measures_its_lean: bool = False) -> str:
    """Level the tripod's top; a mount that finds its own position needs it only roughly."""
    if measures_its_lean:
        return "Level its top by eye or bubble: your mount measures a small lean itself, and finds its way sooner. Say when it's level."
    return "Level its top by the bubble, or by a spirit level laid two ways. Say when it's level."


def far_off(scene: Scene, metres: float) -> str:
    """Return a distance to stay beyond, in the place's measure, rounded up so that it can be judged: "at least one hundred metres off"."""
    if places.customs(scene.site).feet:
        return f"at least {cardinal(math.ceil(metres * FEET_PER_METRE / 100) * 100)} feet off"
    return f"at least {cardinal(math.ceil(metres / 50) * 50)} metres off"


def pick_a_far_mark(scene: Scene, *, metres: float) -> str:
    """Say what to line the finder up on by day."""
    return (
        f"Pick something that doesn't move, {far_off(scene, metres)}: a mast, a roof corner. "
        "Get it sharp in the eyepiece with the largest number on it. Got one?"
    )


def pick_a_mark_after_dark(scene: Scene, *, mark: Literal["Polaris", "Moon", "lamp"], metres: float) -> str:
    """Say what to line the finder up on after dark."""
    if mark == "lamp":
        return f"Take a lamp {far_off(scene, metres)}. Get it sharp in the eyepiece with the largest number on it. Got one?"
    if mark == "Polaris" and (way := alignment.pole_way(scene)) is not None:
        focus = "It hardly drifts. Get it sharp in the eyepiece with the largest number on it. Got it?"
        return f"Take the pole star. {find_the_pole_star(scene, way)} {focus}"
    sight = sky.sight(sky.find(mark), scene)
    where = f"in the {compass_point(sight.azimuth_deg)}, {fists(sight.altitude_deg, scene.fist_deg)} up"
    if mark == "Moon":
        return f"Take the Moon, {where}. It drifts, so be brisk. Get it sharp in the eyepiece with the largest number on it. Got it?"
    return f"Take the pole star, {where}: it hardly drifts. Get it sharp in the eyepiece with the largest number on it. Got it?"


GROUND = Chapter(
    phrases={
        MindTheWeight: "First the tripod alone. In the dark, watch for cables and tripod legs.",
        LegsAndGround: "Tripod on firm ground, fully spread, every lock tight. Ready?",
        LevelTheTripod: level_the_tripod,
        PutItOn: (
            "It's heavy: lift with bent knees. Set the mount on the tripod, and tighten the screw below. "
            "Then the tube: slide its rail in, and hold it until the knob is tight. Ready?"
        ),
        ClampAndBalance: (
            "Put in the eyepiece with the largest number on it. "
            "Hold the tube whenever you loosen a clamp. Balance it, then tighten the clamp. Ready?"
        ),
        CablesAndFrost: "Leave slack in every cable. Keep cables out of your path. In frost, touch no bare metal with bare hands. Ready?",
        CapsAndCooling: caps_and_cooling,
        ShallWeDoTheFinder: "Shall we line up the finder, the small sight on the side, with the tube?",
        CapsAndTheSun: "The Sun is up. Point the tube well away from it, then uncap. Cap both before any motor turns the tube.",
        PickAFarMark: pick_a_far_mark,
        PickAMarkAfterDark: pick_a_mark_after_dark,
        TakeAFartherMark: "It's too near, or the focuser needs more travel. Take something further off. Got one?",
        CentreTheMark: "Move the tube until it's in the middle of the view. Tighten the clamp. Ready?",
        TurnTheFinderScrews: "Leave the tube alone now. Turn the finder's screws until its cross or dot sits there. Snug them. Ready?",
        CheckAtHigherPower: "Check with a higher-power eyepiece: centre it there, then look through the finder. Still on it?",
        CapBothAgain: "Good. Cap both again, tube and finder.",
    },
    terse={
        MindTheWeight: "First the tripod.",
        LegsAndGround: "Are the legs locked?",
        LevelTheTripod: "Say when its top is level.",
        PutItOn: "Lift with bent knees. Are the mount and the tube on, and tight?",
        ClampAndBalance: "Hold the tube. Is it balanced and clamped?",
        CablesAndFrost: "Are the cables slack?",
        ShallWeDoTheFinder: "Shall we line up the finder?",
        CentreTheMark: "Centre it in the eyepiece, tighten the clamp. Ready?",
        TurnTheFinderScrews: "Turn the finder's screws, not the tube. Ready?",
        CheckAtHigherPower: "At higher power, is the finder still on it?",
    },
    sayable={
        MarkAnswer: ("got one", "it won't focus"),
        FinderCheckAnswer: ("still on it", "it has moved"),
    },
    step_help={
        LegsAndGround: "A leg that slips or sinks throws everything off later. Grass is better than sand, stone is better than grass.",
        LevelTheTripod: "What stands level turns true and can't tip. The bubble runs to the high side: make that leg shorter.",
        PutItOn: "If it comes as one piece, set it on whole. Shake it gently before you let go.",
        ClampAndBalance: "A tube that tips by itself is out of balance: slide it in its clamp.",
        CablesAndFrost: "A tight cable pulls the mount off its place. Skin freezes to metal in hard frost.",
        CapsAndCooling: "A warm tube in cold air makes the stars swim. The dew shield keeps the glass dry.",
        ShallWeDoTheFinder: "Once finder and tube show the same thing, every star is easy. Say yes to do it, or no if it's already good.",
        PickAFarMark: "Too near, and finder and tube look past each other: they sit a hand's breadth apart.",
        PickAMarkAfterDark: "Any fixed light far away will do. Too near, and finder and tube look past each other.",
        TakeAFartherMark: "What is near needs more focus travel than the telescope has.",
        CentreTheMark: "The low-power eyepiece is the one with the largest number on it.",
        TurnTheFinderScrews: "Turn one screw out before you turn the opposite one in.",
        CheckAtHigherPower: "Say: still on it, if the finder agrees. Say: it has moved, and we turn the screws again.",
    },
)
