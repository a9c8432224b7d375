"""An evening over typed lines, one line an utterance, so that a screen reader or a braille display can follow."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator

from companion.dialogue import VOICE_CHANGES, turns
from companion.live.session import Session
from companion.live.terminal import Typing
from companion.messages import Heard, Hearing
from companion.talk.live_phrases import NoVoiceToChange
from companion.talk.saying import Answers, Ask
from companion.vocabulary import Vocabulary

_LOOK_EVERY_S = 0.02


def lines_and_mount(typing: Typing, session: Session, say: Callable[[str], None]) -> Iterator[str | Hearing]:
    """Yield what is typed, and that the mount's slew is over; its news are said at once. Ends when no more is typed and nothing turns."""
    assert session.mount is not None
    while True:
        for news in session.mount_news():
            say(session.words(news))
        yield from session.mount_hearings()
        line = next(typing.waiting(), None)
        if line is not None:
            yield line
        elif typing.ended and not session.mount_is_turning():
            return
        else:
            time.sleep(_LOOK_EVERY_S)


def hold_typed(session: Session, vocabulary: Vocabulary, lines: Iterable[str | Hearing], say: Callable[[str], None]) -> bool:
    """Hold the evening with who types ``lines``; return whether it came to its end (else the lines ran out).

    ``say`` receives one utterance a call, without a line break inside. What a turn rests on reaches the disk while it is read.
    """
    waiting = iter(lines)

    def hear(question: Ask[Answers]) -> Hearing | None:
        for line in waiting:
            if not isinstance(line, str):
                return line
            hearing = vocabulary.understand(line, question.expects, session.instead)
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
