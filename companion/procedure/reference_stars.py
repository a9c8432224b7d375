"""Centre two reference stars, first in the finder, then in a low-power eyepiece, and hear what the mount makes of them."""

from __future__ import annotations

from collections.abc import Generator, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from companion import sky
from companion.events import Answer, Ask, Note, Say
from companion.procedure.misses import SpokenMiss, spoken_miss
from companion.procedure.script import Context, Script
from companion.procedure.why_it_failed import find_the_mistake

STAR_COUNT = 2
_CLUES: Mapping[str, sky.Clue] = {"moon-off": "stars_fine_moon_off", "worse-far-away": "good_near_first_star_worse_far_away"}
"""What an observer may say of the result that has no degrees in it."""
Steps = Generator[Say | Ask | Note, Answer, "Answer | None"]


@dataclass
class _Attempt:
    """One go at the alignment, from the starting pose on."""

    started: datetime
    centred: list[str] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)
    misses: list[SpokenMiss] = field(default_factory=list)


def centre_reference_stars(context: Context) -> Script:
    """Take the observer through two reference stars and the mount's verdict; what goes wrong is diagnosed, mended and begun again."""
    yield Say("before-the-stars")
    attempt = _Attempt(context.started)
    while True:
        mended = yield from _centre_all(context, attempt)
        if mended is None:
            if len(attempt.centred) < STAR_COUNT:
                yield Say("no-more-stars")
                return {"stars": attempt.centred, "outcome": "incomplete"}
            outcome = yield Ask("what-does-the-mount-say", expects="outcome")
            if outcome.command in ("success", "skip"):
                return {"stars": attempt.centred, "outcome": outcome.command}
            mended = yield from _after_failure(context, attempt, outcome.command)
        if mended.command == "skip":
            return {"stars": attempt.centred, "outcome": "failed"}
        attempt = _Attempt(mended.time)


def _centre_all(context: Context, attempt: _Attempt) -> Steps:
    """Go through the stars; return the answer that said a mistake is mended, or None when all are centred or no star is left."""
    time = attempt.started
    while len(attempt.centred) < STAR_COUNT:
        star = _choose(context, time, attempt)
        if star is None:
            return None
        yield Note("reference-star", {"star": star})
        answer = yield from _centre(star, attempt)
        time = answer.time
        if answer.command == "names-another":
            star, answer = yield from _centre_the_named(context, star, attempt)
            time = answer.time
        if answer.command == "way-off":
            mended = yield from find_the_mistake(context, attempt.started, attempt.misses, failed=False)
            if mended is not None:
                return mended
            answer = yield from _into_the_middle(star, attempt, (yield Ask("is-it-in-the-finder", expects="finder", facts={"star": star})))
        (attempt.centred if answer.command == "centred" else attempt.refused).append(star)
    return None


def _centre_the_named(context: Context, offered: str, attempt: _Attempt) -> Generator[Say | Ask | Note, Answer, tuple[str, Answer]]:
    """Hear which star the mount names and centre that; one that is down is a miss of its own: no mount that is told right offers it."""
    told = yield Ask("which-star-does-it-name", expects="star_name")
    star = told.slots.get("star", offered)
    yield Note("reference-star", {"star": star})
    if told.command == "star-name" and sky.sight(sky.find(star), context.moment(told.time)).altitude_deg < 0:
        attempt.misses.append(SpokenMiss(star, told.time.isoformat(), None, None, bool(attempt.centred), 2.0))
        yield Say("that-star-is-down", {"star": star})
        return star, Answer("way-off", told.time)
    return star, (yield from _centre(star, attempt))


def _after_failure(context: Context, attempt: _Attempt, outcome: str) -> Generator[Say | Ask | Note, Answer, Answer]:
    """Find out why the mount or the observer is not content; where no miss was told, ask for the last star's."""
    if not attempt.misses:
        yield from _ask_miss(attempt.centred[-1], attempt, "where-was-the-last-star")
    if attempt.misses:
        mended = yield from find_the_mistake(context, attempt.started, attempt.misses, failed=outcome == "failed", clue=_CLUES.get(outcome))
        if mended is not None:
            return mended
    return (yield Ask("it-failed", expects="ready"))


def _choose(context: Context, time: datetime, attempt: _Attempt) -> str | None:
    """Return the best star that is up now, well apart from those centred and not yet refused."""
    partners = [sky.find(name) for name in attempt.centred]
    avoiding = (*attempt.centred, *attempt.refused)
    ranked = sky.reference_stars(context.moment(time), count=1, avoiding=avoiding, partners=partners)
    return ranked[0].sight.body.name if ranked else None


def _centre(star: str, attempt: _Attempt) -> Generator[Say | Ask | Note, Answer, Answer]:
    """Introduce a star and bring it to the middle; return the last answer: centred, way-off with its miss told, or given up."""
    facts = {"star": star}
    yield Say("another-star" if attempt.centred or attempt.refused else "first-star", facts)
    answer = yield Ask("is-it-in-the-finder", expects="finder", facts=facts)
    return (yield from _into_the_middle(star, attempt, answer))


def _into_the_middle(star: str, attempt: _Attempt, answer: Answer) -> Generator[Say | Ask | Note, Answer, Answer]:
    """Go on from the answer about the finder until the star is centred, way off, or given up."""
    facts = {"star": star}
    while answer.command not in ("cannot-see", "skip", "names-another"):
        if answer.command == "which-one":
            answer = yield Ask("find-star", expects="finder", facts=facts)
        elif answer.command == "way-off":
            told = yield from _ask_miss(star, attempt, "which-way-and-how-far")
            if told is not None and told.is_large:
                return answer
            answer = yield Ask("steer-it-there", expects="finder", facts=facts)
        else:
            answer = yield Ask("is-it-centred", expects="eyepiece", facts=facts)
            if answer.command == "centred":
                yield Say("confirm-star", facts)
                return answer
            if answer.command == "lost":
                answer = yield Ask("back-to-the-finder", expects="finder", facts=facts)
    if answer.command != "names-another":
        yield Say("leave-star", facts)
    return answer


def _ask_miss(star: str, attempt: _Attempt, phrase: str) -> Generator[Say | Ask | Note, Answer, SpokenMiss | None]:
    """Ask where the star lay from where the tube points, and keep it."""
    answer = yield Ask(phrase, expects="miss", facts={"star": star})
    miss = spoken_miss(star, answer, attempt.misses, synced=bool(attempt.centred))
    if miss is not None:
        attempt.misses.append(miss)
        yield Note("miss", miss.as_facts())
        yield Say("miss-heard", {"right_deg": miss.right_deg, "up_deg": miss.up_deg})
    return miss
