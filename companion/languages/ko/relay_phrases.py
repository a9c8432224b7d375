"""Korean for two: what concerns the eye is said to "눈", what concerns hands to "손"."""

from __future__ import annotations

from companion.languages.ko.night_phrases import introduce_target
from companion.languages.phrase import Chapter, Scene
from companion.talk import centring_phrases as centring
from companion.talk import ground_phrases as ground
from companion.talk import night_phrases as night
from companion.talk import pose_phrases as pose
from companion.talk import stars_phrases as stars
from companion.talk import targets_phrases as targets
from companion.talk.centring_phrases import ArrowKey

_WHERE = "가운데에 있으면 네, 아니면 시계로 몇 시 방향인지 말하세요."


def is_it_in_the_finder(scene: Scene, *, watch: bool) -> str:
    """Have the finder looked through when the mount stands."""
    watched = "눈, 경통이 어느 쪽으로 멈추는지 보세요. " if watch else ""
    return f"{watched}멈추면 눈은 파인더를 보세요. {_WHERE}"


def is_it_centred(scene: Scene, *, star: str, first: bool, last: tuple[ArrowKey, ...]) -> str:
    """Send the eye to the eyepiece."""
    return f"눈은 저배율 접안렌즈를 보세요. 손은 느린 속도로 하세요. {_WHERE}"


def keep_people_back(scene: Scene) -> str:
    """Say where the one who looks stands, and when to look."""
    if scene.eyes == "child":
        return "도는 동안 아이는 뒤에 서고, 제가 눈이라고 할 때만 봐요. 삼각대에 올라가면 안 돼요."
    return "도는 동안 둘 다 한 걸음 물러서세요. 레이저로 가리킬 때는 비행기 근처를 절대 피하세요."


RELAY = Chapter(
    phrases={},
    relayed={
        ground.LevelTheTripod: "눈, 기포를 찾으세요. 손, 기포가 가는 쪽 다리를 줄이세요. 수평이 되면 말하세요.",
        pose.LevelTheBase: "이제 시작 자세예요. 눈, 받침의 기포를 보세요. 수평이 되면 말하세요.",
        pose.LevelTheTube: "손, 수평계를 경통에 대세요. 눈, 어느 쪽을 올릴지 말하세요. 경통이 수평이면 말하세요.",
        stars.KeepPeopleBack: keep_people_back,
        stars.WhatDoesTheMountSay: "눈, 화면을 읽어 주세요. 정렬을 받아들였어요, 거절했어요, 아니면 별을 더 달라고 해요?",
        centring.IsItInTheFinder: is_it_in_the_finder,
        centring.IsItThereNow: f"눈, {_WHERE}",
        centring.IsItCentred: is_it_centred,
        centring.IsItCentredNow: f"눈, {_WHERE}",
        centring.WhereInTheView: "눈, 시계로 몇 시 방향이에요?",
        centring.PressRightOnce: "손, 오른쪽 화살표를 잠깐 누르세요. 눈, 별이 시계로 몇 시 방향으로 갔어요?",
        centring.PressUpOnce: "손, 위 화살표를 잠깐 누르세요. 눈, 몇 시 방향으로 갔어요?",
        night.IntroduceTarget: introduce_target,
        targets.IsTheProofInView: "눈, 접안렌즈에 있어요?",
    },
)
