"""Korean for what is answered to questions at any time, and for the open question put again in few words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta

from companion import places
from companion.equipment import Equipment
from companion.languages.ko.clock_words import calendar_day, duration
from companion.languages.ko.direction_words import degrees
from companion.languages.ko.fact_words import how_big, how_bright, how_far, how_old, its_constellation, light_age, what_it_is, why_this_one
from companion.languages.ko.guidance_phrases import where_we_are
from companion.languages.ko.look_for import millimetres
from companion.languages.ko.number_words import count_of, decimal
from companion.languages.ko.sight_words import SUN_CAUTION, it_is, place_of
from companion.languages.ko.sky_answers import (
    bright_one,
    bright_pair,
    how_high_it_stands,
    is_it_up,
    its_colour,
    planets_up,
    the_moon_now,
    until_light,
    when_it_rises,
    when_it_sets,
    where_it_stands,
    where_on_earth,
    which_way_it_is,
)
from companion.languages.ko.stage_words import STAGES
from companion.languages.ko.story import story
from companion.languages.ko.trade_word_phrases import FORMS, TASKS, WORDS, first_trade_word
from companion.languages.phrase import Chapter, Scene
from companion.talk import check_in_phrases, cloud_phrases, equipment_phrases, ground_phrases, mistakes_phrases, pose_phrases, stars_phrases
from companion.talk import question_phrases as say
from companion.talk.guidance_phrases import DidYouSay
from companion.talk.kinds import AT_A_TARGET
from companion.talk.saying import Answers, Ask

_CHOICES = {
    "names": "마운트가 별을 골라요.",
    "list": "별은 마운트 목록에서 골라요.",
    "unnamed": "마운트는 밝은 대상이면 다 받아요.",
    "one": "마운트는 별 하나만 써요.",
    "body": "마운트는 달이나 행성을 써요.",
}
_POSES = {
    "before-power": "시작 자세는 켜기 전에 잡아요.",
    "after-settings": "시작 자세는 설정 다음에 잡아요.",
    "by-itself": "시작 자세는 스스로 찾아요.",
}
_COMPASSES = {
    "needle": "나침반은 바늘 나침반이에요.",
    "card": "나침반은 판이 돌거나 휴대폰이에요.",
    "true": "나침반은 진북을 가리켜요.",
    "none": "나침반은 없어요.",
}
_FINDERS = {"dot": "파인더는 빨간 점이에요.", "optical": "파인더는 작은 망원경이에요."}
AGAIN: Mapping[type[Ask[Answers]], str] = {
    check_in_phrases.IsTheClockRight: "제 시각과 날짜가 맞아요?",
    check_in_phrases.IsThePlaceRight: "장소가 맞아요?",
    check_in_phrases.TellMeTheDate: "오늘이 며칠이에요?",
    equipment_phrases.AnythingElseInTheWay: "또 무엇이 하늘을 가려요?",
    ground_phrases.CapsAndCooling: "뚜껑과 이슬 후드, 준비됐어요?",
    ground_phrases.PickAFarMark: "먼 목표물을 골랐어요?",
    ground_phrases.PickAMarkAfterDark: "또렷하게 맞췄어요?",
    ground_phrases.TakeAFartherMark: "더 먼 것을 골랐어요?",
    cloud_phrases.WaitForTheSky: "맑아지면 준비됐어요라고 하세요.",
    stars_phrases.WhichStarDoesItName: "마운트에 어느 별 이름이 나와요?",
    stars_phrases.NoMoreStars: "별이 더 보이면 준비됐어요라고 하세요.",
    equipment_phrases.FocalLength: "초점 거리가 얼마예요?",
    equipment_phrases.WhichEyepiece: "접안렌즈가 몇 밀리미터예요?",
    pose_phrases.NorthByThePole: "맞추면 북쪽 맞췄어요라고 하세요.",
    pose_phrases.NorthByTheShadow: "맞추면 북쪽 맞췄어요라고 하세요.",
    pose_phrases.NorthByTheSunset: "맞추면 북쪽 맞췄어요라고 하세요.",
    pose_phrases.NorthByAMark: "맞추면 북쪽 맞췄어요라고 하세요.",
    pose_phrases.NorthByLandmark: "맞추면 북쪽 맞췄어요라고 하세요.",
    **dict.fromkeys(AT_A_TARGET, "다 보면 다음 대상이라고 하세요."),
}
"""Where the last sentence of the full ones doesn't do."""
WHOLE: frozenset[type[Ask[Answers]]] = frozenset(
    {
        DidYouSay,
        equipment_phrases.TownHeard,
        equipment_phrases.FromTownHeard,
        equipment_phrases.YourPlaceHeard,
        equipment_phrases.TelescopeHeard,
        equipment_phrases.EyepieceHeard,
        equipment_phrases.InTheWayHeard,
        equipment_phrases.FistHeard,
        mistakes_phrases.CheckThis,
        mistakes_phrases.IsItsTimeRight,
    }
)
"""Of these the last sentence alone says nothing: they read something back."""


def where_we_were(scene: Scene, *, stage: str, name: str | None) -> str:
    """Say which part of the evening this is, with the name of the thing it is about."""
    part = where_we_are(scene, stage=stage)
    return part if name is None else f"{part} 마지막으로 말한 것은 {it_is(place_of(scene, name))}"


def what_you_told(scene: Scene, *, equipment: Equipment) -> str:
    """Say what is known of the equipment."""
    return " ".join(_known(equipment)) or "망원경에 대해 아직 몰라요. 처음에 내 망원경 물어봐 주세요라고 하세요."


def _known(equipment: Equipment) -> Iterator[str]:
    instrument, mount, observer = equipment.instrument, equipment.mount, equipment.observer
    if instrument.aperture_mm:
        yield f"망원경 구경은 {it_is(millimetres(round(instrument.aperture_mm)))}"
    if instrument.focal_length_mm:
        yield f"초점 거리는 {it_is(millimetres(round(instrument.focal_length_mm)))}"
    if instrument.eyepieces:
        yield f"접안렌즈는 {it_is(count_of(len(instrument.eyepieces), '개'))}"
    if instrument.finder:
        yield _FINDERS[instrument.finder]
    if mount.star_choice:
        yield _CHOICES[mount.star_choice]
    if mount.pose_time:
        yield _POSES[mount.pose_time]
    if observer.compass:
        yield _COMPASSES[observer.compass]


def how_much_longer(scene: Scene, *, minutes: int | None) -> str:
    """Say how long until the first target."""
    if minutes is None:
        return "설치는 끝났어요. 원하는 만큼 보세요."
    return f"잘못되는 것이 없으면 첫 대상까지 {it_is(duration(timedelta(minutes=minutes)) + '쯤')}"


def how_long_out(scene: Scene, *, since: datetime) -> str:
    """Say how long ago the evening began."""
    return f"{duration(scene.time - since)} 됐어요."


def what_comes_next(scene: Scene, *, stage: str | None) -> str:
    """Say which part follows."""
    return "이게 마지막이에요." if stage is None else f"이 다음은 {it_is(STAGES[stage])}"


def stars_left(scene: Scene, *, count: int) -> str:
    """Say how many reference stars are still to be centred."""
    return f"정렬 별이 {count_of(count, '개')} 남았어요." if count else "마운트가 더 달라고 하지 않으면 정렬 별은 더 없어요."


def how_far_the_compass_is_off(scene: Scene) -> str:
    """Say by how much, and to which side, a compass points past true north here."""
    declination_deg = places.declination(scene).declination_deg
    if declination_deg is None:
        return "그 날짜의 편각은 몰라요."
    if round(declination_deg) == 0:
        return "여기서는 나침반을 고칠 필요가 없어요."
    return f"여기서 자석은 진북에서 {'오른쪽' if declination_deg > 0 else '왼쪽'}으로 {degrees(abs(declination_deg))} 어긋나요."


def faintest_here(scene: Scene, *, aperture_mm: float, telescope_mag: float | None, eye_mag: float | None) -> str:
    """Say how faint a star shows overhead, by eye and through the telescope."""
    if telescope_mag is None or eye_mag is None:
        return "어두워져야 알 수 있어요. 별이 보이면 다시 물어보세요."
    return (
        f"지금 머리 위에서 구경 {millimetres(round(aperture_mm))} 망원경으로 {decimal(telescope_mag)}등급쯤, "
        f"맨눈으로 {decimal(eye_mag)}등급쯤 되는 별까지 보여요. 퍼져 있는 빛은 더 밝아야 보여요."
    )


def explained(words: str) -> str | None:
    """Explain the first word of the trade among some words; None where there is none."""
    word = first_trade_word(words)
    return None if word is None else f"{FORMS[word][0]}. {WORDS[word]}"


ANSWERS = Chapter(
    {
        say.HowOldItIs: how_old,
        say.WhatColourItIs: its_colour,
        say.WhichConstellation: its_constellation,
        say.WhyThisOne: why_this_one,
        say.TheDate: lambda scene: it_is(calendar_day(places.local_time(scene))),
        say.HowFarTheCompassIsOff: how_far_the_compass_is_off,
        say.BrightOne: bright_one,
        say.BrightPair: bright_pair,
        say.NoOtherWay: "이건 다른 방법이 없어요. 할 수 없으면 건너뛰기나 이 부분 끝내기라고 하세요.",
        say.NothingBrightThere: "지금 거기에는 밝은 것이 없어요. 움직이거나 깜빡이면 비행기나 인공위성이에요. 잠시 지켜보세요.",
        say.ThatIsTheSun: f"그건 태양일 수 있어요. {SUN_CAUTION}",
        say.WhereItStands: where_it_stands,
        say.IsItUp: is_it_up,
        say.WhenItRises: when_it_rises,
        say.WhenItSets: when_it_sets,
        say.HowHighItStands: how_high_it_stands,
        say.NamedNothingYet: "아직 이름을 말한 것이 없어요. 베가가 어디 있어요처럼 이름으로 물어보세요.",
        say.TheMoonNow: the_moon_now,
        say.UntilLight: until_light,
        say.WhereOnEarth: where_on_earth,
        say.WhereWeWere: where_we_were,
        say.WhatYouTold: what_you_told,
        say.WhichWayItIs: which_way_it_is,
        say.HowMuchLonger: how_much_longer,
        say.NextTargetOrPacking: "다음 대상이라고 하면 이어 가요. 오늘은 여기까지라고 하면 정리해요.",
        say.WhatComesNext: what_comes_next,
        say.StarsLeft: stars_left,
        say.OnlyQuestions: "지금은 별도 설치도 없어요. 장소와 망원경을 묻기만 해요. 모두 오 분쯤 걸려요.",
        say.WhatItIs: what_it_is,
        say.HowFarItIs: how_far,
        say.HowOldItsLightIs: light_age,
        say.TellItsStory: story,
        say.HowBigItIs: how_big,
        say.HowBrightItIs: how_bright,
        say.HowLongOut: how_long_out,
        say.PlanetsUp: planets_up,
        say.NoCometsKnown: "혜성은 왔다가 가는데, 저는 아무것도 찾아보지 않아서 몰라요.",
        say.NothingPassingKnown: "유성이나 인공위성이 언제 지나가는지는 몰라요. 하늘에서 가장 어두운 쪽을 지켜보세요.",
        say.FaintestHere: faintest_here,
        say.NoWeatherKnown: "저는 네트워크를 쓰지 않아서 몰라요. 가끔 하늘을 보고 구름이 오면 알려 주세요.",
        say.WordMeans: lambda scene, *, word: WORDS[word],
        say.HowToDo: lambda scene, *, task: TASKS[task],
    }
)
