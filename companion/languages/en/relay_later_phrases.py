"""English for two, for what comes beside and after the alignment: why it failed, targets, the way by hand, notes, packing."""

from __future__ import annotations

from typing import Literal

from companion.diagnosis import About, Cure
from companion.equipment import CompassKind
from companion.languages.en.by_hand_phrases import start_by_hand, step_by_eye, step_by_finder
from companion.languages.en.check_words import question_about
from companion.languages.en.ground_phrases import pick_a_mark_after_dark
from companion.languages.en.mistakes_phrases import mend_these
from companion.languages.en.night_phrases import how_many_stars_inside_tersely, look_at_it
from companion.languages.en.north_words import north_by_a_mark
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.sky import Kind
from companion.talk import by_hand_phrases as by_hand
from companion.talk import centring_phrases as centring
from companion.talk import equipment_phrases as equipment
from companion.talk import ground_phrases as ground
from companion.talk import mistakes_phrases as mistakes
from companion.talk import mount_phrases as mount
from companion.talk import night_phrases as night
from companion.talk import observation_phrases as observation
from companion.talk import packing_phrases as packing
from companion.talk import pose_phrases as pose
from companion.talk import targets_phrases as targets
from companion.talk import turning_phrases as turning

_BY_HANDS = ("clamps", "tube_gives", "base_level")
_BY_BOTH = ("facing", "tube_level", "soft_ground", "knocked")
"""What either of them knows."""


def check_this(scene: Scene, *, about: About, star: str, instead: str | None, compass: CompassKind | Literal["unknown"]) -> str:
    """Put what is looked at to eyes, what is felt to hands."""
    question = question_about(about, scene, star, instead or star, compass)
    return question if about in _BY_BOTH else _to("Hands" if about in _BY_HANDS else "Eyes", question)


def is_its_time_right(scene: Scene) -> str:
    """Have the time read off the display."""
    return _to("Eyes", question_about("time", scene))


def which_way_and_how_far(scene: Scene, *, star: str) -> str:
    """Have the miss told by who looks."""
    return f"Eyes: stand behind the tube, and sight along it. How many fists left or right is {spoken_name(star)}? And up or down?"


def where_was_the_last_star(scene: Scene, *, star: str) -> str:
    """Have the last star's miss told by who looked."""
    return f"Eyes: when it stood still, how many fists left or right was {spoken_name(star)}? And up or down?"


def both_mend_these(scene: Scene, *, cures: tuple[Cure, ...], star: str, compass: CompassKind | Literal["unknown"], minutes: int) -> str:
    """Say what must be done again, and who does what."""
    return (
        f"Eyes read display, bubble and compass; hands do it. {mend_these(scene, cures=cures, star=star, compass=compass, minutes=minutes)}"
    )


def mark_after_dark(scene: Scene, *, mark: Literal["Polaris", "Moon", "lamp"], metres: float) -> str:
    """Have a light found by the one, the tube pointed by the other."""
    return f"Eyes find it, hands point the tube. {pick_a_mark_after_dark(scene, mark=mark, metres=metres)}"


def both_north_by_a_mark(scene: Scene, *, mark: str) -> str:
    """Have the way to north found by the one, the tube pointed by the other."""
    return f"Eyes find the way, hands point the tube. {north_by_a_mark(scene, mark=mark)}"


def eyes_look_at_it(scene: Scene, *, target: str, eyepiece_mm: float | None, told: bool) -> str:
    """Say what to look for."""
    return f"Eyes to the eyepiece. {look_at_it(scene, target=target, eyepiece_mm=eyepiece_mm, told=told)}"


def how_many_stars_inside(scene: Scene, *, corners: tuple[str, ...]) -> str:
    """Have stars counted."""
    return f"Eyes: look up. {how_many_stars_inside_tersely(scene, corners=corners)}"


def both_start_by_hand(scene: Scene, *, star: str) -> str:
    """Begin at a bright star."""
    return f"Hands move the tube, eyes say which way. {start_by_hand(scene, star=star)}"


def both_step_by_eye(
    scene: Scene, *, start_ra_deg: float, start_dec_deg: float, end_ra_deg: float, end_dec_deg: float, towards: str | None
) -> str:
    """Tell a step by the eye."""
    step = step_by_eye(
        scene, start_ra_deg=start_ra_deg, start_dec_deg=start_dec_deg, end_ra_deg=end_ra_deg, end_dec_deg=end_dec_deg, towards=towards
    )
    return f"Hands move the tube, eyes say which way. {step}"


def both_step_by_finder(
    scene: Scene,
    *,
    start_ra_deg: float,
    start_dec_deg: float,
    end_ra_deg: float,
    end_dec_deg: float,
    field_deg: float,
    target: str | None,
) -> str:
    """Tell a step of the tube."""
    step = step_by_finder(
        scene,
        start_ra_deg=start_ra_deg,
        start_dec_deg=start_dec_deg,
        end_ra_deg=end_ra_deg,
        end_dec_deg=end_dec_deg,
        field_deg=field_deg,
        target=target,
    )
    return f"Eyes stay at the finder. {step}"


def nearly_proven(scene: Scene, *, star: str) -> str:
    """Say what to do when the third star is close but not in the eyepiece."""
    return f"Close. Eyes: guide {spoken_name(star)} to the middle. Hands: then sync on it, if your control can. Say ready."


def it_points_there(scene: Scene, *, target: str, kind: Kind) -> str:
    """Say that it has arrived, and who looks."""
    return f"It stands still, at {spoken_name(target)}. Eyes to the low-power eyepiece: say found it, or nothing there."


def _to(whom: str, words: str) -> str:
    """Return words said to one of them."""
    return f"{whom}: {words[0].lower()}{words[1:]}"


RELAY_LATER = Chapter(
    phrases={},
    relayed={
        mistakes.WhichWayAndHowFar: which_way_and_how_far,
        mistakes.WhereWasTheLastStar: where_was_the_last_star,
        mistakes.CheckThis: check_this,
        mistakes.IsItsTimeRight: is_its_time_right,
        mistakes.MendThese: both_mend_these,
        ground.PickAMarkAfterDark: mark_after_dark,
        pose.NorthByAMark: both_north_by_a_mark,
        centring.TheSkyDarkens: "Give it ten minutes: the sky darkens fast now. Eyes: say when it's in the finder.",
        centring.AndToWhichSide: "Eyes: and was it turning to the right, or to the left, as seen from behind?",
        mount.ItSaysItTurns: "The line says that it still turns. Eyes: look again, does it stand still?",
        mount.DoesItStandStill: "The line says that it still turns. Eyes: does it stand still?",
        targets.SweepForThat: (
            "Hands: go round in a growing square. Eyes: the low-power eyepiece. Say ready when it's centred, or give me another."
        ),
        targets.ReCentreAndSync: (
            "Eyes: say where it is, like on a clock, until it's in the middle. Hands: then sync on it. Say ready, or: it can't sync."
        ),
        targets.NearlyProven: nearly_proven,
        turning.ItPointsThere: it_points_there,
        night.LookAtIt: eyes_look_at_it,
        night.SweepForIt: "Hands: go round slowly in a widening spiral. Eyes: say found it when it comes in.",
        night.LookBeside: "Eyes: cover your head for a minute. Then look a little beside the place, not at it.",
        night.LookForDew: "Hands: feel for dew. Eyes: a torch across the front glass shows it.",
        night.HowDoesTheMilkyWayShow: (
            "Eyes: look for the Milky Way, high overhead. Does it show easily, faintly, only just, or not at all?"
        ),
        night.HowManyStarsInside: how_many_stars_inside,
        by_hand.StartByHand: both_start_by_hand,
        by_hand.StepByEye: both_step_by_eye,
        by_hand.StepByFinder: both_step_by_finder,
        by_hand.BackToTheStarBefore: (
            "Then one step back. Eyes: the star before once more, in the middle. Say there it is, or: can't see it."
        ),
        equipment.WhichEyepiece: "Now an eyepiece, the little lens one looks into. Eyes: what does it say, in millimetres?",
        observation.HowDidItShow: "Eyes: how well did it show: easily, only just, suspected, or not at all?",
        observation.WhichEyepieceWasIn: "Eyes: how many millimetres has the eyepiece you used?",
        observation.HowDidItLook: "Eyes: a word for how it looked, such as round, long, misty or faint. Or say: that's all.",
        observation.HowSteadyIsTheAir: "Eyes: how steady is the air, one to five? Five is perfectly still.",
        observation.HowClearIsTheAir: "Eyes: how clear is it, one to five? Five is perfectly clear.",
        packing.ParkIt: "Packing up. Both a step back, clear of tube and arms. Park the mount. Say done when it stands still.",
        packing.CablesIn: "Now the cables, before anybody carries anything: they trip you both. Hands: coil them up. Done?",
        packing.TakeItDown: (
            "Eyes: a torch on the path, well clear of the tube. Hands: hold it before you loosen a clamp, for it's heavy. "
            "In frost gloves on: cold metal burns; lift with bent knees. Done?"
        ),
        packing.WhereThingsHide: "Both stand still first. Eyes: by torch in the focuser, and around your feet. Hands: your pockets.",
    },
)
