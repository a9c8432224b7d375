"""English for bringing a star to the middle, in keys and not in directions of the view, and for when it can't be seen."""

from __future__ import annotations

from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene


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
    return f"Good. Press {key}." if key else "Good. Confirm it on the hand control."


def press_these_keys(scene: Scene, *, keys: list[str]) -> str:
    """Name the arrow keys that bring the star in."""
    slack = " Go a little too far, then come back with up and right." if {"left", "down"} & set(keys) else ""
    return f"Press the {' and the '.join(keys)} arrow.{slack}"


def back_to_the_finder(scene: Scene, *, star: str) -> str:
    """Send the eye back to the finder."""
    return f"Back to the finder, with the same keys. Say when {spoken_name(star)} is in the finder again."


CENTRING = Chapter(
    phrases={
        "is-it-in-the-finder": "Let it turn there, then steer the star to the finder's mark with the arrow keys. Is it in the finder?",
        "steer-to-the-finder": "Steer the tube there with the arrow keys, to the finder's mark. Is it in the finder?",
        "is-it-there-now": "Is it in the finder now?",
        "steer-it-there": "Nothing wrong: that is usual. Steer it there with the arrow keys. Is it in the finder?",
        "while-it-slews": "I'm quiet until you say: it's stopped.",
        "what-do-you-see": "What is there instead: all black, a blur, other stars, a cloud, or a tree?",
        "caps-and-dew": "See that both caps are off. Dew on the glass goes with warm air, never with a cloth. Is it in the finder now?",
        "switch-the-dot-on": "Turn the dot up. If it stays dark, its battery is flat: sight along the tube. Is it there now?",
        "bring-it-to-focus": "Turn the focuser slowly, all the way. If it never sharpens, take out any extra lens. Is it there now?",
        "the-sky-darkens": "Give it ten minutes: the sky darkens fast now. Say when it's in the finder.",
        "is-it-centred": is_it_centred,
        "is-it-centred-now": "Centred now?",
        "back-to-the-finder": back_to_the_finder,
        "drift-is-normal": "That is normal until the mount knows the sky. Bring it back, and confirm it promptly.",
        "focus-the-eyepiece": "Turn the focuser until the star is a small point.",
        "the-one-of-two": "Take the brighter of the two.",
        "where-in-the-view": "Where in the view is it? Say it like: top left, or bottom.",
        "press-right-once": "Press the right arrow for a moment. Towards which side of the view did the star go?",
        "press-up-once": "And now the up arrow for a moment. Towards which side did it go?",
        "press-these-keys": press_these_keys,
        "confirm-star": confirm_star,
    },
    terse={
        "is-it-in-the-finder": "In the finder?",
        "steer-to-the-finder": "Steer there. In the finder?",
        "is-it-centred": is_it_centred_tersely,
        "confirm-star": "Confirm.",
        "while-it-slews": "Quiet.",
    },
    sayable={
        "slewing": ("it's stopped", "ready"),
        "unseen": ("all black", "the dot is off", "only a blur", "behind a cloud", "behind a tree", "other stars"),
        "eyepiece": ("dead centre", "it's gone", "which arrow", "it drifts"),
        "view": ("top", "top right", "right", "at the bottom left"),
    },
    step_help={
        "is-it-in-the-finder": "Move the tube with the arrow keys until the star meets the mark in the finder.",
        "steer-to-the-finder": "Move the tube with the arrow keys until the star meets the mark in the finder.",
        "caps-and-dew": "A cap left on is the commonest reason of all. Say it's in the finder when you see it.",
        "switch-the-dot-on": "The brightness is a small wheel on the finder. Say it's in the finder when you see the star.",
        "bring-it-to-focus": "Far out of focus a star is a wide pale disc, or nothing. Say it's in the finder when you see it.",
        "the-sky-darkens": "Bright stars come out first. Say it's in the finder when you see it.",
        "is-it-there-now": "Move the tube with the arrow keys until the star meets the mark in the finder.",
        "steer-it-there": "A few degrees are normal before the first star. The arrow keys bring it in.",
        "while-it-slews": "Any arrow key holds the mount. Say it's stopped when it is, and I go on.",
        "what-do-you-see": "Say all black, a blur, other stars, a cloud or a tree. Each has its own cure.",
        "is-it-centred": "Use the slow keys. If you don't know which key, say: which arrow.",
        "is-it-centred-now": "Use the slow keys. If you don't know which key, say: which arrow.",
        "back-to-the-finder": "Centre the star in the finder again. If it is not in the eyepiece then, the finder has moved.",
        "where-in-the-view": "As on a clock face, but in words: top, right, bottom, left, or between. Up in the view is the top.",
        "press-right-once": "Finders turn the view round and diagonals mirror it, so I learn yours from one press.",
        "press-up-once": "Two presses tell me how your eyepiece turns the view.",
    },
)
