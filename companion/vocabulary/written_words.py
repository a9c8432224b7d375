"""What a typed line says as it stands, in each of the ways to write it: an answer, else what is known elsewhere."""

from __future__ import annotations

import re
from collections.abc import Sequence

from companion.hearing import understand
from companion.languages.typing_habits import TypingHabits
from companion.messages import Hearing, NotNow, NotUnderstood
from companion.talk.night_answers import ShowMeAnswer
from companion.talk.question_answers import SkyQuestionAnswer
from companion.talk.saying import Answers
from companion.vocabulary.live_words import LiveWords

_LED_TO = (ShowMeAnswer.SHOW_ME, SkyQuestionAnswer.WHERE, SkyQuestionAnswer.UP)
"""What leads to one of the observer's own objects."""


class WrittenWords:
    """Looks lines up in the grammars."""

    def __init__(self, words: LiveWords, typing: TypingHabits, own_names: Sequence[str]) -> None:
        """Take the grammars, how people type the language, and the names of the observer's own objects."""
        self._words, self._typing, self._own_names = words, typing, own_names

    def in_any_way(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]] = ()) -> Hearing:
        """Take a line in each of the ways to write it: for an answer, else for what is known elsewhere."""
        active, ways = self._words.active(expects), self._typing.ways(line)
        for words in ways:
            heard = understand(words, active)
            if isinstance(heard, NotUnderstood):
                heard = self._words.in_other_words(words, expects, confidence=1.0) or heard
            if not isinstance(heard, NotUnderstood):
                return heard
        # What asks us something is a question wherever it is said, though at another one it is an answer.
        known = (
            self._words.questions,
            *map(self._words.all_words, instead),
            self._words.gear,
            self._words.of_oneself,
            self._words.everything,
        )
        elsewhere = (understand(words, active, words_of) for words_of in known for words in ways)
        return next((heard for heard in elsewhere if not isinstance(heard, NotUnderstood)), NotUnderstood())

    def own_object(self, line: str) -> NotNow | None:
        """Take a line that wants to see one of the observer's own objects, or asks where it is, for the wish to be led there."""
        for name in sorted(self._own_names, key=len, reverse=True):
            said, times = re.subn(rf"(?<!\w)(the\s+)?{re.escape(name)}(?!\w)", self._typing.any_name, line, count=1, flags=re.IGNORECASE)
            ways = self._typing.ways(said) if times else ()
            asked = next((one for way in ways if (one := self._words.questions.parse(way)) is not None), None)
            if self._typing.any_name in ways or (asked is not None and asked.command in _LED_TO):
                return NotNow(name, ShowMeAnswer.SHOW_ME, {"name": name})
        return None
