"""Korean for the night to come: dark hours, Moon, when to be there, what not to miss, what to charge and pack."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import date, datetime, timedelta

from companion import places
from companion.languages.ko import clock_words
from companion.languages.ko.sight_words import direct, it_is, listed
from companion.languages.ko.sky_answers import moon_look
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.sky import Moment
from companion.talk import prepare_phrases as say
from companion.talk.answers import KitAnswer

_THINGS: Mapping[say.Packed, str] = {
    "mount-battery": "충전한 마운트 배터리",
    "this-device": "충전한 이 기기",
    "power-supply": "마운트 전원선",
    "eyepieces": "접안렌즈",
    "diagonal": "천정미러",
    "finder-battery": "빨간 점 파인더의 배터리",
    "compass": "나침반",
    "spirit-level": "수평계",
    "spare-batteries": "여분 배터리",
    "dew-strip": "이슬 열선",
    "red-light": "붉은 손전등",
    "gloves": "장갑",
    "chair": "의자",
    "hot-drink": "따뜻한 음료",
}
_CHARGED = {"mount-battery": "마운트 배터리", "this-device": "이 기기"}
_MOST_IN_A_SENTENCE = 5
_ALL_DAY, _ALL_NIGHT = timedelta(hours=23), timedelta(hours=14)
_HALF_A_DAY = timedelta(hours=12)
"""The evening of a night is so long before its middle; its sunset may come after midnight, or not at all."""


def dark_hours(scene: Scene, *, dark_from: datetime | None, dark_until: datetime | None, darkest: datetime, sun_sets: bool) -> str:
    """Tell which night is meant, and when it is dark."""
    when = "오늘 밤" if _day(darkest - _HALF_A_DAY, scene) <= _day(scene.time, scene) else "내일 밤"
    if not sun_sets:
        return f"{when}은 해가 지지 않아요."
    if dark_from is None or dark_until is None:
        return f"{when}은 완전히 어두워지지 않아요. {_clock(darkest, scene)}에 가장 어두워요."
    if dark_until - dark_from > _ALL_DAY:
        return "하루 종일 완전히 어두워요."
    return f"{when}은 {_clock(dark_from, scene)}부터 {_clock(dark_until, scene)}까지 완전히 어두워요."


def moon_of_the_night(scene: Scene, *, phase_deg: float, begins: datetime, rises: datetime | None, sets: datetime | None) -> str:
    """Tell what the Moon does that night: whether it is up at the beginning, and until when."""
    is_up = sets is not None and (rises is None or sets < rises)
    changes = sets if is_up else rises
    until = f"{_clock(changes, scene)}까지" if changes is not None and changes - begins < _ALL_NIGHT else "밤새"
    return f"달은 {it_is(moon_look(phase_deg))} {until} {'떠' if is_up else '져'} 있어요."


def be_there_by(scene: Scene, *, time: datetime, is_sunset: bool) -> str:
    """Tell when to be on the spot."""
    if is_sunset:
        return f"해가 지는 {_clock(time, scene)}까지 가세요. 파인더는 밝을 때 맞추기 쉬워요. 해가 질 때까지 뚜껑을 덮어 두세요."
    return f"{_clock(time, scene)}까지 가세요."


def not_to_miss(scene: Scene, *, names: tuple[str, ...]) -> str:
    """Name what is best that night."""
    if not names:
        return "그때는 제 목록에 자리가 좋은 대상이 없어요."
    return f"놓치지 말 것은 {it_is(listed([spoken_name(name) for name in names]))}"


def charge_and_pack(scene: Scene, *, things: tuple[say.Packed, ...]) -> str:
    """Name what to charge and what to pack."""
    charge = [_CHARGED[thing] for thing in things if thing in _CHARGED]
    pack = [_THINGS[thing] for thing in things if thing not in _CHARGED]
    told = [f"{direct(listed(charge))} 충전하세요. 추우면 빨리 닳아요."] if charge else []
    sentences = math.ceil(len(pack) / _MOST_IN_A_SENTENCE)
    for number in range(sentences):
        some = direct(listed(pack[number * len(pack) // sentences : (number + 1) * len(pack) // sentences]))
        told.append(f"{'그리고 ' if number else ''}{some} 챙기세요.")
    return " ".join(told)


def one_thing(scene: Scene, *, thing: say.Packed) -> str:
    """Name one thing to charge or pack."""
    return _THINGS[thing]


def _clock(time: datetime, scene: Scene) -> str:
    """Return a time on the clock, to five minutes: nobody plans to the minute."""
    local = places.local_time(Moment(scene.site, time))
    return clock_words.time_of_day(local + timedelta(minutes=round(local.minute / 5) * 5 - local.minute))


def _day(time: datetime, scene: Scene) -> date:
    return places.local_time(Moment(scene.site, time)).date()


PREPARE = Chapter(
    phrases={
        say.ShallITellAboutTonight: "지금은 낮이에요. 오늘 밤을 먼저 알려 드릴까요?",
        say.DarkHours: dark_hours,
        say.MoonOfTheNight: moon_of_the_night,
        say.BeThereBy: be_there_by,
        say.ShallITellWhatToPack: "놓치지 말 것과 챙길 것도 알려 드릴까요?",
        say.NotToMiss: not_to_miss,
        say.WhatDoYouBring: "무엇을 가져가세요? 여분 배터리, 이슬 열선, 붉은 손전등, 장갑, 의자, 따뜻한 음료 가운데 하나씩 말하세요.",
        say.WhatElseDoYouBring: "또 있어요? 없으면 그게 다예요라고 하세요.",
        say.ChargeAndPack: charge_and_pack,
        say.UntilTonight: "지금이든 저녁이든 설치할 때 준비됐어요라고 하세요.",
        say.OneThing: one_thing,
    },
    terse={
        say.ShallITellAboutTonight: "오늘 밤을 먼저 알려 드릴까요?",
        say.ShallITellWhatToPack: "볼 것과 챙길 것도 알려 드릴까요?",
        say.WhatDoYouBring: "무엇을 가져가세요? 하나씩 말하세요.",
    },
    sayable={KitAnswer: ("여분 배터리", "이슬 열선", "붉은 손전등", "장갑", "의자", "따뜻한 음료", "그게 다예요")},
    step_help={
        say.ShallITellAboutTonight: "네라고 하면 어두운 시간과 달, 볼 것과 챙길 것을 말해요. 아니요라고 하면 바로 시작해요.",
        say.ShallITellWhatToPack: "볼 만한 것 다섯 가지와, 충전하고 챙길 것을 말해요.",
        say.UntilTonight: "천천히 충전하고 챙기세요. 준비됐어요라고 하면 삼각대부터 시작해요.",
        say.WhatDoYouBring: "한 번만 물어요. 없는 것은 챙길 목록에서 뺄게요.",
        say.WhatElseDoYouBring: "다음 것을 말하거나 그게 다예요라고 하세요.",
    },
)
