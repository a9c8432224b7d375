"""Which colour a star or planet shows, where it is strong enough to be worth saying."""

from __future__ import annotations

from typing import Literal

from companion.sky.types import Body

Colour = Literal["orange-red", "orange", "yellow", "blue-white"]

FAINTEST_MAG = 2.5
"""The eye sees no colour in a fainter star. Common practice, no published source."""

# By B-V. From 1.4 on lie the M giants and the latest K giants that everyone calls reddish (Betelgeuse 1.50, Antares 1.87); from 1.0 the K
# giants that look orange beside a white star (Arcturus 1.24, Pollux at 0.99 just not); up to -0.15 the B stars whose blue is noticed
# (Spica -0.24, but neither Regulus -0.09 nor Rigel -0.03). Between them most people just see white. Judgement.
ORANGE_RED_FROM, ORANGE_FROM, BLUE_WHITE_TO = 1.4, 1.0, -0.15
_PLANETS: dict[str, Colour] = {"Mars": "orange-red", "Saturn": "yellow"}


def colour(body: Body) -> Colour | None:
    """Return a body's colour to the bare eye; None where it is weak, unknown or the body too faint to show it."""
    if body.kind == "planet":
        return _PLANETS.get(body.name)
    if body.color_index is None or body.magnitude is None or body.magnitude > FAINTEST_MAG:
        return None
    if body.color_index >= ORANGE_FROM:
        return "orange-red" if body.color_index >= ORANGE_RED_FROM else "orange"
    return "blue-white" if body.color_index <= BLUE_WHITE_TO else None
