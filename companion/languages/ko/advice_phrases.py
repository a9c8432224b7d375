"""Korean for what somebody at a telescope runs into. At most two sentences each."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.phrase import Chapter, Scene
from companion.talk.advice import Advice
from companion.talk.question_phrases import Advised

TOLD: Mapping[Advice, str] = {
    Advice.FOCAL_RATIO: "그건 초점 거리가 구경의 몇 배인지예요. 둘을 곱하면 초점 거리예요. 접안렌즈 숫자는 테두리에 따로 있어요.",
    Advice.COOLING: "경통 속 더운 공기가 별을 흔들어요. 뚜껑을 열고 삼십 분, 큰 경통은 한 시간쯤 밖에 두세요.",
    Advice.DECIMALS: "육십 분이 일 도예요. 분을 육십으로 나누면 삼십 분은 영 점 오예요. 남위와 서경은 마이너스예요.",
    Advice.NOT_TAKEN: "영을 모두 넣거나 순서를 바꿔야 할 때가 있어요. 월 먼저, 일 먼저, 열두 시간제, 초가 없어요처럼 말하면 그렇게 불러 드려요.",
    Advice.POINT: "별은 어느 망원경으로 봐도 점이에요. 그게 맞아요. 행성과 달만 커져요.",
    Advice.SAFETY: "위험한 것은 셋이에요. 망원경으로 보는 태양, 무거운 경통, 어둠 속 전선이요. 그때마다 알려 드려요.",
    Advice.SCREEN: (
        "화면은 읽지 않아도 돼요. 다 말해 드려요. "
        "핸드셋 화면은 다른 사람이나 글자를 읽어 주는 휴대폰에게 맡기고, 누가 봐 주면 친구가 봐 줘요라고 하세요."
    ),
    Advice.STUCK: "억지로 하지 마세요. 조금 되돌리고 붉은 빛으로 살펴본 뒤 똑바로 다시 해 보세요.",
    Advice.TIPS_OVER: "경통을 잡고, 내려가는 쪽의 반대로 손가락 너비씩 미세요. 맞으면 저절로 서 있어요.",
    Advice.VERDICT: "성공이나 완료라고 나오면 된 거예요. 실패나 오류, 다시 하라는 말이 나오면 안 된 거예요.",
    Advice.FIRST_TIME: "그럼 천천히 할게요. 하나씩 말할 테니 다 하면 알려 주고, 낯선 말은 뭐예요라고 물어보세요.",
    Advice.BALCONY: "베란다도 괜찮아요. 경통이 난간에 안 닿게 하고, 볼 때는 가만히 서세요.",
    Advice.BLURRED: "초점 손잡이를 끝까지 천천히 돌리세요. 숫자가 가장 큰 접안렌즈부터 쓰세요.",
    Advice.BRIGHT_DOT: "점의 작은 바퀴를 돌려 겨우 보일 만큼 줄이세요. 밝은 점은 뒤의 별을 가려요.",
    Advice.RAIN: "경통 뚜껑을 닫고 모두 덮으세요. 기다리려면 잠깐만요라고 하고, 젖은 손으로 플러그를 만지지 마세요.",
    Advice.COLD: "먼저 몸을 녹이세요. 잠깐만요라고 하면 자리를 지키고 있을게요.",
    Advice.COMPASS_WANDERS: "쇠나 모터가 가까운 거예요. 삼각대에서 다섯 걸음 떨어지고, 열쇠와 휴대폰을 멀리 두세요.",
    Advice.DARK_FOR_A_MARK: "그럼 멀리 있는 움직이지 않는 불빛이나 밝은 별을 쓰세요. 별은 흘러가니 서두르세요.",
    Advice.FINDER_STUCK: "먼저 나사를 모두 반 바퀴씩 푸세요. 억지로 돌리지 마세요.",
    Advice.HOW_FAR_A_MARK: "오백 미터 넘게 떨어진 것이 좋아요. 더 가까우면 파인더와 경통이 서로 다른 곳을 봐요.",
    Advice.HOW_LEVEL: "기포가 고리에 닿으면 충분해요. 정렬 별이 두 개면 일 도쯤 기울어도 괜찮아요.",
    Advice.HOW_NORTH: "팔을 펴고 손가락 한두 개 안이면 충분해요. 나머지는 정렬 별이 고쳐요.",
    Advice.HOW_TALL: "견딜 수 있을 만큼 낮게요. 다리가 짧으면 덜 흔들려요.",
    Advice.INSECTS: "긴 소매를 입고 불을 끄세요. 유리 근처에는 아무것도 뿌리지 마세요.",
    Advice.LEGS_STUCK: "잠금쇠를 다 풀고 비틀면서 당기세요. 얼거나 모래가 끼었으면 그냥 두고 다른 다리를 줄이세요.",
    Advice.LIGHTS: "담이나 모자로 그 불빛을 가리세요. 눈이 어둠에 익는 데 삼십 분이 걸려요.",
    Advice.MOON_AS_MARK: "네, 밤에는 달의 가장자리를 쓰세요. 흘러가니 마지막 나사 전에 가운데로 되돌리세요.",
    Advice.NO_BUBBLE: "수평계가 있는 휴대폰이 많아요. 아니면 평평한 접시에 물을 조금 담아 쓰세요.",
    Advice.NO_COMPASS: "그럼 다른 방법이요라고 하세요. 여기서 보이는 것으로 알려 드려요.",
    Advice.NO_FINDER: "그럼 건너뛰기라고 하세요. 경통을 따라 겨누고 가장 낮은 배율을 쓰세요.",
    Advice.NO_MARK: "굴뚝이나 철탑, 외딴 나무, 먼 불빛도 돼요. 없으면 건너뛰기라고 하세요.",
    Advice.NO_TRIPOD: "그럼 삼각대 이야기는 받침에 대한 말로 들으세요. 단단하고 수평이면 돼요. 없는 것에는 준비됐어요라고 하세요.",
    Advice.PHONE_COMPASS: "마운트와 쇠에서 떨어지면 충분해요. 먼저 팔자 모양으로 한 번 돌리세요.",
    Advice.POLE_STAR: "북두칠성 국자 끝의 두 별 사이를 다섯 번 이으면 있어요. 꽤 밝고, 혼자 있고, 거의 움직이지 않아요.",
    Advice.SLOPE: "다리 하나를 내리막 쪽으로 두고 가장 길게 하세요. 수평을 맞추고 넘어지지 않는지 보세요.",
    Advice.SOFT_GROUND: "다리를 눌러 박거나 밑에 판을 대세요. 삼십 분 뒤에 기포를 한 번 더 보세요.",
    Advice.TABLE: "흔들리지 않는 무거운 탁자면 괜찮아요. 보는 동안 기대지 마세요.",
    Advice.TREE_NORTH: "괜찮아요. 마운트는 북쪽을 볼 필요 없이 그쪽을 향하기만 하면 돼요.",
    Advice.TURNED_ROUND: "망원경은 원래 거꾸로 보이거나 좌우가 바뀌어요. 잘못된 게 아니에요.",
    Advice.WHAT_I_CAN_DO: "별을 하나씩 맞추며 설치를 돕고, 볼 만한 것을 알려 드려요. 언제든 물어보거나 도움말이라고 하세요.",
    Advice.WHICH_SCREW: "하나를 사분의 일 바퀴 돌려 표시가 어디로 가는지 보세요. 멀어지면 그 나사를 되돌리세요.",
    Advice.WHO_YOU_ARE: "망원경 설치를 돕는, 이 기기 안의 목소리예요. 말씀은 어디로도 보내지 않고, 원하실 때만 적어 둬요.",
    Advice.WIND: "몸으로 바람을 막고 다리를 줄이세요. 계속 흔들리면 잔잔해지기를 기다리세요.",
    Advice.WOBBLES: "다리 잠금쇠와 마운트 아래 큰 나사를 조이세요. 다리를 눌러 박고, 보는 동안 만지지 마세요.",
    Advice.BACKWARDS: "시야가 돌아가 있을 수 있어요. 화살표 말고 별이 가는 쪽을 보고 짧게 눌러 보세요.",
    Advice.CABLE_CAUGHT: "마운트가 돌고 있으면 아무 화살표나 눌러 세우거나 전원을 끄세요. 그다음 케이블을 풀고 느슨하게 두세요.",
    Advice.DOES_IT_MOVE: "움직이거나 깜박이면 비행기나 위성이에요. 별은 몇 분 동안 제자리에 있어요.",
    Advice.FOGGED: "닦지 마세요. 손을 가까이 대어 데우고, 안 볼 때는 덮어 두세요.",
    Advice.HOW_CENTRED: "될 수 있는 대로 가운데로요. 여기서 남긴 만큼 다른 대상도 벗어나요.",
    Advice.HOW_LONG_A_SLEW: "반 바퀴에 길어야 일 분이에요. 소리가 그치고 몇 초 더 기다리세요.",
    Advice.HOW_LONG_A_STAR: "서두르지 마세요. 정렬 전에는 별이 천천히 흘러가요. 필요한 만큼 되돌리세요.",
    Advice.KICKED: "먼저 받침의 기포를 보세요. 움직였으면 수평부터 다시라고 하고, 아니면 별을 다시 맞추세요.",
    Advice.LARGEST_FIGURE: "숫자가 가장 큰 것이요. 하늘이 가장 넓게 보여요. 별이 가운데 오면 바꾸세요.",
    Advice.MANY_STARS: "제가 말한 별이 그중 가장 밝아요. 한쪽 눈으로 경통을 따라 보고 확인하세요.",
    Advice.MENU: "메뉴 키의 설정에서 찾으세요. 없으면 준비됐어요라고 하세요.",
    Advice.NOISE: "윙 소리와 끝의 삐 소리는 괜찮아요. 갈리는 소리면 화살표로 세우고 케이블을 보세요.",
    Advice.NOT_TURNING: "확인 키를 눌러야 도는 것도 있어요. 화면을 보세요. 그래도 안 돌면 다른 별이요라고 하세요.",
    Advice.OVERSHOT: "충분히 되돌아간 뒤에 천천히 다시 오세요. 마지막 키는 늘 같은 걸로요.",
    Advice.RESTARTED: "그럼 시각과 별을 잊었어요. 플러그와 배터리를 확인하고 설정으로 가자고 하세요.",
    Advice.RUNAWAY: "아무 화살표나 누르면 서요. 안 되면 전원을 빼세요. 멈출 때까지 눈과 손을 떼세요.",
    Advice.SIGN: "북과 동은 더하기, 남과 서는 빼기예요.",
    Advice.SWITCH: "대개 마운트 플러그 옆에 있어요. 없으면 플러그를 꽂는 것이 스위치예요.",
    Advice.TIRED_EYE: "잠시 어두운 곳을 보고, 접안렌즈에 숨을 불지 마세요. 급할 것 없어요.",
    Advice.TOO_HIGH_FOR_ME: "다른 별이요라고 하세요. 높이가 다른 별을 고를게요. 어두운 데서 올라서지 마세요.",
    Advice.WHICH_KEY: "확인 키예요. 별이 접안렌즈 가운데 있을 때만 누르세요.",
    Advice.WRONG_KEY: "되돌아가는 키를 눌러 다시 넣으세요. 별을 잘못 넣었으면 정렬로 돌아가자고 하세요.",
    Advice.DROPPED: "빨간 불을 땅에 비출 때까지 그대로 두세요. 그 전에는 발을 옮기지 마세요.",
    Advice.HARD_OF_HEARING: "언제든 더 크게, 더 천천히, 다시 말해 줘라고 하세요. 글로 시작하면 글로 알려 드려요.",
    Advice.ONE_HAND: "하나씩 하고 기다릴게요. 한 손으로 들거나 고정쇠를 풀지 말고, 누가 경통을 잡아 주게 하세요.",
    Advice.GLOVES: "버튼이나 나사에 손가락이 필요할 때까지 끼고 계세요. 추울 때는 맨손으로 쇠를 만지지 마세요.",
    Advice.HEAVY: "혼자 들지 말고 내려놓으세요. 나누어 나르거나 도와줄 사람을 기다리세요.",
    Advice.WHICH_TELESCOPE: "설치에는 몰라도 돼요. 건너뛰기라고 하세요. 나중에 접안렌즈 쪽이나 앞쪽의 표에서 밀리미터 숫자를 찾으세요.",
    Advice.DONT_HAVE_IT: "그럼 그건 빼고 해요. 준비됐어요라고 하면 다음으로 가요.",
    Advice.HOW_YOU_KNOW: "시각과 시간대는 이 기기에서, 장소는 말씀이나 프로필에서 알아요. 하늘은 그걸로 계산해요.",
    Advice.HOW_COMPASS: "쇠에서 다섯 걸음 떨어져 평평하게 들고, 제가 말한 숫자가 나올 때까지 몸을 돌리세요. 그때 앞쪽이 북쪽이에요.",
    Advice.HOW_KEYING: "숫자 키로 넣으세요. 없으면 위아래 화살표로 숫자를 바꾸고 오른쪽 화살표로 다음 자리로 가요.",
    Advice.HOW_STEERING: "화살표 네 개로요. 가까워질 때까지는 빠르게, 그다음은 천천히요. 하나 눌러 보고 어디로 가는지 보세요.",
    Advice.LEGS_POINT: "어느 쪽이든 괜찮아요. 비탈이면 하나를 내리막 쪽으로 두세요.",
    Advice.LEG_SLIDES: "무게를 덜고 다시 뽑아 잠금쇠를 조이세요. 그래도 밀리면 끝까지 넣고 다른 다리를 거기에 맞추세요.",
    Advice.NO_RAIL: "그럼 고리나 받침, 포크처럼 만들어진 대로 끼우세요. 단단히 조이기 전에는 손을 놓지 마세요.",
    Advice.ONE_EYEPIECE: "그럼 그 하나로 다 할 수 있어요. 그걸 끼우세요.",
    Advice.WHAT_TO_BRING: "망원경, 마운트, 삼각대, 숫자가 가장 큰 접안렌즈, 전원이요. 나침반과 수평계가 있으면 좋고, 옷은 넉넉히 입으세요.",
    Advice.EYE_HURT: "모두 덮고 눈을 쉬게 하세요. 오늘 관측은 끝이에요. 얼룩이나 흐림, 아픔이 있으면 지금 안 아파도 바로 병원에 가세요.",
    Advice.HURT: "망원경은 두고 안전한 곳에 앉아 몸을 따뜻하게 하세요. 멍보다 심하면 누구에게 전화하거나 응급 번호로 거세요.",
    Advice.UNWELL: "삼각대에서 떨어져 앉아 몸을 녹이세요. 곧 나아지지 않으면 누구에게 전화하거나 응급 번호로 거세요.",
    Advice.NUMB: "계속하기 전에 겨드랑이나 실내에서 손을 녹이세요. 감각이 없으면 떨어뜨리기 쉽고, 쇠에 얼어도 몰라요.",
    Advice.THUNDER: "그대로 두고 지금 집이나 문 닫은 차 안으로 가세요. 마지막 천둥에서 삼십 분 지나면 나오세요.",
    Advice.SMOKE: "마른 손으로 배터리나 벽의 플러그를 빼세요. 안 되면 떨어져 있고, 오늘 밤은 다시 켜지 말고 점검을 맡기세요.",
    Advice.TRAPPED: "먼저 전원을 빼세요. 그다음 누가 경통을 잡고, 고정쇠를 풀어 되돌리세요.",
    Advice.TRIPOD_TIPS: "기울면 두 팔로 경통을 잡고, 넘어가면 물러서세요. 그다음 다리를 넓고 짧게 하세요.",
    Advice.LASER: "법과 장소가 허락할 때만 쓰고, 비행기나 도로, 사람 얼굴 쪽은 절대 안 돼요. 어디를 볼지는 제가 말해 드려요.",
    Advice.SOLAR_FILTER: "그건 망원경에 맞고 흠이 없는 것을 경통 앞에 씌우고 파인더를 덮어야 해요. 태양은 제가 이끌지 않으니 해 본 사람에게 배우세요.",
    Advice.ADD_OR_SUBTRACT: "더하지도 빼지도 마세요. 제가 말한 숫자는 이미 보정했어요. 나침반이 보정돼 있으면 진북을 가리켜요라고 하세요.",
    Advice.COMPASS_NORTH: "아직 아니에요. 나침반의 북쪽은 진북이 아니에요. 제가 말한 숫자가 나올 때까지 돌고, 그쪽으로 경통을 두세요.",
    Advice.ALLOWED: "저는 알 수 없어요. 땅 주인에게 묻고 그곳의 규칙을 지키세요. 가라고 하면 정리하자고 하세요.",
    Advice.UNEASY: "그럼 집이나 차처럼 마음 놓이는 곳으로 가세요. 잠깐만요라고 하면 자리를 지키고 있을게요.",
    Advice.WHICH_LEG: "기포는 높은 쪽으로 가요. 그쪽 다리를 조금 줄이고 다시 보세요.",
}
TOLD_BY_TOUCH: Mapping[Advice, str] = {
    Advice.HOW_LEVEL: "기울기를 말하는 휴대폰이면 일 도 안쪽이면 돼요. 만져지는 수평계면 표시가 두 줄 사이에 있으면 돼요.",
    Advice.KICKED: "먼저 받침을 휴대폰이나 만져지는 수평계로 확인하세요. 움직였으면 수평부터 다시라고 하세요.",
    Advice.NOT_TURNING: "확인 키를 눌러야 도는 것도 있어요. 화면을 읽게 하세요. 그래도 안 돌면 다른 별이요라고 하세요.",
    Advice.SLOPE: "다리 하나를 내리막으로 두고 가장 길게 하세요. 휴대폰이나 만져지는 수평계로 맞추고, 넘어지지 않는지 밀어 보세요.",
    Advice.SOFT_GROUND: "다리를 눌러 박거나 밑에 납작한 돌이나 판을 까세요. 삼십 분 뒤에 수평을 다시 확인하세요.",
    Advice.STUCK: "억지로 하지 마세요. 조금 되돌리고, 무엇이 걸리는지 만져 본 다음 똑바로 다시 하세요.",
    Advice.WHAT_TO_BRING: "망원경, 마운트, 삼각대, 가장 큰 접안렌즈, 전원이요. 말하는 휴대폰이나 나침반과 끈이 있으면 좋고, 옷은 넉넉히 입으세요.",
    Advice.WHICH_LEG: "낮은 쪽 다리를 조금 늘리고 수평을 다시 확인하세요.",
}
"""Where the usual advice needs a good eye, and nobody looks."""


def advised(scene: Scene, *, about: Advice) -> str:
    """Say what helps."""
    by_touch = scene.sight is not None and scene.eyes is None
    return (TOLD_BY_TOUCH.get(about) if by_touch else None) or TOLD[about]


ADVICE = Chapter({Advised: advised})
