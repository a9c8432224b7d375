"""English for the single commands, where they find nothing."""

from __future__ import annotations

from companion.languages.phrase import Chapter
from companion.talk.sky_phrases import NoReferenceStarNow, NothingBrightThere, NothingWellPlaced

SKY = Chapter(
    phrases={
        NothingBrightThere: "Nothing bright stands there.",
        NoReferenceStarNow: "No alignment star is well placed now.",
        NothingWellPlaced: "Nothing is well placed now.",
    },
)
