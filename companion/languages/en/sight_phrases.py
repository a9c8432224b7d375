"""English for observers who tell of their sight, and of who looks for them."""

from __future__ import annotations

from companion.equipment import Looker, SightLeft
from companion.languages.phrase import Chapter, Scene
from companion.talk.sight_phrases import SightNoted


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


SIGHT = Chapter({SightNoted: sight_noted})
