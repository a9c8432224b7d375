"""Which turns are worth telling, whatever the language."""

from __future__ import annotations

from companion import alignment, sky
from companion.alignment import TubeTurn
from companion.languages.phrase import Scene
from companion.sky import Sight
from companion.talk.stars_phrases import STARTING_POSE


def tube_turn(sight: Sight, scene: Scene, from_star: str | None) -> TubeTurn | None:
    """Return how the tube has to go to a sight from where it is; what is less than half a fist is 0, None where nobody knows where it is.

    Before the first star it stands level and north, and how far up it must go needn't be told; else it stands at the star before.
    """
    if from_star is None:
        return None
    at_rest = from_star == STARTING_POSE
    last = None if at_rest else sky.sight(sky.find(from_star), scene)
    turn = alignment.tube_turn(0.0, 0.0, sight) if last is None else alignment.tube_turn(last.azimuth_deg, last.altitude_deg, sight)
    least_deg = scene.fist_deg / 2
    right_deg = turn.right_deg if abs(turn.right_deg) >= least_deg else 0.0
    return TubeTurn(right_deg, turn.up_deg if abs(turn.up_deg) >= least_deg and not at_rest else 0.0)
