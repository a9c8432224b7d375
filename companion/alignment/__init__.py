"""Teaching a mount the sky: which stars to centre, true north, the pointing fit and the error to expect. No clock, no words, no audio."""

from companion.alignment.bright_things import alignment_bodies, bright_things
from companion.alignment.expected_error import expected_error_deg
from companion.alignment.finder_alignment import far_enough_m
from companion.alignment.fist import fist_from, fist_pair
from companion.alignment.north_mark import north_mark
from companion.alignment.pointing import fit
from companion.alignment.pole import MIDDLE_OF_THE_W, NORTHERN, PoleWay, pole_way
from companion.alignment.shadow import shadow_direction, sunset_direction
from companion.alignment.star_choice import reasons_for, reference_stars, rivals
from companion.alignment.star_verdict import StarVerdict, judge_star
from companion.alignment.tube_turn import TubeTurn, tube_turn

__all__ = [
    "MIDDLE_OF_THE_W",
    "NORTHERN",
    "PoleWay",
    "StarVerdict",
    "TubeTurn",
    "alignment_bodies",
    "bright_things",
    "expected_error_deg",
    "far_enough_m",
    "fist_from",
    "fist_pair",
    "fit",
    "judge_star",
    "north_mark",
    "pole_way",
    "reasons_for",
    "reference_stars",
    "rivals",
    "shadow_direction",
    "sunset_direction",
    "tube_turn",
]
