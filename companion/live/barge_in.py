"""What silences or repeats us while we speak: the only words that are live then, unless our own voice can't reach the microphone."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from companion.hearing import ActiveSet, parse_grammar
from companion.talk.answers import UniversalAnswer
from companion.vocabulary import Vocabulary

STOP, SAY_AGAIN = UniversalAnswer.STOP, UniversalAnswer.SAY_AGAIN


class BargeIn:
    """The set that is live while a text is spoken."""

    def __init__(self, vocabulary: Vocabulary, words_in: Callable[[str], list[str]]) -> None:
        """Take the universal words that silence or repeat, and what could be heard of a sentence in this language."""
        self._words_in = words_in
        self._words = {phrase.words: phrase.command for phrase in vocabulary.universal() if phrase.command in (STOP, SAY_AGAIN)}

        halting = {phrase.words: STOP for phrase in vocabulary.halting()}
        self.while_turning = _set(tuple({**self._words, **halting}.items()))
        """What is live while a mount turns, whatever we say: to interrupt ourselves costs a slew, to miss a word perhaps a tube."""

    def against(self, spoken: str) -> ActiveSet:
        """Return what can interrupt this text: words that occur in it can't, or it would interrupt itself."""
        ours = f" {' '.join(self._words_in(spoken))} "
        return _set(tuple((words, command) for words, command in self._words.items() if f" {words} " not in ours))


@lru_cache(maxsize=32)
def _set(phrases: tuple[tuple[str, str], ...]) -> ActiveSet:
    """Return a set of these phrases; the same one for the same phrases, so that a recogniser prepares it once."""
    ways = " | ".join(f"{words} {{{command}}}" for words, command in phrases)
    grammar = parse_grammar(f"#JSGF V1.0;\ngrammar interruptions;\npublic <interruptions> = {ways};\n", "interruptions")
    return ActiveSet.of((grammar, "interruptions"))
