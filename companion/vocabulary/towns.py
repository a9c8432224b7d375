"""Towns in typed lines: all there are, of which an ear knows only the largest."""

from __future__ import annotations

from collections.abc import Sequence

from companion import places
from companion.languages.typing_habits import TypingHabits
from companion.messages import Heard, NotNow
from companion.talk.answers import TownAnswer, TownLettersAnswer
from companion.talk.saying import Answers
from companion.vocabulary.guessing import Guessing
from companion.vocabulary.live_words import LiveWords

_LONGEST_TOWN_WORDS = 3
"""A town that we don't know has no longer a name: what is longer is said of something else. Judgement."""


class Towns:
    """Finds the town that a line names."""

    def __init__(self, words: LiveWords, typing: TypingHabits, guessing: Guessing) -> None:
        """Take the grammars and the language's habits; what may be guessed otherwise is no town's name."""
        self._words, self._typing, self._guessing = words, typing, guessing

    def town_in(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]]) -> Heard | NotNow | None:
        """Take a line for one of all the towns there are, of which an ear knows only the largest; None where it names none."""
        told = [name for part in (line, *self._typing.clauses(line)) if (name := self._typing.town_in(part)) is not None]
        if not told and expects in (TownAnswer, TownLettersAnswer) and self._may_be_a_town(line):
            told = [line.strip(" .!")]
        name = next((name for name in told if places.towns_named(name)), min(told, key=len, default=None))
        if name is not None and expects is TownLettersAnswer:
            letters = places.beginning_of(name)
            return Heard(line, TownLettersAnswer.LETTERS, {"letters": letters}) if places.towns_beginning(letters) else None
        if name is None or TownAnswer not in (expects, *instead):
            return None
        known = places.towns_named(name)
        is_a_name = len(name.split()) <= _LONGEST_TOWN_WORDS
        if not known and (expects is not TownAnswer or not is_a_name or self._guessing.guesses(name, expects)):
            return None
        command = TownAnswer.TOWN if known else TownAnswer.UNKNOWN
        slots = {"town_name": known[0].name if known else name}
        return Heard(line, command, slots) if expects is TownAnswer else NotNow(line, command, slots)

    def _may_be_a_town(self, line: str) -> bool:
        """Say whether a whole line may be a name: not where it asks something, or says what people say of other things."""
        asks = self._typing.telling is not None and self._typing.telling.asks(line)
        words = [word.strip(".,;:!?").lower() for word in line.split()]
        return bool(places.towns_named(line.strip(" .!"))) or not (asks or self._words.known.issuperset(words))
