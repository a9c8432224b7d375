"""What a typed line is most likely about, by its words, where nothing else understands it. What changes anything is asked back."""

from __future__ import annotations

import re
from collections.abc import Iterator

_DEEDS = (
    "세웠|세워|폈|펴|조였|잠갔|올렸|얹었|끼웠|맞췄|맞추었|잡았|돌렸|돌려|넣었|입력했|적었|쳤|벗겼|벗겨|덮었|닫았|켰|껐|감았|챙겼|뺐|놨|놓았"
    "|설치했|설정했|확인했|연결했|골랐|찾았|했|끝냈|마쳤"
)
_DONE = re.compile(
    rf"(?:{_DEEDS})(?:어요?|아요?|습니다|네요?|는데요?|지요?|죠|으니까?)?(?: 놨어요?| 놓았어요?| 뒀어요?| 놨습니다)?(?: (?:다음|이제).*)?$"
)
"""A line that ends with something done: it says so of what was asked for."""
_DONE_IS = {
    "ready": "준비됐어요",
    "level": "수평이에요",
    "tube": "수평이에요",
    "north": "북쪽 맞췄어요",
    "power": "켜졌어요",
    "setting": "준비됐어요",
    "packing": "다 했어요",
    "mark": "준비됐어요",
}
_DENIES = re.compile(r"(?:^|\s)(?:안|못|아니요?|아뇨)(?=\s|\S*[가-힣])|없|않|덜|아직|고장|부러|넘어")
_WAITS = re.compile(r"아직|잠깐|잠시|기다려|조금만|좀만|이따")
_ANYWHERE = (
    (
        re.compile(
            r"(?:다시|한 ?번 더) (?:\S+ )?(?:불러|말해|말씀|읽어|들려|알려)|라고요?$|(?:몇|얼마|뭐|뭐라고?)(?:이|\s).*라고요?$|못 들었"
        ),
        "다시 말해 주세요",
    ),
    (re.compile(r"어떻게 해|어떡하|어떡해|어려워|도와|모르겠"), "도움말"),
)
_YES, _NO = re.compile(r"^(?:응|네|예|넵|그래|어)(?=\s|,|$)"), re.compile(r"^(?:아니요?|아뇨|아닌데)(?=\s|,|$)")
_AT: dict[str, tuple[tuple[str, str], ...]] = {
    "clock_check": (
        (r"빠르|빠른|늦|느리|느린|시간이? (?:안|틀)|시각", "시각이 틀려요"),
        (r"날짜|하루", "날짜가 틀려요"),
    ),
    "start": ((r"시작|출발|가자|가시죠|가죠|해 ?보자|좋아", "준비됐어요"),),
    "north": ((r"나침반.*(?:없|안 되)|북극성.*(?:안 보|못)", "다른 방법이요"),),
    "kit": ((r"의자", "의자"), (r"장갑", "장갑"), (r"열선", "이슬 열선"), (r"배터리", "여분 배터리"), (r"음료|커피|차", "따뜻한 음료")),
    "power": ((r"(?:반응|불|화면|전원).*(?:없|안 )|먹통", "안 켜져요"),),
    "finder": ((r"밖|벗어", "아직이에요"), (r"구름|흐려", "구름이 가렸어요")),
    "outcome": ((r"하나 더|별을? 더|더 (?:하래|달래|하라|필요)", "별을 더 달라고 해요"),),
    "target": (
        (r"(?:다른|딴|다음) ?(?:거|것|걸|별|대상)|넘어가", "다음 대상"),
        (r"뭐예요|뭐야|무엇|설명|이야기|얘기", "이야기해 주세요"),
        (r"그만 ?(?:보|하|할)|집에|끝내|마치|마칠|철수|자러", "안녕히 주무세요"),
    ),
}


def gists(line: str, rule: str) -> Iterator[str]:
    """Yield the phrases that a typed line may stand for where answers of that rule are expected, the likeliest first."""
    bare = " ".join(re.findall(r"[가-힣0-9]+", line))
    if rule in {"yes_no", "clock_check"}:
        yield from ("네" for _ in _YES.finditer(bare))
        yield from ("아니요" for _ in _NO.finditer(bare))
    yield from (phrase for pattern, phrase in _AT.get(rule, ()) if re.search(pattern, bare))
    yield from (phrase for pattern, phrase in _ANYWHERE if pattern.search(bare))
    if _WAITS.search(bare):
        yield "아직이에요"
    elif rule in _DONE_IS and _DONE.search(bare) and not _DENIES.search(bare):
        yield _DONE_IS[rule]
