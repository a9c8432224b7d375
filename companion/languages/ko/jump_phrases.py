"""Korean for going to another part of the evening, and for what that costs."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.ko.sight_words import direct, listed, subject, towards
from companion.languages.phrase import Chapter, Scene
from companion.talk.jump_phrases import (
    AlignAnew,
    GoingThere,
    LeavesUndone,
    MustBeDoneAgain,
    NothingToProve,
    OnlyByHand,
    PackUpNow,
    Part,
    WeAreThere,
)

_PARTS: Mapping[Part, str] = {
    Part.TRIPOD: "삼각대",
    Part.FINDER: "파인더 맞추기",
    Part.POSE: "수평과 북쪽 맞추기",
    Part.POWER: "전원 켜기",
    Part.SETTINGS: "설정",
    Part.STARS: "정렬 별",
    Part.PROOF: "정렬 확인",
    Part.TARGETS: "오늘 밤 대상",
    Part.PACKING: "정리",
}
_DONE_AGAIN: Mapping[Part, str] = {Part.STARS: "정렬"}


def going_there(scene: Scene, *, part: Part, back_to: Part | None) -> str:
    """Say where we go, and where back to afterwards."""
    there = towards(_PARTS[part])
    return f"{there} 갈게요." if back_to is None else f"{there} 갔다가 {towards(_PARTS[back_to])} 돌아올게요."


def must_be_done_again(scene: Scene, *, part: Part, lost: tuple[Part, ...]) -> str:
    """Ask whether to go to a part after which others must be done again."""
    parts = direct(listed([_DONE_AGAIN.get(one, _PARTS[one]) for one in lost]))
    return f"그러고 나면 {parts} 새로 해야 해요. {towards(_PARTS[part])} 돌아갈까요?"


def leaves_undone(scene: Scene, *, part: Part, left_out: tuple[Part, ...]) -> str:
    """Ask whether to go on to the stars without what they are found by."""
    parts = subject(listed([_PARTS[one] for one in left_out]))
    return f"그러면 {parts} 빠져서 마운트가 별을 놓칠 수 있어요. {towards(_PARTS[part])} 갈까요?"


JUMPS = Chapter(
    phrases={
        GoingThere: going_there,
        MustBeDoneAgain: must_be_done_again,
        LeavesUndone: leaves_undone,
        AlignAnew: "그러면 정렬이 첫 별부터 새로 시작돼요. 갈까요?",
        OnlyByHand: "마운트가 아직 하늘을 몰라서 손으로 맞춰야 해요. 대상으로 갈까요?",
        PackUpNow: "정리할까요?",
        NothingToProve: "정렬하기 전에는 확인할 것이 없어요.",
        WeAreThere: "지금 그 부분에 있어요.",
    },
    step_help={
        MustBeDoneAgain: "네라고 하면 거기로 가요. 아니요라고 하면 여기 머물고 잃는 것이 없어요.",
        LeavesUndone: "네라고 하면 거기로 가요. 아니요라고 하면 순서대로 해요.",
        AlignAnew: "네라고 하면 별을 처음부터 맞춰요. 아니요라고 하면 지금 정렬을 그대로 써요.",
        OnlyByHand: "네라고 하면 제가 볼 곳을 말하고, 화살표 키로 직접 맞춰요. 아니요라고 하면 설치를 이어 가요.",
        PackUpNow: "네라고 하면 정리를 시작해요. 아니요라고 하면 있던 곳에서 이어 가요.",
    },
)
