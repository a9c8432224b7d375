"""The ear made ready for the next answer while we speak."""

from __future__ import annotations

import logging
from concurrent.futures import Executor, Future

from companion.hearing import Engine
from companion.hearing.engine import MeasuresBackground
from companion.hearing.noise_floor import NoiseFloor
from companion.live.barge_in import BargeIn
from companion.talk.saying import Answers, Ask
from companion.vocabulary import Vocabulary

_LOG = logging.getLogger("companion.live")


class Readiness:
    """Prepares the recogniser on another thread."""

    def __init__(
        self, engine: Engine, vocabulary: Vocabulary, barge_in: BargeIn, noise: NoiseFloor, meanwhile: Executor, *, linked: bool = False
    ) -> None:
        """Take the recogniser, the words for a question and for interrupting us, the sound of the place, and who works meanwhile.

        ``linked``: whether there is a mount on the line that may have to be halted.
        """
        self._linked = linked
        self._engine = engine
        self._vocabulary = vocabulary
        self._barge_in = barge_in
        self._noise = noise
        self._meanwhile = meanwhile

    def for_answers(self, question: Ask[Answers], words: str) -> None:
        """Begin to prepare for what may be said while ``words`` are spoken, and to the question they ask."""
        self._meanwhile.submit(self._prepare, question, words).add_done_callback(_complain)

    def close(self) -> None:
        """Wait for what is under way, and leave the rest."""
        self._meanwhile.shutdown(wait=True, cancel_futures=True)

    def _prepare(self, question: Ask[Answers], words: str) -> None:
        clips = self._noise.changed_clips()
        if clips and isinstance(self._engine, MeasuresBackground):
            self._engine.set_background(clips)
        if words:
            self._engine.prepare(self._barge_in.against(words))
        if self._linked:
            self._engine.prepare(self._barge_in.while_turning)
        self._engine.prepare(self._vocabulary.active(question.expects))


def _complain(done: Future[None]) -> None:
    """Log what went wrong in getting ready: the recogniser will meet it again, and then it counts."""
    if not done.cancelled() and (error := done.exception()) is not None:
        _LOG.warning("not ready for the next answer", exc_info=error)
