"""Centre two reference stars, first in the finder, then in a low-power eyepiece, and hear what the mount makes of them."""

from __future__ import annotations

from collections.abc import Generator, Sequence
from dataclasses import dataclass
from datetime import datetime

from companion import sky
from companion.events import Answer, Ask, Note, Say
from companion.procedure.script import Context, Script

STAR_COUNT = 2


@dataclass(frozen=True)
class _Tried:
    """How the search for one star ended."""

    centred: bool
    at: datetime


def centre_reference_stars(context: Context) -> Script:
    """Take the observer through two reference stars and the mount's verdict; on failure start again with fresh stars if wanted."""
    yield Say("before-the-stars")
    time = context.started
    while True:
        centred: list[str] = []
        refused: list[str] = []
        while len(centred) < STAR_COUNT:
            star = _choose(context, time, centred, refused)
            if star is None:
                yield Say("no-more-stars")
                return {"stars": centred, "outcome": "incomplete"}
            yield Note("reference-star", {"star": star})
            tried = yield from _centre(star, first=not centred and not refused)
            (centred if tried.centred else refused).append(star)
            time = tried.at
        outcome = yield Ask("what-does-the-mount-say", expects="outcome")
        if outcome.command != "failed":
            return {"stars": centred, "outcome": outcome.command}
        again = yield Ask("it-failed", expects="ready")
        if again.command == "skip":
            return {"stars": centred, "outcome": "failed"}
        time = again.time


def _choose(context: Context, time: datetime, centred: Sequence[str], refused: Sequence[str]) -> str | None:
    """Return the best star that is up now, well apart from those centred and not yet refused."""
    partners = [sky.find(name) for name in centred]
    ranked = sky.reference_stars(context.moment(time), count=1, avoiding=(*centred, *refused), partners=partners)
    return ranked[0].sight.body.name if ranked else None


def _centre(star: str, *, first: bool) -> Generator[Say | Ask | Note, Answer, _Tried]:
    """Bring one star into the finder and then to the middle of the eyepiece."""
    facts = {"star": star}
    yield Say("first-star" if first else "another-star", facts)
    answer = yield Ask("is-it-in-the-finder", expects="finder", facts=facts)
    while answer.command not in ("cannot-see", "skip"):
        if answer.command == "which-one":
            answer = yield Ask("find-star", expects="finder", facts=facts)
            continue
        answer = yield Ask("is-it-centred", expects="eyepiece", facts=facts)
        if answer.command == "centred":
            yield Say("confirm-star", facts)
            return _Tried(centred=True, at=answer.time)
        if answer.command == "lost":
            answer = yield Ask("back-to-the-finder", expects="finder", facts=facts)
    yield Say("leave-star", facts)
    return _Tried(centred=False, at=answer.time)
