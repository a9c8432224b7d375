"""Korean for firm ground, caps and cables, and for lining the finder up with the tube."""

from __future__ import annotations

import math
from typing import Literal

from companion import alignment, places, sky
from companion.languages.ko.direction_words import FEET_PER_METRE, compass_point, fists
from companion.languages.ko.north_words import find_the_pole_star
from companion.languages.ko.number_words import cardinal
from companion.languages.phrase import Chapter, Scene
from companion.talk import ground_phrases as say
from companion.talk.answers import FinderCheckAnswer, MarkAnswer

_SHARP = "숫자가 가장 큰 접안렌즈로 또렷하게 맞추세요."


def caps_and_cooling(scene: Scene) -> str:
    """Say what stays capped, and what may come off."""
    if sky.sun_state(scene).is_up:
        return "해가 떠 있어요. 제가 말할 때까지 경통과 파인더의 뚜껑을 덮어 두세요. 이슬 후드를 끼우세요. 준비됐어요?"
    return "뚜껑을 벗기고 이슬 후드를 끼우세요. 경통을 삼십 분쯤 식히면 좋아요. 준비됐어요?"


def level_the_tripod(scene: Scene, *, measures_its_lean: bool = False) -> str:
    """Level the tripod's top; a mount that finds its own position needs it only roughly."""
    if measures_its_lean:
        return "삼각대 윗면을 눈이나 기포로 대충 맞추세요. 작은 기울기는 마운트가 스스로 재요. 수평이 되면 말해 주세요."
    return "기포나 두 방향으로 놓은 수평계로 삼각대 윗면을 수평으로 맞추세요. 수평이 되면 말해 주세요."


def _far(scene: Scene, metres: float) -> str:
    """Return a distance to stay beyond, in the place's measure, rounded up so that it can be judged."""
    if places.customs(scene.site).feet:
        return f"{cardinal(math.ceil(metres * FEET_PER_METRE / 100) * 100)} 피트 넘게 떨어진"
    return f"{cardinal(math.ceil(metres / 50) * 50)} 미터 넘게 떨어진"


def pick_a_far_mark(scene: Scene, *, metres: float) -> str:
    """Say what to line the finder up on by day."""
    return f"움직이지 않고 {_far(scene, metres)} 것을 고르세요. 철탑이나 지붕 모서리가 좋아요. {_SHARP} 골랐어요?"


def pick_a_mark_after_dark(scene: Scene, *, mark: Literal["Polaris", "Moon", "lamp"], metres: float) -> str:
    """Say what to line the finder up on after dark."""
    if mark == "lamp":
        return f"{_far(scene, metres)} 불빛을 고르세요. {_SHARP} 골랐어요?"
    if mark == "Polaris" and (way := alignment.pole_way(scene)) is not None:
        return f"북극성을 쓰세요. {find_the_pole_star(scene, way)} 북극성은 거의 안 움직여요. {_SHARP} 맞췄어요?"
    sight = sky.sight(sky.find(mark), scene)
    where = f"{compass_point(sight.azimuth_deg)}, {fists(sight.altitude_deg, scene.fist_deg)} 높이"
    if mark == "Moon":
        return f"{where}에 있는 달을 쓰세요. 달은 흘러가니 서두르세요. {_SHARP} 맞췄어요?"
    return f"{where}에 있는 북극성을 쓰세요. 거의 안 움직여요. {_SHARP} 맞췄어요?"


GROUND = Chapter(
    phrases={
        say.MindTheWeight: "먼저 삼각대만 세워요. 어두우니 전선과 삼각대 다리에 걸리지 않게 조심하세요.",
        say.LegsAndGround: "삼각대를 단단한 땅에 세우고, 다리를 끝까지 벌리고, 잠금쇠를 모두 조이세요. 준비됐어요?",
        say.LevelTheTripod: level_the_tripod,
        say.PutItOn: (
            "무거우니 무릎을 굽혀서 드세요. 마운트를 삼각대에 올리고 아래 나사를 조이세요. "
            "다음은 경통이에요. 레일을 끼우고, 손잡이를 조일 때까지 붙잡고 있으세요. 준비됐어요?"
        ),
        say.ClampAndBalance: (
            "숫자가 가장 큰 접안렌즈를 끼우세요. 고정 나사를 풀 때는 항상 경통을 붙잡으세요. "
            "균형을 맞추고 고정 나사를 조이세요. 준비됐어요?"
        ),
        say.CablesAndFrost: "전선은 느슨하게, 다니는 길 밖으로 두세요. 추울 때는 맨손으로 쇠를 만지지 마세요. 준비됐어요?",
        say.CapsAndCooling: caps_and_cooling,
        say.ShallWeDoTheFinder: "옆에 달린 작은 조준기, 파인더를 경통에 맞출까요?",
        say.CapsAndTheSun: "해가 떠 있어요. 경통을 해에서 멀리 돌린 다음 뚜껑을 여세요. 모터로 돌리기 전에는 둘 다 덮으세요.",
        say.PickAFarMark: pick_a_far_mark,
        say.PickAMarkAfterDark: pick_a_mark_after_dark,
        say.TakeAFartherMark: "너무 가깝거나 초점이 닿지 않아요. 더 먼 것을 고르세요. 골랐어요?",
        say.CentreTheMark: "목표물이 시야 가운데에 올 때까지 경통을 움직이세요. 고정 나사를 조이세요. 준비됐어요?",
        say.TurnTheFinderScrews: "이제 경통은 그대로 두세요. 파인더 나사를 돌려 십자나 점을 그 자리에 맞추고 조이세요. 준비됐어요?",
        say.CheckAtHigherPower: "더 높은 배율로 가운데에 맞춘 다음 파인더를 보세요. 아직 맞아요?",
        say.CapBothAgain: "좋아요. 경통과 파인더의 뚜껑을 다시 덮으세요.",
    },
    terse={
        say.MindTheWeight: "먼저 삼각대예요.",
        say.LegsAndGround: "다리를 다 조였어요?",
        say.LevelTheTripod: "윗면이 수평이 되면 말해 주세요.",
        say.PutItOn: "무릎을 굽혀서 드세요. 마운트와 경통을 올리고 단단히 조였어요?",
        say.ClampAndBalance: "경통을 붙잡으세요. 균형을 맞추고 조였어요?",
        say.CablesAndFrost: "전선이 느슨해요?",
        say.ShallWeDoTheFinder: "파인더를 맞출까요?",
        say.CentreTheMark: "접안렌즈 가운데에 맞추고 고정 나사를 조이세요. 준비됐어요?",
        say.TurnTheFinderScrews: "경통은 두고 파인더 나사만 돌리세요. 준비됐어요?",
        say.CheckAtHigherPower: "더 높은 배율에서도 파인더가 아직 맞아요?",
    },
    sayable={MarkAnswer: ("골랐어요", "초점이 안 맞아요"), FinderCheckAnswer: ("아직 맞아요", "움직였어요")},
    step_help={
        say.LegsAndGround: "다리가 미끄러지거나 가라앉으면 나중에 모두 어긋나요. 모래보다 풀밭이, 풀밭보다 돌바닥이 좋아요.",
        say.LevelTheTripod: "수평으로 서야 바르게 돌고 넘어지지 않아요. 기포는 높은 쪽으로 가니 그쪽 다리를 줄이세요.",
        say.PutItOn: "한 덩어리로 된 것은 그대로 올리세요. 손을 떼기 전에 살짝 흔들어 보세요.",
        say.ClampAndBalance: "저절로 기우는 경통은 균형이 안 맞은 거예요. 고정대에서 앞뒤로 옮기세요.",
        say.CablesAndFrost: "팽팽한 전선은 마운트를 끌어당겨요. 아주 추우면 살이 쇠에 얼어붙어요.",
        say.CapsAndCooling: "찬 공기 속의 따뜻한 경통은 별을 흔들어요. 이슬 후드는 유리에 이슬이 맺히지 않게 해요.",
        say.ShallWeDoTheFinder: "파인더와 경통이 같은 곳을 보면 별 찾기가 쉬워요. 하려면 네, 이미 맞으면 아니요라고 하세요.",
        say.PickAFarMark: "너무 가까우면 파인더와 경통이 서로 다른 곳을 봐요. 둘은 손 한 뼘쯤 떨어져 있거든요.",
        say.PickAMarkAfterDark: "멀리 있는 움직이지 않는 빛이면 돼요. 너무 가까우면 파인더와 경통이 서로 다른 곳을 봐요.",
        say.TakeAFartherMark: "가까운 것은 망원경의 초점 범위를 벗어나요.",
        say.CentreTheMark: "저배율 접안렌즈는 숫자가 가장 큰 것이에요.",
        say.TurnTheFinderScrews: "한쪽 나사를 먼저 풀고 맞은편 나사를 조이세요.",
        say.CheckAtHigherPower: "파인더가 맞으면 아직 맞아요, 어긋났으면 움직였어요라고 하세요.",
    },
)
