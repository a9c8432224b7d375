"""The story of a thing in the sky, in Korean."""

from __future__ import annotations

from companion.languages.ko.fact_words import distance, light_age, nature, shown, what_it_is
from companion.languages.ko.look_for import look_for
from companion.languages.phrase import Scene
from companion.sky import Body, Kind


def story(scene: Scene, *, name: str) -> str:
    """Tell what it is, how far, how old its light, and what is seen of it."""
    body = shown(scene, name)
    known = distance(body, scene)
    parts = (what_it_is(scene, name=name), known, light_age(scene, name=name) if known else "", look_for(body, scene) or "")
    return " ".join(part for part in parts if part)


def story_of_a_target(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool) -> str:
    """Introduce a target by its story."""
    return story(scene, name=target)


def what_is_not_seen(scene: Scene, body: Body) -> str:
    """Say what no eye can tell of it."""
    known = distance(body, scene)
    return " ".join(part for part in (nature(body), known, light_age(scene, name=body.name) if known else "") if part)
