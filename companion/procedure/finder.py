"""Line the finder up with the main tube: by day on a far fixed thing, after dark on the pole star, the Moon or a lamp."""

from __future__ import annotations

from companion import alignment, sky
from companion.messages import Ask, Say
from companion.procedure.script import Context, Script

_USUAL_FIELD_DEG = 1.0
"""What a low-power eyepiece shows where nothing is known of it: common practice, no published source."""

_LOWEST_MOON_DEG = 15.0


def finder_by_hand(context: Context) -> Script:
    """Line it up now, unless the tube can only be moved with the mount switched on."""
    return {} if context.equipment.mount.turns_by_hand is False else (yield from line_up_the_finder(context))


def finder_by_keys(context: Context) -> Script:
    """Line it up now that the mount is on, where the tube can't be moved by hand."""
    return (yield from line_up_the_finder(context)) if context.equipment.mount.turns_by_hand is False else {}


def line_up_the_finder(context: Context) -> Script:
    """Offer it, find something to do it on, and go from low power to high."""
    answer = yield Ask("shall-we-do-the-finder", expects="yes_no")
    if answer.command != "yes":
        return {"finder": "as it was"}
    moment = context.moment(answer.time)
    if sky.sun_state(moment).is_up:
        yield Say("caps-and-the-sun")
        answer = yield Ask("pick-a-far-mark", expects="mark", facts={"metres": _far_enough_m(context)})
    else:
        answer = yield Ask(
            "pick-a-mark-after-dark", expects="mark", facts={"mark": _mark_after_dark(moment), "metres": _far_enough_m(context)}
        )
    while answer.command == "no-focus":
        answer = yield Ask("take-a-farther-mark", expects="mark")
    if answer.command == "skip":
        return {"finder": "as it was"}
    yield Ask("centre-the-mark", expects="ready")
    yield Ask("turn-the-finder-screws", expects="ready")
    answer = yield Ask("check-at-higher-power", expects="finder_check")
    while answer.command == "moved":
        yield Ask("turn-the-finder-screws", expects="ready")
        answer = yield Ask("check-at-higher-power", expects="finder_check")
    if sky.sun_state(context.moment(answer.time)).is_up:
        yield Say("cap-both-again")
    return {"finder": "lined up"}


def _far_enough_m(context: Context) -> float:
    """Return how far a mark must be, for the field of the eyepiece at hand."""
    instrument = context.equipment.instrument
    lowest = instrument.lowest_power
    field_deg = instrument.true_field_deg(lowest) if lowest is not None else None
    return alignment.far_enough_m(instrument.finder_offset_cm, field_deg or _USUAL_FIELD_DEG)


def _mark_after_dark(moment: sky.Moment) -> str:
    """Return what hardly drifts and is easily found: the pole star, else the Moon, else a lamp far away."""
    if alignment.pole_star(moment).way == "pole-star":
        return "Polaris"
    return "Moon" if sky.sight(sky.MOON, moment).altitude_deg > _LOWEST_MOON_DEG else "lamp"
