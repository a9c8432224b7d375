"""How a kind of thing looks in the eyepiece, and how large it is, in words."""

from __future__ import annotations

from companion import observing
from companion.languages.en.number_words import cardinal, count_of
from companion.observing import Size
from companion.sky import Body

_LOOKS = {
    "planet": "Expect a small, sharp disc.",
    "moon": "Expect it bright: begin at the edge of the shadow.",
    "double star": "Expect one star at low power: more power splits it in two.",
    "star": "Expect a point, at any power.",
    "carbon star": "Expect a point, as orange as an ember.",
    "variable star": "Expect a point: compare it with its neighbours.",
    "open cluster": "Expect a loose knot of stars.",
    "globular cluster": "Expect a round, grainy glow, brighter in the middle.",
    "galaxy": "Expect a soft grey glow, brighter in the middle.",
    "nebula": "Expect a grey mist without an edge.",
    "planetary nebula": "Expect a small grey disc, like a star out of focus.",
    "star cloud": "Expect more stars than anywhere around.",
    "user": "I don't know how it looks.",
}
_MOON_ARCMIN = 31.0
_SIZES = {
    Size.NEARLY_A_STAR: "Hardly larger than a star.",
    Size.A_TWENTIETH: "A twentieth of the Moon's width.",
    Size.AN_EIGHTH: "An eighth of the Moon's width.",
    Size.A_QUARTER: "A quarter of the Moon's width.",
    Size.A_HALF: "Half the Moon's width.",
    Size.THE_MOON: "About as wide as the Moon.",
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
        return f"The two stand {count_of(max(1, arcsec), 'arcsecond')} apart."
    if (words := _SIZES.get(observing.size(body.size_arcmin))) is not None:
        return words
    return f"{cardinal(round(body.size_arcmin / _MOON_ARCMIN)).capitalize()} times as wide as the Moon."
