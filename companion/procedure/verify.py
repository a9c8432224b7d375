"""Prove the alignment on a third object before anything faint is looked for."""

from __future__ import annotations

from collections.abc import Generator, Sequence
from datetime import datetime

from companion.messages import Answer, Ask, Note, Say
from companion.procedure.align_mount import after_a_bad_verdict, align
from companion.procedure.alignment_state import AlignmentState
from companion.procedure.centring import ask_miss
from companion.procedure.recover import TOLD, bring_it_back
from companion.procedure.reference_stars import USUAL_CHOICE
from companion.procedure.script import Context, Script, Steps

_ASIDES = {"how-high": "how-high", "which-one": "where-the-proof-is", "cannot-see": "look-lower-power"}
"""What may be asked or told on the way, answered in a sentence."""


def prove_it(context: Context) -> Script:
    """Let the mount go to a star it has not seen yet; a miss there leads to the mistake and a new alignment."""
    found = context.results.get("reference-stars", {})
    if found.get("outcome") != "success":
        return {"proven": False}
    return {"proven": (yield from prove(context, context.started, found["stars"], found.get("left", ())))}


def prove(context: Context, time: datetime, stars: Sequence[str], left: Sequence[str]) -> Generator[Say | Ask | Note, Answer, bool]:
    """Prove an alignment on ``stars`` by a further one, none of those ``left``; return whether it held in the end."""
    choice = context.equipment.mount.star_choice or USUAL_CHOICE
    state = _after(context, time, stars, left)
    while True:
        star = state.next_star(time)
        if star is None:
            yield Say("nothing-to-prove-it-on")
            return False
        yield Note("proof", {"star": star})
        answer = yield from _look(star)
        time = answer.time
        if answer.command == "in-eyepiece":
            yield Say("proven")
            return True
        if answer.command == "in-finder":
            yield Ask("nearly-proven", expects="ready", facts={"star": star})
            return True
        if answer.command == "skip":
            return False
        if answer.command in TOLD:
            mishap = yield from bring_it_back(context, answer)
            time = mishap.time
            if mishap.aligned is not None:
                if mishap.aligned.outcome != "success":
                    return False
                state = _after(context, time, mishap.aligned.stars, mishap.aligned.left)
            continue
        state.refused.append(star)
        if answer.command == "way-off":
            yield from ask_miss(star, state, "which-way-and-how-far")
            mended = yield from after_a_bad_verdict(state, "success-but-off")
            aligned = yield from align(context, mended.time, choice)
            if aligned.outcome != "success":
                return False
            time = mended.time
            state = _after(context, time, aligned.stars, aligned.left)


def _after(context: Context, time: datetime, stars: Sequence[str], left: Sequence[str]) -> AlignmentState:
    """Return what chooses a further star from the list: none of those centred, none of those left."""
    fist_deg = context.equipment.observer.fist_deg
    return AlignmentState(context, time, "list", 1, centred=list(stars), refused=list(left), fist_deg=fist_deg)


def _look(star: str) -> Steps:
    """Send the mount to the star and hear where it lies then."""
    facts = {"star": star}
    yield Say("proof-star", facts)
    answer: Answer = yield Ask("is-the-proof-in-view", expects="proof", facts=facts)
    while answer.command in _ASIDES or answer.command == "slewing":
        if answer.command == "slewing":
            yield Ask("while-it-slews", expects="slewing", facts={"slewing": True})
        else:
            yield Say(_ASIDES[answer.command], facts)
        answer = yield Ask("is-the-proof-in-view", expects="proof", facts=facts)
    return answer
