"""A target introduced, and what a person sees of it: our sentence of a showpiece; of Moon and planets what they show at that moment."""

from __future__ import annotations

from companion import observing, sky
from companion.equipment import FIST_DEG
from companion.languages.ko.number_words import amount_of, decimal
from companion.languages.ko.sight_words import SUN_CAUTION, it_is, listed, subject, where_to_look
from companion.languages.ko.spoken_names import kind_in_words, name_and_number, spoken_name
from companion.languages.tables import look_table
from companion.observing import Phase, RankedTarget, Rings, Shadowless
from companion.sky import Body, Kind, Moment, Sight

_RINGS = {
    Rings.EDGE_ON: "고리가 거의 옆으로 서서 원반을 가로지르는 가는 직선으로 보여요.",
    Rings.NARROW: "고리가 지금은 좁게 보여요. 원반에 드리운 고리의 그림자를 찾아보세요.",
    Rings.WIDE_OPEN: "고리가 활짝 열려 있어요. 고리 속의 가는 검은 틈과 옆의 위성을 찾아보세요.",
}
_SHAPES = {
    Phase.CRESCENT: "초승달 모양",
    Phase.HALF: "반달 모양",
    Phase.GIBBOUS: "반달보다 통통한 모양",
    Phase.NEARLY_FULL: "거의 둥근 모양",
}
_SHADOWLESS = {
    Shadowless.FULL: "보름달이라 그림자가 없어요. 크레이터 둘레의 밝은 줄무늬를 찾아보세요.",
    Shadowless.THIN: "가는 초승달이에요. 어두운 쪽이 은은히 빛나는지 보세요.",
}
_DISCS = {
    "Mars": "작은 주황색 원반이에요. 공기가 잔잔한 순간을 기다렸다가 하얀 극관과 어두운 무늬를 찾아보세요.",
    "Uranus": "아주 작은 옅은 초록색 원반이에요. 배율을 높이면 별과 달리 원반으로 남아요.",
    "Neptune": "별과 거의 같은 푸르스름한 점이에요. 배율을 높이면 완전한 점은 아니에요.",
}


def introduce(target: RankedTarget, moment: Moment) -> str:
    """Introduce a target as in an evening, and say what to look for; by day the caution first."""
    parts = (
        SUN_CAUTION if sky.sun_state(moment).is_up else None,
        introduction(target.sight, target.sight.body.kind, target.eyepiece.focal_length_mm),
        look_for(target.sight.body, moment),
    )
    return " ".join(part for part in parts if part)


def introduction(sight: Sight, kind: Kind, eyepiece_mm: float | None, fist_deg: float = FIST_DEG) -> str:
    """Say a target's name and number, what it is, where it stands and which eyepiece to take; None where the eyepieces aren't known."""
    eyepiece = "먼저 저배율 접안렌즈로 보세요." if eyepiece_mm is None else f"{millimetres(eyepiece_mm)} 접안렌즈로 보세요."
    return f"{what_it_is(sight.body, kind)} {where_to_look(sight, fist_deg)} {eyepiece}"


def what_it_is(body: Body, kind: Kind) -> str:
    """Say a target's name, number and kind."""
    name = name_and_number(body)
    return it_is(name) if kind in ("moon", "user") or name.endswith(kind_in_words(kind)) else f"{name}. {it_is(kind_in_words(kind))}"


def millimetres(focal_length_mm: float) -> str:
    """Return "십 밀리미터"."""
    whole = round(focal_length_mm)
    return amount_of(whole, "밀리미터") if whole == focal_length_mm else f"{decimal(focal_length_mm)} 밀리미터"


def look_for(body: Body, moment: Moment) -> str | None:
    """Return what a person sees of it then; None of the observer's own objects and of what nobody has rated."""
    if body.kind == "moon":
        return _on_the_moon(moment)
    if body.kind == "planet":
        return _DISCS.get(body.name) or _PLANETS[body.name](body, moment)
    if body.kind == "user" or (showpiece := observing.showpiece_of(body)) is None:
        return None
    return look_table("ko").of_object(showpiece.key)


def _on_the_moon(moment: Moment) -> str:
    """Name what lies best at the terminator."""
    seen = observing.on_the_moon(moment)
    if isinstance(seen, Shadowless):
        return _SHADOWLESS[seen]
    told = look_table("ko").of_feature(seen)
    return "" if told is None else f"그림자가 시작되는 곳에 {subject(told[0])} 있어요. {told[1]}"


def _jupiter(_: Body, moment: Moment) -> str:
    """Say which moons stand on which side."""
    east, west = observing.from_east_to_west(observing.jupiter_moons(moment))
    if not east and not west:
        return "어두운 띠 두 줄을 찾아보세요. 밝은 위성 넷은 지금 하나도 안 보여요."
    sides = [f"{side}에 {listed([spoken_name(moon.name) for moon in moons])}" for side, moons in (("동쪽", east), ("서쪽", west)) if moons]
    return f"어두운 띠 두 줄과 위성들을 찾아보세요. {it_is(', '.join(sides))}"


def _saturn(_: Body, moment: Moment) -> str:
    """Say how the rings lie."""
    return _RINGS[observing.rings(moment)]


def _inner(planet: Body, moment: Moment) -> str:
    """Say which phase an inner planet shows."""
    shape = _SHAPES[observing.phase(planet, moment)]
    return f"무늬는 안 보이지만 달처럼 모양이 변해요. 지금은 {it_is(shape)} 하늘이 어두워지기 전에 가장 잘 보여요."


_PLANETS = {"Jupiter": _jupiter, "Saturn": _saturn, "Venus": _inner, "Mercury": _inner}
