"""English for observers who tell of their sight, and of who looks for them."""

from __future__ import annotations

from collections.abc import Mapping

from companion.equipment import FinderKind, Limit, Looker, SightLeft
from companion.languages.en.number_words import cardinal
from companion.languages.phrase import Chapter, Scene
from companion.talk.sight_phrases import GearNoted, LimitNoted, SightNoted


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


_FINDERS: Mapping[FinderKind, str] = {"dot": "a finder with a dot", "optical": "a finder that magnifies"}


def gear_noted(
    scene: Scene, *, aperture_mm: float | None, focal_length_mm: float | None, finder: FinderKind | None, on_the_ground: bool
) -> str:
    """Confirm what was told of the telescope."""
    wide = [] if aperture_mm is None else [f"{cardinal(round(aperture_mm))} millimetres wide"]
    long = [] if focal_length_mm is None else [f"focal length {cardinal(round(focal_length_mm))} millimetres"]
    told = ", ".join((*wide, *long, *([] if finder is None else [_FINDERS[finder]])))
    noted = f"Noted: {told}." if told else "Noted."
    return f"{noted} Where I say tripod, take its base on the ground." if on_the_ground else noted


SIGHT = Chapter({SightNoted: sight_noted, LimitNoted: limit_noted, GearNoted: gear_noted})
