"""English for when clouds stand before the stars."""

from __future__ import annotations

from companion.languages.phrase import Chapter
from companion.talk.answers import ClearSkyAnswer
from companion.talk.cloud_phrases import IsAnyOfItClear, NothingGoodThere, WaitForTheSky, WhichPartIsClear

CLOUDS = Chapter(
    phrases={
        IsAnyOfItClear: "Is any of the sky clear? If so, which part?",
        WhichPartIsClear: "Which part? Say it like: in the west, or overhead.",
        NothingGoodThere: "Nothing good stands there now.",
        WaitForTheSky: "Then we wait. Leave the mount on, and cap the tube against dew. Say ready when it clears. Or say pack up.",
    },
    sayable={ClearSkyAnswer: ("no", "in the west", "overhead", "nothing")},
    step_help={
        IsAnyOfItClear: "Say where you see stars: a compass point, or overhead. Say no if you see none.",
        WhichPartIsClear: "Say a compass point, or overhead.",
        WaitForTheSky: "Clouds often come in bands: look again in half an hour. Skip this to go on without the stars.",
    },
)
