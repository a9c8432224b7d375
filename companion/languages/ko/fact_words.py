"""Korean for what a thing is, how far, how old its light, how big and how bright: answers to whoever asks, rounded to two figures."""

from __future__ import annotations

from companion import alignment, observing, sky
from companion.languages.ko.number_words import amount_of, cardinal, decimal
from companion.languages.ko.reason_words import reasons_in_words
from companion.languages.ko.sight_words import it_is, topic
from companion.languages.ko.spoken_names import constellation_name, kind_in_words, spoken_name
from companion.languages.ko.target_words import size_in_words
from companion.languages.phrase import Scene
from companion.sky import Body, Kind, Moment

_KINDS: dict[Kind, str] = {
    "star": "태양과 같은 별인데, 너무 멀어서 점으로 보여요.",
    "double star": "나란한 두 별이에요. 대개 서로 돌고 있어요.",
    "carbon star": "늙고 식은 거대한 별이에요. 제 대기의 그을음으로 붉어졌어요.",
    "variable star": "밝아졌다 어두워졌다 하는 별이에요.",
    "planet": "지구처럼 태양을 돌고, 태양 빛으로 빛나요.",
    "moon": "지구의 짝이에요. 바위와 먼지가 태양 빛을 받아 빛나요.",
    "sun": "우리의 별이에요.",
    "open cluster": "한 구름에서 함께 태어난 젊은 별 수십에서 수천 개예요.",
    "globular cluster": "우리은하를 도는, 늙은 별이 십만 개 넘게 모인 공이에요.",
    "galaxy": "우리은하 밖 멀리 있는, 별 수십억 개의 섬이에요.",
    "nebula": "별 사이의 가스와 먼지 구름이에요. 속의 별이 비춰요.",
    "planetary nebula": "늙은 별이 벗어 놓은 가스예요. 행성과는 상관없어요.",
    "star cloud": "먼지 틈으로 보이는 은하수의 짙은 부분이에요.",
    "user": "직접 적어 두신 거라 말씀하신 것만 알아요.",
}
_AGES: dict[Kind, str] = {
    "planet": "지구와 태양처럼 사십오억 년쯤 됐어요.",
    "moon": "지구와 비슷하게 사십오억 년쯤 됐어요.",
    "sun": "사십오억 년쯤 됐고, 앞으로도 그만큼 남았어요.",
    "open cluster": "젊어요. 대개 수백만 년에서 수억 년 됐어요.",
    "globular cluster": "가장 오래된 것 가운데 하나예요. 백이십억 년쯤 됐어요.",
    "galaxy": "대개 백억 년이 넘었어요.",
    "nebula": "수백만 년쯤 됐어요. 새 별을 만들거나, 별이 남긴 거예요.",
    "planetary nebula": "수천 년밖에 안 됐어요. 곧 흩어져요.",
    "carbon star": "늙은 별이에요. 끝이 가까워요.",
}
"""Of such things in general: values from memory."""
_EARTH_RADIUS_KM = 6378.1
"""Equatorial; IAU 2015 resolution B3."""
_SUN_EARTHS = 109
_SPREAD: tuple[Kind, ...] = ("open cluster", "globular cluster", "galaxy", "nebula", "planetary nebula", "star cloud")


def what_it_is(scene: Scene, *, name: str) -> str:
    """Say what kind of thing it is."""
    body = scene.shown(name)
    return f"{named_and_its_kind(body)} {nature(body)}"


def named_and_its_kind(body: Body) -> str:
    """Return its name and what it is called, the kind left out where the name ends in it."""
    what, named = kind_in_words(body.kind), spoken_name(body.name)
    return it_is(named) if named.endswith(what) else f"{named}. {it_is(what)}"


def nature(body: Body) -> str:
    """Return what such a thing really is, a sentence."""
    return _KINDS[body.kind]


def how_far(scene: Scene, *, name: str) -> str:
    """Say how far it is."""
    return distance(scene.shown(name), scene) or f"{spoken_name(name)}까지 얼마나 먼지 몰라요."


def distance(body: Body, moment: Moment) -> str:
    """Return how far it is, a sentence; nothing where we don't know."""
    seconds = observing.light_seconds(body, moment)
    if seconds is not None:
        return f"지금 {large(seconds * observing.LIGHT_KM_S)} 킬로미터쯤 떨어져 있어요."
    years = observing.light_years(body)
    return f"{large(years)} 광년쯤 떨어져 있어요." if years else ""


def light_age(scene: Scene, *, name: str) -> str:
    """Say how long its light has been on the way."""
    body = scene.shown(name)
    seconds = observing.light_seconds(body, scene)
    if seconds is not None:
        minutes = round(seconds / 60.0)
        return "빛이 오는 데 일 초가 조금 넘게 걸려요." if minutes < 1 else f"이 빛은 {amount_of(minutes, '분')} 전에 떠났어요."
    years = observing.light_years(body)
    return f"이 빛은 {large(years)} 년쯤 전에 떠났어요." if years else "얼마나 먼지, 빛이 언제 떠났는지 몰라요."


def how_big(scene: Scene, *, name: str) -> str:
    """Say how large it looks, and how large it is."""
    body = scene.shown(name)
    if body.kind == "sun":
        return f"지구 지름의 {cardinal(_SUN_EARTHS)} 배예요."
    radius_km = observing.EQUATORIAL_RADIUS_KM.get(body.name)
    if radius_km is not None:
        return f"지구 지름의 {decimal(round(radius_km / _EARTH_RADIUS_KM, 1))} 배쯤이에요."
    if body.size_arcmin is None:
        return "배율을 아무리 높여도 점이에요." if body.kind.endswith("star") else "크기는 몰라요."
    years = observing.light_years(body)
    if years is None or body.kind == "double star":
        return size_in_words(body)
    across = years * body.size_arcmin / 3437.75  # arcminutes in a radian
    return f"{size_in_words(body)} 실제 지름은 {large(across)} 광년쯤이에요."


def how_bright(scene: Scene, *, name: str) -> str:
    """Say its magnitude."""
    body = scene.shown(name)
    magnitude = sky.sight(scene.find(name), scene).magnitude if body.place is None else body.magnitude
    if magnitude is None:
        return "얼마나 밝은지 몰라요."
    spread = " 다만 넓게 퍼져 있어요." if body.kind in _SPREAD else ""
    return f"{decimal(magnitude)} 등급이에요.{spread}"


def large(number: float) -> str:
    """Return a number in words, rounded to two figures: "이만 이천", "이백오십만", "십사억"."""
    if number < 10.0:
        return decimal(number) if number < 9.95 else "십"
    rounded = round(float(f"{number:.1e}"))
    high, low = divmod(rounded, 100_000_000)
    return " ".join(part for part in (f"{cardinal(high)}억" if high else "", cardinal(low) if low else "") if part)


def how_old(scene: Scene, *, name: str) -> str:
    """Say how old such things are."""
    return _AGES.get(scene.shown(name).kind, "나이는 몰라요. 별은 수백만 년에서 수백억 년까지 살아요.")


def its_constellation(scene: Scene, *, name: str) -> str:
    """Say in which constellation it stands."""
    return it_is(constellation_name(sky.sight(scene.find(name), scene).constellation))


def why_this_one(scene: Scene, *, name: str) -> str:
    """Say what speaks for a star, and against."""
    body = scene.find(name)
    if body.kind not in ("star", "planet"):
        return f"{nature(scene.shown(name))} 지금 자리가 좋은 것 가운데 하나예요."
    return f"{topic(spoken_name(name))} 이래요. {', '.join(reasons_in_words(alignment.reasons_for(body, scene)))}."
