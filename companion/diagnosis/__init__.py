"""Why a mount missed: the likeliest single mistake behind what was seen, and what to ask next. No clock, no words, no audio."""

from companion.diagnosis.causes import Cause, Clue
from companion.diagnosis.diagnose import diagnose
from companion.diagnosis.findings import CauseFound, Diagnosis, Hypothesis
from companion.diagnosis.guesses import COMPASS_POINTS
from companion.diagnosis.questions import Reading, next_reading, settle, weigh_clue, without
from companion.diagnosis.request import DiagnoseRequest, Miss

__all__ = [
    "COMPASS_POINTS",
    "Cause",
    "CauseFound",
    "Clue",
    "DiagnoseRequest",
    "Diagnosis",
    "Hypothesis",
    "Miss",
    "Reading",
    "diagnose",
    "next_reading",
    "settle",
    "weigh_clue",
    "without",
]
