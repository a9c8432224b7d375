"""Korean for ``companion help``."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.ko.tour_phrases import TO_TRY, TOUR, WORKED
from companion.talk.tour_phrases import TourOver, Tried, WhatWeDo


def _the_tour() -> str:
    """Return the spoken tour as one text, each phrase followed by what it does."""
    tried = " ".join(f"{TO_TRY[phrase]} {WORKED[phrase]}" for phrase in Tried)
    return f"{TOUR.phrases[WhatWeDo]} {tried} {TOUR.phrases[TourOver]}"


TOPICS: Mapping[str, str] = {
    "tour": _the_tour(),
    "gloves": "대답은 모두 말로 해요. 손가락이 필요할 때까지 장갑을 끼고 계세요. 추울 때는 맨손으로 쇠를 만지지 마세요.",
    "wind": "바람을 등지고 마이크를 앞에 두세요. 짧게 말하고 작은 소리가 날 때까지 기다리세요.",
    "headset": "헤드셋을 쓰면 제가 말하는 동안에도 말할 수 있어요. 한쪽 귀는 비워 두세요.",
    "sight": (
        "언제든 저는 앞이 안 보여요, 눈이 나빠요라고 하세요. 만지고 들으면서 할 수 있게 바꿔요. "
        "아이가 봐 줘요, 친구가 봐 줘요라고 하면 그 사람이 답할 수 있게 물어요. "
        "혼자서 보지 않고는 별을 가운데에 맞출 수 없어요. 만져서 하는 설치와 이야기는 할 수 있어요."
    ),
    "children": "아이는 삼각대 옆에 서고, 경통 밑에는 서지 않아요. 모두 멈춘 다음에만 봐요. 낮에는 해를 보면 바로 눈이 멀어요.",
    "hearing": "말하는 것은 모두 글로도 나와요. 크게 말해 주세요, 천천히 말해 주세요, 짧게 말해 주세요라고 할 수 있어요.",
    "safety": (
        "망원경이나 파인더로 해나 그 근처를 절대 보지 마세요. 바로 눈이 멀어요. "
        "전선과 삼각대 다리를 조심하고, 움직이는 마운트에서 손과 눈을 떼세요. 따뜻하게 입으세요."
    ),
    "privacy": "네트워크 없이 움직이고 소리는 남기지 않아요. 대답과 관측 기록은 이 기기의 한 폴더에만 있어요.",
}
