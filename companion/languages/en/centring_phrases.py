"""English for bringing a star to the middle, in keys and not in directions of the view, and for when it can't be seen."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.talk.answers import EyepieceAnswer, SlewingAnswer, UnseenAnswer, ViewAnswer
from companion.talk.centring_phrases import (
    ArrowKey,
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
    SteerItThere,
    SteerToTheFinder,
    SwitchTheDotOn,
    TheOneOfTwo,
    TheSkyDarkens,
    WhatDoYouSee,
    WhereInTheView,
    WhileItSlews,
)

_ARROWS: Mapping[ArrowKey, str] = {"right": "right", "left": "left", "up": "up", "down": "down"}
_LABELS = {"enter": "enter", "okay": "okay", "select": "select", "confirm": "confirm"}
"""What is written on a key, as it is said; a profile written by hand may name any other."""


def is_it_centred(scene: Scene, *, star: str, first: bool) -> str:
    """Send the eye to the eyepiece; the first time, how to finish."""
    if not first:
        return "Now the eyepiece, slow keys, up and right last. Is it centred?"
    return (
        "Now the low-power eyepiece, the one with the largest figure, and the slow keys. "
        "Always finish with the up and the right key: that takes up the slack in the gears. Is it centred?"
    )


def is_it_centred_tersely(scene: Scene, *, star: str, first: bool) -> str:
    """Ask for the eyepiece in few words."""
    return f"Eyepiece{', up and right last' if first else ''}. Centred?"


def confirm_star(scene: Scene, *, star: str, key: str | None) -> str:
    """Say that it must be confirmed, by the name of the key where it is known."""
    return f"Good. Press {_LABELS.get(key, key)}." if key else "Good. Confirm it on the hand control."


def press_these_keys(scene: Scene, *, keys: tuple[ArrowKey, ...]) -> str:
    """Name the arrow keys that bring the star in."""
    slack = " Go a little too far, then come back with up and right." if {"left", "down"} & set(keys) else ""
    return f"Press the {' and the '.join(_ARROWS[key] for key in keys)} arrow.{slack}"


def back_to_the_finder(scene: Scene, *, star: str) -> str:
    """Send the eye back to the finder."""
    return f"Back to the finder, with the same keys. Say when {spoken_name(star)} is in the finder again."


CENTRING = Chapter(
    phrases={
        IsItInTheFinder: "Let it turn there, then steer the star to the finder's mark with the arrow keys. Is it in the finder?",
        SteerToTheFinder: "Steer the tube there with the arrow keys, to the finder's mark. Is it in the finder?",
        IsItThereNow: "Is it in the finder now?",
        SteerItThere: "Nothing wrong: that is usual. Steer it there with the arrow keys. Is it in the finder?",
        WhileItSlews: "I'm quiet until you say: it's stopped.",
        WhatDoYouSee: "What is there instead: all black, a blur, other stars, a cloud, or a tree?",
        CapsAndDew: "See that both caps are off. Dew on the glass goes with warm air, never with a cloth. Is it in the finder now?",
        SwitchTheDotOn: "Turn the dot up. If it stays dark, its battery is flat: sight along the tube. Is it there now?",
        BringItToFocus: "Turn the focuser slowly, all the way. If it never sharpens, take out any extra lens. Is it there now?",
        TheSkyDarkens: "Give it ten minutes: the sky darkens fast now. Say when it's in the finder.",
        IsItCentred: is_it_centred,
        IsItCentredNow: "Centred now?",
        BackToTheFinder: back_to_the_finder,
        DriftIsNormal: "That is normal until the mount knows the sky. Bring it back, and confirm it promptly.",
        FocusTheEyepiece: "Turn the focuser until the star is a small point.",
        TheOneOfTwo: "Take the brighter of the two.",
        WhereInTheView: "Where in the view is it? Say it like: top left, or bottom.",
        PressRightOnce: "Press the right arrow for a moment. Towards which side of the view did the star go?",
        PressUpOnce: "And now the up arrow for a moment. Towards which side did it go?",
        PressTheseKeys: press_these_keys,
        ConfirmStar: confirm_star,
    },
    terse={
        IsItInTheFinder: "In the finder?",
        SteerToTheFinder: "Steer there. In the finder?",
        IsItCentred: is_it_centred_tersely,
        ConfirmStar: "Confirm.",
        WhileItSlews: "Quiet.",
    },
    sayable={
        SlewingAnswer: ("it's stopped", "ready"),
        UnseenAnswer: ("all black", "the dot is off", "only a blur", "behind a cloud", "behind a tree", "other stars"),
        EyepieceAnswer: ("dead centre", "it's gone", "which arrow", "it drifts"),
        ViewAnswer: ("top", "top right", "right", "at the bottom left"),
    },
    step_help={
        IsItInTheFinder: "Move the tube with the arrow keys until the star meets the mark in the finder.",
        SteerToTheFinder: "Move the tube with the arrow keys until the star meets the mark in the finder.",
        CapsAndDew: "A cap left on is the commonest reason of all. Say it's in the finder when you see it.",
        SwitchTheDotOn: "The brightness is a small wheel on the finder. Say it's in the finder when you see the star.",
        BringItToFocus: "Far out of focus a star is a wide pale disc, or nothing. Say it's in the finder when you see it.",
        TheSkyDarkens: "Bright stars come out first. Say it's in the finder when you see it.",
        IsItThereNow: "Move the tube with the arrow keys until the star meets the mark in the finder.",
        SteerItThere: "A few degrees are normal before the first star. The arrow keys bring it in.",
        WhileItSlews: "Any arrow key holds the mount. Say it's stopped when it is, and I go on.",
        WhatDoYouSee: "Say all black, a blur, other stars, a cloud or a tree. Each has its own cure.",
        IsItCentred: "Use the slow keys. If you don't know which key, say: which arrow.",
        IsItCentredNow: "Use the slow keys. If you don't know which key, say: which arrow.",
        BackToTheFinder: "Centre the star in the finder again. If it is not in the eyepiece then, the finder has moved.",
        WhereInTheView: "As on a clock face, but in words: top, right, bottom, left, or between. Up in the view is the top.",
        PressRightOnce: "Finders turn the view round and diagonals mirror it, so I learn yours from one press.",
        PressUpOnce: "Two presses tell me how your eyepiece turns the view.",
    },
)
