"""English for what a thing is, how far, how old its light, how big and how bright: answers to whoever asks, rounded to two figures."""

from __future__ import annotations

from collections.abc import Mapping

from skyfield.api import load_constellation_names

from companion import alignment, observing, sky
from companion.languages.en.direction_words import sentence
from companion.languages.en.number_words import cardinal, count_of, decimal
from companion.languages.en.reason_words import reasons_in_words
from companion.languages.en.spoken_names import kind_in_words, spoken_name
from companion.languages.en.target_words import size_in_words
from companion.languages.phrase import Scene
from companion.sky import Body, Kind, Moment

KINDS: Mapping[Kind, str] = {
    "star": "A sun like ours, so far off that it stays a point.",
    "double star": "A pair of suns, side by side. Most such pairs circle each other.",
    "carbon star": "An old, cool giant sun, reddened by soot in its own air.",
    "variable star": "A sun whose light comes and goes.",
    "planet": "It circles our Sun, as the Earth does, and shines by its light.",
    "moon": "The Earth's companion: rock and dust, lit by the Sun.",
    "sun": "Our own star.",
    "open cluster": "Young suns, some dozens to some thousands, born together from one cloud.",
    "globular cluster": "A ball of a hundred thousand old suns or more, circling our galaxy.",
    "galaxy": "An island of billions of suns, far outside our own.",
    "nebula": "A cloud of gas and dust between the stars, lit by suns in it.",
    "planetary nebula": "Gas that an old sun has shed: nothing to do with planets.",
    "star cloud": "A rich part of the Milky Way, seen through a gap in its dust.",
    "user": "It's from your own list: I don't know more than you told me.",
}
"""What such a thing really is."""
_AGES: dict[Kind, str] = {
    "planet": "Four and a half billion years, as the Earth and the Sun.",
    "moon": "Nearly as old as the Earth: four and a half billion years.",
    "sun": "Four and a half billion years, with as many to go.",
    "open cluster": "Young, as suns go: most are some millions to some hundred millions of years old.",
    "globular cluster": "Among the oldest things there are: some twelve billion years.",
    "galaxy": "Most are ten billion years old or more.",
    "nebula": "A few million years: it makes new suns, or is what remains of one.",
    "planetary nebula": "Some thousand years only: it thins away soon.",
    "carbon star": "Old: it nears its end.",
}
"""Of such things in general: values from memory."""
_CONSTELLATIONS = dict(load_constellation_names())
"""Their Latin names by three letters."""
_IN_A_BREATH = 3
"""So many reasons are given in one sentence."""
_EARTH_RADIUS_KM = 6378.1
"""Equatorial; IAU 2015 resolution B3."""
_SUN_EARTHS = 109
_BILLION, _MILLION = 1_000_000_000, 1_000_000


def what_it_is(scene: Scene, *, name: str) -> str:
    """Say what kind of thing it is."""
    body = scene.shown(name)
    what = kind_in_words(body.kind)
    named = spoken_name(name)
    return f"{sentence(named if named == what else f'{named}: {what}')} {nature(body)}"


def nature(body: Body) -> str:
    """Return what such a thing really is, a sentence."""
    return KINDS[body.kind]


def how_far(scene: Scene, *, name: str) -> str:
    """Say how far it is."""
    body = scene.shown(name)
    return distance(body, scene) or sentence(f"I don't know how far {spoken_name(name)} is")


def distance(body: Body, moment: Moment) -> str:
    """Return how far it is, a sentence; nothing where we don't know."""
    seconds = observing.light_seconds(body, moment)
    if seconds is not None:
        return sentence(f"about {large(seconds * observing.LIGHT_KM_S)} kilometres away now")
    years = observing.light_years(body)
    return sentence(f"about {large(years)} light-years away") if years else ""


def light_age(scene: Scene, *, name: str) -> str:
    """Say how long its light has been on the way."""
    body = scene.shown(name)
    seconds = observing.light_seconds(body, scene)
    if seconds is not None:
        minutes = round(seconds / 60.0)
        return "Its light takes a little over a second." if minutes < 1 else f"Its light set out {count_of(minutes, 'minute')} ago."
    years = observing.light_years(body)
    return f"Its light set out about {large(years)} years ago." if years else "I don't know how far it is, nor how old its light."


def how_big(scene: Scene, *, name: str) -> str:
    """Say how large it looks, and how large it is."""
    body = scene.shown(name)
    if body.kind == "sun":
        return f"{cardinal(_SUN_EARTHS).capitalize()} times as wide as the Earth."
    radius_km = observing.EQUATORIAL_RADIUS_KM.get(body.name)
    if radius_km is not None:
        return _beside_the_earth(radius_km / _EARTH_RADIUS_KM)
    if body.size_arcmin is None:
        return "It stays a point at any power." if body.kind.endswith("star") else "I don't know its size."
    years = observing.light_years(body)
    if years is None or body.kind == "double star":
        return size_in_words(body)
    across = years * body.size_arcmin / 3437.75  # arcminutes in a radian
    return f"{size_in_words(body)} {sentence(f'about {large(across)} light-years across')}"


def how_bright(scene: Scene, *, name: str) -> str:
    """Say its magnitude."""
    magnitude = sky.sight(scene.find(name), scene).magnitude if scene.shown(name).place is None else scene.shown(name).magnitude
    if magnitude is None:
        return "I don't know how bright it is."
    spread = " in all, but spread out" if scene.shown(name).kind in _SPREAD else ""
    return sentence(f"magnitude {decimal(magnitude)}{spread}")


def how_old(scene: Scene, *, name: str) -> str:
    """Say how old such things are."""
    return _AGES.get(scene.shown(name).kind, "I don't know its age: suns live from some millions to many billions of years.")


def its_colour(scene: Scene, *, name: str) -> str:
    """Say which colour it shows, if any."""
    body = scene.find(name)
    colour = sky.colour(body)
    if colour is not None:
        return f"It looks {colour}."
    if scene.shown(name).kind in _SPREAD:
        return "By eye nearly all faint things are grey: our eyes see no colour in the dark. Photographs gather light for hours."
    if body.kind == "moon":
        return "Grey: it shines by the Sun's light."
    return "It looks white." if body.kind == "star" else "No colour that I know of."


def constellation_name(code: str) -> str:
    """Return the Latin name of a constellation, from its three letters."""
    return str(_CONSTELLATIONS[code])


def its_constellation(scene: Scene, *, name: str) -> str:
    """Say in which constellation it stands."""
    return sentence(f"in {constellation_name(sky.sight(scene.find(name), scene).constellation)}")


def why_this_one(scene: Scene, *, name: str) -> str:
    """Say what speaks for a star, and against."""
    body = scene.find(name)
    if body.kind not in ("star", "planet"):
        return f"{nature(scene.shown(name))} One of the best of its kind that stand well now."
    reasons = reasons_in_words(alignment.reasons_for(body, scene))
    first, rest = reasons[:_IN_A_BREATH], reasons[_IN_A_BREATH:]
    return " ".join(sentence(part) for part in (f"{spoken_name(name)}: {', '.join(first)}", ", ".join(rest)) if part)


_SPREAD: tuple[Kind, ...] = ("open cluster", "globular cluster", "galaxy", "nebula", "planetary nebula", "star cloud")


def large(number: float) -> str:
    """Return a number in words, rounded to two figures: "twenty-two thousand", "two point five million"."""
    if number < 10.0:
        return decimal(number) if number < 9.95 else "ten"
    rounded = float(f"{number:.1e}")
    for unit, word in ((_BILLION, "billion"), (_MILLION, "million")):
        if rounded >= unit:
            return f"{decimal(rounded / unit)} {word}"
    return cardinal(round(rounded))


def _beside_the_earth(times: float) -> str:
    """Return how wide something is beside the Earth."""
    if times < 0.9:
        return "About a quarter as wide as the Earth." if times < 0.3 else f"{_SHARES[times < 0.45]} as wide as the Earth."
    return "About as wide as the Earth." if times < 1.1 else f"About {large(times)} times as wide as the Earth."


_SHARES = {True: "A bit over a third", False: "About half"}
