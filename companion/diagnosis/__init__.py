"""Why a mount missed: the likeliest single mistake behind what was seen, and what to ask next. No clock, no words, no audio."""

from companion.diagnosis.belief import Belief, Suspect
from companion.diagnosis.causes import Cause, Clue
from companion.diagnosis.cures import ANOTHER_STAR, SETTINGS, START_ANEW, Advice, Cure, causes_mended, share_mended_by
from companion.diagnosis.diagnose import diagnose
from companion.diagnosis.findings import CauseFound, Diagnosis, Hypothesis
from companion.diagnosis.guesses import COMPASS_POINTS
from companion.diagnosis.questions import (
    KNOCKED,
    About,
    Answer,
    Question,
    Reading,
    advised,
    after_mending,
    found_right,
    found_wrong,
    next_question,
    settle,
    weigh_clue,
)
from companion.diagnosis.request import DiagnoseRequest, Miss

__all__ = [
    "ANOTHER_STAR",
    "COMPASS_POINTS",
    "KNOCKED",
    "SETTINGS",
    "START_ANEW",
    "About",
    "Advice",
    "Answer",
    "Belief",
    "Cause",
    "CauseFound",
    "Clue",
    "Cure",
    "DiagnoseRequest",
    "Diagnosis",
    "Hypothesis",
    "Miss",
    "Question",
    "Reading",
    "Suspect",
    "advised",
    "after_mending",
    "causes_mended",
    "diagnose",
    "found_right",
    "found_wrong",
    "next_question",
    "settle",
    "share_mended_by",
    "weigh_clue",
]
