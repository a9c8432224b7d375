"""English for observers who tell of their sight, and of who looks for them."""

from __future__ import annotations

from collections.abc import Mapping

from companion.equipment import Limit, Looker, SightLeft
from companion.languages.phrase import Chapter, Scene
from companion.talk.sight_phrases import LimitNoted, SightNoted


def sight_noted(scene: Scene, *, sight: SightLeft | None, eyes: Looker | None) -> str:
    """Confirm in one sentence what is different from now on."""
    match eyes, sight:
        case "child", _:
            return "Then I say eyes when I mean the child, and hands when I mean you."
        case "helper", _:
            return "Then I say eyes when I mean your friend, and hands when I mean you."
        case _, "none":
            return "Then we go by touch and ear; if anyone comes to look for you, say: someone looks for me."
        case _, "little":
            return "Then I choose only the brightest stars, and go by keys instead of looks."
        case _:
            return "Then you look for yourself again."


_LIMITS: Mapping[Limit, str] = {
    "kneeling": "Then from the next part on I choose nothing that you must kneel for.",
    "reaching": "Then from the next part on I choose nothing that you must reach up for.",
    "faint-stars": "Then from the next part on I choose only bright stars.",
}


def limit_noted(scene: Scene, *, limit: Limit) -> str:
    """Confirm what is chosen otherwise."""
    return _LIMITS[limit]


SIGHT = Chapter({SightNoted: sight_noted, LimitNoted: limit_noted})
