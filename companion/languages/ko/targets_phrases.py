"""Korean for what follows the alignment: the proof, tonight's targets, what was fine and now isn't, and good night."""

from __future__ import annotations

from companion import sky
from companion.languages.ko.sight_words import describe, direct, towards, where_to_look
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.talk import targets_phrases as say
from companion.talk.answers import ProofAnswer, RecentreAnswer


def _described(scene: Scene, star: str) -> str:
    return describe(sky.sight(sky.find(star), scene), scene.fist_deg)


def proof_star(scene: Scene, *, star: str) -> str:
    """Send the mount to a third star."""
    return f"이제 맞는지 확인해요. 마운트를 이 별로 보내세요. {_described(scene, star)}"


def proof_star_tersely(scene: Scene, *, star: str) -> str:
    """Send the mount to a third star in few words."""
    return f"이제 {towards(spoken_name(star))} 확인해요."


def where_the_proof_is(scene: Scene, *, star: str) -> str:
    """Say again where that star is."""
    return where_to_look(sky.sight(sky.find(star), scene), scene.fist_deg)


def nearly_proven(scene: Scene, *, star: str) -> str:
    """Say what to do when the third star is close but not in the eyepiece."""
    return f"가까워요. {direct(spoken_name(star))} 가운데에 넣고, 할 수 있으면 동기화하세요. 그러면 그쪽은 잘 맞아요. 다 하면 준비됐어요라고 하세요."


def send_it_to(scene: Scene, *, star: str) -> str:
    """Send the mount to a star."""
    return f"마운트를 이 별로 보내세요. {_described(scene, star)}"


def the_alignment_holds(scene: Scene, *, near: str | None = None) -> str:
    """Say that the alignment is proven, and where."""
    if near is None:
        return "좋아요. 정렬이 잘 맞아요."
    return f"좋아요. {spoken_name(near)} 근처는 잘 맞아요. 거기서 시작해서 밖으로 나가세요."


def sun_still_up(scene: Scene) -> str:
    """Say that there is nothing to look at by day, which lasts all night near the poles in summer."""
    until = "해가 지기 전에는" if sky.night_around(scene).sunset is not None else "해가 떠 있는 동안은"
    return f"해가 떠 있으니 뚜껑을 둘 다 덮어 두세요. {until} 볼 것이 없어요."


TARGETS = Chapter(
    phrases={
        say.ProofStar: proof_star,
        say.IsTheProofInView: "접안렌즈에 들어왔어요?",
        say.WhereTheProofIs: where_the_proof_is,
        say.LookLowerPower: "먼저 파인더를 보고, 그다음 저배율 접안렌즈로 보세요.",
        say.TheAlignmentHolds: the_alignment_holds,
        say.NearlyProven: nearly_proven,
        say.NothingToProveItOn: "지금은 확인할 세 번째 별이 없어요.",
        say.SweepRound: "있어야 할 곳에서 네모를 넓혀 가며 한 시야씩 도세요.",
        say.ProofLeft: "그럼 확인은 빼고 갈게요.",
        say.AnybodyHurt: "다친 사람이 있으면 먼저 돌보세요. 그다음 한 손으로 경통을 잡고 다리를 하나씩 만져 보세요. 준비됐어요?",
        say.IsTheBubbleCentred: "이제 받침의 기포예요. 아직 가운데에 있어요?",
        say.SweepForThat: "저배율 접안렌즈로 네모를 넓혀 가며 도세요. 가운데에 오면 준비됐어요, 안 되면 다른 별로 해 주세요라고 하세요.",
        say.SendItTo: send_it_to,
        say.ReCentreAndSync: "가운데에 넣고 동기화하세요. 그러면 마운트가 어디를 보는지 알아요. 준비됐어요, 또는 동기화가 안 돼요라고 하세요.",
        say.IsItGoodAgain: "아까 보던 것으로 가 보세요. 접안렌즈에 들어왔어요?",
        say.ThenAlignAgain: "그럼 별을 새로 맞출게요. 수평과 북쪽은 그대로 두세요.",
        say.ThenLevelAgain: "그럼 서 있는 자세가 달라졌어요. 수평과 북쪽을 한 번 더 맞춰요.",
        say.ItForgotEverything: "마운트가 모두 잊어버렸어요. 새로 설정할게요.",
        say.SunStillUp: sun_still_up,
        say.SteerByHand: "오늘 밤은 마운트가 하늘을 몰라요. 화살표 키로 맞추세요.",
        say.WarmClothes: "이제 즐길 시간이에요. 추워지기 전에 따뜻하게 입으세요.",
        say.ShallIRemember: "말씀해 주신 것을 다음 관측을 위해 기억할까요?",
        say.GoodNight: (
            "보관 자세로 가는 동안 손을 떼세요. 전원을 끄고 경통과 파인더의 뚜껑을 덮으세요. 고정 나사를 풀기 전에 경통을 붙잡으세요. "
            "어둡고 무거우니 길부터 치우고 무릎을 굽혀 드세요. 안녕히 주무세요."
        ),
    },
    terse={
        say.ProofStar: proof_star_tersely,
        say.WarmClothes: "이제 볼 대상이에요.",
    },
    sayable={
        ProofAnswer: ("접안렌즈에 있어요", "파인더에만 있어요", "아주 멀어요", "다른 별로 해 주세요"),
        RecentreAnswer: ("준비됐어요", "안 보여요", "다른 별로 해 주세요", "동기화가 안 돼요"),
    },
    step_help={
        say.IsTheProofInView: "접안렌즈에 있으면 마운트가 하늘을 아는 거예요. 파인더에만 있으면 고칠 수 있어요.",
        say.ReCentreAndSync: "동기화는 지금 정확히 거기를 본다고 마운트에 알려 줘요. 조종기나 앱의 메뉴에 있어요.",
        say.IsItGoodAgain: "접안렌즈에 있으면 네, 더 해야 하면 아니요라고 하세요.",
        say.ShallIRemember: "네라고 하면 장소와 망원경을 이 기기의 프로필에 적어 둬요. 아니요라고 하면 잊어요.",
        say.IsTheBubbleCentred: "네라고 하면 수평과 북쪽을 그대로 둬요. 아니요라고 하면 받침이 기운 것이니 새로 맞춰요.",
        say.SweepForThat: "한 시야씩 천천히 움직이세요. 안 들어오면 다른 별로 해 주세요라고 하세요.",
        say.AnybodyHurt: "다리가 가라앉거나 미끄러지는 일이 가장 흔해요. 단단히 서면 준비됐어요라고 하세요.",
        say.NearlyProven: "동기화는 지금 정확히 거기를 본다고 마운트에 알려 줘요. 조종기나 앱의 메뉴에 있어요.",
    },
)
