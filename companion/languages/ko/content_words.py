"""What carries the meaning of a typed Korean line: nouns less their particles, verbs less their endings, those of one meaning as one."""

from __future__ import annotations

import re

from companion.orthography import Content, Telling


def _words(line: str) -> list[str]:
    return line.split()


_NEGATED, _FIGURE = "아니", "#"
_SMALL = frozenset(
    _words(
        "것 거 건 게 걸 수 때 데 좀 잘 다 더 또 막 꽤 딱 그 이 저 제 내 나 우리 여기 거기 그거 이거 저거 이건 그건 이게 그게 그냥 지금 "
        "이제 방금 아까 오늘 진짜 정말 아주 너무 많이 조금 약간 일단 그럼 그러면 그래서 그리고 근데 음 어 아 자 네 예 응 우와 와 하 같 "
        "있 싶 주 되 이다 해 에 에서 으로 로 도 만 까지 부터 인 은 는 이랑 랑 하고 처럼 쪽 방향 개 번 점 씨 님 "
        "말씀 말 생각 모양 정도 상태 상황 사용 하나 안녕하 감사하 죄송하 글쎄 대충 완전 제대로 드디어 이미 벌써 다시"
    )
)
"""They tell too little: nearly every line has some of them."""
_NOT = frozenset(_words("안 못 밖 아니 아니야 아뇨 아닙 아니에 않 없 말고 모르"))
_DECISIVE = frozenset(_words("왼 오른 위 아래 동 서 남 북 북동 북서 남동 남서"))
_SIDES = {f"{side}쪽": side for side in _DECISIVE} | {"좌측": "왼", "우측": "오른", "상단": "위", "하단": "아래"}
_SLIGHT = frozenset(_words("어디 어느 어떻 어떡하 왜 뭐 무엇 언제 누구 몇 얼마 들어오 나오 가 오 하"))
_COMMANDING = frozenset(_words("건너뛰"))
_OPPOSITES = {
    one: other
    for pair in ("켜 끄", "올라가 내려가", "크 작", "밝 어둡", "빠르 느리", "맞 틀리", "높 낮", "들어오 벗어나", "또렷 흐릿", "쉽 어렵")
    for one, other in (_words(pair), _words(pair)[::-1])
}
_ONE_MEANING = (
    "기포 물방울 방울 수평계",
    "가운데 한가운데 정가운데 중앙 중심 정중앙 십자선 십자",
    "시작 출발 착수",
    "입력 치 넣 적 설정",
    "휴대폰 핸드폰 폰 스마트폰 전화기",
    "켜 키 켜지 작동 부팅",
    "끄 꺼 꺼지",
    "먹통 반응",
    "성공 받아들이 완료 통과",
    "실패 에러 오류 거부",
    "흐릿 뿌예 뿌옇 번지 뭉개지",
    "까맣 새까맣 새까매 캄캄 깜깜 어둡",
    "희미 어슴푸레 흐리",
    "또렷 선명 뚜렷",
    "구름 구름끼 흐려지",
    "가리 가려지 막히",
    "나무 나뭇가지 가지 건물 지붕 집 담",
    "치우치 벗어나 비켜나 어긋나 빗나가",
    "조이 잠그 고정 단단",
    "펴 피 펼치 벌리",
    "세우 세워 설치 세팅",
    "올리 얹 올려놓",
    "벗기 열 빼 제거",
    "덮 닫 씌우",
    "돌리 향하 맞추 돌려놓",
    "찾 발견",
    "보이 나타나 잡히 보여지",
    "춥 시리 떨리",
    "피곤 졸리 지치",
    "예쁘 멋지 아름답 대단",
    "다음 다른 딴",
    "설명 이야기 얘기 알려주 해설",
    "기다리 잠깐 잠시 잠시만 잠깐만 잠깐만요",
    "그만 마치 끝내 집 철수",
    "마운트 가대",
    "망원경 경통",
    "조종기 핸드컨트롤러 리모컨",
    "무섭 겁나",
    "움직이 흔들리",
    "챙기 가져가 들고가 준비",
)
_SAME = {word: line.split()[0] for line in _ONE_MEANING for word in line.split()}
_ENDINGS = re.compile(
    r"(?:(?:이?라고|다고|냐고|자고)?(?:요|해요|하네요|합니다|뜨네요|떠요|나와요|하는데요?)?"
    r"|(?:는|은|ㄴ|인|던)?데요?|네요?|래요?|대요?|죠|지요?|거든요?|군요|구나|고요?|서|니까요?|으니까|는지|ㄹ까요?|을까요?|ㄹ게요?|"
    r"하게|을게요?|ㄹ래요?|을래요?|습니다|ㅂ니다|십시오|세요|으세요|시죠|자요?|면|으면|려고요?|잖아요?|나요|가요|야|이야|다)$"
)
_COPULAS = ("이에요", "이예요", "예요", "에요", "이요", "입니다", "이네요", "인데요", "이래요", "라고요", "인가요", "요")
_PARTICLES = (
    "에서는", "으로는", "에서", "에는", "에게", "한테", "으로", "까지", "부터", "처럼", "보다", "이랑", "하고", "마다", "밖에", "이나",
    "은", "는", "이", "가", "을", "를", "에", "로", "도", "만", "의", "과", "와", "랑", "나",
)  # fmt: skip
_CONTRACTED = {"ㅕ": "ㅣ", "ㅘ": "ㅗ", "ㅝ": "ㅜ", "ㅙ": "ㅚ"}
_MIDDLES, _CLOSINGS = "ㅏㅐㅑㅒㅓㅔㅕㅖㅗㅘㅙㅚㅛㅜㅝㅞㅟㅠㅡㅢㅣ", 28
_PAST, _FINAL_B, _FINAL_N, _FINAL_L = 20, 17, 4, 8
_ASKED = re.compile(r"\?|(?:뭐|뭘|무엇|무슨|왜|어떻게|어떡|어디|언제|누구|누가|몇|얼마|어느|어때)|(?:까요?|나요|는지|가요|ㄴ가요|죠)$")
_GOING = re.compile(r"가자|가요|갈래|갈게|가죠|넘어|돌아|부터|다시|건너|처음|정리|시작|새로|이동")
_FIGURES = frozenset(
    _words("둘 두 셋 세 넷 다섯 여섯 일곱 여덟 아홉 열 스물 서른 삼 사 오 육 칠 팔 구 십 백 천 반 영 공 이십 삼십 사십 오십")
)


def _parts(syllable: str) -> tuple[int, int, int]:
    code = ord(syllable) - 0xAC00
    return code // 588, code // _CLOSINGS % 21, code % _CLOSINGS


def _syllable(initial: int, middle: int, final: int) -> str:
    return chr(0xAC00 + initial * 588 + middle * _CLOSINGS + final)


def _verb_stem(word: str) -> str:
    """Return what is left of a verb in the polite, formal or familiar style, past or present: "보였어요", "보입니다", "보여" give "보이"."""
    for ended in (r"요$", r"(?:(?:었|았|였)(?:어|아)?|어|아|여)$", r"(?<=[려라켜혀쳐])(?:놨|놓|뒀|두|버렸|버리|봤)$"):
        word = re.sub(ended, "", word) or word
    initial, middle, final = _parts(word[-1])
    if final in (_PAST, _FINAL_B, _FINAL_N, _FINAL_L):
        final = 0 if final == _PAST or len(word) > 1 else final
    vowel = _MIDDLES[middle]
    if word[-1] in ("해", "했"):
        vowel = "ㅏ"
    elif final == 0:
        vowel = _CONTRACTED.get(vowel, vowel)
    stem = word[:-1] + _syllable(initial, _MIDDLES.index(vowel), final)
    return stem.removesuffix("하") if len(stem) > 2 else stem


def _stem(word: str) -> str:
    """Return what a word carries, in one spelling for all its forms."""
    word = _SIDES.get(word, word)
    if re.match(r"보(?:여|였|입|이)", word):
        return "보이"  # its last vowel would be taken for an ending
    if word in _SAME or word in _SMALL or word in _NOT or word in _DECISIVE:
        return _SAME.get(word, word)
    for ending in _COPULAS:
        if word.endswith(ending) and (noun := _known_noun(word.removesuffix(ending))) is not None:
            return noun
    if (noun := _known_noun(word)) is not None:
        return noun
    bare = _without_ending(word)
    if bare != word or re.search(r"[어아여해와봐줘돼춰켜져려워겨펴쳐]$|요$", word):
        stem = _verb_stem(bare)
        return _SAME.get(stem, stem)
    noun = _without_particle(word)
    return _SAME.get(noun, _SIDES.get(noun, noun))


def _known_noun(word: str) -> str | None:
    """Return a noun whose meaning is told above, with a particle or without; None for any other word."""
    for form in (word, _without_particle(word)):
        bare = _SIDES.get(form, form)
        if bare in _SAME or bare in _DECISIVE:
            return _SAME.get(bare, bare)
        if bare in _SMALL:
            return bare
    return None


def _without_particle(word: str) -> str:
    particle = next((one for one in _PARTICLES if word.endswith(one) and len(word) > len(one)), "")
    return word.removesuffix(particle)


def _without_ending(word: str) -> str:
    found = _ENDINGS.search(word)
    return word[: found.start()] if found is not None and found.start() > 0 else word


def of_word(word: str) -> Content | None:
    """Return what a word carries; None for a figure."""
    bare = re.sub(r"[^가-힣]", "", word)
    if not bare or bare in _SMALL:
        return frozenset()
    if bare in _FIGURES:
        return None
    return _carried(bare)


def _carried(bare: str) -> Content:
    denied = re.match(r"(안|못)(?=보|됐|돼|되|들|맞|켜|움|나|찾|했|해)", bare)
    if denied is not None and len(bare) > 1:
        return frozenset({_NEGATED}) | _carried(bare[1:])
    stem = _stem(bare)
    if stem in _NOT or stem[:2] in ("아니", "않") or bare.startswith(("없", "않", "모르", "몰라")):
        return frozenset({_NEGATED})
    return frozenset() if stem in _SMALL or not stem else frozenset({stem})


def of_line(line: str) -> Content:
    """Return what a line carries."""
    words = re.findall(r"[가-힣]+|\d+", line)
    figures = {_FIGURE for word in words if word.isdigit() or word in _FIGURES}
    return frozenset(figures).union(*(of_word(word) or frozenset() for word in words if not word.isdigit()))


def asks(line: str) -> bool:
    """Say whether a line asks something."""
    return _ASKED.search(line.strip(" .!~")) is not None


def goes(line: str) -> bool:
    """Say whether a line wants to go somewhere, or to begin something again."""
    return _GOING.search(line) is not None


TELLING = Telling(of_word, of_line, asks, goes, _DECISIVE, _NEGATED, _COMMANDING, _FIGURE, _SLIGHT, _OPPOSITES)
"""Korean, as it is typed."""
