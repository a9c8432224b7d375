"""Ask for the telescope, its eyepieces and its finder."""

from __future__ import annotations

from typing import Literal, assert_never

from companion import equipment
from companion.equipment import FinderKind
from companion.procedure.equipment_told import EyepieceTold, InstrumentTold
from companion.procedure.script import Question, Steps, ask
from companion.procedure.spoken_figures import ask_figure, ask_yes_no, figure_of, read_back
from companion.talk.answers import FinderKindAnswer, ToldFigureAnswer
from companion.talk.equipment_phrases import (
    AnotherEyepiece,
    Aperture,
    ApparentField,
    EyepieceHeard,
    FinderWidthHeard,
    FocalLength,
    HasItADiagonal,
    HowWideIsTheFinder,
    TelescopeHeard,
    WhichEyepiece,
    WhichFinder,
)

_MOST_EYEPIECES = 12


def ask_instrument() -> Steps[InstrumentTold]:
    """Ask for the telescope, its eyepieces and its finder."""
    aperture_mm, focal_length_mm = (yield from read_back(_ask_telescope, _telescope_heard)) or (None, None)
    eyepieces = yield from ask_eyepieces()
    has_diagonal = yield from ask_yes_no(HasItADiagonal())
    finder, finder_field_deg = yield from ask_finder()
    return InstrumentTold(aperture_mm, focal_length_mm, eyepieces, has_diagonal, finder, finder_field_deg)


def _ask_telescope() -> Steps[tuple[float | None, float | None]]:
    """Ask for aperture and focal length, millimetres."""
    aperture_mm = yield from ask_figure(Aperture(), equipment.APERTURE_MM)
    return aperture_mm, (yield from ask_figure(FocalLength(), equipment.FOCAL_LENGTH_MM))


def _telescope_heard(told: tuple[float | None, float | None]) -> TelescopeHeard | None:
    return None if told == (None, None) else TelescopeHeard(*told)


def ask_eyepieces() -> Question[tuple[EyepieceTold, ...]]:
    """Ask for the eyepieces, one after another: focal length, and how wide their view seems."""
    eyepieces: list[EyepieceTold] = []
    while len(eyepieces) < _MOST_EYEPIECES:
        eyepiece = yield from read_back(_ask_eyepiece, _eyepiece_heard)
        if eyepiece is None:
            break
        eyepieces.append(eyepiece)
        if not (yield from ask_yes_no(AnotherEyepiece())):
            break
    return tuple(eyepieces) or None


def _ask_eyepiece() -> Question[EyepieceTold]:
    """Ask for one eyepiece."""
    focal_length_mm = yield from ask_figure(WhichEyepiece(), equipment.EYEPIECE_MM)
    if focal_length_mm is None:
        return None
    return EyepieceTold(focal_length_mm, (yield from ask_figure(ApparentField(), equipment.APPARENT_FIELD_DEG)))


def _eyepiece_heard(told: EyepieceTold | None) -> EyepieceHeard | None:
    return None if told is None else EyepieceHeard(told.focal_length_mm, told.apparent_field_deg)


def ask_finder() -> Steps[tuple[FinderKind | Literal["none"] | None, float | None]]:
    """Ask what kind of finder there is, if any, and how wide one that magnifies shows, degrees; who tells that has told the kind."""
    told = yield from ask(WhichFinder())
    match told.command:
        case FinderKindAnswer.DOT:
            return "dot", None
        case FinderKindAnswer.OPTICAL:
            return "optical", (yield from ask_finder_field())
        case FinderKindAnswer.NO_FINDER:
            return "none", None
        case ToldFigureAnswer.FINDER_FIELD:
            return "optical", figure_of(told.slots)
        case FinderKindAnswer.SKIP | ToldFigureAnswer.SKY_MAG | ToldFigureAnswer.EYEPIECE_IN | ToldFigureAnswer.SKIP:
            return None, None
        case _:
            assert_never(told.command)


def ask_finder_field() -> Steps[float | None]:
    """Ask how wide the finder's view is, degrees, and read it back."""
    return (yield from read_back(_ask_finder_field, lambda told: None if told is None else FinderWidthHeard(told)))


def _ask_finder_field() -> Steps[float | None]:
    return (yield from ask_figure(HowWideIsTheFinder(), equipment.FINDER_FIELD_DEG))
