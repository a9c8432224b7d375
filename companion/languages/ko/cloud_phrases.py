"""Korean for when clouds stand before the stars."""

from __future__ import annotations

from companion.languages.phrase import Chapter
from companion.talk.answers import ClearSkyAnswer
from companion.talk.cloud_phrases import IsAnyOfItClear, NothingGoodThere, WaitForTheSky, WhichPartIsClear

CLOUDS = Chapter(
    phrases={
        IsAnyOfItClear: "하늘에 맑은 곳이 있어요? 있다면 어느 쪽이에요?",
        WhichPartIsClear: "어느 쪽이에요? 서쪽이요, 또는 머리 위요처럼 말하세요.",
        NothingGoodThere: "지금 거기에는 좋은 별이 없어요.",
        WaitForTheSky: "그럼 기다려요. 마운트는 켜 두고, 이슬이 맺히지 않게 경통 뚜껑을 덮으세요. 맑아지면 준비됐어요라고 하세요. 그만하려면 정리하기라고 하세요.",
    },
    sayable={ClearSkyAnswer: ("없어요", "서쪽이요", "머리 위요")},
    step_help={
        IsAnyOfItClear: "별이 보이는 쪽을 방위나 머리 위로 말하세요. 하나도 안 보이면 없어요라고 하세요.",
        WhichPartIsClear: "방위를 말하거나 머리 위라고 하세요.",
        WaitForTheSky: "구름은 띠처럼 지나갈 때가 많아요. 삼십 분 뒤에 다시 보세요. 별 없이 가려면 건너뛰기라고 하세요.",
    },
)
