"""English for bringing a star to the middle, in keys and not in directions of the view, and for when it can't be seen."""

from __future__ import annotations

from collections.abc import Mapping

from companion import sky
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.talk.answers import EyepieceAnswer, SlewingAnswer, TubeRoseAnswer, TubeTurnedAnswer, UnseenAnswer, ViewAnswer
from companion.talk.centring_phrases import (
    OPPOSITE,
    AndToWhichSide,
    ArrowKey,
    ArrowsDoNotFit,
    BackToTheFinder,
    BringItToFocus,
    CapsAndDew,
    ConfirmStar,
    DriftIsNormal,
    FocusTheEyepiece,
    IsItCentred,
    IsItCentredNow,
    IsItInTheFinder,
    IsItThereNow,
    PressRightOnce,
    PressTheseKeys,
    PressUpOnce,
    SeeTheFinderIsTrue,
    SteerItThere,
    SteerToTheFinder,
    SweepForIt,
    SwitchTheDotOn,
    TheOneOfTwo,
    TheSkyDarkens,
    WasItRising,
    WhatDoYouSee,
    WhereInTheView,
    WhileItSlews,
)

ARROWS: Mapping[ArrowKey, str] = {"right": "right-hand", "left": "left-hand", "up": "up", "down": "down"}
""""The right arrow" would sound like the correct one."""
_LABELS = {"enter": "enter", "okay": "okay", "select": "select", "confirm": "confirm"}
"""What is written on a key, as it is said; a profile written by hand may name any other."""


def is_it_in_the_finder(scene: Scene, *, watch: bool) -> str:
    """Have the star steered into the finder; where it is asked next, have an eye on how the mount comes to rest."""
    when = "Watch which way the tube comes to rest. Then" if watch else "When it has turned,"
    return f"{when} steer the star onto the finder's cross or dot. Is it there, not yet, or can't you see it?"


def _arrows_last(last: tuple[ArrowKey, ...]) -> str:
    """Name the two arrows that a star is finished with, where both are known."""
    return f"the {' and the '.join(ARROWS[key] for key in last)} arrow" if len(last) == len(OPPOSITE) // 2 else "the same two arrows"


def is_it_centred(scene: Scene, *, star: str, first: bool, last: tuple[ArrowKey, ...]) -> str:
    """Send the eye to the eyepiece; the first time, how to finish."""
    if star == sky.MOON.name:
        return (
            "Now the low-power eyepiece. It dazzles but does no harm: keep one eye shut for the dark. "
            "Bring the middle of its whole disc to the middle of the view, its dark part counted in. Is it centred?"
        )
    if not first:
        return f"Now the eyepiece, slowly, with {_arrows_last(last)} last. Is it centred?"
    finish = (
        f"Finish every star with {_arrows_last(last)}"
        if last
        else "Finish with the same two arrows on every star, unless the manual names them"
    )
    return (
        "Now the low-power eyepiece, and a slow speed. Turn the focuser until the star is a small point. "
        f"{finish}: that takes up slack. Is it centred?"
    )


def is_it_in_the_finder_tersely(scene: Scene, *, watch: bool) -> str:
    """Ask for the finder in few words."""
    return f"{'Watch how it stops. ' if watch else ''}Is it in the finder?"


def is_it_centred_tersely(scene: Scene, *, star: str, first: bool, last: tuple[ArrowKey, ...]) -> str:
    """Ask for the eyepiece in few words."""
    if star == sky.MOON.name:
        return "Now the eyepiece, and the middle of its whole disc. Is it centred?"
    return f"Now the eyepiece{f', {_arrows_last(last)} last' if first else ''}. Is it centred?"


def confirm_star(scene: Scene, *, star: str, key: str | None) -> str:
    """Say that it must be confirmed, by the name of the key where it is known."""
    return f"Good. Press {_LABELS.get(key, key)}." if key else "Good. Confirm it on the handset."


def press_these_keys(scene: Scene, *, keys: tuple[ArrowKey, ...], last: tuple[ArrowKey, ...]) -> str:
    """Name the arrow keys that bring the star in; against those used last, go too far and come back with these."""
    press = f"Press the {' and the '.join(ARROWS[key] for key in keys)} arrow."
    against = [OPPOSITE[key] for key in keys if OPPOSITE[key] in last]
    if not against:
        return press
    return f"{press} Go a little too far, then come back with the {' and the '.join(ARROWS[key] for key in against)} arrow."


def see_the_finder_is_true(scene: Scene, *, star: str) -> str:
    """Have the finder's aim tried on anything bright, and set."""
    return (
        "Perhaps the finder has shifted. Bring anything bright to the middle of the eyepiece, and set the finder's screws on it. "
        f"Then steer to {spoken_name(star)} again. Is it there?"
    )


def back_to_the_finder(scene: Scene, *, star: str) -> str:
    """Send the eye back to the finder."""
    return f"Back to the finder, with the arrows. Say when {spoken_name(star)} is in the finder again."


CENTRING = Chapter(
    phrases={
        IsItInTheFinder: is_it_in_the_finder,
        SteerToTheFinder: "Steer the star onto the finder's cross or dot with the arrows. Is it there, not yet, or can't you see it?",
        IsItThereNow: "Is it on the finder's cross or dot now?",
        SteerItThere: "Nothing wrong: that's usual. Steer it onto the finder's cross or dot with the arrows. Is it there?",
        WhileItSlews: "I'll be quiet until you say: it's standing still.",
        WhatDoYouSee: "What do you see instead: all black, a blur, other stars, a cloud, a tree, or no dot?",
        CapsAndDew: "See that both caps are off. Clear dew with warm air. Never wipe it. Is it in the finder now?",
        SwitchTheDotOn: "Turn up the dot's brightness. If it stays dark, its battery is dead: sight along the tube. Is it there now?",
        SweepForIt: (
            "Look through the low-power eyepiece. From where it should be, go round in a growing square, view by view. Is it there now?"
        ),
        SeeTheFinderIsTrue: see_the_finder_is_true,
        BringItToFocus: "Turn the focuser slowly, all the way. If it never sharpens, take out any extra lens. Is it there now?",
        TheSkyDarkens: "Give it ten minutes: the sky darkens fast now. Say when it's in the finder.",
        WasItRising: "Before the eyepiece: as the tube came to rest, was it going up, or going down?",
        AndToWhichSide: "And was it turning to the right, or to the left, as seen from behind?",
        IsItCentred: is_it_centred,
        IsItCentredNow: "Centred now?",
        BackToTheFinder: back_to_the_finder,
        DriftIsNormal: "That is normal until the mount knows the sky. Bring it back, and confirm it promptly.",
        FocusTheEyepiece: "Turn the focuser until the star is a small point.",
        TheOneOfTwo: "Take the brighter of the two.",
        WhereInTheView: "Where in the view is it? Say it like: upper left, or lower side.",
        PressRightOnce: "Press the right-hand arrow for a moment. Towards which side of the view did the star go?",
        PressUpOnce: "And now the up arrow for a moment. Towards which side did it go?",
        PressTheseKeys: press_these_keys,
        ArrowsDoNotFit: "Those two don't fit together. Try the arrows yourself, or say which arrow, and we'll learn them again.",
        ConfirmStar: confirm_star,
    },
    terse={
        IsItInTheFinder: is_it_in_the_finder_tersely,
        WasItRising: "Did it come to rest going up, or down?",
        AndToWhichSide: "Turning to the right, or to the left?",
        SteerToTheFinder: "Steer the star there. Is it in the finder?",
        IsItCentred: is_it_centred_tersely,
        ConfirmStar: "Confirm it.",
        WhileItSlews: "I'll wait until it's standing still.",
    },
    sayable={
        SlewingAnswer: ("it's standing still", "ready"),
        UnseenAnswer: ("all black", "there's no dot", "only a blur", "behind a cloud", "behind a tree", "other stars"),
        EyepieceAnswer: ("dead centre", "it's gone", "which arrow", "it drifts"),
        TubeRoseAnswer: ("up", "down", "I can't tell"),
        TubeTurnedAnswer: ("to the right", "to the left", "I can't tell"),
        ViewAnswer: ("upper side", "upper right", "right", "lower left"),
    },
    step_help={
        IsItInTheFinder: "Move the tube with the arrows until the star sits on the cross or dot in the finder.",
        SteerToTheFinder: "Move the tube with the arrows until the star sits on the cross or dot in the finder.",
        CapsAndDew: "A cap still on is the commonest reason of all. Say it's in the finder when you see it.",
        SwitchTheDotOn: "The brightness is a small wheel on the finder. Say it's in the finder when you see the star.",
        SweepForIt: "Low power shows the most sky. Go one view's width each time. Say it's there, or give me another.",
        SeeTheFinderIsTrue: "A knock moves a finder. Say it's in the finder when you see the star, or give me another.",
        BringItToFocus: "Far out of focus a star is a wide pale disc, or nothing. Say it's in the finder when you see it.",
        TheSkyDarkens: "Bright stars come out first. Say it's in the finder when you see it.",
        IsItThereNow: "Move the tube with the arrows until the star sits on the cross or dot in the finder.",
        SteerItThere: "A few degrees are normal before the first star. The arrows bring it in.",
        WhileItSlews: "To halt it, use its own controls, or switch it off. Say it's standing still, and I'll go on.",
        WhatDoYouSee: "Say all black, a blur, other stars, a cloud, a tree, or no dot. Each has its own cure.",
        WasItRising: "Gears have slack: end each star as the mount ends its turns. If you didn't see it, say: I can't tell.",
        AndToWhichSide: "Stand behind the eyepiece end, as the tube points. If you didn't see it, say: I can't tell.",
        IsItCentred: "Use the slow speed. If you don't know which arrow, say: which arrow.",
        IsItCentredNow: "Use the slow speed. If you don't know which arrow, say: which arrow.",
        BackToTheFinder: "Centre the star in the finder again. If it is not in the eyepiece then, the finder has moved.",
        WhereInTheView: "Say upper or lower, left or right, as you see it with your head upright. The middle doesn't count.",
        PressRightOnce: "Finders turn the view round and diagonals mirror it, so I learn yours from one press.",
        PressUpOnce: "Two presses tell me how your eyepiece turns the view.",
    },
)
