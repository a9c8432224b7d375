"""Korean for bringing a star to the middle, in keys and not in directions of the view, and for when it can't be seen."""

from __future__ import annotations

from collections.abc import Mapping

from companion import sky
from companion.languages.ko.sight_words import listed, subject, towards
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.ko.transliteration import in_hangul
from companion.languages.phrase import Chapter, Scene
from companion.talk import centring_phrases as say
from companion.talk.answers import EyepieceAnswer, SlewingAnswer, TubeRoseAnswer, TubeTurnedAnswer, UnseenAnswer, ViewAnswer

ARROWS: Mapping[say.ArrowKey, str] = {"right": "오른쪽", "left": "왼쪽", "up": "위쪽", "down": "아래쪽"}
_LABELS = {"enter": "엔터", "okay": "오케이", "select": "셀렉트", "confirm": "컨펌"}
"""What is written on a key, as it is said; a profile written by hand may name any other."""


def is_it_in_the_finder(scene: Scene, *, watch: bool) -> str:
    """Have the star steered into the finder; where it is asked next, have an eye on how the mount comes to rest."""
    when = "경통이 어느 쪽으로 움직이다 멈추는지 보세요. 그다음" if watch else "마운트가 다 돌면"
    return f"{when} {_ONTO_THE_MARK} 들어왔어요, 아직이에요, 아니면 안 보여요?"


def is_it_centred(scene: Scene, *, star: str, first: bool, last: tuple[say.ArrowKey, ...]) -> str:
    """Send the eye to the eyepiece; the first time, how to finish."""
    if star == sky.MOON.name:
        return (
            "이제 저배율 접안렌즈예요. 눈부시지만 해롭지 않아요. 어둠에 익은 한쪽 눈은 감으세요. "
            "어두운 부분까지 친 달 전체의 한가운데를 시야 가운데에 맞추세요. 가운데예요?"
        )
    keys = f"{listed([ARROWS[key] for key in last])} 화살표 키로" if last else None
    if not first:
        return f"이제 접안렌즈예요. 천천히, 마지막은 {keys or '아까와 같은 화살표 키 두 개로'} 맞추세요. 가운데예요?"
    finish = f"별마다 {keys}" if keys else "설명서에 정한 키가 없으면 별마다 같은 화살표 키 두 개로"
    return (
        "이제 저배율 접안렌즈와 느린 속도예요. 별이 작은 점이 될 때까지 초점 손잡이를 돌리세요. "
        f"{finish} 끝내세요. 그래야 유격이 없어져요. 가운데예요?"
    )


def is_it_in_the_finder_tersely(scene: Scene, *, watch: bool) -> str:
    """Ask for the finder in few words."""
    return f"{'어떻게 멈추는지 보세요. ' if watch else ''}파인더에 들어왔어요?"


def is_it_centred_tersely(scene: Scene, *, star: str, first: bool, last: tuple[say.ArrowKey, ...]) -> str:
    """Ask for the eyepiece in few words."""
    if star == sky.MOON.name:
        return "이제 접안렌즈예요. 달 전체의 한가운데를 시야 가운데에 맞추세요. 가운데예요?"
    keys = f"{listed([ARROWS[key] for key in last])} 화살표 키로" if last else "같은 화살표 키 두 개로"
    return f"이제 접안렌즈예요. {f'마지막은 {keys} 맞추세요. ' if first else ''}가운데예요?"


def key_label(key: str) -> str:
    """Return what is written on a key, in Hangul."""
    return _LABELS.get(key) or in_hangul(key)


def confirm_star(scene: Scene, *, star: str, key: str | None) -> str:
    """Say that it must be confirmed, by the name of the key where it is known."""
    return f"좋아요. {key_label(key)} 키를 누르세요." if key else "좋아요. 조종기에서 확인 키를 누르세요."


def press_these_keys(scene: Scene, *, keys: tuple[say.ArrowKey, ...], last: tuple[say.ArrowKey, ...]) -> str:
    """Name the arrow keys that bring the star in; against those used last, go too far and come back with these."""
    press = f"{listed([ARROWS[key] for key in keys])} 화살표를 누르세요."
    against = [say.OPPOSITE[key] for key in keys if say.OPPOSITE[key] in last]
    if not against:
        return press
    return f"{press} 조금 지나쳤다가 {listed([ARROWS[key] for key in against])} 화살표로 돌아오세요."


def see_the_finder_is_true(scene: Scene, *, star: str) -> str:
    """Have the finder's aim tried on anything bright, and set."""
    return (
        "파인더가 어긋났을 수 있어요. 밝은 것을 접안렌즈 가운데에 넣고, 파인더 나사를 거기에 맞추세요. "
        f"그리고 {towards(spoken_name(star))} 돌아가세요. 들어왔어요?"
    )


def back_to_the_finder(scene: Scene, *, star: str) -> str:
    """Send the eye back to the finder."""
    return f"화살표 키로 파인더부터 맞춰요. {subject(spoken_name(star))} 파인더에 들어오면 말해 주세요."


_ONTO_THE_MARK = "화살표 키로 별을 파인더의 십자나 점에 맞추세요."
CENTRING = Chapter(
    phrases={
        say.IsItInTheFinder: is_it_in_the_finder,
        say.SteerToTheFinder: f"{_ONTO_THE_MARK} 들어왔어요, 아직이에요, 아니면 안 보여요?",
        say.IsItThereNow: "이제 파인더의 십자나 점에 들어왔어요?",
        say.SteerItThere: f"잘못된 게 아니에요. 흔한 일이에요. {_ONTO_THE_MARK} 들어왔어요?",
        say.WhileItSlews: "다 돌았어요라고 할 때까지 말하지 않을게요.",
        say.WhatDoYouSee: "대신 무엇이 보여요? 새까매요, 흐릿해요, 다른 별, 구름, 나무, 아니면 점이 없어요?",
        say.CapsAndDew: "뚜껑이 둘 다 벗겨졌는지 보세요. 이슬은 따뜻한 바람으로 말리고, 절대 닦지 마세요. 이제 파인더에 들어왔어요?",
        say.SwitchTheDotOn: "점을 더 밝게 하세요. 그래도 꺼져 있으면 배터리가 다 된 거예요. 경통을 따라 겨누세요. 이제 들어왔어요?",
        say.SweepForIt: "저배율 접안렌즈를 보세요. 있어야 할 곳에서 네모를 넓혀 가며 한 시야씩 도세요. 이제 들어왔어요?",
        say.SeeTheFinderIsTrue: see_the_finder_is_true,
        say.BringItToFocus: "초점 손잡이를 끝까지 천천히 돌리세요. 끝내 안 맞으면 덧끼운 렌즈를 빼세요. 이제 들어왔어요?",
        say.TheSkyDarkens: "십 분만 기다리세요. 하늘이 빠르게 어두워져요. 파인더에 들어오면 말해 주세요.",
        say.WasItRising: "접안렌즈를 보기 전에, 멈출 때 경통이 올라가고 있었어요, 내려가고 있었어요?",
        say.AndToWhichSide: "그리고 뒤에서 볼 때 오른쪽으로 돌았어요, 왼쪽으로 돌았어요?",
        say.IsItCentred: is_it_centred,
        say.IsItCentredNow: "이제 가운데예요?",
        say.BackToTheFinder: back_to_the_finder,
        say.DriftIsNormal: "마운트가 하늘을 알기 전에는 흘러가는 게 정상이에요. 가운데로 되돌리고 바로 확인하세요.",
        say.FocusTheEyepiece: "별이 작은 점이 될 때까지 초점 손잡이를 돌리세요.",
        say.TheOneOfTwo: "둘 가운데 더 밝은 별이에요.",
        say.WhereInTheView: "시야의 어디에 있어요? 왼쪽 위, 또는 아래쪽처럼 말하세요.",
        say.PressRightOnce: "오른쪽 화살표를 잠깐 누르세요. 별이 시야의 어느 쪽으로 갔어요?",
        say.PressUpOnce: "이번에는 위쪽 화살표를 잠깐 누르세요. 어느 쪽으로 갔어요?",
        say.PressTheseKeys: press_these_keys,
        say.ArrowsDoNotFit: "두 답이 서로 안 맞아요. 직접 맞춰 보거나, 어느 화살표예요라고 하면 새로 배울게요.",
        say.ConfirmStar: confirm_star,
    },
    terse={
        say.IsItInTheFinder: is_it_in_the_finder_tersely,
        say.WasItRising: "올라가다 멈췄어요, 내려가다 멈췄어요?",
        say.AndToWhichSide: "오른쪽으로 돌았어요, 왼쪽으로 돌았어요?",
        say.SteerToTheFinder: "별을 거기에 맞추세요. 파인더에 들어왔어요?",
        say.IsItCentred: is_it_centred_tersely,
        say.ConfirmStar: "확인하세요.",
        say.WhileItSlews: "멈춰 설 때까지 기다릴게요.",
    },
    sayable={
        SlewingAnswer: ("다 돌았어요", "준비됐어요"),
        UnseenAnswer: ("새까매요", "점이 없어요", "흐릿해요", "구름이 가렸어요", "나무에 가렸어요", "다른 별이 보여요"),
        EyepieceAnswer: ("한가운데예요", "사라졌어요", "어느 화살표예요", "흘러가요"),
        TubeRoseAnswer: ("올라갔어요", "내려갔어요", "모르겠어요"),
        TubeTurnedAnswer: ("오른쪽으로요", "왼쪽으로요", "모르겠어요"),
        ViewAnswer: ("위쪽", "오른쪽 위", "오른쪽", "왼쪽 아래"),
    },
    step_help={
        say.IsItInTheFinder: "별이 파인더의 십자나 점에 올 때까지 화살표 키로 경통을 움직이세요.",
        say.SteerToTheFinder: "별이 파인더의 십자나 점에 올 때까지 화살표 키로 경통을 움직이세요.",
        say.CapsAndDew: "덮인 뚜껑이 가장 흔한 까닭이에요. 별이 보이면 파인더에 들어왔어요라고 하세요.",
        say.SwitchTheDotOn: "밝기는 파인더의 작은 바퀴로 바꿔요. 별이 보이면 파인더에 들어왔어요라고 하세요.",
        say.SweepForIt: "저배율이 하늘을 가장 넓게 보여 줘요. 한 시야씩 움직이세요. 안 되면 다른 별로 해 주세요라고 하세요.",
        say.SeeTheFinderIsTrue: "부딪히면 파인더가 움직여요. 별이 보이면 파인더에 들어왔어요라고 하세요.",
        say.BringItToFocus: "초점이 많이 어긋나면 별이 넓고 흐린 원반이 되거나 사라져요. 보이면 파인더에 들어왔어요라고 하세요.",
        say.TheSkyDarkens: "밝은 별이 먼저 보여요. 보이면 파인더에 들어왔어요라고 하세요.",
        say.IsItThereNow: "별이 파인더의 십자나 점에 올 때까지 화살표 키로 경통을 움직이세요.",
        say.SteerItThere: "첫 별 전에는 몇 도쯤 어긋나는 게 보통이에요. 화살표 키로 맞추세요.",
        say.WhileItSlews: "세우려면 마운트의 조종기를 쓰거나 끄세요. 다 돌았어요라고 하면 이어 갈게요.",
        say.WhatDoYouSee: "새까매요, 흐릿해요, 다른 별이 보여요, 구름이 가렸어요, 나무에 가렸어요, 점이 없어요 가운데 하나로 답하세요.",
        say.WasItRising: "톱니에는 유격이 있어서 마운트가 멈추는 쪽으로 별을 맞춰요. 못 봤으면 모르겠어요라고 하세요.",
        say.AndToWhichSide: "경통이 겨누는 쪽을 보고 뒤에 서세요. 못 봤으면 모르겠어요라고 하세요.",
        say.IsItCentred: "느린 속도를 쓰세요. 어느 키인지 모르겠으면 어느 화살표예요라고 하세요.",
        say.IsItCentredNow: "느린 속도를 쓰세요. 어느 키인지 모르겠으면 어느 화살표예요라고 하세요.",
        say.BackToTheFinder: "파인더 가운데에 별을 맞추세요. 그래도 접안렌즈에 없으면 파인더가 움직인 거예요.",
        say.WhereInTheView: "고개를 바로 하고 보이는 대로 위아래, 왼쪽 오른쪽을 말하세요.",
        say.PressRightOnce: "파인더는 상을 뒤집고 천정미러는 좌우를 바꿔요. 그래서 한 번 눌러 보고 배워요.",
        say.PressUpOnce: "두 번 눌러 보면 접안렌즈의 방향을 알 수 있어요.",
    },
)
