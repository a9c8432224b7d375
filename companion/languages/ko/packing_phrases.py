"""Korean for packing up, one thing at a time: the hazard first, where it is."""

from __future__ import annotations

from companion.languages.ko.look_for import millimetres
from companion.languages.ko.number_words import count_of
from companion.languages.ko.sight_words import direct, it_is, listed
from companion.languages.phrase import Chapter, Scene
from companion.talk import packing_phrases as say
from companion.talk.answers import PackingAnswer

_MOST_NAMED = 6
"""More figures than that nobody counts along with; then the number alone is said."""


def eyepieces_in(scene: Scene, *, eyepieces_mm: tuple[float, ...], diagonal: bool) -> str:
    """Count the eyepieces into their box."""
    counted = f"접안렌즈 {count_of(len(eyepieces_mm), '개')}" if eyepieces_mm else "접안렌즈"
    things = listed([counted, "천정미러"]) if diagonal else counted
    told = [f"{things}에 뚜껑을 씌워 상자에 넣으세요."]
    if 1 < len(eyepieces_mm) <= _MOST_NAMED:
        told.append(it_is(listed([millimetres(figure_mm) for figure_mm in eyepieces_mm])))
    return " ".join((*told, "다 있어요? 다 했어요, 또는 하나가 없어요라고 하세요."))


def eyepieces_in_tersely(scene: Scene, *, eyepieces_mm: tuple[float, ...], diagonal: bool) -> str:
    """Count the eyepieces in few words."""
    counted = f"접안렌즈 {count_of(len(eyepieces_mm), '개')}" if eyepieces_mm else "접안렌즈"
    return f"{direct(listed([counted, '천정미러']) if diagonal else counted)} 넣으세요. 다 있어요?"


PACKING = Chapter(
    phrases={
        say.ParkIt: "정리할게요. 접안렌즈에서 눈을 떼고, 경통과 팔에서 손을 떼세요. 마운트를 보관 자세로 보내세요. 멈춰 서면 다 했어요라고 하세요.",
        say.SwitchItOff: "전원을 끄세요. 그다음 마른 손으로 플러그를 뽑으세요. 다 했어요?",
        say.CapEverything: "경통과 파인더의 뚜껑을 덮으세요. 유리에 이슬이 있어도 절대 닦지 마세요. 다 했어요?",
        say.CapBeforeItMoves: "해가 떠 있어요. 무엇이든 움직이기 전에 경통과 파인더의 뚜껑을 덮으세요. 다 했어요?",
        say.EyepiecesIn: eyepieces_in,
        say.CablesIn: "무엇이든 옮기기 전에 전선부터 감으세요. 발에 걸려요. 다 했어요?",
        say.TakeItDown: (
            "고정 나사를 풀기 전에 경통을 붙잡으세요. 무거워요. 아주 추우면 찬 쇠에 데니 장갑을 끼세요. "
            "길을 치우고 무릎을 굽혀 드세요. 다 했어요?"
        ),
        say.SearchTheGround: "이제 밝은 손전등으로 삼각대 자리를 살피세요. 뚜껑, 나사, 접안렌즈를 찾으세요. 다 했어요?",
        say.WhereThingsHide: "먼저 가만히 서세요. 접안렌즈 자리와 주머니를 보고, 손전등으로 발 둘레를 보세요.",
        say.CapsOnFirst: "해가 떠 있어요. 무엇이든 움직이기 전에 뚜껑을 덮으세요.",
        say.MindTheWeightAndGoodNight: (
            "고정 나사를 풀기 전에 경통을 붙잡으세요. 어둡고 무거우니 길부터 치우고 무릎을 굽혀 드세요. 안녕히 주무세요."
        ),
        say.DryAndChargeAtHome: "집에서는 이슬이 마를 때까지 마른 방에서 뚜껑을 벗겨 두세요. 그다음 배터리를 충전하세요. 안녕히 주무세요.",
    },
    terse={
        say.ParkIt: "손을 떼고 마운트를 보관 자세로 보내세요. 멈춰 섰어요?",
        say.SwitchItOff: "전원을 끄고, 마른 손으로 플러그를 뽑으세요. 다 했어요?",
        say.CapEverything: "뚜껑을 둘 다 덮으세요. 다 했어요?",
        say.EyepiecesIn: eyepieces_in_tersely,
        say.CablesIn: "무엇이든 옮기기 전에 전선부터 감으세요. 다 했어요?",
        say.TakeItDown: "고정 나사를 풀기 전에 경통을 붙잡으세요. 무거우니 길을 치우고 무릎을 굽히세요. 아주 추우면 장갑을 끼세요. 다 했어요?",
        say.SearchTheGround: "손전등으로 땅을 살피세요. 다 했어요?",
        say.DryAndChargeAtHome: "집에서는 뚜껑을 벗겨 말리고 충전하세요. 안녕히 주무세요.",
    },
    sayable={PackingAnswer: ("다 했어요", "다음이요", "하나가 없어요", "그게 다예요")},
    step_help={
        say.ParkIt: "보관 자세에서는 전원을 꺼도 돼요. 보관 기능이 없으면 경통을 수평으로 두세요.",
        say.SwitchItOff: "뽑기 전에 꺼야 아는 것을 안 잊는 마운트도 있어요. 젖은 전선은 가정용 전기에서 멀리 두세요.",
        say.CapEverything: "아직 찰 때 덮으면 먼지가 안 앉아요. 말리는 것은 집에서 하세요.",
        say.CapBeforeItMoves: "저절로 도는 경통이 해를 지나갈 수 있어요. 먼저 덮고, 그다음 보관 자세로 보내요.",
        say.EyepiecesIn: "말씀하신 개수로 세는 거예요. 하나가 없어요라고 하면 찾을 곳을 말할게요.",
        say.CablesIn: "먼 끝에서 마운트 쪽으로 감으면 길에 걸리는 것이 없어요.",
        say.TakeItDown: "경통, 마운트, 삼각대 순서예요. 두 사람이 하면 더 좋아요.",
        say.SearchTheGround: "작고 검은 뚜껑은 지금 못 찾으면 못 찾아요. 둘레를 천천히 걸으세요.",
    },
)
