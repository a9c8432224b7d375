"""Korean for turning a mount on the line to a target of the night."""

from __future__ import annotations

from companion.languages.ko.night_phrases import introduce_target, introduce_target_tersely
from companion.languages.ko.sight_words import towards
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.sky import Kind
from companion.talk import turning_phrases as say
from companion.talk.answers import TurnReadilyAnswer

_CLEAR = "물러서고 전선을 치우세요. 어느 쪽으로든 돌 수 있어요."


def shall_i_turn_there(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool, again: bool) -> str:
    """Introduce a target, tell where to stand, and ask for the turn."""
    if again:
        return f"{_CLEAR} 이제 {towards(spoken_name(target))} 돌릴까요? 거기로 돌려 주세요, 또는 손으로 할게요라고 하세요."
    introduced = introduce_target(scene, target=target, kind=kind, eyepiece_mm=eyepiece_mm, change=change)
    return f"{introduced} {_CLEAR} 돌릴까요? 거기로 돌려 주세요, 또는 손으로 할게요라고 하세요."


def shall_i_turn_there_too(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool, again: bool) -> str:
    """Introduce a target, and ask for the turn by a plain yes."""
    if again:
        return f"물러서고 전선을 치우세요. 이제 {towards(spoken_name(target))} 돌릴까요?"
    introduced = introduce_target(scene, target=target, kind=kind, eyepiece_mm=eyepiece_mm, change=change)
    return f"{introduced} 물러서고 전선을 치우세요. 거기로 돌릴까요?"


def shall_i_turn_there_tersely(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool, again: bool) -> str:
    """Introduce a target and ask for the turn in few words."""
    asked = "물러서세요. 거기로 돌려 주세요, 또는 손으로 할게요라고 하세요."
    if again:
        return asked
    introduced = introduce_target_tersely(scene, target=target, kind=kind, eyepiece_mm=eyepiece_mm, change=change)
    return f"{introduced} {asked}"


def shall_i_turn_there_too_tersely(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool, again: bool) -> str:
    """Introduce a target and ask for a yes in few words."""
    if again:
        return "물러서세요. 이제 돌릴까요?"
    introduced = introduce_target_tersely(scene, target=target, kind=kind, eyepiece_mm=eyepiece_mm, change=change)
    return f"{introduced} 물러서세요. 돌릴까요?"


def it_points_there(scene: Scene, *, target: str, kind: Kind) -> str:
    """Say that it has arrived, and how to look."""
    return f"{towards(spoken_name(target))} 돌아서 멈춰 섰어요. 먼저 저배율 접안렌즈로 보세요."


TURNING = Chapter(
    phrases={
        say.ShallITurnThere: shall_i_turn_there,
        say.ShallITurnThereToo: shall_i_turn_there_too,
        say.ItPointsThere: it_points_there,
        say.UseTheArrows: "제가 조금씩 움직일 수 없어요. 화살표 키를 쓰세요.",
        say.SayWhichWay: "먼저 어느 쪽인지 말하세요. 조금 왼쪽으로, 오른쪽으로, 위로, 아래로.",
        say.IsItInView: "조금 더, 너무 갔어요, 또는 찾았어요라고 하세요.",
    },
    terse={
        say.ShallITurnThere: shall_i_turn_there_tersely,
        say.ShallITurnThereToo: shall_i_turn_there_too_tersely,
    },
    sayable={TurnReadilyAnswer: ("네", "손으로 할게요")},
    step_help={
        say.ShallITurnThere: "거기로 돌려 주세요라고 할 때만 돌려요. 손으로 할게요라고 하면 직접 보내시는 거예요.",
        say.ShallITurnThereToo: "네라고 하면 거기로 돌려요. 손으로 할게요라고 하면 직접 보내시는 거예요.",
        say.IsItInView: "조금 왼쪽으로라고 하면 움직여요. 너무 갔어요라고 하면 절반을 되돌려요. 반대쪽으로라고 하면 방향을 바꿔요.",
        say.ItPointsThere: "찾았는지, 아무것도 없는지 말해 주세요.",
    },
)
