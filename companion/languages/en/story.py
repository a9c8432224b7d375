"""The story of a thing in the sky: what it is, how far, how old its light, and what the eye at the eyepiece sees."""

from __future__ import annotations

from companion import observing
from companion.languages.en.direction_words import place_in_sky, sentence
from companion.languages.en.fact_words import KINDS, distance, large, light_age
from companion.languages.en.look_for import look_for
from companion.languages.en.sight_words import SUN_CAUTION
from companion.languages.en.spoken_names import kind_in_words, name_and_number, spoken_name
from companion.languages.en.target_words import expected
from companion.languages.phrase import Scene
from companion.sky import Body, Kind, sight


def story(scene: Scene, *, name: str) -> str:
    """Tell it in four or five sentences; of the observer's own objects only what they told, of the Sun with its caution."""
    body = scene.shown(name)
    kind, named = kind_in_words(body.kind), spoken_name(name)
    seen = SUN_CAUTION if body.kind == "sun" else look_for(body, scene) or ("" if body.kind == "user" else expected(body.kind))
    return _joined(sentence(named if named == kind else f"{named}, {kind}"), what_is_not_seen(scene, body), seen)


def story_of_a_target(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool) -> str:
    """Introduce a target by its story, and say where it stands: for who can't look for it."""
    body = scene.find(target)
    up = sight(body, scene)
    what = "" if kind == "moon" else f", {kind_in_words(kind)}"
    place = f", {place_in_sky(up.altitude_deg, up.azimuth_deg)}" if up.altitude_deg >= 0 else ""
    seen = look_for(body, scene) or ("" if kind == "user" else expected(kind))
    return _joined(sentence(f"{name_and_number(body)}{what}{place}"), what_is_not_seen(scene, scene.shown(target)), seen)


def what_is_not_seen(scene: Scene, body: Body) -> str:
    """Say what no eye can tell of it: what it really is, how far it is and how old its light, so far as we know."""
    if observing.light_seconds(body, scene) is not None:
        return _joined(KINDS[body.kind], distance(body, scene), light_age(scene, name=body.name))
    years = observing.light_years(body)
    if years is None:
        return KINDS[body.kind]
    return f"{KINDS[body.kind]} {sentence(f'{large(years)} light-years away: its light has been on the way for as many years')}"


def _joined(*parts: str) -> str:
    return " ".join(part for part in parts if part)
