"""Korean for the ways to true north without a compass, each from where things stand at this minute."""

from __future__ import annotations

from companion import alignment, sky
from companion.alignment import PoleWay
from companion.languages.ko.direction_words import compass_point, fists, turn_on_feet
from companion.languages.ko.sight_words import direct, it_is, towards
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Scene
from companion.sky import Sight, bands

_POINTERS_DEG = 10.0
"""From this height on the two stars that point at the Cross help. Judgement."""
_OWN_SHADOW_SUN_DEG = 20.0
"""Lower, one's own shadow is longer than one can jump: three times one's height. Judgement."""
_DOWN_IS_SOUTH = "그 빈 곳에서 똑바로 아래 땅이 남쪽이에요. 뒤로 돌면 정확히 북쪽이에요. 경통을 그쪽으로 돌리세요."


def north_by_the_pole(scene: Scene, *, way: PoleWay) -> str:
    """Lead to the pole by figures that everybody knows, from where they stand at this hour, and down to the ground."""
    if way in alignment.NORTHERN:
        return f"북극성을 찾아요. {find_the_pole_star(scene, way)} 거기서 똑바로 아래 땅이 북쪽이에요. 경통을 그쪽으로 돌리세요."
    return _by_the_cross(scene) if way == "cross" else _between(scene)


def find_the_pole_star(scene: Scene, way: PoleWay) -> str:
    """Lead the eye to the pole star, and say how to be sure of it."""
    return _by_the_plough(scene) if way == "plough" else _by_the_w(scene)


def _by_the_plough(scene: Scene) -> str:
    dubhe, polaris = _seen(scene, "Dubhe", "Polaris")
    return (
        f"{_where(dubhe, scene)}에서 국자 모양의 별 일곱 개, 북두칠성을 찾으세요. 손잡이 반대쪽 끝의 두 별을 보세요. "
        f"국자 바닥에서 테두리로 이은 선을 {_way_to(polaris, dubhe, scene)}만큼 더 이으세요. {_be_sure(polaris, scene)}"
    )


def _by_the_w(scene: Scene) -> str:
    middle, polaris = _seen(scene, alignment.MIDDLE_OF_THE_W, "Polaris")
    letter = "엠" if polaris.altitude_deg < middle.altitude_deg else "더블유"
    return (
        f"{_where(middle, scene)}에서 {letter} 글자처럼 놓인 별 다섯 개, 카시오페이아자리를 찾으세요. "
        f"가운데 별에서 글자가 벌어진 쪽으로 {_way_to(polaris, middle, scene)} 가세요. {_be_sure(polaris, scene)}"
    )


def _be_sure(polaris: Sight, scene: Scene) -> str:
    return f"거기 {fists(polaris.altitude_deg, scene.fist_deg)} 높이에 북극성이 있어요. 그 별들만큼 밝고 혼자 있어요."


def _by_the_cross(scene: Scene) -> str:
    head, foot, hadar, rigil = _seen(scene, "Gacrux", "Acrux", "Hadar", "Rigil Kentaurus")
    pointers = all(star.altitude_deg > _POINTERS_DEG for star in (hadar, rigil))
    sure = "옆의 밝은 별 두 개가 그쪽을 가리켜요." if pointers else "작아요. 긴 팔이 주먹 반 개예요."
    return (
        f"하늘의 남극에는 밝은 별이 없어요. {_where(head, scene)}에서 남십자를 찾으세요. {sure} "
        f"긴 팔을 발끝 너머 {_onward(foot, head)} 네 배 반 이으세요. {_DOWN_IS_SOUTH}"
    )


def _between(scene: Scene) -> str:
    hadar, achernar = _seen(scene, "Hadar", "Achernar")
    return (
        f"하늘의 남극에는 밝은 별이 없어요. {_where(achernar, scene)}에서 아케르나르를 찾으세요. "
        f"다음은 {_where(hadar, scene)}의 하다르예요. 두 별의 한가운데를 잡으세요. {_DOWN_IS_SOUTH}"
    )


def _seen(scene: Scene, *names: str) -> list[Sight]:
    return sky.sights([sky.find(name) for name in names], scene)


def _where(sight: Sight, scene: Scene) -> str:
    """Return "북동쪽, 주먹 두 개 높이"."""
    return f"{compass_point(sight.azimuth_deg)}, {fists(sight.altitude_deg, scene.fist_deg)} 높이"


def _way_to(there: Sight, here: Sight, scene: Scene) -> str:
    """Return which way and how far one star lies from another: "오른쪽 아래로 주먹 세 개"."""
    return f"{_onward(there, here)} {fists(sky.separation_deg(there, here), scene.fist_deg)}"


def _onward(there: Sight, here: Sight) -> str:
    """Return which way the eye goes: "똑바로 위로", "왼쪽으로", "오른쪽 아래로"."""
    side = bands.side_of(there.azimuth_deg - here.azimuth_deg, there.altitude_deg - here.altitude_deg, here.altitude_deg)
    across = {1: "오른쪽", -1: "왼쪽", 0: ""}[side.right]
    upright = {1: "위", -1: "아래", 0: ""}[side.up]
    return towards(f"{across} {upright}".strip()) if across else f"똑바로 {upright}로"


def north_by_the_shadow(scene: Scene) -> str:
    """Describe the way to north by a shadow at this minute; a low Sun makes one's own long enough."""
    shadow_deg = alignment.shadow_direction(scene)
    if shadow_deg is None:
        return "지금은 해의 자리가 그림자를 쓰기에 나빠요. 다른 방법을 물어보세요."
    if sky.sun_state(scene).altitude_deg < _OWN_SHADOW_SUN_DEG:
        see = "해를 등지고, 해를 절대 보지 마세요. 자기 그림자 쪽을 보고 서세요."
    else:
        see = "그림자만 보고 해는 절대 보지 마세요. 막대를 똑바로 세우고 그 그림자를 따라 보고 서세요."
    return f"{see} 지금 그쪽이 {it_is(compass_point(shadow_deg))} {_north_from(shadow_deg, scene)}"


def north_by_the_sunset(scene: Scene) -> str:
    """Describe the way to north from where the Sun went down."""
    set_deg = alignment.sunset_direction(scene)
    if set_deg is None:
        return "해가 진 지 너무 오래됐어요. 다른 방법을 물어보세요."
    return f"해가 진 자리를 보고 서세요. 지평선이 평평해야 해요. {_north_from(set_deg, scene)}"


def north_by_a_mark(scene: Scene, *, mark: str) -> str:
    """Describe the way to north from below the Moon or a planet, at this minute."""
    sight = sky.sight(sky.find(mark), scene)
    look = direct("달" if mark == sky.MOON.name else f"하늘에서 가장 밝은 점, {spoken_name(mark)}")
    caution = "해는 절대 보지 마세요. " if sky.sun_state(scene).is_up else ""
    return (
        f"{caution}{_where(sight, scene)}에 있는 {look} 보고 서세요. 거기서 똑바로 아래 땅을 보세요. "
        f"{_north_from(sight.azimuth_deg, scene)}"
    )


def _north_from(facing_deg: float, scene: Scene) -> str:
    """Say how to turn to north for who faces an azimuth."""
    turn_deg = (180.0 - facing_deg) % 360.0 - 180.0
    if abs(turn_deg) < scene.fist_deg / 4:
        return "그쪽이 북쪽이에요. 경통을 그쪽으로 돌리세요."
    if abs(turn_deg) > 180.0 - scene.fist_deg / 4:
        return "북쪽은 정확히 등 뒤예요. 경통을 그쪽으로 돌리세요."
    way = f"거기서 {'오른쪽' if turn_deg > 0 else '왼쪽'}으로 {turn_on_feet(abs(turn_deg), scene.fist_deg)} 도세요."
    return f"{way} 그쪽이 북쪽이에요. 경통을 그쪽으로 돌리세요."
