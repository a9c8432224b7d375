"""Whole conversations about a miss as they are lived: the script itself is answered by people who err, beside a mount written anew.

The mount goes to star after star. What lies near is steered to without a word; of a star that lies way off the miss is told, and where
the script then looks for the mistake its questions are answered (``people``). It ends in a cure, or the star is steered to, or left for
another. A cure that mends nothing is followed by a second go from the start position, with everyday errors and readings of its own.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from itertools import pairwise
from typing import Any

import numpy as np

from companion.diagnosis import Cure
from companion.messages import Answer
from companion.places import declination
from companion.procedure.alignment_state import STAR_COUNTS, AlignmentState
from companion.procedure.notes import LikelyCause, MissTold
from companion.procedure.script import Context
from companion.procedure.why_it_failed import Unsolved, find_the_mistake
from companion.sky import Moment, Site
from companion.talk.mistakes_phrases import (
    CheckThis,
    IsItsTimeRight,
    IsTheGroundSoft,
    KeyOurTimeAgain,
    MendThese,
    WasItKnocked,
    WhichWayDidItFace,
)
from companion.talk.saying import Ask, Wanted

from .evening import TURN_SIGMA_DEG, Evening, Telling, draw_evening, read, run_mount, told_by_astropy
from .mistakes import CAUSES, FREQUENCY, Mistakes
from .people import KNOCKED, KNOCKED_OTHERWISE, SOFT_GROUND, SOFT_OTHERWISE, Person
from .truth import stars

WANTED = 3
"""So many stars the mount takes in; two more may be left for another."""
TELLINGS = (Telling(WANTED + 2, "eye"), Telling(WANTED + 2, "eye", first_centred=True))
"""Every star's miss is told where it is large; or the first star is steered to however far off it lies, and nobody told."""
NEAR_DEG = 5.0
"""A star so near is steered to without a word: it stands in the finder, or just outside. Common practice, no published source."""
BY_BODY_DEG = 50.0
"""Beyond five fists nobody measures: it is told by turning towards it."""
SURE = 0.9
"""A cause this likely is named plainly."""


@dataclass(frozen=True)
class Talk:
    """How one conversation went."""

    cause: str
    cures: tuple[str, ...]
    """What was to be done again, the first time; ``none`` where the star was to be steered to."""
    said: float
    """How likely that was held to mend it."""
    right: bool
    second_right: bool
    """Whether the first or the second cure mended it."""
    questions: int
    """Until the first cure."""
    more_questions: int
    """From there to the second."""
    stars: int
    """How many stars were gone to until the first cure."""

    @property
    def things(self) -> int:
        """How many things were to be done again."""
        return len(self.cures)


@dataclass(frozen=True)
class Cured:
    """What a search for the mistake came to."""

    cures: tuple[Cure, ...]
    said: float
    questions: int
    stars: int


def draw_talks(telling: Telling, count: int, seed: int) -> Iterator[Talk]:
    """Yield so many conversations, mistakes as often as they come; an evening that gives no cause to look for one is no conversation."""
    rng = np.random.default_rng([seed, TELLINGS.index(telling), 7])
    weights = np.array([FREQUENCY[cause] for cause in CAUSES])
    while count > 0:
        evening = _where_the_compass_points(draw_evening(rng, telling))
        person = draw_person(evening, str(rng.choice(CAUSES, p=weights / weights.sum())), rng)
        talk = converse(person, rng)
        if talk is not None:
            yield talk
            count -= 1


def _where_the_compass_points(evening: Evening) -> Evening:
    """Return the evening with the declination of its place: nobody tells the script another, and its model is checked elsewhere."""
    east = declination(Moment(Site(evening.latitude_deg, evening.longitude_deg), evening.start)).declination_deg
    return evening if east is None else replace(evening, declination_deg=east)


def draw_person(evening: Evening, cause: str, rng: np.random.Generator) -> Person:
    """Return somebody who makes that mistake no later than at the last star the mount wants."""
    while True:
        soft, knocked = rng.random(2) < (SOFT_GROUND.get(cause, SOFT_OTHERWISE), KNOCKED.get(cause, KNOCKED_OTHERWISE))
        person = Person(evening, evening.mistakes(cause, rng, 1), on_soft_ground=bool(soft), knocked=bool(knocked))
        if person.errs_at < WANTED:
            return person


def converse(person: Person, rng: np.random.Generator) -> Talk | None:
    """Go from the first star to the first cure, and to a second where that was in vain; None where no mistake was looked for."""
    evening = person.evening
    site = Site(evening.latitude_deg, evening.longitude_deg)
    state = AlignmentState(Context(site, evening.start, {}), evening.start, "list", STAR_COUNTS["list"])
    found = list(_cures(state, person, rng))
    if not found:
        return None
    first, *later = found
    right = person.is_mended_by(first.cures) or (first.cures == ("none",) and not later)
    second = right
    more = 0
    if not right:
        # Who was told to steer is told more when the next star is off; else all begins again, and the mount misses anew.
        if first.cures != ("none",):
            anew = state.suspicion.begun_again(state.misses, from_the_start_position=first.cures != ("star",))
            state = AlignmentState(state.context, state.started, "list", state.wanted, suspicion=anew)
            person = replace(person, mistakes=_again(person, rng))
            later = list(_cures(state, person, rng))
        second = not later or person.is_mended_by(later[0].cures)
        more = later[0].questions if later else 0
    return Talk(person.mistakes.cause, first.cures, first.said, right, second, first.questions, more, first.stars)


def _again(person: Person, rng: np.random.Generator) -> Mistakes:
    """Return the same mistake made again, with other everyday errors."""
    mistakes, fresh = person.mistakes, person.evening.mistakes("none", rng, 1)
    in_the_pose = {"start_azimuth", "magnetic_declination", "start_altitude", "reversed", "base_tilt"}
    return mistakes if mistakes.cause in in_the_pose else replace(mistakes, start_deg=fresh.start_deg, lean_deg=fresh.lean_deg)


def _cures(state: AlignmentState, person: Person, rng: np.random.Generator) -> Iterator[Cured]:
    """Go to star after star; yield what is to be done, up to what begins all again."""
    evening, mistakes = person.evening, person.mistakes
    told = told_by_astropy(evening, mistakes)
    left: set[int] = set()
    asked = 0
    for k, (number, time) in enumerate(zip(evening.chosen, evening.times, strict=True)):
        if len(state.centred) == WANTED:
            return
        name = stars()[0][number]
        exact = run_mount(evening, mistakes, told, left)
        right, up = float(exact.right_deg[0, k]), float(exact.up_deg[0, k])
        # Who centres another star than the one they saw rightly says nothing of it.
        steers = (evening.telling.first_centred and k == 0) or (mistakes.wrong[0] == k and not mistakes.told_of_it[0])
        if not steers and max(abs(right), abs(up)) > NEAR_DEG:
            lies = read("body" if max(abs(right), abs(up)) > BY_BODY_DEG else "eye", exact, k, rng)
            miss = MissTold(name, time, lies.get("right_deg"), lies.get("up_deg"), bool(state.centred))
            if "turn_deg" in lies:
                miss = replace(miss, turn_deg=lies["turn_deg"], turn_sigma_deg=TURN_SIGMA_DEG)
            state.misses.append(miss)
            if miss.is_large:
                if k < person.errs_at:
                    return  # the mistake isn't made yet: nothing that is said here can be right or wrong about it
                more = k + 1 < len(evening.chosen)
                ended, cured, questions = _searched(find_the_mistake(state, more_stars=more), person, k, rng)
                asked += questions
                if ended is Unsolved.ANOTHER_STAR:
                    state.refused.append(name)
                    left.add(k)
                    continue
                yield replace(cured, questions=asked, stars=k + 1)
                if ended is not Unsolved.ORDINARY:
                    return
        state.centred.append(name)
        state.centred_at[name] = time + timedelta(minutes=1)


def _searched(steps: Generator[Wanted, Answer, Any], person: Person, k: int, rng: np.random.Generator) -> tuple[Any, Cured, int]:
    """Answer the script's questions; return how it ended, what it found, and how many questions it took."""
    cured, questions = Cured(("none",), 0.0, 0, 0), 0
    wanted = next(steps)
    while True:
        answer: Answer | None = None
        match wanted:
            case LikelyCause(probability=p):
                cured = replace(cured, said=p)
            case MendThese(cures=cures):
                cured, answer = replace(cured, cures=cures), _said(wanted, "ready", person, k)
            case KeyOurTimeAgain():
                answer = _said(wanted, "ready", person, k)
            case CheckThis(about, star, instead):
                questions, answer = questions + 1, _said(wanted, person.answer(about, star, instead, k, rng), person, k)
            case IsItsTimeRight():
                questions, answer = questions + 1, _said(wanted, person.answer("time", None, None, k, rng), person, k)
            case IsTheGroundSoft() | WasItKnocked():
                about = "knocked" if isinstance(wanted, WasItKnocked) else "soft_ground"
                questions, answer = questions + 1, _said(wanted, person.answer(about, None, None, k, rng), person, k)
            case WhichWayDidItFace():
                questions, answer = questions + 1, _said(wanted, person.answer("facing", None, None, k, rng), person, k)
            case Ask():
                answer = _said(wanted, "yes", person, k)  # our own clock is right
            case _:
                pass
        try:
            wanted = next(steps) if answer is None else steps.send(answer)
        except StopIteration as ended:
            return ended.value, cured, questions


def _said(question: Ask[Any], tag: str, person: Person, k: int) -> Answer:
    """Return an answer by its tag."""
    return Answer(question.expects(tag.replace("_", "-")), person.evening.times[k] + timedelta(seconds=30), {})


def summary(talks: Sequence[Talk]) -> str:
    """Return the figures of some conversations."""
    count = len(talks)
    right, second, asked, things, stars = (
        np.mean([getattr(talk, name) for talk in talks]) for name in ("right", "second_right", "questions", "things", "stars")
    )
    more = np.mean([talk.more_questions for talk in talks if not talk.right] or [0.0])
    return "\n".join(
        (
            f"first cure right            {right:.3f} of {count}, give or take {np.sqrt(right * (1.0 - right) / count):.3f}",
            f"first or second right       {second:.3f}",
            f"called {SURE} or more, wrong  {np.mean([talk.said >= SURE and not talk.right for talk in talks]):.3f} of all",
            f"questions to the first cure {asked:.2f}, at most {max(talk.questions for talk in talks)}; to the second {more:.2f} more",
            f"stars {stars:.2f}, things to do again in the first cure {things:.2f}",
        )
    )


def reliability(talks: Sequence[Talk]) -> str:
    """Return how often a first cure called so likely was right."""
    lines = ["said between   cures  mean said  right"]
    for low, high in pairwise((0.0, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.01)):
        inside = [talk for talk in talks if low <= talk.said < high]
        if inside:
            right, said = np.mean([talk.right for talk in inside]), np.mean([talk.said for talk in inside])
            lines.append(f"{low:4.2f}..{min(high, 1.0):4.2f}   {len(inside):5d}  {said:9.2f}  {right:5.2f}")
    return "\n".join(lines)


def by_cause(talks: Sequence[Talk]) -> str:
    """Return how often the first and the second cure were right, by cause."""
    lines = ["cause                  talks  first  second  questions"]
    for cause in CAUSES:
        inside = [talk for talk in talks if talk.cause == cause]
        if inside:
            first, second, asked = (np.mean([getattr(talk, name) for talk in inside]) for name in ("right", "second_right", "questions"))
            lines.append(f"{cause:22} {len(inside):5d}  {first:5.2f}  {second:6.2f}  {asked:9.2f}")
    return "\n".join(lines)
