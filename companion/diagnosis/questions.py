"""What to ask next about a miss: the question that tells most about what would mend it, and what its answer makes of the suspects.

Each question has one right answer under each suspect. People answer wrongly now and then and often can't tell, so no answer rules
anything out. Nothing is asked twice; but one thing may be looked at in another way, the bubble and then a spirit level, so that a wrong
answer is found out where that matters: the second look weighs as much as any question.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

import numpy as np

from companion.diagnosis.belief import Belief, Suspect
from companion.diagnosis.causes import CLUE_OTHERWISE, CLUES, Cause, Clue
from companion.diagnosis.cures import SETTINGS, Advice, Cure, advice, cures_of, one_go
from companion.sky.attitude import Floats

Reading = Literal["date", "time", "daylight_saving", "time_zone", "latitude", "longitude", "place", "longitude_side"]
"""Whether the hand control shows what it should; ``place``: latitude and longitude in whole degrees."""
About = Literal[
    Reading,
    "position",
    "facing",
    "heading",
    "bubble",
    "base_level",
    "tube_level",
    "altitude_circle",
    "clamps",
    "tube_gives",
    "star",
    "double",
    "below_horizon",
    "first_far",
    "soft_ground",
    "knocked",
]
"""``position``: whether the mount shows the last star where it is. ``facing``: which way the tube faced at the start; ``heading``: whether
a compass shows what it should over the mark for north. ``base_level``: what a spirit level shows where the bubble was trusted;
``altitude_circle``: whether the tube's marks showed level; ``tube_gives``: whether it stays put when nudged. ``star``: whether what was
centred, or told of, surely was that star; ``double``: whether it could have been another. ``below_horizon``: whether the mount takes the
last star to be down. ``first_far``: whether the first star, steered to freely, lay more than a fist off. ``soft_ground``: whether the
tripod stands on it; ``knocked``: whether anything was knocked since the start."""
Answer = Literal["yes", "no", "north", "east", "south", "west", "cant_tell"]

MOST_QUESTIONS = 4
ENOUGH = 0.98
"""No question is worth asking where a cure is this likely."""
_LEAST_BITS = 0.02
"""Nor one that tells less than this."""
_WRONG, _CANT_TELL = 0.1, 0.1
"""How often people answer wrongly and how often they can't tell: judgement."""
_OVERRULED = 0.25
"""Where all that nobody found right is less likely than this, an answer was wrong: judgement."""
_FAR_AS_THOUGHT = 0.9
"""How often the first star lay on the side of a fist that a mistake alone would put it; the everyday errors add to it."""
_NORTH_SEEN_OFF: Mapping[str, float] = MappingProxyType({"": 0.08, "a_little": 0.6, "far": 0.97})
"""How often a second look finds north off, by how far it was: the everyday errors are seen now and then, too. Judgement."""
_MOST_DOUBLES = 3
"""How many others are thought of at once that a star may have been."""
_WRONG_FIGURE = 0.01
"""How often a figure that somebody reads out, and that is wrong, isn't there."""


@dataclass(frozen=True)
class Question:
    """What may be asked."""

    about: About
    star: str | None = None
    instead: str | None = None


Answered = Sequence[tuple[Question, Answer]]

# The readings that a wrong setting shows in, and what of the start, the star and the clamps is not as it should be.
_SHOWS_IN: Mapping[tuple[Cause, str], tuple[About, ...]] = MappingProxyType(
    {
        ("hour", "daylight_saving"): ("daylight_saving",),
        ("hour", "time_zone"): ("time_zone",),
        ("hour", "am_pm"): ("time",),
        ("hour", "clock"): ("time",),
        ("date_day", ""): ("date",),
        ("date_month", "month"): ("date",),
        ("date_month", "day_month_swapped"): ("date",),
        ("latitude", "sign"): ("latitude", "place"),
        ("latitude", "value"): ("latitude", "place"),
        ("longitude", "sign"): ("longitude", "place", "longitude_side"),
        ("longitude", "value"): ("longitude", "place"),
        ("site", ""): ("latitude", "longitude", "place"),
        ("base_tilt", ""): ("bubble", "base_level"),
        ("start_altitude", ""): ("tube_level", "altitude_circle"),
        ("slipped", ""): ("clamps", "tube_gives"),
    }
)
_CURED: Mapping[About, tuple[Cure, ...]] = MappingProxyType(
    {
        "date": ("date",),
        "time": ("time",),
        "daylight_saving": ("daylight_saving",),
        "time_zone": ("time_zone",),
        "latitude": ("latitude",),
        "longitude": ("longitude",),
        "longitude_side": ("longitude",),
        "place": ("latitude", "longitude"),
        "facing": ("north",),
        "heading": ("north",),
        "bubble": ("bubble",),
        "base_level": ("bubble",),
        "tube_level": ("tube_level",),
        "altitude_circle": ("tube_level",),
        "clamps": ("clamps",),
        "tube_gives": ("clamps",),
        "star": ("star",),
        "double": ("star",),
    }
)
"""What mends what is found wrong."""
_MORE_OFTEN: Mapping[About, tuple[Mapping[Cause, float], float]] = MappingProxyType(
    {
        "soft_ground": (MappingProxyType({"base_tilt": 0.8}), 0.4),
        "knocked": (CLUES["kicked"], CLUE_OTHERWISE),
    }
)
"""What is no mistake, but oftener so beside some: how often beside which cause, and beside all others. Judgement."""
KNOCKED, SOFT_GROUND = Question("knocked"), Question("soft_ground")
_PLAIN: tuple[About, ...] = (
    "daylight_saving",
    "time",
    "time_zone",
    "date",
    "longitude_side",
    "place",
    "latitude",
    "longitude",
    "position",
    "bubble",
    "clamps",
    "tube_level",
    "facing",
    "heading",
    "base_level",
    "tube_gives",
    "altitude_circle",
    "knocked",
    "soft_ground",
)
"""Questions without a star; of two that tell as much the first is asked."""


def next_question(belief: Belief, answered: Answered = (), before: Answered = (), *, again: bool = False) -> Question | None:
    """Return the question whose answer is expected to tell most about the cure; None when no question is worth asking.

    ``answered``: this time; ``before``: earlier, and not to be asked again; ``again``: a cure was in vain. The base is asked about whenever
    it leads: its bubble is looked at in a moment, and its cure comes first. So it is where the ground is soft, or something was knocked.
    """
    if len(answered) >= MOST_QUESTIONS:
        return None
    asked = [question for question, _ in (*before, *answered)]
    may_have_sunk = any((question, "yes") in (*before, *answered) for question in (KNOCKED, SOFT_GROUND))
    if (belief.leading == "base_tilt" or may_have_sunk) and Question("bubble") not in asked:
        return Question("bubble")
    if advised(belief, answered, before, again=again).probability >= ENOUGH:
        return None
    open_ones = [question for question in _askable(belief) if question not in asked]
    bits = [expected_bits(belief, question) for question in open_ones]
    best = int(np.argmax(bits)) if bits else -1
    return open_ones[best] if best >= 0 and bits[best] >= _LEAST_BITS else None


def expected_bits(belief: Belief, question: Question) -> float:
    """Return the mutual information of a question's answer and the cure, bits."""
    answers = _answers(question)
    shares: dict[tuple[tuple[Cure, ...], Answer], float] = {}
    for suspect, p in zip(belief.suspects, belief.probabilities, strict=True):
        cure = one_go(cures_of(suspect)[0])
        for right, share in right_answers(question, suspect).items():
            shares[cure, right] = shares.get((cure, right), 0.0) + p * share
    places = {cure: i for i, cure in enumerate(dict.fromkeys(cure for cure, _ in shares))}
    joint = np.zeros((len(places), len(answers)))
    for (cure, right), p in shares.items():
        joint[places[cure]] += p * np.array([_likelihood(answer, right, len(answers)) for answer in answers])
    return _entropy(joint.sum(axis=0)) + _entropy(joint.sum(axis=1)) - _entropy(joint.ravel())


def settle(belief: Belief, question: Question, answer: Answer, *, read_out: bool = False) -> Belief:
    """Return the belief after an answer; ``read_out``: the figure itself was told, not just that it is right or wrong."""

    def so_likely(suspect: Suspect) -> float:
        """Return the probability of this answer."""
        if read_out and answer == "no" != right_answer(question, suspect):
            return _WRONG_FIGURE
        return likelihood(question, answer, suspect)

    return belief.weighed(so_likely)


def likelihood(question: Question, answer: Answer, suspect: Suspect) -> float:
    """Return the probability of an answer under a suspect."""
    possible = len(_answers(question))
    return sum(share * _likelihood(answer, right, possible) for right, share in right_answers(question, suspect).items())


def _likelihood(answer: Answer, right: Answer, possible: int) -> float:
    """Return the probability of an answer, of so many possible ones, where another is right."""
    if answer == "cant_tell":
        return _CANT_TELL
    return 1.0 - _WRONG - _CANT_TELL if answer == right else _WRONG / (possible - 2)


def right_answers(question: Question, suspect: Suspect) -> Mapping[Answer, float]:
    """Return what somebody would answer who is never wrong, with its probability where one suspect allows either."""
    if question.about in _MORE_OFTEN:
        shares, otherwise = _MORE_OFTEN[question.about]
        share = shares.get(suspect.cause, otherwise)
        return {"yes": share, "no": 1.0 - share}
    if question.about == "heading":
        off = _NORTH_SEEN_OFF[suspect.north_off]
        return {"yes": 1.0 - off, "no": off}
    if question.about == "first_far":
        share = _FAR_AS_THOUGHT if suspect.steered_far == question.star else 1.0 - _FAR_AS_THOUGHT
        return {"yes": share, "no": 1.0 - share}
    return {right_answer(question, suspect): 1.0}


def right_answer(question: Question, suspect: Suspect) -> Answer:
    """Return what somebody would answer who is never wrong, of what one suspect allows only one answer to."""
    match question.about:
        case "facing":
            return suspect.faced
        case "star":
            return "no" if suspect.star == question.star else "yes"
        case "double":
            return "yes" if (suspect.star, suspect.instead) == (question.star, question.instead) else "no"
        case "below_horizon":
            return "yes" if suspect.believes_down else "no"
        case "position":
            return "no" if suspect.believes_elsewhere else "yes"
        case about:
            return "no" if about in _SHOWS_IN.get((suspect.cause, suspect.member), ()) else "yes"


def advised(belief: Belief, answered: Answered, before: Answered = (), *, again: bool = False) -> Advice:
    """Return what to do again after answers, this time and ``before``; ``again``: a cure was in vain.

    What somebody found right isn't sent for again, nor a star they are sure of, unless everything else is so unlikely that they erred:
    but for the settings, which our own clock and place would make look wrong (or right) as well. A cure in vain shows that an answer may
    have been wrong: what was found right before it is then only as unlikely as people seldom err.
    """
    sure_of = {question.star for question, answer in answered if question.about == "star" and answer == "yes"}
    wrong = found_wrong(answered)
    right = found_right(answered if again else (*before, *answered)) - wrong

    def best(settled: frozenset[Cure], sure_of: Collection[str | None]) -> Advice:
        """Return what to do where so much is settled."""
        return advice(
            belief,
            excluded=lambda suspect: suspect.star in sure_of if suspect.star else settled.issuperset(cures_of(suspect)),
            found_wrong=wrong,
            found_right=right,
            again=again,
        )

    believing = best(right, sure_of)
    if believing.probability >= _OVERRULED:
        return believing
    doubting = best(right & SETTINGS, ())
    return replace(doubting, against_an_answer=True) if doubting.probability > 1.0 - _OVERRULED else believing


def found_right(answered: Answered) -> frozenset[Cure]:
    """Return what was said to be as it should be, by what would mend it."""
    # A star that surely was the one named says nothing of the others, nor a side of the figures.
    told_in_part = ("star", "double", "longitude_side", "first_far")
    right = (question.about for question, answer in answered if answer == "yes" and question.about not in told_in_part)
    return frozenset(cure for about in right for cure in _CURED.get(about, ()))


def found_wrong(answered: Answered) -> frozenset[Cure]:
    """Return what was said not to be as it should be, by what mends it."""
    return frozenset(cure for question, answer in answered if _is_wrong(question, answer) for cure in _CURED.get(question.about, ()))


def _is_wrong(question: Question, answer: Answer) -> bool:
    """Say whether an answer finds something that isn't as it should be."""
    if question.about in ("double", "facing"):
        return answer not in ("north", "no", "cant_tell")
    return answer == "no"


def weigh_clue(belief: Belief, clue: Clue) -> Belief:
    """Return the belief after the observer told something that has no degrees in it."""
    return belief.weighed(lambda suspect: CLUES[clue].get(suspect.cause, CLUE_OTHERWISE))


def after_mending(belief: Belief, mended: Sequence[Cure], still_wrong: float = 0.1) -> Belief:
    """Return the belief where cures were done before, each of them in vain with a probability: judgement."""
    done = set(mended)
    return belief.weighed(lambda suspect: still_wrong if done.issuperset(cures_of(suspect)) else 1.0)


def _askable(belief: Belief) -> Iterator[Question]:
    """Yield all questions that may tell anything."""
    yield from map(Question, _PLAIN)
    taken: dict[tuple[str, str], float] = {}
    for suspect, p in zip(belief.suspects, belief.probabilities, strict=True):
        if suspect.star and suspect.instead:
            pair = suspect.star, suspect.instead
            taken[pair] = taken.get(pair, 0.0) + p
    for star in dict.fromkeys(star for star, _ in taken):
        yield Question("star", star)
    for star, instead in sorted(taken, key=lambda pair: -taken[pair])[:_MOST_DOUBLES]:
        yield Question("double", star, instead)
    if any(suspect.believes_down for suspect in belief.suspects):
        yield Question("below_horizon")
    for star in dict.fromkeys(suspect.steered_far for suspect in belief.suspects if suspect.steered_far):
        yield Question("first_far", star)


def _answers(question: Question) -> tuple[Answer, ...]:
    """Return what may be answered, "can't tell" last."""
    return ("north", "east", "south", "west", "cant_tell") if question.about == "facing" else ("yes", "no", "cant_tell")


def _entropy(probabilities: Floats) -> float:
    """Return the entropy of probabilities of any shape that sum to 1, bits."""
    p = np.clip(probabilities, 1e-12, 1.0)
    return float(-np.sum(p * np.log2(p)))
