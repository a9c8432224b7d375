"""Evenings typed by an honest observer beside a mount with one mistake: all that is said follows from where the mount stops.

The conversation is the live one, as typed lines go through it. Misses are told in fists, rounded to half of one, or as a turn of the body.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import numpy as np

from companion.dialogue import Conversation, Turn, turns
from companion.documents.equipment_tables import equipment_from
from companion.documents.site_table import site_from
from companion.messages import Hearing
from companion.procedure import EVENING
from companion.talk.mistakes_phrases import (
    CheckThis,
    IsItsTimeRight,
    IsTheGroundSoft,
    MendThese,
    WasItKnocked,
    WhichWayAndHowFar,
    WhichWayDidItFace,
)
from companion.talk.saying import Answers, Ask
from tests.english import ENGLISH, VOCABULARY

from .evening import Evening, Telling, run_mount, told_by_astropy
from .mistakes import Mistakes
from .people import Person
from .truth import horizontal, stars

START = datetime(2026, 10, 15, 23, 10, tzinfo=UTC)
LATITUDE_DEG, LONGITUDE_DEG, DECLINATION_DEG = 46.31, -67.52, -16.0
"""Where the compass points sixteen degrees to the left (World Magnetic Model)."""
MOST_SLEWS = 12
FACTS = {
    "site": {"name": "a clearing", "latitude_deg": LATITUDE_DEG, "longitude_deg": LONGITUDE_DEG, "elevation_m": 180},
    "mount": {"last_keys": "up-right", "star_choice": "list", "pose_time": "before-power"},
    "observer": {"compass": "card"},
}
BEFORE = (
    *("yes", "yes", "ready", "ready", "it's level", "ready", "ready", "ready", "ready", "no", "it's level", "facing north"),
    *("the tube is level", "it's on", "next line", "next line", "next line", "next line", "next line", "everything's in"),
)
"""What is answered until the first star."""
PLAIN = {
    "level-again": "it's level",
    "north-again": "facing north",
    "tube-level-again": "the tube is level",
    "is-it-centred": "dead centre",
}
ABOUT = {
    "is-its-time-right": "time",
    "which-way-did-it-face": "facing",
    "is-the-ground-soft": "soft_ground",
    "was-it-knocked": "knocked",
}
FISTS = {0.5: "half a fist", 1.0: "a fist", 1.5: "a fist and a half", 2.0: "two fists", 2.5: "two and a half fists", 3.0: "three fists"}
FISTS |= {3.5: "four fists", 4.0: "four fists", 4.5: "five fists", 5.0: "five fists"}


def no_mistake() -> Mistakes:
    """Return a mount set up without any error at all, for as many slews as it takes."""
    first = stars()[0].index("Vega")
    times = tuple(START for _ in range(MOST_SLEWS))
    evening = _evening([first] * MOST_SLEWS, times)
    mistakes = evening.mistakes("none", np.random.default_rng(1), 1)
    mistakes.start_deg[:], mistakes.lean_deg[:], mistakes.rotation[:], mistakes.by_arc[:] = 0.0, 0.0, False, False
    return mistakes


def _evening(chosen: list[int], times: tuple[datetime, ...]) -> Evening:
    sky = np.stack([horizontal(LATITUDE_DEG, LONGITUDE_DEG, time) for time in times])
    local = START + timedelta(hours=LONGITUDE_DEG / 15.0)
    return Evening(Telling(len(chosen), "eye"), LATITUDE_DEG, LONGITUDE_DEG, local, START, times, tuple(chosen), sky, DECLINATION_DEG)


class Observer:
    """Somebody who answers as it is, and does what is to be done."""

    def __init__(self, mistakes: Mistakes, *, knocked: bool = False) -> None:
        """Begin with one mistake."""
        self.mistakes = mistakes
        self.knocked = knocked
        self.lines: list[str] = []
        self.cures: list[tuple[str, ...]] = []
        self.questions = 0
        self._before = iter(BEFORE)
        self._begin()

    def _begin(self) -> None:
        self._chosen: list[int] = []
        self._times: list[datetime] = []
        self._left: set[int] = set()
        self._is_centred = True

    def line(self, turn: Turn, question: Ask[Answers], time: datetime) -> str | None:
        """Return what is typed; None at the mount's verdict."""
        if (known := next(self._before, None)) is not None:
            return known
        code, said = question.code(), PLAIN.get(question.code())
        match question:
            case MendThese(cures=cures):
                said = self._mend(cures)
            case CheckThis(about, star, instead):
                said = self._answer(about, star, instead)
            case IsItsTimeRight() | WhichWayDidItFace() | IsTheGroundSoft() | WasItKnocked():
                said = self._answer(ABOUT[code])
            case WhichWayAndHowFar():
                said = self._where()
            case _ if code == "is-it-in-the-finder":
                steered = not self._goes_to_another(turn, time)
                said = "it's in the finder" if steered or max(map(abs, self._lies())) <= 5.0 else "it's way off"
            case _ if code == "is-it-centred":
                self._is_centred = True
            case _:
                pass
        return said

    def _mend(self, cures: tuple[str, ...]) -> str:
        """Do what is to be done, and begin again."""
        self.cures.append(cures)
        if self._person().is_mended_by(cures):
            self.mistakes = no_mistake()
        self._begin()
        return "ready"

    def _goes_to_another(self, turn: Turn, time: datetime) -> bool:
        """Have the mount go to a star that was named; the one before was left where nobody centred it. Else it is steered to."""
        named = [star for saying in turn.sayings if (star := getattr(saying, "star", None)) is not None]
        if not named:
            return False
        if not self._is_centred:
            self._left.add(len(self._chosen) - 1)
        self._chosen.append(stars()[0].index(named[-1]))
        self._times.append(time)
        self._is_centred = False
        return True

    def _lies(self) -> tuple[float, float]:
        """Return how far right and up the star lies now."""
        evening = _evening(self._chosen, tuple(self._times))
        exact = run_mount(evening, self.mistakes, told_by_astropy(evening, self.mistakes), self._left)
        return float(exact.right_deg[0, -1]), float(exact.up_deg[0, -1])

    def _where(self) -> str:
        """Return where the star lies in words."""
        evening = _evening(self._chosen, tuple(self._times))
        exact = run_mount(evening, self.mistakes, told_by_astropy(evening, self.mistakes), self._left)
        turn = float(exact.turn_deg[0, -1])
        if abs(turn) > 60.0:
            side = "right" if turn > 0 else "left"
            return "it's behind me" if abs(turn) > 120.0 else f"a quarter turn {side}"
        parts = []
        for size, more, less in zip(self._lies(), ("right", "up"), ("left", "down"), strict=True):
            half_fists = round(abs(size) / 5.0) / 2.0
            if half_fists:
                parts.append(f"{FISTS[min(half_fists, 5.0)]} {more if size > 0 else less}")
        return " and ".join(parts)

    def _person(self) -> Person:
        evening = _evening(self._chosen, tuple(self._times))
        return Person(evening, self.mistakes, answers_wrongly=0.0, cant_tell=0.0, knocked=self.knocked)

    def _answer(self, about: str, star: str | None = None, instead: str | None = None) -> str:
        """Return the true answer as it is typed."""
        self.questions += 1
        return self._person().answer(about, star, instead, len(self._chosen) - 1, np.random.default_rng(0))


def evening_typed(observer: Observer) -> list[str]:
    """Hold the evening up to the mount's verdict; return both sides' lines."""
    time = START
    conversation = Conversation(EVENING, site_from(FACTS["site"], "site"), ENGLISH, equipment=equipment_from(FACTS), by_voice=False)
    lines: list[str] = []
    latest: list[Turn] = []

    def hear(question: Ask[Answers]) -> Hearing | None:
        nonlocal time
        time += timedelta(seconds=20)
        words = observer.line(latest[-1], question, time)
        if words is None:
            return None
        lines.append(f"you: {words}")
        return VOCABULARY.understand(words, question.expects)

    for _, turn in turns(conversation.begin(time), hear, lambda heard: conversation.hear(heard, time)):
        latest.append(turn)
        lines.append("it:  " + " ".join(conversation.words(saying, time) for saying in turn.sayings))
    return lines
