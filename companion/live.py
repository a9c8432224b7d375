"""The companion in the field, in real time. Here: typed lines in and printed lines out, one line an utterance."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import UTC, datetime

from companion.dialogue import Conversation, Turn
from companion.hearing import understand
from companion.procedure import EVENING
from companion.sky import Moment, Site
from companion.vocabulary import Vocabulary
from companion.wording import words_for

Clock = Callable[[], datetime]


def typed_evening(site: Site, vocabulary: Vocabulary, lines: Iterable[str], say: Callable[[str], None], clock: Clock) -> bool:
    """Hold an evening over typed lines; return whether it came to its end (else the lines ran out).

    ``say`` receives one utterance a call, without a line break inside, so that a screen reader or braille display can follow.
    """
    conversation = Conversation(EVENING, site)

    def tell(turn: Turn) -> None:
        words = " ".join(words_for(saying, Moment(site, clock())) for saying in turn.sayings)
        if words:
            say(words)

    turn = conversation.begin(clock())
    tell(turn)
    for line in lines:
        if turn.question is None:
            break
        hearing = understand(line, vocabulary.active(turn.question.expects), vocabulary.everything)
        turn = conversation.hear(hearing, clock())
        tell(turn)
        if turn.finished:
            break
    return turn.finished


def clock_from(time: datetime) -> Clock:
    """Return a clock that reads ``time`` now and runs on from there."""
    ahead = time - datetime.now(UTC)
    return lambda: datetime.now(UTC) + ahead
