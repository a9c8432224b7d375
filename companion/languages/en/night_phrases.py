"""English for the night at the telescope: targets introduced, found, told about and left. Never more than four sentences at once."""

from __future__ import annotations

from datetime import datetime, timedelta

from skyfield.api import load_constellation_names

from companion import observing, places, sky
from companion.languages.en import clock_words
from companion.languages.en.direction_words import compass_point, fists, place_in_sky, sentence
from companion.languages.en.fact_words import distance, how_bright, nature
from companion.languages.en.look_for import introduction, look_for, millimetres
from companion.languages.en.number_words import cardinal, decimal
from companion.languages.en.sight_words import SUN_CAUTION, where_to_look
from companion.languages.en.sky_answers import when_it_rises
from companion.languages.en.spoken_names import kind_in_words, name_and_number, spoken_name
from companion.languages.en.story import what_is_not_seen
from companion.languages.en.target_words import expected, size_in_words
from companion.languages.phrase import Chapter, Scene
from companion.observing import Chance
from companion.sky import Body, Kind, Moment
from companion.sky.bands import CompassPoint
from companion.talk import night_phrases as say
from companion.talk.kinds import AT_A_TARGET, SEARCH
from companion.talk.night_answers import MilkyWayAnswer, StarCountAnswer, TargetAnswer
from companion.talk.night_phrases import Wish

_WISHES: dict[Wish, str] = {
    "anything": "anything",
    "planets": "planets",
    "doubles": "double stars",
    "clusters": "clusters",
    "globulars": "globular clusters",
    "open-clusters": "open clusters",
    "planetaries": "planetary nebulae",
    "red-stars": "red stars",
    "own-list": "things from your own list",
    "galaxies": "galaxies",
    "nebulae": "nebulae",
    "for-children": "easy things",
    "brighter": "anything brighter",
    "easier": "anything easier",
    "harder": "anything harder",
    "near-here": "anything else near here",
}
_FIGURES: dict[tuple[str, ...], str] = {
    ("Alpheratz", "Scheat", "Markab", "Algenib"): "the Great Square of Pegasus",
    ("Capella", "Menkalinan", "Mahasim", "Elnath", "Hassaleh"): "the five-sided figure of Auriga, with Capella",
    ("Castor", "Pollux", "Alhena", "Tejat"): "the long box of the Twins, Castor and Pollux at one end",
    ("Regulus", "Algieba", "Zosma", "Denebola"): "the body of the Lion, from Regulus to Denebola",
}
"""What people call them; the others are triangles, told by their corners."""
_CONSTELLATIONS = dict(load_constellation_names())
"""Their Latin names by three letters."""
_HOW_WIDE = "How many degrees of sky does the finder show, from edge to edge? If unsure, say skip this."


def introduce_target(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool) -> str:
    """Introduce a target: its name and its number, what it is, where it stands, which eyepiece."""
    if change:
        return introduction(_sight(scene, target), kind, eyepiece_mm, scene.fist_deg)
    what = "" if kind == "moon" else f": {kind_in_words(kind)}"
    return f"{sentence(name_and_number(scene.find(target)) + what)} {where_to_look(_sight(scene, target), scene.fist_deg)}"


def introduce_target_tersely(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool) -> str:
    """Introduce a target in few words."""
    return f"{sentence(name_and_number(scene.find(target)))} {where_to_look(_sight(scene, target), scene.fist_deg)}"


def at_the_top_now(scene: Scene, *, target: str, until: datetime) -> str:
    """Promise for later what stands at the top of the sky."""
    return f"{spoken_name(target)} stands overhead, hard to steer to: we'll go there in {clock_words.duration(until - scene.time)}."


def find_target(scene: Scene, *, target: str, kind: Kind) -> str:
    """Say again where a target is, from where it is now."""
    return f"{sentence(spoken_name(target))} {where_to_look(_sight(scene, target), scene.fist_deg)} Low-power eyepiece first."


def look_at_it(scene: Scene, *, target: str, eyepiece_mm: float | None, told: bool) -> str:
    """Say what to look for, unless that was told, and with which eyepiece."""
    look = (None if told else look_for(scene.find(target), scene)) or "Good. Stay with it a while: more shows with time."
    if scene.sight is not None:
        look = f"{look} {what_is_not_seen(scene, scene.shown(target))}"
    return look if eyepiece_mm is None else f"{look} Now try the {millimetres(eyepiece_mm)} eyepiece."


def what_to_see(scene: Scene, *, target: str) -> str:
    """Say what a person sees of it."""
    return look_for(scene.find(target), scene) or f"{expected(scene.shown(target).kind)} Stay with it a while: more shows with time."


def more_about_it(scene: Scene, *, target: str, again: bool, distance_told: bool) -> str:
    """Tell how far it is, its size, and when it stands best; asked for again, what it really is, and how bright."""
    body = scene.shown(target)
    if again:
        return f"{nature(body)} {how_bright(scene, name=target)}"
    name, kind = spoken_name(target), kind_in_words(body.kind)
    what = sentence(name if name == kind else f"{name}, {kind}")
    far = "" if distance_told else distance(body, scene)
    return " ".join(words for words in (what, far, size_in_words(body), _when_best(scene, body)) if words)


def eyepiece_for_it(scene: Scene, *, target: str, eyepiece_mm: float | None, finding_mm: float | None, is_only: bool) -> str:
    """Say which eyepiece to take."""
    if eyepiece_mm is not None:
        return f"The {millimetres(eyepiece_mm)}. Find it with the longest one first."
    if finding_mm is not None:
        return f"The {millimetres(finding_mm)}, {'the only one you told me of' if is_only else 'to find it and to look: it shows it best'}."
    if scene.shown(target).kind in ("planet", "double star", "moon", "planetary nebula"):
        return "The low-power eyepiece to find it. Then more power, as long as the view stays sharp."
    return "The low-power eyepiece, the one with the largest number."


def filter_for_it(scene: Scene, *, target: str) -> str:
    """Say whether a filter helps."""
    match scene.shown(target).kind:
        case "nebula" | "planetary nebula":
            return "A narrow-band nebula filter helps here, if you have one. Without one, it's still worth the look."
        case "moon":
            return "None is needed. If it dazzles, take more power, or keep a white light on beside you."
        case _:
            return "None: filters only take light here."


def none_in_constellation(scene: Scene, *, constellation: str) -> str:
    """Say that nothing new of a constellation stands well."""
    return f"Nothing new in {_CONSTELLATIONS[constellation]} stands well now."


def none_in_direction(scene: Scene, *, point: CompassPoint) -> str:
    """Say that nothing new on one side of the sky stands well."""
    return f"Nothing new in the {compass_point(45.0 * point.value)} stands well now."


def how_well_it_stands(scene: Scene, *, target: str) -> str:
    """Say whether it is well placed, and when it is better."""
    body, sight = scene.find(target), _sight(scene, target)
    if sight.altitude_deg < 0:
        return when_it_rises(scene, name=target)
    place = sentence(f"it stands {place_in_sky(sight.altitude_deg, sight.azimuth_deg)}, {fists(sight.altitude_deg, scene.fist_deg)} up")
    return f"{place} {_when_best(scene, body)}"


def check_the_finder(scene: Scene, *, target: str) -> str:
    """Say where the finder must point."""
    place = where_to_look(_sight(scene, target), scene.fist_deg)
    return f"First the finder: its mark must be on the place. {place} If it is, say still nothing."


def how_it_looks(scene: Scene, *, target: str, kind: Kind) -> str:
    """Say how it looks, and how large."""
    return f"{expected(kind)} {size_in_words(scene.shown(target))}".strip()


def no_more_of_them(scene: Scene, *, wish: Wish) -> str:
    """Say that nothing more of what was wished for stands well."""
    return f"No more {_WISHES[wish].removeprefix('anything ')} for now: something else, then."


def none_of_them(scene: Scene, *, wish: Wish) -> str:
    """Say that there is none, and stay."""
    if wish not in ("anything", "brighter", "easier", "harder", "near-here"):
        return f"No {_WISHES[wish]} that I haven't shown you stand well now."
    return f"I don't find {_WISHES[wish]} just now."


def not_up_now(scene: Scene, *, name: str) -> str:
    """Say when something rises that was asked for by name."""
    return f"{sentence(f'{spoken_name(name)} is down now')} {when_it_rises(scene, name=name)}"


def hidden_now(scene: Scene, *, name: str) -> str:
    """Say that something asked for by name stands behind trees or a roof."""
    sight = _sight(scene, name)
    return f"{sentence(spoken_name(name))} It's behind what you told me of, {place_in_sky(sight.altitude_deg, sight.azimuth_deg)}."


def no_longer_there(scene: Scene, *, target: str) -> str:
    """Say that a target gone back to can't be seen any more."""
    gone = "down" if _sight(scene, target).altitude_deg < 0 else "too low or hidden"
    return sentence(f"{spoken_name(target)} is {gone} by now")


def how_many_seen(scene: Scene, *, seen: tuple[str, ...], passed: int) -> str:
    """Count what was seen, and name the last few; of what was passed by say only how many."""
    by = sentence(f"{cardinal(passed)} passed by") if passed else ""
    if not seen:
        return f"None so far. {by}".strip()
    names = _listed([spoken_name(name) for name in seen[-3:]])
    return f"{sentence(cardinal(len(seen)))} {sentence(f'the last: {names}' if len(seen) > 3 else names)} {by}".strip()


def still_to_come(scene: Scene, *, targets: tuple[str, ...]) -> str:
    """Name a few that stand well."""
    if not targets:
        return "Nothing more on my list stands well now."
    return f"Well placed now: {_listed([spoken_name(name) for name in targets])}. Say next target, or show me, and its name."


def how_many_stars_inside(scene: Scene, *, corners: tuple[str, ...]) -> str:
    """Ask how many stars show inside a figure of bright ones."""
    return f"{_where_to_count(scene, corners)} How many stars do you see inside it, corners not counted?"


def how_many_stars_inside_tersely(scene: Scene, *, corners: tuple[str, ...]) -> str:
    """Ask the same in few words."""
    return f"{_where_to_count(scene, corners)} How many stars inside?"


def _where_to_count(scene: Scene, corners: tuple[str, ...]) -> str:
    middle = sky.sight(observing.Figure(corners).middle, scene, refraction=False)
    figure = _FIGURES.get(corners) or f"the triangle of {_listed([spoken_name(name) for name in corners])}"
    return sentence(f"{place_in_sky(middle.altitude_deg, middle.azimuth_deg)} stands {figure}")


def sky_is_so_dark(scene: Scene, *, sky_mag_arcsec2: float) -> str:
    """Take how dark the sky is."""
    return f"{sentence(decimal(sky_mag_arcsec2, 2))} From now on I choose by that."


def finder_is_so_wide(scene: Scene, *, field_deg: float) -> str:
    """Take how much sky the finder shows."""
    unit = "degree" if field_deg == 1.0 else "degrees"
    return f"{sentence(f'{decimal(field_deg)} {unit}')} I measure the way by hand in that."


def eyepiece_is_in(scene: Scene, *, eyepiece_mm: float) -> str:
    """Take which eyepiece is in."""
    return f"The {millimetres(eyepiece_mm)}. I write that down, if you say seen it."


_LIT = ((0.08, "hardly lit"), (0.4, "a crescent"), (0.6, "half lit"), (0.95, "more than half lit"), (1.0, "full"))
"""How the Moon is lit, by the share of its disc: judgement."""
_SOON = timedelta(hours=1)


def moon_and_targets(scene: Scene) -> str:
    """Say when the Moon comes, how bright, and what to look at first."""
    moon = sky.moon_state(scene)
    lit = next(words for most, words in _LIT if moon.illuminated_fraction <= most)
    advice = "Galaxies and nebulae before it's high. Doubles, clusters and planets bear its light."
    if moon.altitude_deg > 0 and moon.set is not None and moon.set - scene.time < _SOON:
        return f"It's up, {lit}, and sets in {clock_words.duration(moon.set - scene.time)}. Galaxies and nebulae after that."
    if moon.altitude_deg > 0:
        return f"It's up, {lit}. It spoils galaxies and nebulae. Doubles, clusters and planets bear its light."
    if moon.rise is None:
        return "It doesn't rise here within a day."
    return f"It rises in {clock_words.duration(moon.rise - scene.time)}, {lit}. {advice}"


def keep_to(scene: Scene, *, point: CompassPoint) -> str:
    """Keep to one side of the sky."""
    return f"Then the {compass_point(45.0 * point.value)} only, until you say it's clear again."


def nothing_so_low(scene: Scene, *, point: CompassPoint) -> str:
    """Leave out what stands behind the same tree or roof."""
    return f"Then nothing so low in the {compass_point(45.0 * point.value)} tonight."


def planet_stands_best(scene: Scene, *, target: str) -> str:
    """Say that a planet is as high as it gets."""
    return f"{spoken_name(target)} stands at its best now. Say show me {spoken_name(target)}, if you like."


def on_a_break(scene: Scene, *, until: datetime) -> str:
    """Grant a break."""
    return "Ten minutes. Something warm, and watch for the tripod in the dark. I'll tell you when they're over."


def _sight(scene: Scene, target: str) -> sky.Sight:
    return sky.sight(scene.find(target), scene)


def _when_best(scene: Moment, body: Body) -> str:
    """Return when it stands best in what is left of the night."""
    best = observing.when_best(body, scene)
    match best.chance:
        case Chance.SETS_SOON:
            return f"It sets in {clock_words.duration(best.at - scene.time)}: look now."
        case Chance.SINKS:
            return "It only gets lower now: look soon."
        case Chance.BEST_NOW:
            return "Now is its best time."
        case Chance.BEST_LATER:
            return f"It's best at {clock_words.time_of_day(places.local_time(Moment(scene.site, best.at)))}."


def _listed(names: list[str]) -> str:
    """Return names as they are listed: with commas, the last with "and"."""
    *others, last = names
    return f"{', '.join(others)} and {last}" if others else last


NIGHT = Chapter(
    phrases={
        say.IntroduceTarget: introduce_target,
        say.FindTarget: find_target,
        say.LookAtIt: look_at_it,
        say.WhatToSee: what_to_see,
        say.MoreAboutIt: more_about_it,
        say.EyepieceForIt: eyepiece_for_it,
        say.HowWellItStands: how_well_it_stands,
        say.FilterForIt: filter_for_it,
        say.EnjoyIt: "Stay with it as long as you like: more shows with time. Then say next target.",
        say.GetItSharp: "Turn the focuser slowly, until a star is smallest. If it stays soft, the air is unsteady: take less power.",
        say.LetItSettle: "Hands off, and let it settle. Less power shakes less; a hand on a leg tells you which one is loose.",
        say.EyesDazzled: "Close your eyes a moment, then look away from it. Ten minutes in the dark bring most of it back.",
        say.WhyUpsideDown: "Telescopes turn the view round, or swap its sides. Out there nothing has an upside.",
        say.NoneInDirection: none_in_direction,
        say.NoneInConstellation: none_in_constellation,
        say.SayNextTarget: "Say next target when you like.",
        say.CheckTheFinder: check_the_finder,
        say.LowestPower: "Put in the lowest power you have. Focus on any star, until it's a point. Say found it, or still nothing.",
        say.LookBeside: "Cover your head from stray light for a minute. Then look a little beside the place, not at it.",
        say.HowItLooks: how_it_looks,
        say.SweepForIt: "Sweep slowly in a widening spiral, half a view at a time.",
        say.LeaveItForLater: "Then the air or the light hides it. Say later, or next target.",
        say.ForLater: "Later, then.",
        say.AtTheTopNow: at_the_top_now,
        say.NotAgain: "Not again tonight.",
        say.NoMoreOfThem: no_more_of_them,
        say.NoneOfThem: none_of_them,
        say.NothingNow: "Nothing more on my list stands well now. Ask for something by name, take a break, or say: that's all.",
        say.NothingBefore: "This is the first one.",
        say.NotUpNow: not_up_now,
        say.HiddenNow: hidden_now,
        say.NoLongerThere: no_longer_there,
        say.TooNearTheSun: SUN_CAUTION,
        say.HowManySeen: how_many_seen,
        say.StillToCome: still_to_come,
        say.HowDoesTheMilkyWayShow: "How does the Milky Way show, high overhead: easily, faintly, only just, or not at all?",
        say.HowManyStarsInside: how_many_stars_inside,
        say.SkyIsSoDark: sky_is_so_dark,
        say.FinderIsSoWide: finder_is_so_wide,
        say.EyepieceIsIn: eyepiece_is_in,
        say.HowWideForTheWay: _HOW_WIDE,
        say.WayGoesByThat: finder_is_so_wide,
        say.MoonAndTargets: moon_and_targets,
        say.AwayFromTheCloud: "Then away from it, for an hour.",
        say.KeepTo: keep_to,
        say.NothingSoLow: nothing_so_low,
        say.ClearAgain: "Good: the whole sky again.",
        say.DewOnTheGlass: "Warm the glass gently with warm air, or a dew strip. Never wipe it. Point the tube level meanwhile, not up.",
        say.BatteryFading: "Change it before it dies: without power the mount forgets the sky. With no other, say that's all, and park.",
        say.OnABreak: on_a_break,
        say.SunIsUp: "The Sun is up: caps on, tube and finder. That was the night.",
        say.BreakIsOver: "The ten minutes are over. Say carry on when you're back.",
        say.MoonRisesSoon: "The Moon rises in twenty minutes. Faint things first.",
        say.DawnIsNear: "The first grey comes in twenty minutes.",
        say.ItIsMidnight: "It's midnight.",
        say.LookForDew: "Feel for dew: a torch across the front glass shows it.",
        say.PlanetStandsBest: planet_stands_best,
    },
    terse={
        say.HowDoesTheMilkyWayShow: "The Milky Way: easily, faintly, only just, or not at all?",
        say.HowManyStarsInside: how_many_stars_inside_tersely,
        say.IntroduceTarget: introduce_target_tersely,
        say.OnABreak: "A break of ten minutes.",
    },
    sayable={
        TargetAnswer: ("next target", "found it", "nothing there", "what should I see", "maybe later", "something easier", "that's all"),
        StarCountAnswer: ("seven stars", "none at all"),
        MilkyWayAnswer: ("easily", "faintly", "only just", "not at all"),
    },
    step_help=dict.fromkeys(AT_A_TARGET, "Choose it on the handset, or steer there by the arrows. Say found it, or nothing there.")
    | dict.fromkeys(SEARCH, "Nothing there leads one step on. Found it tells you what to look for.")
    | {
        say.HowDoesTheMilkyWayShow: "A pale band of light. It tells me how faint a thing shows here. Say skip this if you can't tell.",
        say.HowManyStarsInside: "Give it half a minute, without any light. It tells me how faint a thing shows here. Or say: I don't know.",
        say.HowWideForTheWay: "Its manual says so; most show five to eight. The way to a target by hand goes by it.",
        say.SayNextTarget: "Next target goes on, and so does later. That's all ends the night.",
        say.LeaveItForLater: "Later brings it back in an hour. Next target leaves it.",
        say.NothingNow: "Say show me, and a name. Or say what's best, to look again.",
        say.OnABreak: "Say carry on when you're back.",
    },
)
