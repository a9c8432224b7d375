"""Teach the mount the sky: star after star, its verdict, and, where something is wrong, the mistake found, mended and begun again."""

from __future__ import annotations

from collections.abc import Generator, Mapping
from dataclasses import dataclass
from datetime import datetime

from companion import diagnosis
from companion.equipment import StarChoice
from companion.messages import Answer, Ask, Note, Say
from companion.procedure.alignment_state import STAR_COUNTS, AlignmentState
from companion.procedure.centring import NAMES_ANOTHER, ask_miss, bring_to_the_middle, centre
from companion.procedure.misses import Message
from companion.procedure.next_star import Offered, hear_its_star, offer
from companion.procedure.script import Context
from companion.procedure.why_it_failed import find_the_mistake

_CLUES: Mapping[str, diagnosis.Clue] = {"moon-off": "stars_fine_moon_off", "worse-far-away": "good_near_first_star_worse_far_away"}
"""What an observer may say of the result that has no degrees in it."""
_MESSAGES: Mapping[str, Message] = {"failed": "failed", "success-but-off": "success"}
"""What the mount said, by what the observer says of the result."""
_MOST_STARS = 6
"""More than any mount asks for."""
Verdict = Generator[Say | Ask | Note, Answer, "Answer | None"]


@dataclass(frozen=True)
class Aligned:
    """How an alignment ended."""

    stars: tuple[str, ...]
    left: tuple[str, ...]
    """What was seen to be hidden, or left for another reason."""
    outcome: str
    """``success``; ``skip`` where the verdict was left out; ``incomplete`` without enough stars; ``failed`` where it was given up."""


def align(context: Context, time: datetime, choice: StarChoice, *, from_pose: bool = True) -> Generator[Say | Ask | Note, Answer, Aligned]:
    """Go through the stars and the mount's verdict; begin again after each mistake that is mended."""
    fist_deg = context.equipment.observer.fist_deg
    state = AlignmentState(context, time, choice, STAR_COUNTS[choice], fist_deg=fist_deg, from_pose=from_pose)
    while True:
        mended = yield from _centre_all(state, time)
        if mended is None and len(state.centred) < state.wanted:
            later = None if state.no_star_tonight else (yield Ask("no-more-stars", expects="ready", facts={"choice": choice}))
            if later is None or later.command == "skip":
                return Aligned(tuple(state.centred), tuple(state.refused), "incomplete")
            state.forgive()
            time = later.time
            continue
        if mended is None:
            verdict = yield Ask("what-does-the-mount-say", expects="outcome")
            time = verdict.time
            if verdict.command == "wants-another" and state.wanted < _MOST_STARS:
                state.wanted += 1
                continue
            if verdict.command in ("success", "skip", "wants-another"):
                if verdict.command == "success" and len(state.centred) > 1:
                    yield Say("what-to-expect", {"stars": list(state.centred)})
                return Aligned(tuple(state.centred), tuple(state.refused), "skip" if verdict.command == "skip" else "success")
            mended = yield from after_a_bad_verdict(state, verdict.command)
        if mended.command == "skip":
            return Aligned(tuple(state.centred), tuple(state.refused), "failed")
        time = mended.time
        state = AlignmentState(
            context, time, choice, STAR_COUNTS[choice], hidden=state.hidden, fist_deg=state.fist_deg, arrows=state.arrows
        )


def after_a_bad_verdict(state: AlignmentState, verdict: str) -> Generator[Say | Ask | Note, Answer, Answer]:
    """Find out why the mount or the observer is not content; where no miss was told, ask for the last star's."""
    if not state.misses and state.centred:
        yield from ask_miss(state.centred[-1], state, "where-was-the-last-star")
    if state.misses:
        message = _MESSAGES.get(verdict, "none")
        mended = yield from find_the_mistake(state, message, _CLUES.get(verdict))
        if mended is not None:
            return mended
    return (yield Ask("it-failed", expects="ready"))


def _centre_all(state: AlignmentState, time: datetime) -> Verdict:
    """Go through the stars; return the answer that said a mistake is mended, or None when all are centred or no star is left."""
    while len(state.centred) < state.wanted:
        offered = yield from offer(state, time)
        if offered is None:
            return None
        star, answer = yield from _visit(offered, state)
        time = answer.time
        if answer.command == "way-off":
            mended = yield from find_the_mistake(state)
            if mended is not None:
                return mended
            answer = yield from bring_to_the_middle(star, state)
        state.settle(star, answer)
    return None


def _visit(offered: Offered, state: AlignmentState) -> Generator[Say | Ask | Note, Answer, tuple[str, Answer]]:
    """Centre the star offered, or another that the mount takes instead; return which it was in the end, and the last answer."""
    star = offered.star
    answer = offered.is_down or (yield from centre(star, state))
    while answer.command in NAMES_ANOTHER:
        named = yield from hear_its_star(state, answer)
        if named is None:
            answer = yield from bring_to_the_middle(star, state)
        else:
            star = named.star
            answer = named.is_down or (yield from centre(star, state))
    return star, answer
