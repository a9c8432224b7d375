"""Ask what the observer has and how they work. Every question may be skipped, and can also be asked alone where an evening needs it."""

from __future__ import annotations

from collections.abc import Generator, Mapping
from datetime import datetime
from typing import Any, TypeAlias, TypeVar, get_args

from companion import alignment, equipment
from companion.equipment import CompassKind, FinderKind, Limit, PoseTime, StarChoice
from companion.messages import Answer, Ask, Note, Say
from companion.procedure.ask_horizon import ask_horizon
from companion.procedure.ask_place import ask_place
from companion.procedure.notes import learned_note
from companion.procedure.script import Context, Script
from companion.procedure.spoken_figures import ask_figure, fists_of

T = TypeVar("T")
Question: TypeAlias = Generator[Say | Ask | Note, Answer, T | None]
"""A piece of a script that ends with what was answered, None where the question was skipped."""

_MOST_EYEPIECES = 12


def ask_about_equipment(context: Context) -> Script:
    """Ask everything; the result has the tables of a profile, for ``equipment_from``, and ``site`` where a place was given."""
    yield Say("about-your-equipment")
    site = yield from ask_place()
    instrument = yield from ask_instrument()
    compass = yield from ask_compass()
    mount = {
        "star_choice": (yield from ask_star_choice()),
        "pose_time": (yield from ask_pose_time()),
        "turns_by_hand": (yield from ask_turns_by_hand()),
        "confirm_key": (yield from ask_confirm_key()),
    }
    horizon = yield from ask_horizon(context.equipment.observer.fist_deg)
    observer = {
        "compass": compass,
        "sees_milky_way": (yield from ask_milky_way()),
        "in_company": (yield from ask_company()),
        "limits": (yield from ask_limits()),
        "terse": (yield from ask_fullness()),
    }
    yield Say("equipment-known")
    result = {"site": site, "instrument": instrument, "mount": _answered(mount), "observer": _answered(observer), "horizon": horizon}
    return _answered(result)


def ask_instrument() -> Generator[Say | Ask | Note, Answer, dict[str, Any]]:
    """Ask for the telescope, its eyepieces and its finder; return the keys of the table ``instrument`` that were answered."""
    return _answered(
        {
            "aperture_mm": (yield from ask_figure("aperture", equipment.APERTURE_MM)),
            "focal_length_mm": (yield from ask_figure("focal-length", equipment.FOCAL_LENGTH_MM)),
            "eyepieces": (yield from ask_eyepieces()),
            "has_diagonal": (yield from _ask_yes_no("has-it-a-diagonal")),
            "finder": (yield from ask_finder()),
        }
    )


def ask_eyepieces() -> Question[list[dict[str, float]]]:
    """Ask for the eyepieces, one after another: focal length, and how wide their view seems."""
    eyepieces: list[dict[str, float]] = []
    while len(eyepieces) < _MOST_EYEPIECES:
        focal_length_mm = yield from ask_figure("eyepiece", equipment.EYEPIECE_MM, expects="few_millimetres")
        if focal_length_mm is not None:
            field_deg = yield from ask_figure("apparent-field", equipment.APPARENT_FIELD_DEG, expects="bearing")
            eyepieces.append(_answered({"focal_length_mm": focal_length_mm, "apparent_field_deg": field_deg}))
        if focal_length_mm is None or not (yield from _ask_yes_no("another-eyepiece")):
            break
    return eyepieces or None


def ask_finder() -> Question[FinderKind]:
    """Ask what kind of finder there is; None too where there is none."""
    return (yield from _ask_choice("which-finder", "finder_kind", get_args(equipment.FinderKind)))


def ask_compass() -> Question[CompassKind]:
    """Ask what kind of compass is at hand."""
    return (yield from _ask_choice("which-compass", "compass_kind", get_args(equipment.CompassKind)))


def ask_star_choice() -> Question[StarChoice]:
    """Ask how the mount settles on its stars."""
    return (yield from _ask_choice("who-chooses-the-stars", "star_choice", get_args(equipment.StarChoice)))


def ask_pose_time() -> Question[PoseTime]:
    """Ask when the mount wants its starting pose."""
    return (yield from _ask_choice("when-is-the-pose-taken", "pose_time", get_args(equipment.PoseTime)))


def ask_turns_by_hand() -> Question[bool]:
    """Ask whether the mount may be turned by hand."""
    return (yield from _ask_yes_no("does-it-turn-by-hand"))


def ask_confirm_key() -> Question[str]:
    """Ask what is written on the key that confirms."""
    return (yield from _ask_choice("which-key-confirms", "confirm_key", ("enter", "okay", "select", "confirm")))


def ask_milky_way() -> Question[bool]:
    """Ask how dark the place is."""
    return (yield from _ask_yes_no("do-you-see-the-milky-way"))


def ask_company() -> Question[bool]:
    """Ask whether other people are around."""
    told = yield from _ask_choice("alone-or-with-people", "company", ("alone", "company"))
    return None if told is None else told == "company"


def ask_limits() -> Question[list[Limit]]:
    """Ask what the observer can't do, one thing at a time; an empty list means nothing."""
    limits: set[Limit] = set()
    while len(limits) < len(get_args(equipment.Limit)):
        answer = yield Ask("another-limit" if limits else "what-is-hard-for-you", expects="limits")
        if answer.command not in get_args(equipment.Limit):
            return None if answer.command == "skip" and not limits else sorted(limits)
        limits.add(answer.command)  # type: ignore[arg-type]
    return sorted(limits)


def ask_fullness() -> Question[bool]:
    """Ask whether they want it in few words."""
    told = yield from _ask_choice("in-full-or-short", "fullness", ("full", "terse"))
    return None if told is None else told == "terse"


def learned_by(question: Question[T], table: str, key: str) -> Question[T]:
    """Return what is answered, noted under that key of a profile; None, and nothing noted, where the question is skipped."""
    told = yield from question
    if told is not None:
        yield learned_note(table, key, told)
    return told


def measure_fist(context: Context, time: datetime) -> Question[float]:
    """Measure the observer's fist on two stars that show at ``time``; return degrees, None where none show, or it was skipped or left."""
    pair = alignment.fist_pair(context.moment(time), context.hides)
    if pair is None:
        yield Say("no-pair-for-the-fist")
        return None
    one, other, apart_deg = pair
    for _ in range(2):
        answer = yield Ask("how-many-fists", expects="fists", facts={"one": one.body.name, "other": other.body.name})
        fists = fists_of(answer.slots)
        if fists is None:
            return None
        fist_deg = alignment.fist_from(apart_deg, fists)
        if fist_deg is None:
            yield Say("unlikely-fist", {"fists": fists})
            continue
        confirmed = yield Ask("fist-heard", expects="yes_no", facts={"fists": fists, "fist_deg": fist_deg})
        if confirmed.command == "yes":
            yield learned_note("observer", "fist_deg", round(fist_deg, 1))
            return fist_deg
    yield Say("fist-left")
    return None


def _ask_choice(phrase: str, expects: str, known: tuple[Any, ...]) -> Question[Any]:
    answer = yield Ask(phrase, expects=expects)
    return answer.command if answer.command in known else None


def _ask_yes_no(phrase: str) -> Question[bool]:
    return {"yes": True, "no": False}.get((yield Ask(phrase, expects="yes_no")).command)


def _answered(answers: Mapping[str, Any]) -> dict[str, Any]:
    """Leave out what was skipped."""
    return {key: answer for key, answer in answers.items() if answer is not None and answer != {}}


__all__ = [
    "ask_about_equipment",
    "ask_company",
    "ask_compass",
    "ask_confirm_key",
    "ask_eyepieces",
    "ask_finder",
    "ask_fullness",
    "ask_horizon",
    "ask_instrument",
    "ask_limits",
    "ask_milky_way",
    "ask_place",
    "ask_pose_time",
    "ask_star_choice",
    "ask_turns_by_hand",
    "learned_by",
    "measure_fist",
]
