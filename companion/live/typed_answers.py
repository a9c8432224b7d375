"""What is typed beside what is spoken: an empty line is the key that opens and closes the ear, any other an answer."""

from __future__ import annotations

from collections.abc import Iterator

from companion.live.keyed_ear import KeyedEar
from companion.live.terminal import Typing
from companion.live.turn_history import TurnHistory
from companion.messages import Hearing, NotUnderstood
from companion.speaking import NOT_UNDERSTOOD
from companion.speaking.speaker import Speaker
from companion.vocabulary import Vocabulary


class TypedAnswers:
    """Hears lines."""

    def __init__(
        self,
        typing: Typing,
        vocabulary: Vocabulary,
        history: TurnHistory,
        ear: KeyedEar,
        speaker: Speaker,
    ) -> None:
        """Take where lines come from, the words there are, what is asked, the ear, and who falls silent for an answer."""
        self._typing = typing
        self._vocabulary = vocabulary
        self._history = history
        self._ear = ear
        self._speaker = speaker

    def hearings(self) -> Iterator[Hearing]:
        """Yield what the next line says, if one has come: after it another question may be open."""
        line = next(self._typing.waiting(), None)
        if line is None:
            return
        if not line.strip():
            self._ear.struck()
            return
        self._speaker.hush()
        question = self._history.latest.question
        heard = self._vocabulary.understand(line, question.expects, question.also)
        if isinstance(heard, NotUnderstood):
            self._speaker.sound(NOT_UNDERSTOOD)
        yield heard
