"""From a turn to its speech: spoken, printed and remembered; and what we say of ourselves beside the dialogue."""

from __future__ import annotations

import logging
from collections.abc import Callable, Sequence

from companion.dialogue import Turn
from companion.live.readiness import Readiness
from companion.live.session import Session
from companion.live.turn_history import TurnHistory
from companion.messages import Heard, Hearing, NotNow
from companion.speaking import HEARD, NOT_UNDERSTOOD
from companion.speaking.speaker import Speaker
from companion.talk.saying import Say, Saying

_LOG = logging.getLogger("companion.live")
_LOG.addHandler(logging.NullHandler())


class Teller:
    """Turn in, speech out, behind what is being said already."""

    def __init__(self, session: Session, speaker: Speaker, history: TurnHistory, readiness: Readiness, show: Callable[[str], None]) -> None:
        """Take who words sayings, who speaks them, who remembers it, who gets ready for the answer; ``show`` gets a line a call."""
        self._session = session
        self._speaker = speaker
        self._history = history
        self._readiness = readiness
        self._show = show

    def tell(self, turn: Turn, *, answering: Hearing | None = None, before: Sequence[Say] = ()) -> None:
        """Speak a turn, after some sentences of our own; ``answering`` is what led to it.

        Meanwhile what the turn rests on reaches the disk, and the ear gets ready for the answer.
        """
        sayings: tuple[Saying, ...] = (*before, *turn.sayings)
        words = self._session.words(*sayings)
        speech = self._speaker.add(words)
        if isinstance(answering, Heard):
            self._history.answered(answering)
        elif isinstance(answering, NotNow) and not words:
            # Known, but no answer, and nothing more is said about it: not the sound of something taken.
            self._speaker.sound(NOT_UNDERSTOOD)
        self._history.spoke(speech)
        if words:
            self._show(f"it:  {words}")
        if turn.question is not None:
            self._history.asked(turn.question, speech, self._session.expected)
            self._readiness.for_answers(turn.question, words)
        self._session.sync()

    def announce(self, *news: Say) -> None:
        """Say something the dialogue knows nothing of."""
        _LOG.warning("%s", ", ".join(one.code() for one in news))
        words = self._session.words(*news)
        self._show(f"it:  {words}")
        self._history.spoke(self._speaker.add(words))

    def acknowledge(self, hearing: Hearing) -> None:
        """Sound and print at once that something was heard, and what."""
        understood = isinstance(hearing, (Heard, NotNow))
        self._speaker.sound(HEARD if understood else NOT_UNDERSTOOD)
        self._show(f"you: {hearing.written if isinstance(hearing, (Heard, NotNow)) else '(not understood)'}")

    def close(self) -> None:
        """Leave what isn't ready."""
        self._readiness.close()
