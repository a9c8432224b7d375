"""Why a mount missed: the likeliest single mistake behind what was seen, and what to ask next. No clock, no words, no audio."""

from companion.diagnosis.causes import Cause, Clue
from companion.diagnosis.diagnose import diagnose
from companion.diagnosis.questions import Reading, next_reading, settle, weigh_clue, without
from companion.diagnosis.request import CauseFound, DiagnoseRequest, Diagnosis, Miss

__all__ = [
    "Cause",
    "CauseFound",
    "Clue",
    "DiagnoseRequest",
    "Diagnosis",
    "Miss",
    "Reading",
    "diagnose",
    "next_reading",
    "settle",
    "weigh_clue",
    "without",
]
