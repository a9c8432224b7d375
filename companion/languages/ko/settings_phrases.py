"""Korean for the settings the hand control asks for, each line digit by digit."""

from __future__ import annotations

from datetime import UTC
from typing import Literal

from companion import places
from companion.equipment import DateOrder
from companion.languages.ko import clock_words
from companion.languages.ko.direction_words import FEET_PER_METRE
from companion.languages.ko.number_words import amount_of, count_of, digits
from companion.languages.ko.sight_words import it_is
from companion.languages.ko.spoken_names import town_name
from companion.languages.phrase import Chapter, Scene
from companion.places import Sexagesimal
from companion.talk import settings_phrases as say
from companion.talk.answers import SettingAnswer

_ORDERS = {"day-month": ("day", "month", "year"), "month-day": ("month", "day", "year"), "year-month-day": ("year", "month", "day")}
_SIDES = {"N": "북쪽", "S": "남쪽", "E": "동쪽", "W": "서쪽"}


def the_date(scene: Scene, order: DateOrder | None = None) -> str:
    """Return the local date in the order it is keyed, its parts named."""
    day = places.local_time(scene)
    parts = {
        "day": f"날, {digits(day.day, 2)}.",
        "month": f"달, {clock_words.month_name(day.month)}이니까 {digits(day.month, 2)}.",
        "year": f"해, {digits(day.year, 4)}.",
    }
    return " ".join(parts[name] for name in _order(scene, order))


def _order(scene: Scene, order: DateOrder | None) -> tuple[str, ...]:
    """Return the parts of a date in the order that is wanted, else in the usual one of the place."""
    return _ORDERS[order or places.customs(scene.site).date_order]


def key_the_date(scene: Scene, *, order: DateOrder | None = None) -> str:
    """Read the local date in the order it is keyed."""
    return f"날짜예요. {the_date(scene, order)}"


def key_the_time(scene: Scene, *, hours: Literal[12, 24] | None = None) -> str:
    """Read the local time on the clock the mount wants."""
    time = places.local_time(scene)
    if (hours or places.customs(scene.site).hours) == 12:
        half = "오전" if time.hour < 12 else "오후"
        return f"시각이에요. 열두 시간제로 {half}. 시, {digits((time.hour - 1) % 12 + 1, 2)}. 분, {digits(time.minute, 2)}."
    return f"시각이에요. 이십사 시간제로. 시, {digits(time.hour, 2)}. 분, {digits(time.minute, 2)}."


def key_daylight_saving(scene: Scene) -> str:
    """Say whether daylight saving is on, and what it does to the time just keyed."""
    if places.mount_settings(scene).daylight_saving:
        return "서머타임은 켜세요. 그러면 시각이 바뀌는 마운트도 있으니 시각을 한 번 더 확인하세요."
    return "서머타임은 끄세요."


def which_side(scene: Scene) -> str:
    """Say north or south, and east or west."""
    site = scene.site
    return f"{'북쪽' if site.latitude_deg >= 0 else '남쪽'}, 그리고 {it_is('동쪽' if site.longitude_deg >= 0 else '서쪽')}"


def key_the_zone(scene: Scene) -> str:
    """Read the standard zone, and warn where a control that takes whole hours only would be wrong."""
    standard_hours = places.mount_settings(scene).standard_offset_hours
    whole, minutes = divmod(round(abs(standard_hours) * 60), 60)
    hours = count_of(whole, "시간") if whole else "영 시간"
    text = f"서머타임을 뺀 시간대는 {'마이너스' if standard_hours < 0 else '플러스'} {hours}"
    if not minutes:
        return f"{it_is(text)}"
    universal = scene.time.astimezone(UTC)
    day = "" if universal.date() == places.local_time(scene).date() else f" 그때 날짜의 날은 {it_is(digits(universal.day, 2))}"
    instead = f"시간대 영, 서머타임 꺼짐, 시각 {digits(universal.hour, 2)}, {it_is(digits(universal.minute, 2))}{day}"
    return f"{it_is(text + ' ' + amount_of(minutes, '분'))} 한 시간 단위로만 받으면 이렇게 넣으세요. {instead}"


def key_the_latitude(scene: Scene) -> str:
    """Read the latitude."""
    return f"위도예요. {_named_figures(places.latitude(scene.site), degree_digits=2)}"


def key_the_longitude(scene: Scene) -> str:
    """Read the longitude."""
    return f"경도예요. {_named_figures(places.longitude(scene.site), degree_digits=3)}"


def key_the_elevation(scene: Scene) -> str:
    """Read the height above the sea."""
    metres = round(scene.site.elevation_m)
    length, unit = (round(metres * FEET_PER_METRE), "피트") if places.customs(scene.site).feet else (metres, "미터")
    return f"높이는 바다 {'아래' if metres < 0 else '위'}로 {digits(abs(length))} {it_is(unit)}"


def pick_a_city(scene: Scene) -> str:
    """Name the nearest town, and larger ones for a shorter list, all with the same clock as here."""
    cities = [town_name(town.name) for town in places.listed_cities(scene.site)]
    if not cities:
        return "근처에 시각이 같은 도시가 없어요. 위도와 경도를 직접 넣는 방법을 찾아보세요."
    first, *others = cities
    otherwise = f" 목록에 없으면 {', '.join(others)} 가운데 하나를 고르세요." if others else ""
    return f"가장 가까운 도시는 {it_is(first)}{otherwise} 그리고 준비됐어요라고 하세요."


def _named_figures(angle: Sexagesimal, degree_digits: int) -> str:
    """Return ``46°18'36"N`` as "도, 사 육. 분, 일 팔. 초, 삼 육. 북쪽."."""
    figures = f"도, {digits(angle.degrees, degree_digits)}. 분, {digits(angle.minutes, 2)}. 초, {digits(angle.seconds, 2)}."
    return f"{figures} {_SIDES[angle.side]}."


def key_the_date_tersely(scene: Scene, *, order: DateOrder | None = None) -> str:
    """Read the figures of the date, each part by its name so that the month can't be mistaken for the day."""
    day = places.local_time(scene)
    parts = {"day": f"날 {digits(day.day, 2)}", "month": f"달 {digits(day.month, 2)}", "year": f"해 {digits(day.year, 4)}"}
    return f"날짜. {', '.join(parts[name] for name in _order(scene, order))}."


def key_the_time_tersely(scene: Scene, *, hours: Literal[12, 24] | None = None) -> str:
    """Read the figures of the time."""
    time = places.local_time(scene)
    if (hours or places.customs(scene.site).hours) == 12:
        return f"시각. {'오전' if time.hour < 12 else '오후'}, {digits((time.hour - 1) % 12 + 1, 2)}, {digits(time.minute, 2)}."
    return f"시각. {digits(time.hour, 2)}, {digits(time.minute, 2)}."


def key_daylight_saving_tersely(scene: Scene) -> str:
    """Say whether daylight saving is on."""
    return f"서머타임은 {'켜세요' if places.mount_settings(scene).daylight_saving else '끄세요'}."


def _zone_tersely(scene: Scene) -> str:
    return key_the_zone(scene).replace("서머타임을 뺀 시간대는", "시간대는")


def _latitude_tersely(scene: Scene) -> str:
    return f"위도. {_figures(places.latitude(scene.site), degree_digits=2)}."


def _longitude_tersely(scene: Scene) -> str:
    return f"경도. {_figures(places.longitude(scene.site), degree_digits=3)}."


def _figures(angle: Sexagesimal, degree_digits: int) -> str:
    """Return ``46°18'36"N`` as "사 육, 일 팔, 삼 육, 북쪽"."""
    figures = f"{digits(angle.degrees, degree_digits)}, {digits(angle.minutes, 2)}, {digits(angle.seconds, 2)}"
    return f"{figures}, {_SIDES[angle.side]}"


SETTINGS = Chapter(
    phrases={
        say.BeforeTheSettings: (
            "이제 설정을 한 줄씩 넣어요. 넣을 때마다 준비됐어요라고 하세요. 다른 것을 물으면 시간대를 물어요처럼 말해 주세요."
        ),
        say.KeyTheDate: key_the_date,
        say.KeyTheTime: key_the_time,
        say.KeyDaylightSaving: key_daylight_saving,
        say.KeyTheZone: key_the_zone,
        say.KeyTheLatitude: key_the_latitude,
        say.KeyTheLongitude: key_the_longitude,
        say.KeyTheElevation: key_the_elevation,
        say.PickACity: pick_a_city,
        say.WholeMinutes: "그럼 초는 빼고, 분이 막 시작될 때 시각을 확인하세요.",
        say.WhichSideWeAreOn: which_side,
        say.KeyTrueNorth: "진북이에요.",
    },
    terse={
        say.BeforeTheSettings: "이제 설정이에요.",
        say.KeyTheDate: key_the_date_tersely,
        say.KeyTheTime: key_the_time_tersely,
        say.KeyDaylightSaving: key_daylight_saving_tersely,
        say.KeyTheZone: _zone_tersely,
        say.KeyTheLatitude: _latitude_tersely,
        say.KeyTheLongitude: _longitude_tersely,
    },
    sayable={SettingAnswer: ("준비됐어요", "날짜를 물어요", "시간대를 물어요", "달이 먼저예요", "그게 마지막이에요")},
    step_help={
        say.KeyTheDate: "켤 때나 설정 메뉴에서 물어요. 다른 것을 물으면 무엇인지 말해 주세요.",
        say.KeyTheTime: "손목시계의 현지 시각이에요. 다음 분을 미리 넣고 그 분이 되는 순간에 확인하세요.",
        say.KeyDaylightSaving: "여름에 시계를 앞당기는지 묻는 거예요. 틀리면 한 시간이 틀려요.",
        say.KeyTheZone: "서머타임을 뺀 표준 시간대예요. 시간 숫자로 나오기도 하고 목록으로 나오기도 해요.",
        say.KeyTheElevation: "백 미터쯤 달라도 괜찮아요. 삼 피트가 일 미터쯤이에요.",
        say.PickACity: "도시를 고르면 시간대와 대략의 장소를 알아요. 백 킬로미터가 하늘에서 일 도예요.",
        say.KeyTheLatitude: "도, 분, 초 순서예요. 북쪽인지 남쪽인지 제 말과 같은지 확인하세요.",
        say.KeyTheLongitude: "도, 분, 초 순서예요. 동쪽인지 서쪽인지 제 말과 같은지 확인하세요.",
    },
)
