"""How one thing in the sky is described aloud: name, place, brightness, and what could be mistaken for it."""

from __future__ import annotations

from companion import alignment, sky
from companion.equipment import FIST_DEG
from companion.languages.ko.direction_words import brightness, compass_point, degrees, fists, place_in_sky, side
from companion.languages.ko.particles import with_particle
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Scene
from companion.sky import Moment, Sight, bands

SUN_CAUTION = "망원경이나 파인더로 태양이나 그 근처를 절대 보지 마세요. 순식간에 눈이 멀어요."


def it_is(words: str) -> str:
    """Return "…이에요." or "…예요."."""
    return f"{with_particle(words, '이에요/예요')}."


def topic(words: str) -> str:
    """Return words with 은 or 는."""
    return with_particle(words, "은/는")


def subject(words: str) -> str:
    """Return words with 이 or 가."""
    return with_particle(words, "이/가")


def direct(words: str) -> str:
    """Return words with 을 or 를."""
    return with_particle(words, "을/를")


def towards(words: str) -> str:
    """Return words with 으로 or 로."""
    return with_particle(words, "으로/로")


def listed(names: list[str]) -> str:
    """Return names as they are listed: with commas, the last with 과 or 와."""
    *others, last = names
    return f"{with_particle(', '.join(others), '과/와')} {last}" if others else last


def describe(sight: Sight, fist_deg: float = FIST_DEG, *, by_day: bool = False) -> str:
    """Say where a body is and, but for ``by_day``, how bright it looks: words first, then the height in fists."""
    body = sight.body
    if body.kind == "sun":
        return SUN_CAUTION
    name = spoken_name(body.name)
    if sight.altitude_deg < 0:
        return f"{topic(name)} 지금 지평선 아래에 있어요."
    place = place_in_sky(sight.altitude_deg, sight.azimuth_deg)
    if sight.magnitude is None or body.kind == "moon" or by_day:
        where = f"{place}에 있어요."
    else:
        where = f"{place}에 있고 {brightness(sight.magnitude + sky.dimming_mag(sight.altitude_deg))}."
    return f"{it_is(name)} {where} {_how_high(sight, fist_deg)}"


def _how_high(sight: Sight, fist_deg: float) -> str:
    return f"높이는 {fists(sight.altitude_deg, fist_deg)}, {it_is(degrees(sight.altitude_deg))}"


def describe_with_caution(sight: Sight, moment: Moment) -> str:
    """Describe a body, with the caution first when it stands near a risen Sun."""
    return f"{caution_near(sight, moment)} {describe_now(sight, moment)}".strip()


def describe_now(sight: Sight, moment: Moment, fist_deg: float = FIST_DEG) -> str:
    """Describe a body as it shows at that moment: by day all but the Moon hardly do, however bright they are at night."""
    if sight.body.kind in ("moon", "sun") or sight.altitude_deg < 0 or not sky.sun_state(moment).is_up:
        return describe(sight, fist_deg)
    return f"{describe(sight, fist_deg, by_day=True)} 낮에는 거의 안 보여요."


def caution_near(sight: Sight, moment: Moment) -> str:
    """Return the Sun's warning where something stands near a Sun that shines, else nothing."""
    return SUN_CAUTION if sky.is_near_the_sun(sight, moment) else ""


def describe_rivals(star: Sight, moment: Moment, fist_deg: float = FIST_DEG) -> str:
    """Warn of the nearest thing that could be mistaken for a star, or say that there is none."""
    rivals = alignment.rivals(star.body, moment)
    if not rivals:
        return "근처에 그만큼 밝은 별은 없어요."
    rival, separation_deg = rivals[0]
    where = f"{towards(side_of(rival, star))} {fists(separation_deg, fist_deg)}"
    return f"{where} 떨어진 {topic(spoken_name(rival.body.name))} 아주 비슷해 보여요."


def side_of(other: Sight, star: Sight) -> str:
    """Return on which side of a star another one stands, as seen facing it: "왼쪽", "위쪽", "오른쪽 아래"."""
    right_deg, up_deg = other.azimuth_deg - star.azimuth_deg, other.altitude_deg - star.altitude_deg
    return side(bands.side_of(right_deg, up_deg, star.altitude_deg))


def where_to_look(sight: Sight, fist_deg: float = FIST_DEG) -> str:
    """Return the direction, height words and fists, without the name."""
    if sight.altitude_deg < 0:
        return "지평선 아래로 졌어요."
    return f"{place_in_sky(sight.altitude_deg, sight.azimuth_deg)}, {fists(sight.altitude_deg, fist_deg)} 높이에 있어요."


def place_of(scene: Scene, name: str) -> str:
    """Return a name and, in a word or two, where it stands."""
    sight = sky.sight(scene.find(name), scene)
    if sight.body.kind == "sun":
        return "태양"
    where = place_in_sky(sight.altitude_deg, sight.azimuth_deg) if sight.altitude_deg >= 0 else "지금은 진"
    return f"{where}{'의' if sight.altitude_deg >= 0 else ''} {spoken_name(name)}"


def turn_towards(sight: Sight) -> str:
    """Return which way to face."""
    return f"{compass_point(sight.azimuth_deg)}을 보고 서세요"


def with_copula(words: str) -> str:
    """Return words with 이라 or 라, as what is told is quoted."""
    return with_particle(words, "이라/라")
