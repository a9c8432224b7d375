"""Korean for the night at the telescope: targets introduced, found, told about and left. Never more than four sentences at once."""

from __future__ import annotations

from datetime import datetime, timedelta

from companion import observing, places, sky
from companion.languages.ko import clock_words
from companion.languages.ko.direction_words import compass_point, place_in_sky
from companion.languages.ko.fact_words import distance, how_bright, nature
from companion.languages.ko.look_for import introduction, look_for, millimetres, what_it_is
from companion.languages.ko.number_words import count_of, decimal
from companion.languages.ko.sight_words import SUN_CAUTION, it_is, listed, subject, topic, where_to_look
from companion.languages.ko.sky_answers import when_it_rises
from companion.languages.ko.spoken_names import constellation_name, kind_in_words, name_and_number, spoken_name
from companion.languages.ko.target_words import expected, size_in_words
from companion.languages.phrase import Chapter, Scene
from companion.observing import Chance
from companion.sky import Body, Kind, Moment
from companion.sky.bands import CompassPoint
from companion.talk import night_phrases as say
from companion.talk.kinds import AT_A_TARGET, SEARCH
from companion.talk.night_answers import MilkyWayAnswer, StarCountAnswer, TargetAnswer

_WISHES: dict[say.Wish, str] = {
    "anything": "볼 만한 것",
    "planets": "행성",
    "doubles": "이중성",
    "clusters": "성단",
    "globulars": "구상성단",
    "open-clusters": "산개성단",
    "planetaries": "행성상성운",
    "red-stars": "붉은 별",
    "own-list": "직접 만든 목록의 대상",
    "galaxies": "은하",
    "nebulae": "성운",
    "for-children": "쉬운 대상",
    "brighter": "더 밝은 것",
    "easier": "더 쉬운 것",
    "harder": "더 어려운 것",
    "near-here": "이 근처의 다른 것",
}
_FIGURES: dict[tuple[str, ...], str] = {
    ("Alpheratz", "Scheat", "Markab", "Algenib"): "페가수스의 큰 사각형",
    ("Capella", "Menkalinan", "Mahasim", "Elnath", "Hassaleh"): "카펠라가 있는 마차부자리의 오각형",
    ("Castor", "Pollux", "Alhena", "Tejat"): "쌍둥이자리의 긴 사각형",
    ("Regulus", "Algieba", "Zosma", "Denebola"): "사자자리의 몸통",
}
"""What people call them; the others are triangles, told by their corners."""
_HOW_WIDE = "파인더에 하늘이 끝에서 끝까지 몇 도 보여요? 모르면 건너뛰기라고 하세요."
_STAY = "잠시 더 보세요. 시간이 지나면 더 많이 보여요."


def introduce_target(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool) -> str:
    """Introduce a target: its name and its number, what it is, where it stands, which eyepiece."""
    if change:
        return introduction(_sight(scene, target), kind, eyepiece_mm, scene.fist_deg)
    return f"{what_it_is(scene.find(target), kind)} {where_to_look(_sight(scene, target), scene.fist_deg)}"


def introduce_target_tersely(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool) -> str:
    """Introduce a target in few words."""
    return f"{name_and_number(scene.find(target))}. {where_to_look(_sight(scene, target), scene.fist_deg)}"


def at_the_top_now(scene: Scene, *, target: str, until: datetime) -> str:
    """Promise for later what stands at the top of the sky."""
    later = f"{clock_words.duration(until - scene.time)} 뒤 거기서 벗어나면 보러 가요"
    return f"{topic(spoken_name(target))} 지금 머리 바로 위라서 맞추기 어려우니 {later}."


def find_target(scene: Scene, *, target: str, kind: Kind) -> str:
    """Say again where a target is, from where it is now."""
    return f"{it_is(spoken_name(target))} {where_to_look(_sight(scene, target), scene.fist_deg)} 먼저 저배율 접안렌즈로 보세요."


def look_at_it(scene: Scene, *, target: str, eyepiece_mm: float | None, told: bool) -> str:
    """Say what to look for, unless that was told, and with which eyepiece."""
    look = (None if told else look_for(scene.find(target), scene)) or f"좋아요. {_STAY}"
    return look if eyepiece_mm is None else f"{look} 이제 {millimetres(eyepiece_mm)} 접안렌즈로 보세요."


def what_to_see(scene: Scene, *, target: str) -> str:
    """Say what a person sees of it."""
    return look_for(scene.find(target), scene) or f"{expected(scene.shown(target).kind)} {_STAY}"


def more_about_it(scene: Scene, *, target: str, again: bool, distance_told: bool) -> str:
    """Tell how far it is, its size, and when it stands best; asked for again, what it really is, and how bright."""
    body = scene.shown(target)
    if again:
        return f"{nature(body)} {how_bright(scene, name=target)}"
    name, kind = spoken_name(target), kind_in_words(body.kind)
    what = it_is(name) if name == kind else f"{topic(name)} {it_is(kind)}"
    far = "" if distance_told else distance(body, scene)
    return " ".join(words for words in (what, far, size_in_words(body), _when_best(scene, body)) if words)


def eyepiece_for_it(scene: Scene, *, target: str, eyepiece_mm: float | None, finding_mm: float | None, is_only: bool) -> str:
    """Say which eyepiece to take."""
    if eyepiece_mm is not None:
        return f"{millimetres(eyepiece_mm)} 접안렌즈예요. 찾을 때는 숫자가 가장 큰 것을 쓰세요."
    if finding_mm is not None:
        return f"{millimetres(finding_mm)} 접안렌즈예요. {'그것만 있다고 하셨어요' if is_only else '찾을 때도 볼 때도 그게 가장 좋아요'}."
    if scene.shown(target).kind in ("planet", "double star", "moon", "planetary nebula"):
        return "저배율 접안렌즈로 찾으세요. 그다음 또렷하게 보이는 데까지 배율을 높이세요."
    return "저배율 접안렌즈, 숫자가 가장 큰 것이에요."


def none_in_direction(scene: Scene, *, point: CompassPoint) -> str:
    """Say that nothing new on one side of the sky stands well."""
    return f"지금 {compass_point(45.0 * point.value)}에는 자리가 좋은 새 대상이 없어요."


def how_well_it_stands(scene: Scene, *, target: str) -> str:
    """Say whether it is well placed, and when it is better."""
    sight = _sight(scene, target)
    if sight.altitude_deg < 0:
        return when_it_rises(scene, name=target)
    return f"{where_to_look(sight, scene.fist_deg)} {_when_best(scene, scene.find(target))}"


def check_the_finder(scene: Scene, *, target: str) -> str:
    """Say where the finder must point."""
    place = where_to_look(_sight(scene, target), scene.fist_deg)
    return f"먼저 파인더예요. 표시가 그 자리에 있어야 해요. {place} 맞는데도 없으면 아직 없어요라고 하세요."


def filter_for_it(scene: Scene, *, target: str) -> str:
    """Say whether a filter helps."""
    match scene.shown(target).kind:
        case "nebula" | "planetary nebula":
            return "성운용 협대역 필터가 있으면 도움이 돼요. 없어도 볼 만해요."
        case "moon":
            return "필요 없어요. 눈부시면 배율을 높이거나 옆에 흰 불을 켜 두세요."
        case _:
            return "필요 없어요. 여기서는 필터가 빛을 줄이기만 해요."


def none_in_constellation(scene: Scene, *, constellation: str) -> str:
    """Say that nothing new of a constellation stands well."""
    return f"{constellation_name(constellation)}에는 지금 새로 볼 만한 것이 없어요."


def how_it_looks(scene: Scene, *, target: str, kind: Kind) -> str:
    """Say how it looks, and how large."""
    return f"{expected(kind)} {size_in_words(scene.shown(target))}".strip()


def no_more_of_them(scene: Scene, *, wish: say.Wish) -> str:
    """Say that nothing more of what was wished for stands well."""
    return f"지금 {subject(_WISHES[wish])} 더 없어요. 다른 것을 볼게요."


def none_of_them(scene: Scene, *, wish: say.Wish) -> str:
    """Say that there is none, and stay."""
    return f"아직 안 보여 드린 {subject(_WISHES[wish])} 지금은 없어요."


def not_up_now(scene: Scene, *, name: str) -> str:
    """Say when something rises that was asked for by name."""
    return f"{topic(spoken_name(name))} 지금 져 있어요. {when_it_rises(scene, name=name)}"


def hidden_now(scene: Scene, *, name: str) -> str:
    """Say that something asked for by name stands behind trees or a roof."""
    sight = _sight(scene, name)
    return f"{topic(spoken_name(name))} {place_in_sky(sight.altitude_deg, sight.azimuth_deg)}에 있는데, 말씀하신 것에 가려 있어요."


def no_longer_there(scene: Scene, *, target: str) -> str:
    """Say that a target gone back to can't be seen any more."""
    return f"{topic(spoken_name(target))} {'이제 졌어요' if _sight(scene, target).altitude_deg < 0 else '이제 너무 낮거나 가렸어요'}."


def how_many_seen(scene: Scene, *, seen: tuple[str, ...], passed: int) -> str:
    """Count what was seen, and name the last few."""
    by = f"건너뛴 것은 {it_is(count_of(passed, '개'))}" if passed else ""
    if not seen:
        return f"아직 하나도 못 봤어요. {by}".strip()
    names = listed([spoken_name(name) for name in seen[-3:]])
    return f"{count_of(len(seen), '개')} 봤어요. {'마지막은 ' if len(seen) > 3 else ''}{it_is(names)} {by}".strip()


def still_to_come(scene: Scene, *, targets: tuple[str, ...]) -> str:
    """Name a few that stand well."""
    if not targets:
        return "제 목록에 지금 자리가 좋은 대상이 더 없어요."
    names = listed([spoken_name(name) for name in targets])
    return f"지금 자리가 좋은 것은 {it_is(names)} 다음 대상, 또는 이름을 말하고 보여 주세요라고 하세요."


def how_many_stars_inside(scene: Scene, *, corners: tuple[str, ...]) -> str:
    """Ask how many stars show inside a figure of bright ones."""
    where, figure = _where_to_count(scene, corners)
    return f"{where}에 {subject(figure)} 있어요. 모서리의 별을 빼고 그 안에 별이 몇 개 보여요?"


def how_many_stars_inside_tersely(scene: Scene, *, corners: tuple[str, ...]) -> str:
    """Ask the same in few words."""
    where, figure = _where_to_count(scene, corners)
    return f"{where}의 {figure} 안에 별이 몇 개 보여요?"


def _where_to_count(scene: Scene, corners: tuple[str, ...]) -> tuple[str, str]:
    """Return where a figure stands, and what it is called."""
    middle = sky.sight(observing.Figure(corners).middle, scene, refraction=False)
    where = place_in_sky(middle.altitude_deg, middle.azimuth_deg)
    return where, _FIGURES.get(corners) or f"{listed([spoken_name(name) for name in corners])}의 삼각형"


def sky_is_so_dark(scene: Scene, *, sky_mag_arcsec2: float) -> str:
    """Take how dark the sky is."""
    return f"{it_is(decimal(sky_mag_arcsec2, 2))} 이제부터 그것에 맞춰 고를게요."


def finder_is_so_wide(scene: Scene, *, field_deg: float) -> str:
    """Take how much sky the finder shows."""
    return f"{it_is(f'{decimal(field_deg)} 도')} 손으로 찾아가는 길을 그것으로 잴게요."


def eyepiece_is_in(scene: Scene, *, eyepiece_mm: float) -> str:
    """Take which eyepiece is in."""
    return f"{millimetres(eyepiece_mm)}군요. 봤어요라고 하면 적어 둘게요."


_LIT = ((0.08, "거의 어두운"), (0.4, "가느다란"), (0.6, "반쯤 밝은"), (0.95, "반 넘게 밝은"), (1.0, "둥근"))
"""How the Moon is lit, by the share of its disc: judgement."""
_SOON = timedelta(hours=1)


def moon_and_targets(scene: Scene) -> str:
    """Say when the Moon comes, how bright, and what to look at first."""
    moon = sky.moon_state(scene)
    lit = next(words for most, words in _LIT if moon.illuminated_fraction <= most)
    bears = "이중성과 성단, 행성은 달빛에도 괜찮아요."
    if moon.altitude_deg > 0 and moon.set is not None and moon.set - scene.time < _SOON:
        return f"{lit} 달이 떠 있고 {clock_words.duration(moon.set - scene.time)} 뒤에 져요. 은하와 성운은 그 뒤에 보세요."
    if moon.altitude_deg > 0:
        return f"{lit} 달이 떠 있어요. 은하와 성운은 달빛에 묻혀요. {bears}"
    if moon.rise is None:
        return "여기서는 하루 안에 달이 뜨지 않아요."
    return f"{lit} 달이 {clock_words.duration(moon.rise - scene.time)} 뒤에 떠요. 달이 높아지기 전에 은하와 성운을 보세요. {bears}"


def keep_to(scene: Scene, *, point: CompassPoint) -> str:
    """Keep to one side of the sky."""
    return f"그럼 맑아졌다고 할 때까지 {compass_point(45.0 * point.value)}만 볼게요."


def nothing_so_low(scene: Scene, *, point: CompassPoint) -> str:
    """Leave out what stands behind the same tree or roof."""
    return f"그럼 오늘 밤 {compass_point(45.0 * point.value)}은 그만큼 낮은 대상을 뺄게요."


def planet_stands_best(scene: Scene, *, target: str) -> str:
    """Say that a planet is as high as it gets."""
    name = spoken_name(target)
    return f"{subject(name)} 지금 가장 좋은 자리에 있어요. 보려면 {name} 보여 주세요라고 하세요."


def on_a_break(scene: Scene, *, until: datetime) -> str:
    """Grant a break."""
    return "십 분 쉬어요. 따뜻한 것을 드시고, 어두우니 삼각대를 조심하세요. 끝나면 말할게요."


def _sight(scene: Scene, target: str) -> sky.Sight:
    return sky.sight(scene.find(target), scene)


def _when_best(scene: Moment, body: Body) -> str:
    """Return when it stands best in what is left of the night."""
    best = observing.when_best(body, scene)
    match best.chance:
        case Chance.SETS_SOON:
            return f"{clock_words.duration(best.at - scene.time)} 뒤에 져요. 지금 보세요."
        case Chance.SINKS:
            return "이제 낮아지기만 해요. 곧 보세요."
        case Chance.BEST_NOW:
            return "지금이 가장 좋은 때예요."
        case Chance.BEST_LATER:
            return f"{clock_words.time_of_day(places.local_time(Moment(scene.site, best.at)))}에 가장 좋아요."


NIGHT = Chapter(
    phrases={
        say.IntroduceTarget: introduce_target,
        say.FindTarget: find_target,
        say.LookAtIt: look_at_it,
        say.WhatToSee: what_to_see,
        say.MoreAboutIt: more_about_it,
        say.EyepieceForIt: eyepiece_for_it,
        say.HowWellItStands: how_well_it_stands,
        say.SayNextTarget: "다 보면 다음 대상이라고 하세요.",
        say.FilterForIt: filter_for_it,
        say.EnjoyIt: "원하는 만큼 보세요. 시간이 지나면 더 많이 보여요. 그다음 다음 대상이라고 하세요.",
        say.GetItSharp: "별이 가장 작아질 때까지 초점 손잡이를 천천히 돌리세요. 그래도 흐리면 공기가 나쁘니 배율을 낮추세요.",
        say.LetItSettle: "손을 떼고 가라앉기를 기다리세요. 배율이 낮으면 덜 흔들려요.",
        say.EyesDazzled: "잠시 눈을 감고 다른 곳을 보세요. 어둠 속에서 십 분이면 거의 돌아와요.",
        say.WhyUpsideDown: "망원경은 상을 뒤집거나 좌우를 바꿔요. 우주에는 위아래가 없어요.",
        say.NoneInDirection: none_in_direction,
        say.NoneInConstellation: none_in_constellation,
        say.CheckTheFinder: check_the_finder,
        say.LowestPower: "배율이 가장 낮은 접안렌즈를 끼우세요. 아무 별이나 점으로 보이게 초점을 맞추세요. 찾았어요, 또는 아직 없어요라고 하세요.",
        say.LookBeside: "잠시 머리를 덮어 옆의 빛을 가리세요. 그다음 그 자리의 조금 옆을 보세요.",
        say.HowItLooks: how_it_looks,
        say.SweepForIt: "반 시야씩 천천히, 나선을 넓혀 가며 훑으세요.",
        say.LeaveItForLater: "그럼 공기나 빛에 묻힌 거예요. 나중에, 또는 다음 대상이라고 하세요.",
        say.ForLater: "나중에 볼게요.",
        say.AtTheTopNow: at_the_top_now,
        say.NotAgain: "오늘 밤은 다시 안 권할게요.",
        say.NoMoreOfThem: no_more_of_them,
        say.NoneOfThem: none_of_them,
        say.NothingNow: "지금 자리가 좋은 대상이 더 없어요. 이름을 말하거나, 쉬거나, 오늘은 여기까지라고 하세요.",
        say.NothingBefore: "이게 첫 번째예요.",
        say.NotUpNow: not_up_now,
        say.HiddenNow: hidden_now,
        say.NoLongerThere: no_longer_there,
        say.TooNearTheSun: SUN_CAUTION,
        say.HowManySeen: how_many_seen,
        say.StillToCome: still_to_come,
        say.HowDoesTheMilkyWayShow: "머리 위의 은하수가 어떻게 보여요? 잘 보여요, 희미해요, 겨우 보여요, 아니면 전혀 안 보여요?",
        say.HowManyStarsInside: how_many_stars_inside,
        say.SkyIsSoDark: sky_is_so_dark,
        say.FinderIsSoWide: finder_is_so_wide,
        say.EyepieceIsIn: eyepiece_is_in,
        say.HowWideForTheWay: _HOW_WIDE,
        say.WayGoesByThat: finder_is_so_wide,
        say.MoonAndTargets: moon_and_targets,
        say.AwayFromTheCloud: "그럼 한 시간 동안 그쪽을 피할게요.",
        say.KeepTo: keep_to,
        say.NothingSoLow: nothing_so_low,
        say.ClearAgain: "좋아요. 이제 온 하늘을 볼게요.",
        say.DewOnTheGlass: "따뜻한 바람이나 열선으로 유리를 살살 데우세요. 절대 닦지 마세요. 그동안 경통을 수평으로 두세요.",
        say.BatteryFading: "꺼지기 전에 배터리를 바꾸세요. 꺼지면 마운트가 하늘을 잊어요. 여분이 없으면 오늘은 여기까지라고 하세요.",
        say.OnABreak: on_a_break,
        say.SunIsUp: "해가 떴어요. 경통과 파인더의 뚜껑을 덮으세요. 오늘 밤은 여기까지예요.",
        say.BreakIsOver: "십 분이 지났어요. 돌아오면 계속해 주세요라고 하세요.",
        say.MoonRisesSoon: "이십 분 뒤에 달이 떠요. 어두운 것부터 보세요.",
        say.DawnIsNear: "이십 분 뒤에 새벽빛이 시작돼요.",
        say.ItIsMidnight: "자정이에요.",
        say.LookForDew: "이슬이 맺혔는지 보세요. 앞 유리를 손전등으로 비스듬히 비추면 보여요.",
        say.PlanetStandsBest: planet_stands_best,
    },
    terse={
        say.HowDoesTheMilkyWayShow: "은하수가 잘 보여요, 희미해요, 겨우 보여요, 아니면 전혀 안 보여요?",
        say.HowManyStarsInside: how_many_stars_inside_tersely,
        say.IntroduceTarget: introduce_target_tersely,
        say.OnABreak: "십 분 쉬어요.",
    },
    sayable={
        TargetAnswer: ("다음 대상", "찾았어요", "아직 없어요", "뭘 보면 돼요", "나중에요", "더 쉬운 거요", "오늘은 여기까지"),
        StarCountAnswer: ("일곱 개", "하나도 없어요"),
        MilkyWayAnswer: ("잘 보여요", "희미해요", "겨우 보여요", "전혀 안 보여요"),
    },
    step_help=dict.fromkeys(
        AT_A_TARGET, "조종기에서 대상을 골라 마운트를 보내거나 화살표 키로 맞추세요. 그다음 찾았어요, 또는 아직 없어요라고 하세요."
    )
    | dict.fromkeys(SEARCH, "아직 없어요라고 하면 한 단계 더 나가요. 찾았어요라고 하면 무엇을 볼지 말할게요.")
    | {
        say.HowDoesTheMilkyWayShow: "흐린 빛의 띠예요. 여기서 얼마나 어두운 것까지 보이는지 알려 줘요. 모르겠으면 건너뛰기라고 하세요.",
        say.HowManyStarsInside: "불빛 없이 삼십 초쯤 보세요. 여기서 얼마나 어두운 것까지 보이는지 알려 줘요. 모르면 잘 몰라요라고 하세요.",
        say.HowWideForTheWay: "설명서에 나와요. 대개 오 도에서 팔 도예요. 손으로 찾아가는 길을 이것으로 재요.",
        say.SayNextTarget: "다음 대상이나 나중에요라고 하면 이어 가요. 오늘은 여기까지라고 하면 마쳐요.",
        say.LeaveItForLater: "나중에요라고 하면 한 시간 뒤에 다시 권해요. 다음 대상이라고 하면 지나가요.",
        say.NothingNow: "이름을 말하고 보여 주세요라고 하세요. 아니면 지금 뭐가 제일 좋아요라고 하세요.",
        say.OnABreak: "돌아오면 계속해 주세요라고 하세요.",
    },
)
