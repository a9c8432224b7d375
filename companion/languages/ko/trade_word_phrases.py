"""Korean for the words of the trade, told by what each feels like and where it sits, and for how things are done by hand.

At most two sentences each.
"""

from __future__ import annotations

from collections.abc import Mapping

from companion.talk.trade_words import Task, TradeWord

_TOLD: Mapping[TradeWord, tuple[tuple[str, ...], str]] = {
    TradeWord.ALIGNMENT: (
        ("정렬",),
        "이름을 아는 별을 가운데에 넣어 마운트에 하늘의 방향을 가르치는 일이에요. 그다음에는 마운트가 스스로 찾아요.",
    ),
    TradeWord.ALTITUDE_SCALE: (("고도 눈금",), "경통이 위아래로 기우는 옆쪽의 눈금판이에요. 영이면 경통이 수평이에요."),
    TradeWord.APERTURE: (("구경",), "망원경 앞 렌즈나 주경의 지름이에요. 열린 끝에 자를 대면 잴 수 있어요."),
    TradeWord.APPARENT_FIELD: (
        ("겉보기 시야",),
        "접안렌즈에 눈을 댔을 때 보이는 둥근 창의 넓이예요. 오십 도는 팔 길이에서 본 접시만 해요.",
    ),
    TradeWord.ARROW_KEYS: (("화살표 키",), "조종기에 둥글게 놓인 키 네 개예요. 누르는 동안 경통을 한쪽으로 돌려요."),
    TradeWord.AVERTED_VISION: (("주변시",), "어두운 대상의 조금 옆을 보는 거예요. 눈은 가장자리가 어둠 속에서 더 잘 봐요."),
    TradeWord.AXIS: (("회전축",), "경첩의 핀처럼 무언가가 도는 중심이에요. 마운트에는 위아래로 선 것과 가로로 누운 것, 두 개가 있어요."),
    TradeWord.AZIMUTH: (("방위각",), "북쪽에서 오른쪽으로 얼마나 돌았는지예요. 북쪽이 영, 동쪽이 구십 도예요."),
    TradeWord.BALANCE: (("균형",), "고정 나사를 풀어도 경통이 그대로 있는 상태예요. 기울면 경통을 앞뒤로 옮기세요."),
    TradeWord.BARLOW: (("바로우 렌즈",), "접안렌즈 앞에 끼우는 짧은 통 속의 렌즈예요. 대개 배율을 두 배로 높이고 조금 어둡게 해요."),
    TradeWord.BASE: (("받침",), "마운트의 맨 아래, 삼각대에 놓여 돌지 않는 부분이에요. 둥근 기포가 흔히 거기 있어요."),
    TradeWord.BUBBLE: (("기포",), "받침이나 삼각대 위 작은 창 속의 공기 방울이에요. 방울이 고리 안에 있으면 수평이에요."),
    TradeWord.CAP: (("뚜껑",), "경통 앞과 파인더를 덮는 덮개예요. 경통만큼 넓은 테두리를 만져 보세요."),
    TradeWord.CLAMP: (("고정 나사",), "경통이 기울지 않게 조이는 마운트의 손잡이예요. 풀 때는 경통을 붙잡으세요."),
    TradeWord.COMPASS_NEEDLE: (("나침반 바늘", "바늘"), "나침반 속에서 흔들리는 가는 바늘이에요. 진북이 아니라 자북을 따라가요."),
    TradeWord.CONFIRM: (("확인",), "별이 가운데에 있다고 마운트에 알리는 일이에요. 조종기의 키 하나로 해요."),
    TradeWord.CROSS: (("남십자",), "남쪽 하늘에 가까이 모인 밝은 별 네 개예요. 긴 쪽을 이으면 하늘의 극을 가리켜요."),
    TradeWord.DAYLIGHT_SAVING: (
        ("서머타임",),
        "여름에 시계를 한 시간 앞당기는 거예요. 마운트 메뉴에서 틀리면 별이 주먹 하나 넘게 어긋나요.",
    ),
    TradeWord.DEW: (("이슬",), "창에 서린 입김처럼 찬 유리에 맺히는 물이에요. 별이 모두 뿌옇게 번져요."),
    TradeWord.DEW_SHIELD: (("이슬 후드",), "경통 앞을 길게 하는 짧은 통이에요. 렌즈 둘레에 끼워 이슬을 막아요."),
    TradeWord.DIAGONAL: (("천정미러",), "경통과 접안렌즈 사이의 꺾인 부분이에요. 속의 거울 덕분에 위가 아니라 아래를 보고 들여다봐요."),
    TradeWord.DOUBLE_STAR: (("이중성",), "맨눈에는 하나로 보일 만큼 가까운 별 두 개예요. 망원경으로 보면 갈라지고 색이 다를 때도 많아요."),
    TradeWord.DRIFT: (("흐름",), "지구가 돌아서 별이 시야에서 천천히 벗어나는 거예요. 헐거운 게 아니니 가운데로 되돌리세요."),
    TradeWord.EXIT_PUPIL: (("사출동공",), "팔 길이에서 본 접안렌즈 속의 작고 밝은 원이에요. 눈동자보다 넓으면 빛을 조금 잃어요."),
    TradeWord.EYEPIECE: (("접안렌즈",), "눈을 대는 엄지만 한 작은 렌즈예요. 옆의 나사가 붙잡고 있고, 풀면 빠져요."),
    TradeWord.FINDER: (("파인더",), "경통 옆에 달린 작은 조준기예요. 하늘을 더 넓게 보여 줘요."),
    TradeWord.FINDER_SCREWS: (("파인더 나사",), "파인더 둘레의 작은 나사 두세 개예요. 하나를 돌리면 파인더가 조금 기울어요."),
    TradeWord.FILTER: (("필터",), "접안렌즈에 끼우는 색유리예요. 빛을 줄이기만 하니 쓸모 있는 대상이 드물어요."),
    TradeWord.MAGNITUDE: (("등급",), "얼마나 밝은지예요. 숫자가 클수록 어둡고, 육 등급이 맨눈에 보이는 가장 어두운 별이에요."),
    TradeWord.FIST: (("주먹",), "팔을 펴고 한쪽 눈을 감고 본 주먹이에요. 하늘에서 십 도쯤이고, 지평선부터 쌓아 올려요."),
    TradeWord.FOCAL_LENGTH: (("초점 거리",), "망원경 속에서 빛이 가는 길이예요. 앞쪽이나 초점 손잡이 옆에 에프와 함께 적혀 있어요."),
    TradeWord.FOCUSER: (("초점 손잡이",), "접안렌즈를 앞뒤로 움직이는 손잡이예요. 접안렌즈 옆이나 경통 뒤에 있어요."),
    TradeWord.FORK: (("포크",), "경통을 잡는 팔 하나나 두 개예요. 돌 때 끼이니 손가락을 넣지 마세요."),
    TradeWord.GALAXY: (("은하",), "아주 먼 별들의 섬이에요. 흐린 타원 얼룩으로 보이니 조금 옆을 보세요."),
    TradeWord.GLOBULAR_CLUSTER: (("구상성단",), "늙은 별이 아주 많이 모인 공이에요. 둥글고 뿌옇고 가장자리가 자잘해요."),
    TradeWord.HAND_CONTROL: (("조종기",), "꼬인 전선 끝에 달린, 키와 작은 화면이 있는 전화기 같은 것이에요."),
    TradeWord.LANDMARK: (("지상 목표물",), "멀리 있고 움직이지 않는 것이에요. 철탑이나 지붕 모서리 같은 거예요."),
    TradeWord.LATITUDE: (("위도",), "지구에서 얼마나 북쪽이나 남쪽에 있는지예요. 가까운 도시를 말해 준 뒤 여기가 어디예요라고 물어보세요."),
    TradeWord.LEG_LOCK: (("다리 잠금쇠",), "삼각대 다리 가운데의 손잡이예요. 조여 두면 기대도 다리가 줄어들지 않아요."),
    TradeWord.LONGITUDE: (
        ("경도",),
        "그리니치에서 얼마나 동쪽이나 서쪽에 있는지예요. 가까운 도시를 말해 준 뒤 여기가 어디예요라고 물어보세요.",
    ),
    TradeWord.LOW_POWER: (("저배율 접안렌즈", "저배율"), "숫자가 가장 큰 접안렌즈예요. 하늘을 가장 넓게 보여 줘요."),
    TradeWord.MILKY_WAY: (("은하수",), "어두운 하늘을 가로지르는 셀 수 없는 별의 흐린 띠예요. 보이면 자리가 좋은 거예요."),
    TradeWord.MOUNT: (("마운트",), "삼각대와 경통 사이, 모터가 든 부분이에요. 경통을 돌려요."),
    TradeWord.NEBULA: (("성운",), "빛나는 가스 구름이에요. 회색 입김처럼 보이고, 조금 옆을 봐야 잘 보여요."),
    TradeWord.OPEN_CLUSTER: (("산개성단",), "설탕 한 줌처럼 성긴 별 무리예요. 저배율이면 다 보여요."),
    TradeWord.PARK: (("보관 자세",), "경통을 쉬는 자리로 보내는 거예요. 메뉴에 항목이 있을 때가 많아요."),
    TradeWord.PLANETARY_NEBULA: (("행성상성운",), "죽어 가는 별의 껍질이에요. 작고 둥근 회색 원반이고, 행성과는 상관없어요."),
    TradeWord.POLE_STAR: (("북극성",), "밤새 진북에 서 있는 별이에요. 꽤 밝을 뿐 아주 밝지는 않아요."),
    TradeWord.POWER: (("고배율", "배율"), "몇 배로 크게 보이는지예요. 접안렌즈의 숫자가 작을수록 높아요."),
    TradeWord.PROOF: (("정렬 확인",), "아직 안 가르친 별로 마운트를 보내 보는 거예요. 접안렌즈에 들어오면 하늘을 아는 거예요."),
    TradeWord.RED_DOT: (("빨간 점",), "두 눈을 뜨고 보는 작은 창 속의 점이에요. 점이 놓인 곳을 경통이 봐요."),
    TradeWord.REFERENCE_STAR: (("정렬 별",), "마운트가 위치를 배우게 가운데에 넣는 밝은 별이에요. 보통 두 개예요."),
    TradeWord.SLACK: (("유격",), "키를 눌러도 잠깐 안 움직이는 톱니의 틈이에요. 늘 같은 키로 끝내면 없어져요."),
    TradeWord.SLEW: (("이동",), "마운트가 윙 소리를 내며 빠르게 도는 거예요. 물러서세요. 화살표 키를 누르면 멎어요."),
    TradeWord.SLOW_KEYS: (("느린 속도",), "화살표 키를 더 느리게 정한 거예요. 대개 속도 키를 누르고 작은 숫자를 골라요."),
    TradeWord.SPIRIT_LEVEL: (("수평계",), "대롱 속에 방울이 든 짧은 막대예요. 방울이 가운데면 수평이에요."),
    TradeWord.STARTING_POSE: (("시작 자세",), "마운트가 아무것도 모를 때 서 있는 자세예요. 받침 수평, 진북, 경통 수평이에요."),
    TradeWord.SYNC: (("동기화",), "지금 정확히 여기를 본다고 마운트에 알리는 거예요. 조종기 메뉴에 있어요."),
    TradeWord.TARGET: (("대상",), "오늘 밤 볼 만한 것이에요. 성단, 은하, 행성 가운데 자리가 좋은 것을 골라요."),
    TradeWord.TRIPOD: (("삼각대",), "모든 것이 올라서는 다리 세 개예요. 가운데에 판이 있어요."),
    TradeWord.TRUE_NORTH: (("진북",), "하늘이 도는 중심, 지구의 극 쪽이에요. 나침반은 거기서 몇 도 어긋나요."),
    TradeWord.TUBE: (("경통",), "유리가 든 길거나 뭉툭한 통, 망원경 그 자체예요."),
    TradeWord.TWILIGHT: (("박명",), "해가 진 뒤와 뜨기 전에 하늘에 남은 빛이에요. 어두운 대상은 그 빛이 없어져야 보여요."),
    TradeWord.UNIVERSAL_TIME: (("세계시",), "온 지구가 함께 쓰는 그리니치의 시각이에요. 지역 시각은 거기서 몇 시간 떨어져 있어요."),
    TradeWord.ZONE: (("시간대",), "겨울에 시계가 세계시보다 몇 시간 빠르거나 늦은지예요. 마운트 설정의 한 줄이에요."),
}
WORDS: Mapping[TradeWord, str] = {word: told for word, (_, told) in _TOLD.items()}
FORMS: Mapping[TradeWord, tuple[str, ...]] = {word: forms for word, (forms, _) in _TOLD.items()}
"""How each is said. The grammar file has the same."""

TASKS: Mapping[Task, str] = {
    Task.AVERT: "시야에서 손가락 하나쯤 옆의 어두운 곳에 눈을 두세요. 기다리면 떠올라요.",
    Task.BALANCE: "경통을 붙잡고 고정 나사를 풀어 어느 쪽으로 기우는지 보세요. 반대로 옮겨 멈추면 조이세요.",
    Task.CENTRE: "느린 속도로 짧게 누르며 접안렌즈를 보세요. 별을 가운데에 넣고 늘 쓰는 키로 끝내세요.",
    Task.CONFIRM: "별이 가운데에 오면 조종기의 확인 키를 누르세요. 어느 키인지 화면에 나와요.",
    Task.EYEPIECE_IN: "작은 나사를 풀고 접안렌즈를 끼운 다음 살짝 조이세요. 숫자가 가장 큰 것부터 쓰세요.",
    Task.FACE_NORTH: "경통 앞이 진북을 볼 때까지 마운트 전체를 돌리세요. 북쪽이 어느 쪽이에요라고 물으면 알려 드려요.",
    Task.FINDER: "먼 것을 접안렌즈 가운데에 넣으세요. 그다음 파인더 나사를 돌려 표시를 같은 점에 맞추세요.",
    Task.FOCUS: "별이 가장 작은 점이 될 때까지 초점 손잡이를 천천히 돌리세요. 지나치면 커지니 조금 되돌리세요.",
    Task.LEVEL: "기포는 높은 쪽으로 가니 그쪽 다리를 조금 줄이세요. 조금씩 하고 다리를 조이세요.",
    Task.LOCK_LEGS: "다리를 원하는 만큼 빼고 잠금쇠를 단단히 조이세요. 한 번 기대어 보세요.",
    Task.MEASURE: "팔을 펴고 한쪽 눈을 감고 주먹을 쥐세요. 그 너비가 주먹 하나이고, 옮겨 가며 쌓으세요.",
    Task.MOUNT_ON: "무릎을 굽혀 들어 삼각대 판에 올리세요. 아래의 큰 나사를 단단히 조이세요.",
    Task.SYNC: "별을 가운데에 넣고, 조종기 메뉴에서 동기화를 찾아 확인 키를 누르세요.",
    Task.TUBE_LEVEL: "경통을 붙잡고 고정 나사를 풀어 수평계를 대세요. 방울이 가운데에 오면 조이세요.",
    Task.TUBE_ON: "레일을 마운트의 홈에 끼우고 손잡이를 조이세요. 살짝 흔들어 보기 전에는 손을 떼지 마세요.",
}


def first_trade_word(words: str) -> TradeWord | None:
    """Return the word of the trade that is said first; of two in the same place the longer one. None where there is none.

    Korean glues particles behind a word, so only its beginning must be the beginning of a word.
    """
    spaced = f" {words}"
    found = ((spaced.find(f" {form}"), -len(form), word) for word, forms in FORMS.items() for form in forms)
    return min(((place, length, word) for place, length, word in found if place >= 0), default=(0, 0, None))[2]
