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
    "asking": (
        "언제든 다시 말해 주세요, 도와주세요, 모르겠어요, 왜요, 돌아가요, 건너뛰어요라고 할 수 있어요. "
        "쉬려면 잠깐만요, 다시 시작하려면 계속해요라고 하세요. "
        "베가는 어디예요, 언제 어두워져요처럼 언제든 물어볼 수 있어요. 대답한 다음 제 질문으로 돌아와요. "
        "안녕히 주무세요라고 하면 끝나요."
    ),
    "equipment": (
        "핸드 컨트롤러나 앱이 있는 경위대식 자동 망원경에 맞아요. "
        "손으로 움직이는 망원경으로는 별에서 별로 길을 알려 드려요. "
        "바람이 불면 헤드셋이 가장 좋아요. 나침반과 수평계와 빨간 등을 준비하세요."
    ),
    "gloves": "대답은 모두 말로 해요. 손가락이 필요할 때까지 장갑을 끼고 계세요. 추울 때는 맨손으로 쇠를 만지지 마세요.",
    "wind": "바람을 등지고 마이크를 앞에 두세요. 짧게 말하고 작은 소리가 날 때까지 기다리세요.",
    "headset": "헤드셋을 쓰면 제가 말하는 동안에도 말할 수 있어요. 한쪽 귀는 비워 두세요.",
    "sight": (
        "언제든 저는 앞이 안 보여요, 눈이 나빠요라고 하세요. 만지고 들으면서 할 수 있게 바꿔요. "
        "수평과 북쪽을 무엇이 말해 주는지 한 번만 물어봐요. "
        "아이가 봐 줘요, 친구가 봐 줘요라고 하면 그 사람이 답할 수 있게 물어요. "
        "혼자서 보지 않고는 별을 가운데에 맞출 수 없어요. 만져서 하는 설치와 이야기는 할 수 있어요."
    ),
    "children": "아이는 삼각대 옆에 서고, 경통 밑에는 서지 않아요. 모두 멈춘 다음에만 봐요. 낮에는 해를 보면 바로 눈이 멀어요.",
    "hearing": "말하는 것은 모두 글로도 나와요. 크게 말해 주세요, 천천히 말해 주세요, 짧게 말해 주세요라고 할 수 있어요.",
    "board": (
        "작은 리눅스 보드의 전원을 켜면 화면 없이 저절로 시작할 수 있어요. "
        "한 번 설치하고 헤드셋을 꽂은 다음, 체크 명령으로 귀와 목소리를 고르세요. "
        "프로필 명령으로 가까운 큰 도시를 알려 주고, 자동 시작을 켜세요. "
        "네트워크는 필요 없어요. 시계가 없으면 먼저 시간을 물어요. 정전 뒤에는 이어서 할지 물어요."
    ),
    "safety": (
        "망원경이나 파인더로 해나 그 근처를 절대 보지 마세요. 바로 눈이 멀어요. "
        "전선과 삼각대 다리를 조심하고, 움직이는 마운트에서 손과 눈을 떼세요. 따뜻하게 입으세요."
    ),
    "privacy": "네트워크 없이 움직이고 소리는 남기지 않아요. 대답과 관측 기록은 이 기기의 한 폴더에만 있어요.",
    "limits": (
        "저는 주변도 망원경도 날씨도 볼 수 없고, 혜성은 몰라요. "
        "시끄러우면 덜 알아들어요. 다시 말하거나 더 가까이 오세요. "
        "진짜 마운트나 사람의 목소리로는 아직 재어 보지 못했어요. "
        "마운트를 멈출 때는 목소리보다 버튼이 확실해요."
    ),
}
