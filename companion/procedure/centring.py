"""Bring one star to the middle: by eye, in the finder, then in the low-power eyepiece; and what to do when it isn't there."""

from __future__ import annotations

from collections.abc import Generator
from typing import Any

from companion.messages import Answer, Ask, Note, Say
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.arrows import Arrows
from companion.procedure.misses import SpokenMiss, spoken_miss
from companion.procedure.script import Steps

_ABOUT = {"how-high": "how-high", "moon-side": "where-from-the-moon", "colour": "what-colour", "two-there": "the-one-of-two"}
"""What may be asked about a star and is answered in a sentence."""
_UNSEEN = {"dark": "caps-and-dew", "no-dot": "switch-the-dot-on", "blurred": "bring-it-to-focus", "bright-sky": "the-sky-darkens"}
"""Why nothing is seen, and what to do about it; then it is looked for again."""
_IN_THE_VIEW = {"drifts": "drift-is-normal", "blurred": "focus-the-eyepiece", "two-there": "the-one-of-two"}
"""What may be told of the view, and is answered in a sentence."""
NAMES_ANOTHER = frozenset({"names-another", "star-name", "star-letters"})
"""What tells that the mount goes to another star: that it does, or at once to which. Names are too many to be live with the rest."""
Told = Generator[Say | Ask | Note, Answer, SpokenMiss | None]


def centre(star: str, state: AlignmentState) -> Steps:
    """Introduce a star and bring it to the middle; return the last answer: centred, way-off with its miss told, or given up."""
    yield Say("another-star" if state.visited else "first-star", {"star": star, "from_star": state.points_at})
    return (yield from bring_to_the_middle(star, state))


def bring_to_the_middle(star: str, state: AlignmentState) -> Steps:
    """From the slew on, until the star is centred, way off, or given up."""
    facts = {"star": star}
    turns_by_itself = state.choice != "unnamed"
    answer = yield _about_the_finder("is-it-in-the-finder" if turns_by_itself else "steer-to-the-finder", star)
    while True:
        match answer.command:
            case "in-finder":
                answer = yield from _in_the_eyepiece(star, state)
            case "star-name" if star in answer.slots.values():
                answer = yield _about_the_finder("is-it-there-now", star)
            case command if command == "centred" or command in NAMES_ANOTHER:
                return answer
            case "way-off":
                miss = yield from ask_miss(star, state, "which-way-and-how-far")
                if miss is not None and miss.is_large:
                    return answer
                answer = yield _about_the_finder("steer-it-there", star)
            case "slewing":
                answer = yield Ask("while-it-slews", expects="slewing", facts={"slewing": True})
            case "stopped":
                answer = yield _about_the_finder("is-it-there-now", star)
            case "cannot-see":
                answer = yield from _why_unseen(star)
            case "which-one" | "not-sure":
                answer = yield _about_the_finder("find-star", star)
            case command if command in _ABOUT:
                yield Say(_ABOUT[command], facts)
                answer = yield _about_the_finder("is-it-there-now", star)
            case command:
                state.hide_if_told(star, answer.time, command)
                yield Say("leave-star", facts)
                return answer


def _about_the_finder(phrase: str, star: str) -> Ask:
    """Return a question about the finder; the star the mount names instead is an answer, too."""
    return Ask(phrase, expects="finder", facts={"star": star}, also=NAMES_ANOTHER)


def ask_miss(star: str, state: AlignmentState, phrase: str) -> Told:
    """Ask where the star lay from where the tube points, and keep it."""
    answer = yield Ask(phrase, expects="miss", facts={"star": star})
    miss = spoken_miss(star, answer, state.misses, synced=bool(state.centred), fist_deg=state.fist_deg)
    if miss is not None:
        state.misses.append(miss)
        yield Note("miss", miss.as_facts())
        yield Say("miss-heard", {"right_deg": miss.right_deg, "up_deg": miss.up_deg})
    return miss


def _why_unseen(star: str) -> Steps:
    """Look for what hides a star, nearest first: caps, dew, the dot, focus, clouds, trees; return the next answer about the finder."""
    answer = yield Ask("what-do-you-see", expects="unseen", facts={"star": star})
    if answer.command in ("cloud", "tree", "another", "skip"):
        return answer
    if answer.command in _UNSEEN:
        return (yield _about_the_finder(_UNSEEN[answer.command], star))
    return (yield _about_the_finder("find-star", star))


def _in_the_eyepiece(star: str, state: AlignmentState) -> Steps:
    """Centre a star that is in the finder; return "centred", or the next answer about the finder."""
    facts: dict[str, Any] = {"star": star}
    answer = yield Ask("is-it-centred", expects="eyepiece", facts={**facts, "first": not state.centred})
    while True:
        match answer.command:
            case "centred":
                yield Say("confirm-star", {**facts, "key": state.context.equipment.mount.confirm_key})
                return answer
            case "skip":
                return answer
            case "gone":
                return (yield _about_the_finder("back-to-the-finder", star))
            case "which-arrow":
                seen = yield Ask("where-in-the-view", expects="view")
                if seen.command == "view":
                    yield from _say_the_arrows(seen.slots["side"], state)
            case "just-off":
                yield from _say_the_arrows(answer.slots["near_side"], state)
            case command:
                yield Say(_IN_THE_VIEW[command], facts)
        answer = yield Ask("is-it-centred-now", expects="eyepiece", facts=facts)


def _say_the_arrows(seen_at: str, state: AlignmentState) -> Generator[Say | Ask | Note, Answer, None]:
    """Say which keys bring a star to the middle; how this eyepiece turns the view is learned from one press, or two."""
    if state.arrows is None:
        on_right = yield Ask("press-right-once", expects="view")
        if on_right.command != "view":
            return
        has_diagonal = state.context.equipment.instrument.has_diagonal
        if has_diagonal is None:
            on_up = yield Ask("press-up-once", expects="view")
            if on_up.command != "view":
                return
            state.arrows = Arrows.from_two_presses(on_right.slots["side"], on_up.slots["side"])
        else:
            state.arrows = Arrows.from_one_press(on_right.slots["side"], mirrored=has_diagonal)
    yield Say("press-these-keys", {"keys": list(state.arrows.keys_to_centre(seen_at))})
