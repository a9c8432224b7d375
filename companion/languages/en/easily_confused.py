"""Answers that sound so like another to the same question that they are read back, however well they were heard.

``tests/dialogue/test_easily_confused.py`` finds them by their sounds, ``tests/hearing/test_confusable_by_ear.py`` by what the recogniser
makes of synthesised voices.
"""

from __future__ import annotations

_UNITS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_FISTS = {f"{count} and a half fists" for count in ("one", "four", "five", "nine")} | {f"{count} and a half" for count in ("four", "five")}
_YEARS = {f"twenty {tens}" for tens in ("thirty", "forty")} | {f"twenty {tens} {unit}" for tens in ("thirty", "forty") for unit in _UNITS}
_YEARS |= {f"twenty twenty {unit}" for unit in ("one", "four", "five", "nine")}
_STARS = {f"{count} stars" for count in ("two", "four", "five", "nine", "ten", "thirteen", "fourteen", "fifteen", "eighteen", "thirty")}
_STARS |= {f"twenty {unit} stars" for unit in ("one", "four", "five", "nine")}
_CORNERS = {f"{north} {east}" for north in ("north", "south") for east in ("east", "west")}
_DIRECTIONS = _CORNERS | {f"in the {corner}" for corner in _CORNERS} | {"east", "west", "in the east", "in the west"}

MISHEARD = frozenset({"a bit up", "a bit left", "a little up", "a little left", "move it a little up", "move it a little left", "the up"})
"""They sound unlike, but the recogniser's own ear hears a short "up" hardly better than "left" or nothing."""

EASILY_CONFUSED = frozenset(
    {
        *MISHEARD,
        *(_FISTS | _YEARS | _STARS | _DIRECTIONS),
        *("four", "four fists", "five", "five fists", "two", "fair"),
        *("it faced east", "it faced west"),
        *("top", "upper side", "upper right", "lower side", "lower right"),
        *("none of it", "nothing", "kneeling", "failed"),
    }
)
