"""Korean for the reference stars: which one, where it is, what it looks like, what is said about it, and the mount's verdict."""

from __future__ import annotations

from datetime import datetime

from companion import alignment, sky
from companion.equipment import StarChoice
from companion.languages.ko import clock_words
from companion.languages.ko.direction_words import compass_point, degrees, fists, sweep
from companion.languages.ko.sight_words import describe, describe_rivals, it_is, side_of, topic, towards, turn_towards
from companion.languages.ko.sky_answers import COLOURS
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.languages.told_turns import tube_turn
from companion.sky import Sight
from companion.talk import stars_phrases as say
from companion.talk.answers import FinderAnswer, OutcomeAnswer, StarNameAnswer, WaitingAnswer

_CENTRED_DEG = 0.2
"""How exactly a star is centred in a low-power eyepiece: judgement, a fifth of its field."""
_EXPECTED = (
    (0.29, "사분의 일 도쯤 빗나가도 저배율 시야 안에 넉넉히 들어올"),
    (0.42, "삼분의 일 도쯤 빗나가도 저배율 시야 안에 들어올"),
    (0.6, "영 점 오 도쯤 빗나가서 저배율 시야 가장자리에 걸릴"),
)
"""How an error is called below so many degrees: halfway to the next."""
_UNFIT = {
    "hidden": "무언가에 가려 있어요",
    "too-low": "너무 낮아서 공기에 흐려져요",
    "too-high": "너무 높아서 마운트가 거기서 잘 돌지 못해요",
    "too-bright-sky": "하늘이 밝아서 아직 안 보여요",
    "near-another": "앞의 별과 너무 가까워요",
    "near-sun": "해와 너무 가까워요",
    "sets-soon": "곧 져요",
}
"""Why a star the mount names won't do."""
_HOW_IT_CHOOSES = {
    "names": "마운트에 나오는 이름을 읽어 주시면 쓸 만한지 말할게요.",
    "list": "제가 말하는 별을 마운트 목록에서 고르세요.",
    "unnamed": "밝은 대상이면 다 돼요. 어느 것을 어떤 순서로 쓸지 말할게요.",
    "one": "별 하나만 쓰면 돼요.",
    "body": "달이나 행성을 쓰면 돼요.",
}


def before_the_stars(scene: Scene, *, choice: StarChoice) -> str:
    """Say how the stars are chosen, and the caution where the hazard is."""
    return (
        "이제 정렬 별이에요. 마운트에게 하늘의 방향을 가르쳐요. "
        f"마운트가 돌 때는 물러서서 접안렌즈에서 눈을 떼고, 경통과 팔에서 손을 떼세요. {_HOW_IT_CHOOSES[choice]}"
    )


def first_star(scene: Scene, *, star: str, from_star: str | None) -> str:
    """Introduce the first reference star."""
    return _introduction("첫 번째 별은", scene, star, from_star)


def another_star(scene: Scene, *, star: str, from_star: str | None) -> str:
    """Introduce a further reference star."""
    return _introduction("다음 별은", scene, star, from_star)


def _introduction(opening: str, scene: Scene, star: str, from_star: str | None) -> str:
    sight = sky.sight(sky.find(star), scene)
    words = describe(sight, scene.fist_deg)
    if sight.altitude_deg < 0:
        return f"{words} 다른 별로 해 주세요라고 하세요."
    rivals = "" if star == sky.MOON.name else f" {describe_rivals(sight, scene, scene.fist_deg)}"
    return f"{opening} {words}{_colour(sight)}{_turn(sight, scene, from_star)}{rivals}"


def star_tersely(scene: Scene, *, star: str, from_star: str | None) -> str:
    """Introduce a star in few words: where, then what could be taken for it."""
    sight = sky.sight(sky.find(star), scene)
    if sight.altitude_deg < 0:
        return f"{describe(sight)} 다른 별로 해 주세요라고 하세요."
    rival = f" {describe_rivals(sight, scene, scene.fist_deg)}" if alignment.rivals(sight.body, scene) else ""
    where = f"{compass_point(sight.azimuth_deg)}, {fists(sight.altitude_deg, scene.fist_deg)} 높이에 있어요."
    return f"{topic(spoken_name(star))} {where}{rival}"


def _colour(sight: Sight) -> str:
    """Return a word on the colour where it is strong."""
    colour = sky.colour(sight.body)
    return "" if colour is None else f" {towards(COLOURS[colour])} 보여요."


def _turn(sight: Sight, scene: Scene, from_star: str | None) -> str:
    """Return which way the tube has to go from where it is: level and north before the first star, else at the star before."""
    turn = tube_turn(sight, scene, from_star)
    if turn is None:
        return ""
    parts = []
    if turn.right_deg:
        parts.append(f"{'오른쪽' if turn.right_deg > 0 else '왼쪽'}으로 {sweep(abs(turn.right_deg), scene.fist_deg)}")
    if turn.up_deg:
        parts.append(f"{'위' if turn.up_deg > 0 else '아래'}로 {fists(abs(turn.up_deg), scene.fist_deg)}")
    return f" 지금 경통이 보는 곳에서 {', '.join(parts)} 가세요." if parts else " 경통이 거의 그쪽을 보고 있어요."


def find_star(scene: Scene, *, star: str) -> str:
    """Help the eye to the star again, from where it is now."""
    sight = sky.sight(sky.find(star), scene)
    if sight.altitude_deg < 0:
        return f"{topic(spoken_name(star))} 지평선 아래로 졌어요. 다른 별로 해 주세요라고 하세요."
    look = f"{describe(sight, scene.fist_deg)}{_colour(sight)} {describe_rivals(sight, scene, scene.fist_deg)}"
    return f"{turn_towards(sight)}. {look} 파인더에 들어오면 말해 주세요."


def how_high(scene: Scene, *, star: str) -> str:
    """Say how high a star stands."""
    sight = sky.sight(sky.find(star), scene)
    if sight.altitude_deg < 0:
        return "지평선 아래로 졌어요."
    return f"높이는 {fists(sight.altitude_deg, scene.fist_deg)}, {it_is(degrees(sight.altitude_deg))}"


def where_from_the_moon(scene: Scene, *, star: str) -> str:
    """Say on which side of the Moon a star stands."""
    if star == sky.MOON.name:
        return "그게 바로 달이에요."
    sight, moon = sky.sight(sky.find(star), scene), sky.sight(sky.MOON, scene)
    if moon.altitude_deg < 0 or sight.altitude_deg < 0:
        return "달은 져서 도움이 안 돼요."
    apart_deg = sky.separation_deg(sight, moon)
    if apart_deg > 90:
        return "달 근처가 아니에요. 달을 등지고 서세요."
    return f"달에서 {towards(side_of(sight, moon))} {fists(apart_deg, scene.fist_deg)} 떨어져 있어요."


def what_colour(scene: Scene, *, star: str) -> str:
    """Say whether a star has a colour that shows."""
    if star == sky.MOON.name:
        return "달이에요. 달과 비슷한 것은 없어요."
    colour = sky.colour(sky.find(star))
    return f"네, {towards(COLOURS[colour])} 보여요." if colour else "아니요, 하얗게 보여요."


def which_star_does_it_name(scene: Scene, *, again: bool = False) -> str:
    """Ask for the name on the hand control."""
    return "이번에는요?" if again else "마운트에 어느 별 이름이 나와요?"


def which_of_these(scene: Scene, *, stars: tuple[str, ...]) -> str:
    """Name the stars that begin so."""
    *others, last = (with_name(name) for name in stars)
    return f"{', '.join(others)}, 아니면 {last}?"


def with_name(name: str) -> str:
    """Return a name as a question asks for it."""
    return it_is(spoken_name(name))[:-1]


def press_its_key_for_another(scene: Scene, *, star: str, why: say.Unfit) -> str:
    """Say why a star won't do, and how to have another."""
    return f"{topic(spoken_name(star))} {_UNFIT[why]}. 마운트에 다른 별을 달라고 하고 이름을 읽어 주세요."


def wait_for_the_first_star(scene: Scene, *, star: str, first: datetime) -> str:
    """Say when a star will come out."""
    left = first - scene.time
    soon = f"{clock_words.duration(left)}쯤 뒤에" if left.total_seconds() > 60 else "이제 곧"
    caps = "뚜껑은 해가 진 뒤에 둘 다 벗기세요." if sky.sun_state(scene).is_up else "이제 뚜껑을 둘 다 벗기세요."
    return f"하늘이 아직 너무 밝아요. {topic(spoken_name(star))} {soon} 보여요. {caps} 보이면 준비됐어요라고 하세요."


def no_more_stars(scene: Scene, *, choice: StarChoice) -> str:
    """Say that nothing is left to centre."""
    thing = "쓸 만한 달이나 행성이" if choice == "body" else "좋은 별이 더"
    return f"지금은 {thing} 없어요. 삼십 분쯤 기다렸다가 준비됐어요라고 하세요. 아니면 건너뛰기라고 하세요."


def what_to_expect(scene: Scene, *, stars: tuple[str, ...], lean_deg: float | None, if_level: bool) -> str:
    """Say by how much the mount should miss half of all targets now, from where its stars stand and how the base leans."""
    if len(stars) == 1:
        return f"대상 하나로는 조금밖에 못 배워요. {spoken_name(stars[0])} 근처는 잘 맞지만 먼 곳은 놓칠 수 있어요."
    sights = [sky.sight(sky.find(star), scene) for star in stars]
    error_deg = alignment.expected_error_deg(sights, _CENTRED_DEG, lean_deg or 0.0)
    for below_deg, words in _EXPECTED:
        if error_deg < below_deg:
            stand = "놓여 있고 받침이 수평이면" if if_level else "놓여 있으면"
            return f"별들이 이렇게 {stand} 대상이 {words} 거예요."
    if alignment.expected_error_deg(sights, _CENTRED_DEG) < _EXPECTED[-1][0]:
        return "받침이 이만큼 기울어 있으면 이 별들 근처는 잘 맞지만 먼 곳은 놓칠 수 있어요."
    return "이 별들은 서로 너무 가까워요. 그 근처는 잘 맞지만 먼 곳은 놓칠 수 있어요."


STARS = Chapter(
    phrases={
        say.BeforeTheStars: before_the_stars,
        say.KeepPeopleBack: "마운트가 도는 동안 아이들은 물러서게 하세요. 레이저로 가리킬 때는 비행기 근처를 절대 피하세요.",
        say.FirstStar: first_star,
        say.AnotherStar: another_star,
        say.FindStar: find_star,
        say.HowHigh: how_high,
        say.WhereFromTheMoon: where_from_the_moon,
        say.WhatColour: what_colour,
        say.LeaveStar: "그 별은 건너뛸게요.",
        say.WhichStarDoesItName: which_star_does_it_name,
        say.WhichOfThese: which_of_these,
        say.PressItsKeyForAnother: press_its_key_for_another,
        say.NoneItNamesWillDo: "쓸 만한 별이 없어요. 대신 목록에서 고르세요. 어느 별인지 말할게요.",
        say.WaitForTheFirstStar: wait_for_the_first_star,
        say.NoStarsTonight: "오늘 밤은 해가 거의 지지 않아서 별이 안 보여요. 달이나 밝은 행성뿐이에요.",
        say.NoMoreStars: no_more_stars,
        say.WhatDoesTheMountSay: "마운트가 정렬을 받아들였어요, 실패했어요, 아니면 별을 더 달라고 해요?",
        say.CapsOffNow: "이제 뚜껑을 둘 다 벗기세요.",
        say.WhatToExpect: what_to_expect,
        say.ItFailed: (
            "그럼 넣은 값 가운데 틀린 것이 있어요. 서머타임과 시각, 그다음 날짜를 확인하세요. "
            "수평과 북쪽을 다시 맞추고 준비됐어요라고 하세요."
        ),
    },
    terse={
        say.BeforeTheStars: "이제 별이에요. 마운트가 돌 때는 물러서세요.",
        say.KeepPeopleBack: "아이들은 물러서게 하세요. 레이저는 비행기 근처를 절대 피하세요.",
        say.FirstStar: star_tersely,
        say.AnotherStar: star_tersely,
        say.WhatToExpect: "좋아요.",
    },
    sayable={
        FinderAnswer: ("파인더에 들어왔어요", "아주 멀어요", "어느 별이에요", "안 보여요", "나무에 가렸어요"),
        WaitingAnswer: ("준비됐어요", "별이 보여요", "주먹을 재 볼게요"),
        StarNameAnswer: ("베가라고 나와요", "베가", "첫 글자는 에이 엘 피"),
        OutcomeAnswer: ("받아들였어요", "실패했어요", "별을 더 달라고 해요"),
    },
    step_help={
        say.FindStar: "두 눈을 뜨고 경통 위로 본 다음 파인더를 보세요.",
        say.WhichStarDoesItName: "조종기나 앱에 나오는 이름을 읽어 주세요. 아니면 첫 글자는, 하고 글자 세 개를 말하세요.",
        say.WhichOfThese: "이름 전체를 제가 말한 대로 말하세요. 제 별로 가려면 건너뛰기라고 하세요.",
        say.NoMoreStars: "구름은 움직이고 별은 떠올라요. 더 보려면 준비됐어요, 별 없이 가려면 건너뛰기라고 하세요.",
        say.WaitForTheFirstStar: "밝은 별이 먼저 보여요. 해가 지고 삼십 분쯤 뒤예요. 눈을 어둠에 익히세요.",
        say.WhatDoesTheMountSay: "마지막 별 뒤에 조종기나 앱에 결과가 나와요. 거기 나오는 것을 말해 주세요.",
        say.ItFailed: "실패는 대개 한 시간의 차이, 다른 별, 대충 맞춘 북쪽 때문이에요.",
    },
)
