"""Which part of the evening this is, what is being done there, and with which star or target."""

from __future__ import annotations

from collections.abc import Mapping

from companion.dialogue.stage_run import StageRun
from companion.procedure.notes import Proof, ReferenceStar
from companion.talk.answers import (
    EyepieceAnswer,
    FinderAnswer,
    MissAnswer,
    OutcomeAnswer,
    ProofAnswer,
    SlewingAnswer,
    UnseenAnswer,
    ViewAnswer,
    WaitingAnswer,
)
from companion.talk.guidance_phrases import Doing, WhereWeAre
from companion.talk.night_answers import TargetAnswer
from companion.talk.saying import Answers

_DOING: Mapping[type[Answers], Doing] = {
    FinderAnswer: "steering",
    SlewingAnswer: "slewing",
    UnseenAnswer: "looking-for",
    MissAnswer: "measuring",
    EyepieceAnswer: "centring",
    ViewAnswer: "centring",
    WaitingAnswer: "waiting",
    ProofAnswer: "proving",
    TargetAnswer: "looking-at",
}
"""What is being done at a question, by what it expects. Of the mount's verdict no star is the subject any more."""


def where_we_are(run: StageRun) -> WhereWeAre:
    """Return the sentence that says it."""
    doing = None if run.question is None else _DOING.get(run.question.expects)
    name = _subject(run)
    if run.question is not None and run.question.expects is OutcomeAnswer:
        return WhereWeAre(run.name, "verdict", None)
    return WhereWeAre(run.name) if doing is None or name is None else WhereWeAre(run.name, doing, name)


def _subject(run: StageRun) -> str | None:
    """Return the star or target that the stage is at, not what was asked about beside it."""
    for decision in reversed(run.decisions):
        if isinstance(decision, ReferenceStar | Proof):
            return decision.star
        name = decision.facts.get("target") or decision.facts.get("star")
        if isinstance(name, str):
            return name
    return None
