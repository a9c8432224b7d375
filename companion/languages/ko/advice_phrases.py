"""Korean for what somebody at a telescope runs into. At most two sentences each."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.phrase import Chapter
from companion.talk.advice import Advice
from companion.talk.question_phrases import Advised

TOLD: Mapping[Advice, str] = {
    Advice.FIRST_TIME: "그럼 천천히 할게요. 하나씩 말할 테니 다 하면 알려 주고, 낯선 말은 뭐예요라고 물어보세요.",
    Advice.BALCONY: "베란다도 괜찮아요. 경통이 난간에 안 닿게 하고, 볼 때는 가만히 서세요.",
    Advice.BLURRED: "초점 손잡이를 끝까지 천천히 돌리세요. 숫자가 가장 큰 접안렌즈부터 쓰세요.",
    Advice.BRIGHT_DOT: "점의 작은 바퀴를 돌려 겨우 보일 만큼 줄이세요. 밝은 점은 뒤의 별을 가려요.",
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
    Advice.PHONE_COMPASS: "마운트와 쇠에서 떨어지면 충분해요. 먼저 팔자 모양으로 한 번 돌리세요.",
    Advice.POLE_STAR: "북두칠성 국자 끝의 두 별 사이를 다섯 번 이으면 있어요. 꽤 밝고, 혼자 있고, 움직이지 않아요.",
    Advice.SLOPE: "다리 하나를 내리막 쪽으로 두고 가장 길게 하세요. 수평을 맞추고 넘어지지 않는지 보세요.",
    Advice.SOFT_GROUND: "다리를 눌러 박거나 밑에 판을 대세요. 삼십 분 뒤에 기포를 한 번 더 보세요.",
    Advice.TABLE: "흔들리지 않는 무거운 탁자면 괜찮아요. 보는 동안 기대지 마세요.",
    Advice.TREE_NORTH: "괜찮아요. 마운트는 북쪽을 볼 필요 없이 그쪽을 향하기만 하면 돼요.",
    Advice.TURNED_ROUND: "망원경은 원래 거꾸로 보이거나 좌우가 바뀌어요. 잘못된 게 아니에요.",
    Advice.WEATHER: "저는 네트워크를 쓰지 않아서 몰라요. 가끔 하늘을 보고 구름이 오면 알려 주세요.",
    Advice.WHAT_I_CAN_DO: "별을 하나씩 맞추며 설치를 돕고, 볼 만한 것을 알려 드려요. 언제든 물어보거나 도움말이라고 하세요.",
    Advice.WHICH_SCREW: "하나를 사분의 일 바퀴 돌려 표시가 어디로 가는지 보세요. 멀어지면 그 나사를 되돌리세요.",
    Advice.WHO_YOU_ARE: "망원경 설치를 돕는, 이 기기 안의 목소리예요. 말씀은 어디로도 보내지 않고, 원하실 때만 적어 둬요.",
    Advice.WIND: "몸으로 바람을 막고 다리를 줄이세요. 계속 흔들리면 잔잔해지기를 기다리세요.",
    Advice.WOBBLES: "다리 잠금쇠와 마운트 아래 큰 나사를 조이세요. 다리를 눌러 박고, 보는 동안 만지지 마세요.",
    Advice.BACKWARDS: "시야가 돌아가 있을 수 있어요. 화살표 말고 별이 가는 쪽을 보고 짧게 눌러 보세요.",
    Advice.CABLE_CAUGHT: "아무 화살표나 눌러 마운트를 세우거나 전원을 끄세요. 멈춘 뒤에 케이블을 풀고 느슨하게 두세요.",
    Advice.DOES_IT_MOVE: "움직이거나 깜박이면 비행기나 위성이에요. 별은 몇 분 동안 제자리에 있어요.",
    Advice.FOGGED: "닦지 마세요. 손을 가까이 대어 데우고, 안 볼 때는 덮어 두세요.",
    Advice.HOW_CENTRED: "될 수 있는 대로 가운데로요. 여기서 남긴 만큼 다른 대상도 벗어나요.",
    Advice.HOW_LONG_A_SLEW: "반 바퀴에 길어야 일 분이에요. 소리가 그치고 몇 초 더 기다리세요.",
    Advice.HOW_LONG_A_STAR: "서두르지 마세요. 정렬 전에는 별이 천천히 흘러가요. 필요한 만큼 되돌리세요.",
    Advice.KICKED: "먼저 받침의 기포를 보세요. 움직였으면 수평부터 다시라고 하고, 아니면 별을 다시 맞추세요.",
    Advice.LARGEST_FIGURE: "숫자가 가장 큰 것이요. 하늘이 가장 넓게 보여요. 별이 가운데 오면 바꾸세요.",
    Advice.MANY_STARS: "제가 말한 별이 그중 가장 밝아요. 한쪽 눈으로 경통을 따라 보고 확인하세요.",
    Advice.MENU: "메뉴 키의 설정에서 찾으세요. 없으면 다음 줄이라고 하세요.",
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
}
ADVICE = Chapter({Advised: lambda scene, *, about: TOLD[about]})
