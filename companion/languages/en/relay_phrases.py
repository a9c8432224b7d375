"""English for two: what concerns the eye is said to "eyes", short enough for a child, what concerns hands to "hands".

Each last sentence stands alone, for it is what is asked again.
"""

from __future__ import annotations

from typing import Literal

from companion import alignment, sky
from companion.equipment import CompassKind, StarChoice
from companion.languages.en.centring_phrases import press_these_keys
from companion.languages.en.direction_words import sentence
from companion.languages.en.ground_phrases import far_off
from companion.languages.en.night_phrases import introduce_target
from companion.languages.en.pose_phrases import compass_shown
from companion.languages.en.sight_words import describe, describe_rivals
from companion.languages.en.spoken_names import spoken_name
from companion.languages.en.stars_phrases import how_it_chooses
from companion.languages.en.touch_phrases import where_keys_lie
from companion.languages.phrase import Chapter, Scene
from companion.talk import centring_phrases as centring
from companion.talk import ground_phrases as ground
from companion.talk import night_phrases as night
from companion.talk import pose_phrases as pose
from companion.talk import stars_phrases as stars
from companion.talk import targets_phrases as targets
from companion.talk.centring_phrases import ArrowKey
from companion.talk.settings_phrases import BeforeTheSettings

_WHERE = "say yes if it's in the middle, else where, like on a clock."
_NEVER_THE_SUN = "Nobody looks towards the Sun. "


def pick_a_far_mark(scene: Scene, *, metres: float) -> str:
    """Have something far off found."""
    return (
        f"Eyes: find a mast or a roof corner, {far_off(scene, metres)}. "
        "Hands: point the tube at it, then focus until eyes see it sharp. Got one?"
    )


def face_true_north(scene: Scene, *, compass: CompassKind | Literal["unknown"] = "unknown") -> str:
    """Have the compass read by the one, the tube pointed by the other."""
    shown = compass_shown(scene, compass)
    if shown is None:
        return "Now true north. I don't know how far off a compass is on that date. Ask for another way."
    where = f"until the needle's end is at {shown}" if compass == "needle" else f"until the compass reads {shown}"
    far = "something far off over its zero" if compass == "needle" else "something far off there"
    return (
        f"Now true north. Eyes: far from the tripod, turn {where}. "
        f"Eyes: find {far}. Hands: point the tube at it; a few degrees either way is fine."
    )


def switch_on(scene: Scene) -> str:
    """Warn of what may move, and have both of them clear of it."""
    both = "Take the child by the hand, both" if scene.eyes == "child" else "Both"
    return (
        f"It may move, and I can't halt it: only its own controls or its switch can. {both} clear of tube and arms. "
        "Household current only through a safety breaker, plugs off wet grass. Now switch on, and say when it's on."
    )


def before_the_stars(scene: Scene, *, choice: StarChoice) -> str:
    """Say how the stars are chosen, and the caution for both."""
    sun = _NEVER_THE_SUN if sky.sun_state(scene).is_up else ""
    return f"Now the alignment stars. {sun}When the mount turns: eyes off the eyepiece, hands off the tube. {how_it_chooses(choice)}"


def keep_people_back(scene: Scene) -> str:
    """Say where the one who looks stands, and when to look."""
    if scene.eyes == "child":
        return "The child stands behind you while it turns, and looks only when I say eyes. Never climb on the tripod."
    return "Both a step back while it turns. If anyone points with a laser: never near an aircraft."


def first_star(scene: Scene, *, star: str, from_star: str | None) -> str:
    """Introduce the first star in short."""
    return _introduced("First", scene, star)


def another_star(scene: Scene, *, star: str, from_star: str | None) -> str:
    """Introduce a further star in short."""
    return _introduced("Next", scene, star)


def _introduced(opening: str, scene: Scene, star: str) -> str:
    """Say where it stands; only what could be taken for it is named beside."""
    sight = sky.sight(sky.find(star), scene)
    words = describe(sight, scene.fist_deg)
    if sight.altitude_deg < 0:
        return f"{opening}: {words} Ask me for another."
    rivals = alignment.rivals(sight.body, scene)
    return f"{opening}: {words}{f' {describe_rivals(sight, scene, scene.fist_deg)}' if rivals else ''}"


def find_star(scene: Scene, *, star: str) -> str:
    """Help the eye to the star again."""
    sight = sky.sight(sky.find(star), scene)
    if sight.altitude_deg < 0:
        return f"{spoken_name(star)} has gone below the horizon. Say give me another."
    return f"{describe(sight, scene.fist_deg)} Eyes: look along the tube. Say when it's in the finder."


def is_it_in_the_finder(scene: Scene, *, watch: bool) -> str:
    """Have the finder looked through when the mount stands."""
    watched = "Eyes: watch which way the tube comes to rest. " if watch else ""
    return f"{watched}When it stands still, eyes to the finder. Is a bright star in the circle? {_WHERE.capitalize()}"


def see_the_finder_is_true(scene: Scene, *, star: str) -> str:
    """Have the finder's aim tried on anything bright, and set."""
    return (
        "Perhaps the finder has shifted. Steer anything bright to the middle of the eyepiece, and set the finder's screws on it. "
        f"Then steer to {spoken_name(star)} again. Eyes: is it there?"
    )


def is_it_centred(scene: Scene, *, star: str, first: bool, last: tuple[ArrowKey, ...]) -> str:
    """Send the eye to the eyepiece; the first time, hands to the focuser."""
    if star == sky.MOON.name:
        return f"Eyes to the low-power eyepiece. It dazzles but does no harm. Take the middle of its whole disc. Eyes: {_WHERE}"
    if not first:
        return f"Eyes to the eyepiece. Hands: a slow speed. Eyes: {_WHERE}"
    return (
        "Eyes to the low-power eyepiece, without touching it. Hands: a slow speed, and turn the focuser until eyes see a small point. "
        f"Eyes: {_WHERE}"
    )


def back_to_the_finder(scene: Scene, *, star: str) -> str:
    """Send the eye back to the finder."""
    return f"Eyes back to the finder. Hands: the arrows. Say when {spoken_name(star)} is in the circle again."


def keys_for_hands(scene: Scene, *, keys: tuple[ArrowKey, ...], last: tuple[ArrowKey, ...]) -> str:
    """Name the keys to the one who presses them."""
    words = press_these_keys(scene, keys=keys, last=last)
    return f"Hands: {words[0].lower()}{words[1:]}{where_keys_lie(scene, keys)}"


def proof_star(scene: Scene, *, star: str) -> str:
    """Send the mount to a third star."""
    return f"Now let's prove it. Hands: have the mount go to {sentence(describe(sky.sight(sky.find(star), scene), scene.fist_deg))}"


RELAY = Chapter(
    phrases={},
    relayed={
        ground.LevelTheTripod: "Eyes: find the bubble. Hands: shorten the leg it runs to, until it sits in its ring. Say when it's level.",
        ground.PickAFarMark: pick_a_far_mark,
        ground.ShallWeDoTheFinder: "It takes eyes and hands. Shall we line up the finder, the small sight on the side, with the tube?",
        ground.CentreTheMark: "Eyes: look in the eyepiece. Hands: move the tube until it's in the middle, and tighten the clamp. Ready?",
        ground.TurnTheFinderScrews: (
            "Leave the tube alone now. Eyes: say where it is in the finder, like on a clock. "
            "Hands: turn the finder's screws until it sits on the mark. Ready?"
        ),
        ground.CheckAtHigherPower: (
            "Hands: put in a higher-power eyepiece, and centre it there. Then eyes to the finder. Is its mark still on it?"
        ),
        pose.LevelTheBase: "Now the start position. Eyes: find the bubble on the base. Hands: bring it into its ring. Say when it's level.",
        pose.LevelAgain: "From the start position again. Eyes: is the bubble of the base in its ring? Say when it's level.",
        pose.FaceTrueNorth: face_true_north,
        pose.NorthByLandmark: "Eyes: find a landmark due north, by the map. Hands: point the tube at it. Say facing north.",
        pose.WhatDoesItRead: "Eyes: step well behind the mount, and sight along the tube. What does the compass read?",
        pose.LevelTheTube: "Hands: lay a spirit level along the tube. Eyes: say which end must come up. Say when the tube is level.",
        pose.TubeLevelAgain: "Hands: the spirit level along the tube again. Say when the tube is level.",
        pose.SwitchOn: switch_on,
        BeforeTheSettings: (
            "Now the settings. Eyes: read out each line of the display. Hands: key what I say, then say next line. "
            "If it asks for something else, tell me, like: it wants the zone."
        ),
        stars.BeforeTheStars: before_the_stars,
        stars.KeepPeopleBack: keep_people_back,
        stars.FirstStar: first_star,
        stars.AnotherStar: another_star,
        stars.FindStar: find_star,
        stars.WhatDoesTheMountSay: "Eyes: read the display. Did it accept the alignment, refuse it, or does it want another star?",
        centring.IsItInTheFinder: is_it_in_the_finder,
        centring.SteerToTheFinder: (
            f"Eyes: look along the tube, and say which way the star is. Hands: steer with the arrows. Eyes: {_WHERE}"
        ),
        centring.IsItThereNow: f"Eyes: {_WHERE}",
        centring.SteerItThere: f"Nothing wrong: that's usual. Eyes: {_WHERE}",
        centring.WhatDoYouSee: "Eyes: what is there instead? All black, a blur, other stars, a cloud, a tree, or no dot?",
        centring.CapsAndDew: (
            "Hands: feel that both caps are off. Clear dew with warm air, and never wipe it. Eyes: is it in the finder now?"
        ),
        centring.SwitchTheDotOn: (
            "Hands: turn the little wheel on the finder. If it stays dark, its battery is dead. Eyes: is the star on the dot?"
        ),
        centring.SweepForIt: (
            "Eyes to the low-power eyepiece. Hands: go round in a growing square, a little each time. Eyes: is it there now?"
        ),
        centring.SeeTheFinderIsTrue: see_the_finder_is_true,
        centring.BringItToFocus: "Hands: turn the focuser slowly, all the way. Eyes: say when it's smallest. Eyes: is it there now?",
        centring.WasItRising: "Eyes: as the tube came to rest, was it going up, or going down?",
        centring.IsItCentred: is_it_centred,
        centring.IsItCentredNow: f"Eyes: {_WHERE}",
        centring.BackToTheFinder: back_to_the_finder,
        centring.FocusTheEyepiece: "Hands: turn the focuser, until eyes see a small point.",
        centring.WhereInTheView: "Eyes: where is it, like on a clock?",
        centring.PressRightOnce: "Hands: press the right-hand arrow for a moment. Eyes: where did the star go, like on a clock?",
        centring.PressUpOnce: "Hands: now the up arrow for a moment. Eyes: where did it go, like on a clock?",
        centring.PressTheseKeys: keys_for_hands,
        targets.ProofStar: proof_star,
        targets.IsTheProofInView: "Eyes: is it in the eyepiece?",
        targets.LookLowerPower: "Eyes: the finder first, then the low-power eyepiece.",
        targets.SweepRound: "Hands: go round where it should be in a growing square, a little each time.",
        targets.SteerByHand: "The mount doesn't know the sky tonight: eyes say where, hands steer by the arrows.",
        night.IntroduceTarget: introduce_target,
        targets.IsTheBubbleCentred: "Eyes: the bubble of the base. Is it still in its middle?",
        targets.IsItGoodAgain: "Eyes: try the thing you were looking at. Is it in the eyepiece again?",
    },
)
