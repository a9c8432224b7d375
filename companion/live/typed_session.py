"""An evening over typed lines, one line an utterance, so that a screen reader or a braille display can follow."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from companion.dialogue import VOICE_CHANGES, turns
from companion.live.session import Session
from companion.messages import Heard, Hearing
from companion.talk.live_phrases import NoVoiceToChange
from companion.talk.saying import Answers, Ask
from companion.vocabulary import Vocabulary


def hold_typed(session: Session, vocabulary: Vocabulary, lines: Iterable[str], say: Callable[[str], None]) -> bool:
    """Hold the evening with who types ``lines``; return whether it came to its end (else the lines ran out).

    ``say`` receives one utterance a call, without a line break inside. What a turn rests on reaches the disk while it is read.
    """
    waiting = iter(lines)

    def hear(question: Ask[Answers]) -> Hearing | None:
        for line in waiting:
            hearing = vocabulary.understand(line, question.expects)
            if not (isinstance(hearing, Heard) and hearing.command in VOICE_CHANGES):
                return hearing
            say(session.words(NoVoiceToChange()))
        return None

    turn = session.begin()
    for _, turn in turns(turn, hear, session.hear):  # noqa: B020 - the first turn is the loop's own
        words = session.words(*turn.sayings)
        if words:
            say(words)
        session.sync()
    if turn.finished:
        session.said_good_night()
    return turn.finished
