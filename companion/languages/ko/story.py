"""The story of a thing in the sky, in Korean."""

from __future__ import annotations

from companion.languages.ko.direction_words import place_in_sky
from companion.languages.ko.fact_words import distance, light_age, named_and_its_kind, nature
from companion.languages.ko.look_for import look_for, what_it_is
from companion.languages.ko.sight_words import SUN_CAUTION
from companion.languages.ko.target_words import expected
from companion.languages.phrase import Scene
from companion.sky import Body, Kind, sight


def story(scene: Scene, *, name: str) -> str:
    """Tell what it is, how far, how old its light, and what is seen of it."""
    body = scene.shown(name)
    seen = SUN_CAUTION if body.kind == "sun" else look_for(body, scene) or ("" if body.kind == "user" else expected(body.kind))
    return _joined(named_and_its_kind(body), what_is_not_seen(scene, body), seen)


def story_of_a_target(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool) -> str:
    """Introduce a target by its story, and say where it stands: for who can't look for it."""
    body = scene.find(target)
    up = sight(body, scene)
    place = f"{place_in_sky(up.altitude_deg, up.azimuth_deg)}에 있어요." if up.altitude_deg >= 0 else ""
    seen = look_for(body, scene) or ("" if kind == "user" else expected(kind))
    return _joined(what_it_is(body, kind), place, what_is_not_seen(scene, scene.shown(target)), seen)


def what_is_not_seen(scene: Scene, body: Body) -> str:
    """Say what no eye can tell of it."""
    known = distance(body, scene)
    return _joined(nature(body), known, light_age(scene, name=body.name) if known else "")


def _joined(*parts: str) -> str:
    return " ".join(part for part in parts if part)
