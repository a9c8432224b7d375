"""English for reference stars, the mount's verdict, and tonight's targets."""

from __future__ import annotations

from collections.abc import Mapping

from companion import sky
from companion.sky import Moment
from companion.wording.directions import sentence
from companion.wording.names import kind_in_words, spoken_name
from companion.wording.phrase import Phrase
from companion.wording.sights import describe, describe_rivals, turn_towards, where_to_look


def first_star(moment: Moment, *, star: str) -> str:
    """Introduce the first reference star."""
    return _introduction("First star", moment, star)


def another_star(moment: Moment, *, star: str) -> str:
    """Introduce a further reference star."""
    return _introduction("Next star", moment, star)


def _introduction(opening: str, moment: Moment, star: str) -> str:
    sight = sky.sight(sky.find(star), moment)
    if sight.altitude_deg < 0:
        return f"{opening}: {describe(sight)} Ask me for another."
    return f"{opening}: {describe(sight)} {describe_rivals(sight, moment)}"


def find_star(moment: Moment, *, star: str) -> str:
    """Help the eye to the star again, from where it is now."""
    sight = sky.sight(sky.find(star), moment)
    if sight.altitude_deg < 0:
        return f"{spoken_name(star)} has gone below the horizon. Say give me another."
    return f"{turn_towards(sight)}. {describe(sight)} {describe_rivals(sight, moment)} Tell me when it's in the finder."


def introduce_target(moment: Moment, *, target: str, kind: str) -> str:
    """Introduce a target."""
    sight = sky.sight(sky.find(target), moment)
    return f"{sentence(spoken_name(target))} {sentence(kind_in_words(kind))} {where_to_look(sight)} Start with the low-power eyepiece."


def find_target(moment: Moment, *, target: str) -> str:
    """Say again where a target is, from where it is now."""
    sight = sky.sight(sky.find(target), moment)
    return f"{where_to_look(sight)} Let the mount slew to it, then look with the low-power eyepiece."


PHRASES: Mapping[str, Phrase] = {
    "before-the-stars": (
        "Now the reference stars. When the mount turns, step back: eyes off the eyepiece, fingers out of the fork. "
        "Pick each star I name on the hand control."
    ),
    "first-star": first_star,
    "another-star": another_star,
    "is-it-in-the-finder": "Let it slew, then bring the star to the mark. Is it in the finder?",
    "find-star": find_star,
    "is-it-centred": "Now the low-power eyepiece, with the slow keys. Is it centred?",
    "back-to-the-finder": "Back to the finder. Say when it's in the finder again.",
    "confirm-star": "Good. Confirm it on the hand control.",
    "leave-star": "We leave that one.",
    "no-more-stars": "I have no other good star up now. Give the sky half an hour, or wait for the cloud to move.",
    "what-does-the-mount-say": "What does the mount say?",
    "it-failed": (
        "Then something it was told is wrong. Check daylight saving and the hour, then the date. "
        "Turn it to level and north again, and say ready."
    ),
    "first-target": "Now for the pleasure. Put on something warm before you feel cold.",
    "next-target": "The next one.",
    "introduce-target": introduce_target,
    "find-target": find_target,
    "no-targets": "Nothing on my list is well placed now.",
}
