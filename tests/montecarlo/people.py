"""People who answer questions about a made-up evening: mostly as it is, now and then wrongly, now and then not at all."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np

from .evening import Evening, run_mount, told_by_turning
from .mistakes import Mistakes
from .truth import stars, vector

POINTS = ("north", "east", "south", "west")
OTHERWISE_LEVEL_DEG, BUBBLE_OFF_DEG = 4.0, 3.0
"""What is still called level along the tube, and how far a base leans whose bubble is off its middle."""
NORTH_ENOUGH_DEG, IN_PLACE_DEG = 7.0, 5.0
"""How far from north a compass still shows it "a few degrees either way", and how far off a star's figures may be to be called right."""

FIST_DEG = 10.0

_NEEDED = {
    "start_azimuth": {"north"},
    "magnetic_declination": {"north"},
    "reversed": {"north"},
    "start_altitude": {"tube_level"},
    "base_tilt": {"bubble"},
    "date_day": {"date"},
    "date_month": {"date"},
    "latitude": {"latitude"},
    "longitude": {"longitude"},
    "site": {"latitude", "longitude"},
    "wrong_star": {"star"},
    "slipped": {"clamps"},
    "none": {"none"},
}
"""What must be done again at least; of an hour it depends."""
SOFT_GROUND, KNOCKED = {"base_tilt": 0.7}, {"base_tilt": 0.4, "slipped": 0.4, "start_azimuth": 0.1}
"""How often the ground is soft, and something was knocked, beside which mistake; judgement, as is how often beside the others."""
SOFT_OTHERWISE, KNOCKED_OTHERWISE = 0.4, 0.05
_ANOTHER_LOOK = {"base_level": "bubble", "altitude_circle": "tube_level", "tube_gives": "clamps"}
"""What shows the same in another way: people err in it anew, for they do something else."""


@dataclass(frozen=True)
class Person:
    """Somebody at one evening with one mistake."""

    evening: Evening
    mistakes: Mistakes
    """One row."""
    answers_wrongly: float = 0.1
    cant_tell: float = 0.1
    on_soft_ground: bool = False
    knocked: bool = False

    @property
    def errs_at(self) -> int:
        """The slew at which the mistake is made: 0 for all that is wrong from the start."""
        if self.mistakes.cause == "wrong_star":
            return int(self.mistakes.wrong[0])
        return int(np.argmax(np.any(self.mistakes.slip_deg[0] != 0.0, axis=-1)))

    @property
    def steered_far(self) -> bool:
        """Whether the first star lay more than a fist from where the telescope stopped."""
        lay = run_mount(self.evening, self.mistakes, told_by_turning(self.evening, self.mistakes))
        return bool(np.hypot(lay.right_deg[0, 0], lay.up_deg[0, 0]) > FIST_DEG)

    def answer(self, about: str, star: str | None, instead: str | None, last: int, rng: np.random.Generator) -> str:
        """Return what is answered to a question; ``last``: the number of the slew they stand at."""
        truth = self.truth(about, star, instead, last)
        chance = rng.random()
        if chance < self.cant_tell:
            return "cant_tell"
        if chance < self.cant_tell + self.answers_wrongly:
            others = POINTS if about == "facing" else ("yes", "no")
            return str(rng.choice([other for other in others if other != truth]))
        return truth

    def truth(self, about: str, star: str | None, instead: str | None, last: int) -> str:
        """Return the right answer."""
        m, evening = self.mistakes, self.evening
        latitude, longitude = float(m.latitude_deg[0]), float(m.longitude_deg[0])
        wrong_at = int(m.wrong[0])
        confused = stars()[0][evening.chosen[wrong_at]] if wrong_at >= 0 else None
        really = stars()[0][int(m.instead[0])] if wrong_at >= 0 else None
        far = {"latitude": abs(latitude - evening.latitude_deg) > 0.5, "longitude": abs(longitude - evening.longitude_deg) > 0.5}
        if about == "facing":
            return POINTS[round(float(m.start_deg[0, 0]) / 90.0) % 4]
        if about == "position":
            told, star_at = told_by_turning(evening, m)[0, last], evening.sky[last, evening.chosen[last]]
            away = np.degrees(np.arccos(np.clip(vector(*told) @ vector(*star_at), -1.0, 1.0)))
            return "no" if away > IN_PLACE_DEG else "yes"
        if about in ("soft_ground", "knocked", "first_far"):
            so = {"soft_ground": self.on_soft_ground, "knocked": self.knocked, "first_far": self.steered_far}
            return "yes" if so[about] else "no"
        about = _ANOTHER_LOOK.get(about, about)
        if about == "double":
            return "yes" if (star, instead) == (confused, really) else "no"
        if about == "below_horizon":
            return "yes" if told_by_turning(evening, m)[0, last, 1] < 0.0 else "no"
        is_wrong = {
            "daylight_saving": m.cause == "hour" and m.members[0] == "daylight_saving",
            "time_zone": m.cause == "hour" and m.members[0] == "time_zone",
            "time": m.cause == "hour" and m.members[0] in ("am_pm", "clock"),
            "date": m.cause in ("date_day", "date_month"),
            "latitude": far["latitude"],
            "longitude": far["longitude"],
            "place": any(far.values()),
            "longitude_side": ((longitude + 180.0) % 360.0 - 180.0 > 0.0) != (evening.longitude_deg > 0.0),
            "heading": abs((float(m.start_deg[0, 0]) + 180.0) % 360.0 - 180.0) > NORTH_ENOUGH_DEG,
            "bubble": float(np.hypot(*m.lean_deg[0])) > BUBBLE_OFF_DEG,
            "tube_level": abs(float(m.start_deg[0, 1])) > OTHERWISE_LEVEL_DEG,
            "clamps": bool(np.any(m.slip_deg)),
            "star": confused is not None and star == confused,
        }
        return "no" if is_wrong[about] else "yes"

    def is_mended_by(self, done: Collection[str]) -> bool:
        """Say whether what was done again mends the mistake."""
        cause, member = self.mistakes.cause, str(self.mistakes.members[0])
        needed = _NEEDED.get(cause) or ({"daylight_saving", "time_zone"} & {member} or {"time"})
        return needed <= set(done)
