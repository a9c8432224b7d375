"""Korean for where and when things stand, as it is answered when somebody asks."""

from __future__ import annotations

from datetime import datetime

from companion import alignment, observing, places, sky
from companion.languages.ko import clock_words
from companion.languages.ko.direction_words import compass_point, degrees, fists, height, place_in_sky, sweep
from companion.languages.ko.sight_words import SUN_CAUTION, caution_near, describe_now, it_is, subject, topic, towards
from companion.languages.ko.spoken_names import kind_in_words, spoken_name
from companion.languages.ko.transliteration import in_hangul
from companion.languages.phrase import Scene
from companion.sky import Body, Moment, Sight
from companion.sky.bands import CompassPoint

COLOURS = {
    "orange-red": "붉은 주황색",
    "orange": "주황색",
    "blue-white": "푸른 흰색",
    "red": "붉은색",
    "yellow": "노란색",
    "white": "흰색",
    "cream": "크림색",
    "yellowish": "노르스름한 색",
    "bluish": "푸르스름한 색",
    "greenish": "초록빛",
}
_PHASES = ("거의 안 보이는 그믐 무렵의 달", "차오르는 초승달", "상현달", "반보다 크게 차오르는 달", "보름달")
_WANING = {"차오르는 초승달": "기우는 그믐달", "상현달": "하현달", "반보다 크게 차오르는 달": "반보다 크게 기우는 달"}
# The Moon's way from the Sun, degrees, up to which each is called so: a day is twelve degrees. Judgement.
_UP_TO_DEG = (12.0, 82.0, 98.0, 168.0, 180.0)


def bright_one(scene: Scene, *, names: tuple[str, ...]) -> str:
    """Name the likeliest first, with what tells it apart; then what else it may be."""
    first, *others = (sky.sight(sky.find(name), scene) for name in names)
    told = f"아마 {it_is(spoken_name(first.body.name))} {_look(first)}. {caution_near(first, scene)}".strip()
    if not others:
        return told
    other = others[0]
    return f"{told} 아니면 {place_in_sky(other.altitude_deg, other.azimuth_deg)}의 {it_is(spoken_name(other.body.name))} {_look(other)}."


def planets_up(scene: Scene) -> str:
    """Name the planets for the naked eye that are up, each with its place."""
    seen = [sky.sight(planet, scene) for planet in sky.NAKED_EYE_PLANETS]
    up = sorted((sight for sight in seen if sight.altitude_deg > 0), key=lambda sight: -sight.altitude_deg)
    if not up:
        return "지금 떠 있는 밝은 행성은 없어요."
    places_told = (f"{spoken_name(sight.body.name)}, {place_in_sky(sight.altitude_deg, sight.azimuth_deg)}." for sight in up)
    caution = next((caution for sight in up if (caution := caution_near(sight, scene))), "")
    return " ".join(part for part in (caution, *places_told) if part)


def bright_pair(scene: Scene, *, names: tuple[str, str]) -> str:
    """Name two, and say which is which."""
    one, other = sorted((sky.sight(sky.find(name), scene) for name in names), key=lambda sight: -sight.altitude_deg)
    told = f"위쪽은 {it_is(spoken_name(one.body.name))} {_look(one)}. 아래쪽은 {it_is(spoken_name(other.body.name))} {_look(other)}."
    return f"{told} {caution_near(one, scene) or caution_near(other, scene)}".strip()


def _look(sight: Sight) -> str:
    """Return what something looks like, in a few words."""
    if sight.body.kind == "moon":
        return "틀릴 수가 없어요"
    colour = sky.colour(sight.body)
    told = f"{towards(COLOURS[colour])} " if colour else ""
    if sight.body.kind == "planet":
        return f"{told}빛나고 거의 안 깜빡여요"
    return f"{told or '하얗게 '}깜빡여요"


def _seen_look(sight: Sight) -> str:
    """Return what something looks like, before its name."""
    if sight.body.kind == "moon":
        return ""
    colour = sky.colour(sight.body)
    return f"{COLOURS[colour]}의 " if colour else "하얀 "


def where_it_stands(scene: Scene, *, name: str) -> str:
    """Say where a thing stands, or when it comes up; of the Sun only the caution."""
    body = scene.find(name)
    sight = sky.sight(body, scene)
    if body.kind == "sun":
        return SUN_CAUTION
    if sight.altitude_deg < 0:
        return f"{_is_down(body)} {_comes_up(body, scene)}"
    kind = "" if body.kind in ("star", "planet", "moon", "user") else it_is(kind_in_words(body.kind))
    return " ".join(part for part in (caution_near(sight, scene), describe_now(sight, scene, scene.fist_deg), kind) if part)


def _is_down(body: Body) -> str:
    return f"{topic(spoken_name(body.name))} 지금 져 있어요."


def is_it_up(scene: Scene, *, name: str) -> str:
    """Say whether a thing is up, and until or from when."""
    body = scene.find(name)
    sight = sky.sight(body, scene)
    if body.kind == "sun":
        return f"{'떠 있어요' if sky.sun_state(scene).is_up else '져 있어요'}. {SUN_CAUTION}"
    if sight.altitude_deg < 0:
        return f"아니요. {_comes_up(body, scene)}"
    place = f"네, {place_in_sky(sight.altitude_deg, sight.azimuth_deg)}에 있어요."
    return " ".join(part for part in (caution_near(sight, scene), place, _goes_down(body, scene)) if part)


def when_it_rises(scene: Scene, *, name: str) -> str:
    """Say when a thing rises; of one that is up, when it sets."""
    body = scene.find(name)
    if sky.sight(body, scene).altitude_deg < 0:
        words = _comes_up(body, scene)
    else:
        words = f"{topic(spoken_name(body.name))} 벌써 떠 있어요. {_goes_down(body, scene)}"
    return f"{words} {SUN_CAUTION}" if body.kind == "sun" else words


def when_it_sets(scene: Scene, *, name: str) -> str:
    """Say when a thing sets; of one that is down, when it rises."""
    body = scene.find(name)
    if sky.sight(body, scene).altitude_deg < 0:
        words = f"{topic(spoken_name(body.name))} 벌써 졌어요. {_comes_up(body, scene)}"
    else:
        words = _goes_down(body, scene)
    return f"{words} {SUN_CAUTION}" if body.kind == "sun" else words


def how_high_it_stands(scene: Scene, *, name: str) -> str:
    """Say how high a thing stands; of the Sun only the caution."""
    body = scene.find(name)
    sight = sky.sight(body, scene)
    if body.kind == "sun":
        return SUN_CAUTION
    if sight.altitude_deg < 0:
        return f"{_is_down(body)} {_comes_up(body, scene)}"
    figures = f"{fists(sight.altitude_deg, scene.fist_deg)}, {it_is(degrees(sight.altitude_deg))}"
    told = f"{topic(spoken_name(body.name))} {height(sight.altitude_deg)}에 있어요. 높이는 {figures}"
    return f"{caution_near(sight, scene)} {told}".strip()


def _comes_up(body: Body, scene: Moment) -> str:
    rising = observing.rises_at(body, scene)
    return f"{_when(rising, scene)}에 떠요." if rising else "여기서는 하루 안에 뜨지 않아요."


def _goes_down(body: Body, scene: Moment) -> str:
    setting = observing.sets_at(body, scene)
    return f"{_when(setting, scene)}에 져요." if setting else "여기서는 하루 안에 지지 않아요."


def _when(time: datetime, scene: Moment) -> str:
    """Return "두 시간 뒤, 저녁 여섯 시 십 분"."""
    clock = clock_words.time_of_day(places.local_time(Moment(scene.site, time)))
    return f"{clock_words.duration(time - scene.time)} 뒤, {clock}"


def moon_look(phase_deg: float) -> str:
    """Return what the Moon looks like by its ecliptic longitude beyond the Sun's."""
    from_sun_deg = min(phase_deg, 360.0 - phase_deg)
    phase = next(words for words, up_to_deg in zip(_PHASES, _UP_TO_DEG, strict=True) if from_sun_deg <= up_to_deg)
    return phase if phase_deg <= 180.0 else _WANING.get(phase, phase)


def the_moon_now(scene: Scene) -> str:
    """Say what the Moon looks like, and when it rises or sets."""
    look = f"달은 {it_is(moon_look(sky.moon_state(scene).phase_deg))}"
    sight = sky.sight(sky.MOON, scene)
    if sight.altitude_deg < 0:
        return f"{look} {_comes_up(sky.MOON, scene)}"
    place = f"{place_in_sky(sight.altitude_deg, sight.azimuth_deg)}에 있어요."
    return " ".join(part for part in (caution_near(sight, scene), look, place, _goes_down(sky.MOON, scene)) if part)


def until_light(scene: Scene) -> str:
    """Say when morning comes."""
    night, now = sky.night_around(scene), scene.time
    if sky.sun_state(scene).is_up:
        return f"해가 떠 있어서 밝아요. {SUN_CAUTION}"
    parts = []
    if night.astronomical_dawn and night.astronomical_dawn > now:
        parts.append(f"새벽빛은 {_when(night.astronomical_dawn, scene)}에 시작돼요.")
    if night.sunrise and night.sunrise > now:
        parts.append(f"해는 {_when(night.sunrise, scene)}에 떠요. 그 전에 뚜껑을 덮으세요.")
    return " ".join(parts) or "여기서는 하루 안에 해가 뜨지 않아요."


def where_on_earth(scene: Scene) -> str:
    """Say the place."""
    site = scene.site
    north = f"{'북위' if site.latitude_deg >= 0 else '남위'} {degrees(abs(site.latitude_deg))}"
    east = f"{'동경' if site.longitude_deg >= 0 else '서경'} {degrees(abs(site.longitude_deg))}"
    at = f"장소는 {it_is(in_hangul(site.name))} " if site.name else ""
    return f"{at}{north}, {it_is(east)}"


def which_way_it_is(scene: Scene, *, point: CompassPoint) -> str:
    """Show a compass point by something bright that stands over it; by day by a shadow."""
    azimuth_deg = point.value * 45.0
    name = compass_point(azimuth_deg)
    if sky.sun_state(scene).is_up:
        shadow_deg = alignment.shadow_direction(scene)
        if shadow_deg is None:
            return f"지금은 그림자로 알 수 없어요. {topic(name)} 나침반이나 지도로 찾으세요."
        off_deg = (azimuth_deg - shadow_deg + 180.0) % 360.0 - 180.0
        there = (
            f"똑바로 세운 막대의 그림자가 지금 {compass_point(shadow_deg)}을 가리켜요. 거기서 {_turned(off_deg, scene)} 돌면 {it_is(name)}"
        )
        return f"해는 절대 보지 마세요. {there}"
    mark = sky.mark_towards(azimuth_deg, scene)
    if mark is None:
        return f"지금은 밝은 별로 알 수 없어요. {topic(name)} 나침반으로 찾으세요."
    off_deg = (azimuth_deg - mark.azimuth_deg + 180.0) % 360.0 - 180.0
    star = f"{height(mark.altitude_deg)}의 {_seen_look(mark)}{spoken_name(mark.body.name)}"
    if abs(off_deg) < scene.fist_deg / 2:
        return f"{subject(star)} 있는 곳 바로 아래가 {it_is(name)}"
    return f"{star}부터 찾으세요. 거기서 {_turned(off_deg, scene)} 돌면 {it_is(name)}"


def _turned(off_deg: float, scene: Scene) -> str:
    """Return a turn on one's feet, to its side."""
    return f"{'오른쪽' if off_deg > 0 else '왼쪽'}으로 {sweep(abs(off_deg), scene.fist_deg)}"


def its_colour(scene: Scene, *, name: str) -> str:
    """Say which colour it shows, if any."""
    body = scene.find(name)
    colour = sky.colour(body)
    if colour is not None:
        return f"{towards(COLOURS[colour])} 보여요."
    if body.kind in ("star", "planet", "moon"):
        return "하얗게 보여요."
    return "어두운 것은 눈에 거의 다 회색이에요. 어둠 속에서는 눈이 색을 못 봐요."
