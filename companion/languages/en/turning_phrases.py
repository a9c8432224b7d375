"""English for turning a mount on the line to a target of the night."""

from __future__ import annotations

from companion.languages.en.night_phrases import introduce_target, introduce_target_tersely
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.sky import Kind
from companion.talk.answers import TurnReadilyAnswer
from companion.talk.turning_phrases import IsItInView, ItPointsThere, SayWhichWay, ShallITurnThere, ShallITurnThereToo, UseTheArrows

_CLEAR = "Stand clear, cables too: it may swing either way round."


def shall_i_turn_there(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool, again: bool) -> str:
    """Introduce a target, tell where to stand, and ask for the turn."""
    if again:
        return f"{_CLEAR} Shall I turn it to {spoken_name(target)} now: turn there, or by hand?"
    introduced = introduce_target(scene, target=target, kind=kind, eyepiece_mm=eyepiece_mm, change=change)
    return f"{introduced} {_CLEAR} Shall I turn it: turn there, or by hand?"


def shall_i_turn_there_too(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool, again: bool) -> str:
    """Introduce a target, and ask for the turn by a plain yes."""
    if again:
        return f"Stand clear, cables too. Shall I turn it to {spoken_name(target)} now?"
    introduced = introduce_target(scene, target=target, kind=kind, eyepiece_mm=eyepiece_mm, change=change)
    return f"{introduced} Stand clear, cables too. Shall I turn it there?"


def shall_i_turn_there_tersely(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool, again: bool) -> str:
    """Introduce a target and ask for the turn in few words."""
    if again:
        return "Stand clear. Turn there, or by hand?"
    introduced = introduce_target_tersely(scene, target=target, kind=kind, eyepiece_mm=eyepiece_mm, change=change)
    return f"{introduced} Stand clear. Turn there, or by hand?"


def shall_i_turn_there_too_tersely(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool, again: bool) -> str:
    """Introduce a target and ask for a yes in few words."""
    if again:
        return "Stand clear. Shall I turn it now?"
    introduced = introduce_target_tersely(scene, target=target, kind=kind, eyepiece_mm=eyepiece_mm, change=change)
    return f"{introduced} Stand clear. Shall I?"


def it_points_there(scene: Scene, *, target: str, kind: Kind) -> str:
    """Say that it has arrived, and how to look."""
    return f"It stands still, at {spoken_name(target)}. Low-power eyepiece first: say found it, or nothing there."


TURNING = Chapter(
    phrases={
        ShallITurnThere: shall_i_turn_there,
        ShallITurnThereToo: shall_i_turn_there_too,
        ItPointsThere: it_points_there,
        UseTheArrows: "I can't move it by small steps. Use the arrow keys.",
        SayWhichWay: "Say which way first: a bit left or right, up or down.",
        IsItInView: "Say more, too far, or found it.",
    },
    terse={ShallITurnThere: shall_i_turn_there_tersely, ShallITurnThereToo: shall_i_turn_there_too_tersely},
    sayable={TurnReadilyAnswer: ("yes", "by hand")},
    step_help={
        ShallITurnThere: "I turn it only when you say turn there. By hand means you send it. Next target leaves it.",
        ShallITurnThereToo: "Yes turns it there. By hand means you send it. Next target leaves it.",
        IsItInView: "A bit left or right, up or down moves it. Too far takes half of it back. Wrong way turns it round.",
        ItPointsThere: "Say found it, or nothing there. Next target goes on.",
    },
)
