"""What an observer runs into in the middle of a step: how exact must it be, what if I have none, something is in the way.

Codes, also the grammar's tags. Every one has an answer.
"""

from __future__ import annotations

import enum


class Advice(enum.StrEnum):
    """A thing that somebody at a telescope runs into."""

    FIRST_TIME = "first-time"
    BALCONY = "balcony"
    BLURRED = "blurred"
    BRIGHT_DOT = "bright-dot"
    COLD = "cold"
    COMPASS_WANDERS = "compass-wanders"
    DARK_FOR_A_MARK = "dark-for-a-mark"
    FINDER_STUCK = "finder-stuck"
    HOW_FAR_A_MARK = "how-far-a-mark"
    HOW_LEVEL = "how-level"
    HOW_NORTH = "how-north"
    HOW_TALL = "how-tall"
    INSECTS = "insects"
    LEGS_STUCK = "legs-stuck"
    LIGHTS = "lights"
    MOON_AS_MARK = "moon-as-mark"
    NO_BUBBLE = "no-bubble"
    NO_COMPASS = "no-compass"
    NO_FINDER = "no-finder"
    NO_MARK = "no-mark"
    PHONE_COMPASS = "phone-compass"
    POLE_STAR = "find-the-pole-star"
    SLOPE = "slope"
    SOFT_GROUND = "soft-ground"
    TABLE = "table"
    TREE_NORTH = "tree-in-the-north"
    TURNED_ROUND = "turned-round"
    WEATHER = "weather"
    WHAT_I_CAN_DO = "what-you-can-do"
    WHICH_SCREW = "which-screw"
    WHO_YOU_ARE = "who-you-are"
    WIND = "wind"
    WOBBLES = "wobbles"
