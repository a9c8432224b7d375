"""How a kind of thing looks in the eyepiece, and how large it is, in words."""

from __future__ import annotations

from companion import observing
from companion.languages.ko.number_words import amount_of, cardinal
from companion.observing import Size
from companion.sky import Body

_LOOKS = {
    "planet": "작고 또렷한 원반으로 보여요.",
    "moon": "아주 밝아요. 그림자 가장자리부터 보세요.",
    "double star": "저배율에서는 별 하나로 보이고, 배율을 높이면 둘로 갈라져요.",
    "star": "배율을 높여도 점으로 보여요.",
    "carbon star": "불씨처럼 붉은 주황색 점으로 보여요.",
    "variable star": "점으로 보여요. 이웃 별들과 밝기를 견주어 보세요.",
    "open cluster": "별들이 성기게 모여 있어요.",
    "globular cluster": "둥글고 자잘한 빛 뭉치예요. 가운데가 더 밝아요.",
    "galaxy": "부드러운 회색 빛이에요. 가운데가 더 밝아요.",
    "nebula": "가장자리가 흐릿한 회색 안개처럼 보여요.",
    "planetary nebula": "초점이 안 맞은 별처럼 작은 회색 원반이에요.",
    "star cloud": "둘레보다 별이 훨씬 많아요.",
    "user": "어떻게 보이는지는 저도 몰라요.",
}
_MOON_ARCMIN = 31.0
_SIZES = {
    Size.NEARLY_A_STAR: "별보다 조금 클 뿐이에요.",
    Size.A_TWENTIETH: "크기는 달 지름의 이십분의 일쯤이에요.",
    Size.AN_EIGHTH: "크기는 달 지름의 팔분의 일쯤이에요.",
    Size.A_QUARTER: "크기는 달 지름의 사분의 일쯤이에요.",
    Size.A_HALF: "크기는 달 지름의 절반쯤이에요.",
    Size.THE_MOON: "크기는 달만 해요.",
}


def expected(kind: str) -> str:
    """Return what to expect of a kind of thing: a sentence."""
    return _LOOKS[kind]


def size_in_words(body: Body) -> str:
    """Return how large it is, a sentence; of a double star how far apart. Nothing where the sky doesn't know, or it has no size."""
    if body.size_arcmin is None:
        return ""
    if body.kind == "double star":
        arcsec = round(body.size_arcmin * 60.0)
        return f"두 별은 {amount_of(max(1, arcsec), '초')} 떨어져 있어요."
    if (words := _SIZES.get(observing.size(body.size_arcmin))) is not None:
        return words
    return f"크기는 달 지름의 {cardinal(round(body.size_arcmin / _MOON_ARCMIN))} 배쯤이에요."
