"""An evening over typed lines, one line an utterance, so that a screen reader or a braille display can follow."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from companion.dialogue import Turn
from companion.hearing import understand
from companion.live.session import Session
from companion.messages import Heard, Say
from companion.speaking.speaker import CHANGES
from companion.vocabulary import Vocabulary


class TypedEvening:
    """Holds an evening with who types."""

    def __init__(self, evening: Session, vocabulary: Vocabulary, say: Callable[[str], None]) -> None:
        """Take the evening and its words; ``say`` receives one utterance a call, without a line break inside."""
        self._evening = evening
        self._vocabulary = vocabulary
        self._say = say

    def hold(self, lines: Iterable[str]) -> bool:
        """Hold the evening; return whether it came to its end (else the lines ran out)."""
        turn = self._evening.begin()
        self._tell(turn)
        for line in lines:
            if turn.question is None:
                break
            hearing = understand(line, self._vocabulary.active(turn.question.expects), self._vocabulary.everything)
            if isinstance(hearing, Heard) and hearing.command in CHANGES:
                self._say(self._evening.words(Say("no-voice-to-change")))
                continue
            turn = self._evening.hear(hearing)
            self._tell(turn)
            if turn.finished:
                break
        return turn.finished

    def _tell(self, turn: Turn) -> None:
        """Say a turn; what it rests on reaches the disk meanwhile."""
        words = self._evening.words(*turn.sayings)
        if words:
            self._say(words)
        self._evening.sync()
