"""Find the mistake behind a miss: compute what explains it, ask the readings that tell the causes apart, and say how sure that is."""

from __future__ import annotations

from collections.abc import Generator, Sequence
from datetime import datetime

from companion import sky
from companion.events import Answer, Ask, Note, Say
from companion.procedure.misses import Message, SpokenMiss, as_request
from companion.procedure.our_clock import agree_on_the_clock
from companion.procedure.script import Context

FAIRLY_SURE = 0.8
"""Said plainly from here on; below, the second cause is named too. A confident wrong answer costs more than an honest pair."""
_OURS_TOO = ("hour", "date_day", "date_month", "longitude", "latitude", "site")
"""Causes that a wrong clock or place of our own would look like, when the hand control shows all that it should."""


def find_the_mistake(
    context: Context, time: datetime, misses: Sequence[SpokenMiss], message: Message, clue: sky.Clue | None = None
) -> Generator[Say | Ask | Note, Answer, Answer | None]:
    """Ask, conclude, and wait until it is mended; return that last answer, or None where nothing is wrong but an ordinary miss."""
    diagnosis = sky.diagnose(as_request(context.site, time, misses, message))
    if clue is not None:
        diagnosis = sky.weigh_clue(diagnosis, clue)
    disagreed = False
    while not disagreed and (reading := sky.next_reading(diagnosis)) is not None:
        star = misses[-1].star
        answer = yield Ask("read-it-back", expects="yes_no", facts={"reading": reading, "star": star})
        if answer.command == "skip":
            break
        disagreed = answer.command == "no"
        diagnosis = sky.settle(diagnosis, reading, agrees=not disagreed)
        if disagreed:
            yield Say("that-is-wrong", {"reading": reading, "star": star})
    likeliest, second = diagnosis.causes[:2]
    yield Note("likely-cause", {"cause": likeliest.cause, "probability": round(likeliest.probability, 3)})
    if likeliest.cause == "none":
        yield Say("an-ordinary-miss")
        return None
    facts = {"cause": likeliest.cause}
    if likeliest.probability >= FAIRLY_SURE:
        yield Say("fairly-sure-of-the-cause", facts)
    else:
        yield Say("one-of-two-causes", {**facts, "other": second.cause})
    if not disagreed and likeliest.cause in _OURS_TOO and diagnosis.asked:
        yield Say("perhaps-our-own-clock")
        if (yield from agree_on_the_clock(context)):
            return (yield Ask("key-our-time-again", expects="ready", facts={"hours": context.equipment.mount.hours}))
    return (yield Ask("mend-it", expects="ready", facts=facts))
