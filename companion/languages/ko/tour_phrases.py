"""Korean for the spoken tour. The words that silence us are taught in their other form: ours must never be taken for yours."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.phrase import Chapter, Scene
from companion.talk.tour_phrases import ThatWorked, TourAnswer, TourLeft, TourOffered, TourOver, Tried, TryIt, WhatWeDo

TO_TRY: Mapping[Tried, str] = {
    Tried.REPEAT: "못 들으셨을 때 쓰는 말이에요. 한 번 더 말해 주세요라고 해 보세요.",
    Tried.WAIT: "손이 바쁠 때는 기다리게 하세요. 잠깐만요라고 해 보세요.",
    Tried.BACK: "잘못 대답했으면 되돌리세요. 앞으로 돌아가기라고 해 보세요.",
    Tried.WHERE: "어디까지 했는지 모르면 물어보세요. 지금 어느 단계예요라고 해 보세요.",
    Tried.QUIET: "제 말이 길면 조용히 시키세요. 조용히 하세요라고 해 보세요.",
}
WORKED: Mapping[Tried, str] = {
    Tried.REPEAT: "방금 한 말을 또 들려 드려요.",
    Tried.WAIT: "계속해 주세요라고 할 때까지 기다려요.",
    Tried.BACK: "대답 하나를 되돌리고 또 물어봐요.",
    Tried.WHERE: "지금 단계와 남은 질문을 알려 드려요.",
    Tried.QUIET: "바로 조용해져요. 도는 마운트는 조종기 버튼이나 스위치로 세우세요.",
}


def try_it(scene: Scene, *, phrase: Tried) -> str:
    """Have a phrase tried out."""
    return TO_TRY[phrase]


def that_worked(scene: Scene, *, phrase: Tried) -> str:
    """Confirm it."""
    return f"좋아요. {WORKED[phrase]}"


TOUR = Chapter(
    phrases={
        TourOffered: "처음이시면 가르쳐 주세요라고 하세요.",
        WhatWeDo: "설치와 정렬, 볼 만한 것까지 하나씩 안내하고 기다려 드려요. 다섯 마디는 늘 통해요. 그만두려면 안내 끝내기라고 하세요.",
        TryIt: try_it,
        ThatWorked: that_worked,
        TourOver: "이것으로 충분해요. 다른 것은 도움말이라고 하거나 물어보세요. 건너뛰기는 한 단계를 넘어가요.",
        TourLeft: "안내를 끝낼게요. 다시 원하시면 가르쳐 주세요라고 하세요.",
    },
    terse={
        WhatWeDo: "다섯 마디는 늘 통해요. 그만두려면 안내 끝내기라고 하세요.",
    },
    sayable={TourAnswer: ("다음 단계", "안내 끝내기")},
    step_help={TryIt: "제가 말한 것을 그냥 따라 해 보세요. 아무 일도 안 생겨요. 다음 단계나 안내 끝내기라고 해도 돼요."},
)
