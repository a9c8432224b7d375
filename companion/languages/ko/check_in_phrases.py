"""Korean for the beginning and the end of an evening: time, place, darkness, leaving."""

from __future__ import annotations

from companion import alignment, places
from companion.languages.ko import clock_words
from companion.languages.ko.direction_words import compass_point
from companion.languages.ko.number_words import cardinal, decimal
from companion.languages.ko.sight_words import it_is, listed, towards
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.ko.transliteration import in_hangul
from companion.languages.phrase import Chapter
from companion.languages.told_darkness import DarknessWords, how_dark
from companion.sky import Moment
from companion.talk.answers import CalendarDateAnswer, ClockCheckAnswer, ClockTimeAnswer, CoordinateAnswer, StartAnswer, YearAnswer
from companion.talk.check_in_phrases import (
    ClockMayHaveStood,
    ClockSetToTheLastAnswer,
    GoodEvening,
    GoodEveningWhereverYouAre,
    HowDarkItIs,
    IsTheClockRight,
    IsThePlaceRight,
    NoSkyForThatYear,
    NoSkyWithoutAPlace,
    NoSuchDay,
    ShallWeStart,
    TellMeTheDate,
    TellMeTheTime,
    TellMeTheYear,
    TheZoneFollowsThePlace,
    WhatIsWrongWithIt,
)


def no_sky_for_that_year(_: Moment, *, year: int, taken: int) -> str:
    """Say which year our clock shows, and which is taken instead."""
    return f"제 시계로는 {cardinal(year)} 년인데, 그해의 하늘은 몰라요. {cardinal(taken)} 년으로 할게요."


def is_the_clock_right(moment: Moment, *, with_year: bool) -> str:
    """Say the date, time, zone and daylight saving that everything will be computed with, in one breath."""
    local = places.local_time(moment)
    saving = "켜짐" if places.mount_settings(moment).daylight_saving else "꺼짐"
    year = f"{cardinal(local.year)} 년 " if with_year else ""
    when = it_is(f"{year}{clock_words.calendar_day(local)} {clock_words.time_of_day(local)}")
    return f"제 시계로는 {when} {clock_words.zone_name(moment.site.zone)}, 서머타임 {it_is(saving)} 맞아요?"


def is_the_place_right(moment: Moment) -> str:
    """Say the place to a tenth of a degree."""
    site = moment.site
    north = f"{'북위' if site.latitude_deg >= 0 else '남위'} {decimal(abs(site.latitude_deg))} 도"
    east = f"{'동경' if site.longitude_deg >= 0 else '서경'} {decimal(abs(site.longitude_deg))} 도"
    at = f"장소는 {it_is(in_hangul(site.name))} " if site.name else ""
    return f"{at}{north}, {it_is(east)} 지금 계신 곳이 맞아요?"


def how_dark_it_is(moment: Moment) -> str:
    """Say what the Sun is doing now and when it will be dark; by day the caution comes first."""
    return how_dark(moment, _DARKNESS)


_PRACTISE = "그래도 설치해 두고 지상 목표물로 연습할 수 있어요."


def _under_the_midnight_sun(moment: Moment) -> str:
    """Say that the mount can't be aligned, and what can be done all the same."""
    no_star = "그래서 별이 안 보이고, 마운트를 정렬할 수 없어요."
    moon = alignment.north_mark(moment)
    if moon is None:
        return f"{no_star} {_PRACTISE}"
    return f"{no_star} 해에서 멀리 떨어진 {compass_point(moon.azimuth_deg)} 하늘의 달은 손으로 맞춰 볼 수 있어요."


def _in_a_light_night(darkest: Moment) -> str:
    """Say that no star comes out, and what can be aligned on when it is darkest."""
    no_star = "오늘 밤은 하늘이 너무 밝아서 별이 안 보여요."
    bodies = alignment.alignment_bodies(darkest)
    if not bodies:
        return f"{no_star} 마운트를 정렬할 대상이 없어요. {_PRACTISE}"
    names = towards(listed([spoken_name(sight.body.name) for sight in bodies]))
    when = clock_words.time_of_day(places.local_time(darkest))
    return f"{no_star} 달이나 행성을 쓰는 마운트는 {names} 정렬할 수 있어요. {when}쯤이 가장 좋아요."


_DARKNESS = DarknessWords(
    caution="해가 떠 있어요. 뚜껑을 덮어 두고, 망원경이나 파인더를 해 근처로 절대 돌리지 마세요.",
    no_sunset="오늘 밤에는 해가 지지 않아요.",
    sets_in=lambda time: f"해는 {clock_words.duration(time)} 뒤에 져요.",
    set_ago=lambda time: f"해는 {clock_words.duration(time)} 전에 졌어요.",
    rises_in=lambda time: f"해는 {clock_words.duration(time)} 뒤에 떠요. 그 전에 뚜껑을 모두 덮으세요.",
    first_stars_in=lambda time: f"첫 별은 {clock_words.duration(time)}쯤 뒤에 보여요.",
    dark_in=lambda time: f"완전히 어두워지려면 {clock_words.duration(time)} 남았어요.",
    never_dark="오늘 밤은 완전히 어두워지지 않아요.",
    is_dark="지금 완전히 어두워요.",
    morning="새벽빛이 시작됐어요.",
    under_the_midnight_sun=_under_the_midnight_sun,
    in_a_light_night=_in_a_light_night,
)


def good_evening(moment: Moment) -> str:
    """Greet."""
    return f"{clock_words.greeting(places.local_time(moment))}."


CHECK_IN = Chapter(
    phrases={
        GoodEvening: good_evening,
        GoodEveningWhereverYouAre: "안녕하세요. 망원경 설치를 도와드릴게요.",
        NoSkyWithoutAPlace: "장소를 모르면 하늘에서 무엇이 어디 있는지 말할 수 없어요.",
        ClockMayHaveStood: "제가 꺼져 있었고, 이 기기에는 그동안 가는 시계가 없어요.",
        ClockSetToTheLastAnswer: "꺼져 있는 동안 제 시계가 시각을 잊었어요. 마지막으로 답하신 때로 맞췄어요.",
        NoSkyForThatYear: no_sky_for_that_year,
        IsTheClockRight: is_the_clock_right,
        WhatIsWrongWithIt: "무엇이 틀렸어요? 시각, 날짜, 시간대 가운데 하나로 말하세요.",
        TellMeTheTime: "지금 몇 시예요?",
        TellMeTheDate: "오늘이 며칠이에요? 십일월 오일처럼 말하세요.",
        TellMeTheYear: "몇 년이에요?",
        NoSuchDay: "그런 날은 없어요.",
        TheZoneFollowsThePlace: "시간대는 장소를 따라가요. 장소를 확인할게요.",
        IsThePlaceRight: is_the_place_right,
        HowDarkItIs: how_dark_it_is,
        ShallWeStart: "시작하려면 준비됐어요, 장비를 알려 주려면 내 망원경 물어봐 주세요라고 하세요.",
    },
    terse={ShallWeStart: "시작할 준비가 됐어요?"},
    sayable={
        StartAnswer: ("준비됐어요", "내 망원경 물어봐 주세요"),
        ClockCheckAnswer: ("맞아요", "시각이 틀려요", "날짜가 틀려요", "시간대가 틀려요"),
        ClockTimeAnswer: ("아홉 시 이십 분", "오후 일곱 시 반", "아홉 시"),
        CalendarDateAnswer: ("시월 십오일",),
        YearAnswer: ("이천이십육 년",),
        CoordinateAnswer: ("북위 삼십칠 도 삼십 분", "북위 삼십칠 점 오 도"),
    },
    step_help={
        IsTheClockRight: "모든 방향이 시각에 달려 있어요. 믿을 만한 시계와 견주어 보고 네 또는 아니요라고 하세요.",
        WhatIsWrongWithIt: "시각이 틀려요, 날짜가 틀려요, 시간대가 틀려요 가운데 하나로 말하세요. 그러면 바른 값을 물을게요.",
        TellMeTheTime: "믿을 만한 시계를 읽어 주세요. 한 시간 틀리면 모든 별이 주먹 하나 넘게 어긋나요.",
        TellMeTheDate: "달과 날을 말하세요. 하루 틀리면 손가락 하나, 한 달 틀리면 주먹 세 개만큼 어긋나요.",
        TellMeTheYear: "제 시계의 배터리가 떨어졌을 수 있어서 몇 년인지 못 믿겠어요. 이천이십육 년처럼 말하세요.",
        IsThePlaceRight: "백 킬로미터가 하늘에서 일 도쯤이에요. 그 안이라면 네라고 하세요.",
        ShallWeStart: "준비됐어요라고 하면 삼각대부터 시작해요. 망원경을 알려 주면 조언이 더 잘 맞아요.",
    },
)
