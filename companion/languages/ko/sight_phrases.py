"""Korean for observers who tell of their sight, and of who looks for them."""

from __future__ import annotations

from collections.abc import Mapping

from companion.equipment import FinderKind, Limit, Looker, SightLeft
from companion.languages.ko.number_words import cardinal
from companion.languages.phrase import Chapter, Scene
from companion.talk.sight_phrases import GearNoted, LimitNoted, SightNoted


def sight_noted(scene: Scene, *, sight: SightLeft | None, eyes: Looker | None) -> str:
    """Confirm in one sentence what is different from now on."""
    match eyes, sight:
        case "child", _:
            return "이제 눈이라고 하면 아이에게, 손이라고 하면 본인에게 하는 말이에요."
        case "helper", _:
            return "이제 눈이라고 하면 친구분에게, 손이라고 하면 본인에게 하는 말이에요."
        case _, "none":
            return "이제 만지고 들으면서 할게요. 대신 봐 줄 사람이 오면 다른 사람이 봐 줘요라고 하세요."
        case _, "little":
            return "이제 가장 밝은 별만 고르고, 버튼으로 안내할게요."
        case _:
            return "이제 다시 직접 보시는 걸로 할게요."


_LIMITS: Mapping[Limit, str] = {
    "kneeling": "다음 부분부터는 무릎을 꿇어야 보이는 것을 고르지 않을게요.",
    "reaching": "다음 부분부터는 팔을 높이 올려야 하는 것을 고르지 않을게요.",
    "faint-stars": "다음 부분부터는 밝은 별만 고를게요.",
}


def limit_noted(scene: Scene, *, limit: Limit) -> str:
    """Confirm what is chosen otherwise."""
    return _LIMITS[limit]


_FINDERS: Mapping[FinderKind, str] = {"dot": "점이 있는 파인더", "optical": "확대되는 파인더"}


def gear_noted(
    scene: Scene, *, aperture_mm: float | None, focal_length_mm: float | None, finder: FinderKind | None, on_the_ground: bool
) -> str:
    """Confirm what was told of the telescope."""
    wide = [] if aperture_mm is None else [f"구경 {cardinal(round(aperture_mm))} 밀리미터"]
    long = [] if focal_length_mm is None else [f"초점 거리 {cardinal(round(focal_length_mm))} 밀리미터"]
    told = ", ".join((*wide, *long, *([] if finder is None else [_FINDERS[finder]])))
    noted = f"적어 뒀어요, {told}." if told else "적어 뒀어요."
    return f"{noted} 제가 삼각대라고 하면 바닥에 놓는 받침으로 생각하세요." if on_the_ground else noted


SIGHT = Chapter({SightNoted: sight_noted, LimitNoted: limit_noted, GearNoted: gear_noted})
