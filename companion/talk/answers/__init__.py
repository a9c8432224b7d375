"""What can be answered: an enum for each grammar rule that a question may expect, compared with the grammar when it is loaded.

The values are the grammar's tags: neutral codes, never spoken. "Skip this" may be answered to any question, so every enum has it.
One module for each part of the evening.
"""

from __future__ import annotations

from collections.abc import Mapping

from companion.talk.answers.anytime import EitherAnswer, ReadyAnswer, UniversalAnswer, YesNoAnswer
from companion.talk.answers.check_in import (
    BearingAnswer,
    CalendarDateAnswer,
    ClockCheckAnswer,
    ClockTimeAnswer,
    CoordinateAnswer,
    FromTownAnswer,
    KitAnswer,
    StartAnswer,
    TownAnswer,
    TownLettersAnswer,
    YearAnswer,
)
from companion.talk.answers.equipment import (
    CompanyAnswer,
    CompassKindAnswer,
    ConfirmKeyAnswer,
    FewMillimetresAnswer,
    FieldWidthAnswer,
    FinderKindAnswer,
    FinderWidthAnswer,
    FistsAnswer,
    FullnessAnswer,
    HorizonAnswer,
    LastKeysAnswer,
    LimitsAnswer,
    MillimetresAnswer,
    PhoneNorthAnswer,
    PoseTimeAnswer,
    StarChoiceAnswer,
    StarChoiceElseAnswer,
    ToldFigureAnswer,
)
from companion.talk.answers.handset import ArrowByCableAnswer, KeyPlaceAnswer, LevelAidAnswer
from companion.talk.answers.mistakes import CheckAnswer, FacingAnswer, GroundAnswer, KnockAnswer, MissAnswer
from companion.talk.answers.observation import HowItLookedAnswer, HowItShowedAnswer, OneToFiveAnswer
from companion.talk.answers.on_the_line import HaltAnswer, HandsAnswer, NudgeAnswer, TurnAnswer, TurningAnswer, TurnReadilyAnswer
from companion.talk.answers.packing import PackingAnswer
from companion.talk.answers.set_up import FinderCheckAnswer, LevelAnswer, MarkAnswer, NorthAnswer, PowerAnswer, SettingAnswer, TubeAnswer
from companion.talk.answers.stars import (
    ClearSkyAnswer,
    EyepieceAnswer,
    FinderAnswer,
    OutcomeAnswer,
    ProofAnswer,
    RecentreAnswer,
    SlewingAnswer,
    StarNameAnswer,
    TubeRoseAnswer,
    TubeTurnedAnswer,
    UnseenAnswer,
    ViewAnswer,
    WaitingAnswer,
)
from companion.talk.night_answers import ASKED_AT_A_TARGET, TargetAnswer
from companion.talk.saying import Answers

__all__ = [
    "DENIED",
    "ONLY_ASK",
    "ArrowByCableAnswer",
    "BearingAnswer",
    "CalendarDateAnswer",
    "CheckAnswer",
    "ClearSkyAnswer",
    "ClockCheckAnswer",
    "ClockTimeAnswer",
    "CompanyAnswer",
    "CompassKindAnswer",
    "ConfirmKeyAnswer",
    "CoordinateAnswer",
    "EitherAnswer",
    "EyepieceAnswer",
    "FacingAnswer",
    "FewMillimetresAnswer",
    "FieldWidthAnswer",
    "FinderAnswer",
    "FinderCheckAnswer",
    "FinderKindAnswer",
    "FinderWidthAnswer",
    "FistsAnswer",
    "FromTownAnswer",
    "FullnessAnswer",
    "GroundAnswer",
    "HaltAnswer",
    "HandsAnswer",
    "HorizonAnswer",
    "HowItLookedAnswer",
    "HowItShowedAnswer",
    "KeyPlaceAnswer",
    "KitAnswer",
    "KnockAnswer",
    "LastKeysAnswer",
    "LevelAidAnswer",
    "LevelAnswer",
    "LimitsAnswer",
    "MarkAnswer",
    "MillimetresAnswer",
    "MissAnswer",
    "NorthAnswer",
    "NudgeAnswer",
    "OneToFiveAnswer",
    "OutcomeAnswer",
    "PackingAnswer",
    "PhoneNorthAnswer",
    "PoseTimeAnswer",
    "PowerAnswer",
    "ProofAnswer",
    "ReadyAnswer",
    "RecentreAnswer",
    "SettingAnswer",
    "SlewingAnswer",
    "StarChoiceAnswer",
    "StarChoiceElseAnswer",
    "StarNameAnswer",
    "StartAnswer",
    "ToldFigureAnswer",
    "TownAnswer",
    "TownLettersAnswer",
    "TubeAnswer",
    "TubeRoseAnswer",
    "TubeTurnedAnswer",
    "TurnAnswer",
    "TurnReadilyAnswer",
    "TurningAnswer",
    "UniversalAnswer",
    "UnseenAnswer",
    "ViewAnswer",
    "WaitingAnswer",
    "YearAnswer",
    "YesNoAnswer",
]

ONLY_ASK: frozenset[Answers] = frozenset(
    {FinderAnswer.WHICH_ONE, FinderAnswer.HOW_HIGH, NorthAnswer.WHICH_WAY, ProofAnswer.WHICH_ONE, ProofAnswer.HOW_HIGH} | ASKED_AT_A_TARGET
)
"""Answers that only ask something, and change nothing."""
DENIED: Mapping[str, str] = {
    ReadyAnswer.READY: UniversalAnswer.WAIT,
    SettingAnswer.NEXT: UniversalAnswer.WAIT,
    SettingAnswer.ALL_IN: UniversalAnswer.WAIT,
    FinderAnswer.IN_FINDER: UniversalAnswer.WAIT,
    FinderAnswer.IN_EYEPIECE: UniversalAnswer.WAIT,
    EyepieceAnswer.CENTRED: UniversalAnswer.WAIT,
    FinderAnswer.SLEWING: FinderAnswer.STOPPED,
    FinderAnswer.STOPPED: FinderAnswer.SLEWING,
    FinderCheckAnswer.AGREES: FinderCheckAnswer.MOVED,
    OutcomeAnswer.SUCCESS: OutcomeAnswer.FAILED,
    TargetAnswer.FOUND: TargetAnswer.NOT_THERE,
    YesNoAnswer.YES: YesNoAnswer.NO,
}
"""What is answered by denying an answer, where that says as much: "it isn't in the finder" is as good as "not yet"."""
