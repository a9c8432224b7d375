"""What observers tell of their telescope before anybody asks: it counts at once, and isn't asked for again."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from companion import equipment
from companion.equipment import Equipment, FinderKind, Oneself
from companion.messages import Answer, NotNow
from companion.procedure.spoken_figures import figure_of, number_in
from companion.talk.advice import Advice
from companion.talk.answers import FinderKindAnswer, MillimetresAnswer
from companion.talk.equipment_phrases import Aperture, FocalLength, UnlikelyFigure, WhichFinder
from companion.talk.question_answers import GearAnswer
from companion.talk.question_phrases import Advised
from companion.talk.saying import Answers, Ask, Say
from companion.talk.sight_phrases import GearNoted

_STANDS_ON_THE_GROUND = "dobsonian"


def tells_of_gear(heard: NotNow) -> bool:
    """Say whether something that is no answer now tells of the telescope."""
    return heard.command in set(GearAnswer)


def gear_told(heard: NotNow, told: Oneself | None, known: Equipment) -> tuple[Oneself, Say]:
    """Return what holds from now on, and what is said of it."""
    before = told or Oneself.of(known)
    on_the_ground = heard.slots.get("built") == _STANDS_ON_THE_GROUND
    match GearAnswer(heard.command):
        case GearAnswer.KIND:
            return before, GearNoted(on_the_ground=on_the_ground)
        case GearAnswer.FINDER:
            finder: FinderKind = "dot" if heard.slots["sight"] == "dot" else "optical"
            return replace(before, finder=finder), GearNoted(finder=finder)
        case GearAnswer.APERTURE:
            aperture_mm = figure_of(heard.slots)
            if aperture_mm not in equipment.APERTURE_MM:
                return before, UnlikelyFigure(aperture_mm)
            ratio = number_in(heard.slots, "ratio")
            long_mm = round(ratio * aperture_mm) if ratio else None
            told_now = replace(before, aperture_mm=aperture_mm, focal_length_mm=long_mm or before.focal_length_mm)
            return told_now, GearNoted(aperture_mm, long_mm, on_the_ground=on_the_ground)
        case GearAnswer.FOCAL_LENGTH | GearAnswer.FOCAL_RATIO as what:
            known_mm = before.aperture_mm or known.instrument.aperture_mm
            focal_length_mm: float | None = None
            if what == GearAnswer.FOCAL_LENGTH:
                focal_length_mm = figure_of(heard.slots)
            elif known_mm is not None:
                focal_length_mm = round(number_in(heard.slots, "ratio") * known_mm)
            if focal_length_mm is None:
                return before, Advised(Advice.FOCAL_RATIO)
            if focal_length_mm not in equipment.FOCAL_LENGTH_MM:
                return before, UnlikelyFigure(focal_length_mm)
            return replace(before, focal_length_mm=focal_length_mm), GearNoted(focal_length_mm=focal_length_mm)


def answered_ahead(question: Ask[Answers] | None, told: Oneself | None, time: datetime) -> Answer | None:
    """Return the answer to a question that was told before it was asked; None where nobody told it."""
    match question:
        case Aperture() if told is not None and told.aperture_mm is not None:
            return Answer(MillimetresAnswer.MILLIMETRES, time, {"amount": f"{told.aperture_mm:g}"})
        case FocalLength() if told is not None and told.focal_length_mm is not None:
            return Answer(MillimetresAnswer.MILLIMETRES, time, {"amount": f"{told.focal_length_mm:g}"})
        case WhichFinder() if told is not None and told.finder is not None:
            return Answer(FinderKindAnswer.DOT if told.finder == "dot" else FinderKindAnswer.OPTICAL, time)
        case _:
            return None
