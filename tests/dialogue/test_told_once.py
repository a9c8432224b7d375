"""What was said once isn't said again: a distance, a confirmation. And words are read back as people write them."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from companion.dialogue import Conversation
from companion.procedure import EVENING
from companion.sky import Site
from tests.english import ENGLISH, VOCABULARY

TARGETS = [stage for stage in EVENING if stage.name == "targets"]
SITE = Site(46.31, -67.52, 180, "America/Moncton", "Spruce Ridge clearing")


class Night:
    """A night that is typed to, a line a minute."""

    def __init__(self) -> None:
        """Begin with the first target."""
        self.conversation = Conversation(TARGETS, SITE, ENGLISH)
        self.now = datetime(2026, 10, 15, 23, 30, tzinfo=UTC)
        self.turn = self.conversation.begin(self.now)

    def says(self, *lines: str) -> str:
        """Type lines; return the words of the last reply."""
        for line in lines:
            assert self.turn.question is not None, line
            self.now += timedelta(minutes=1)
            self.turn = self.conversation.hear(VOCABULARY.understand(line, self.turn.question.expects), self.now)
        return " ".join(self.conversation.words(saying, self.now) for saying in self.turn.sayings)


def test_a_distance_is_told_once() -> None:
    """Asked for before, it isn't told with all the rest; and who asks for more twice is told more."""
    distance = Night().says("how far away is it")
    assert "light-years away" in distance.split(". ")[0]
    assert "light-years away" in Night().says("tell me more")
    night = Night()
    night.says("how far away is it")
    assert "light-years away" not in (more := night.says("tell me more"))
    assert night.says("say that again") == more
    assert "agnitude" in night.says("tell me more")


def test_going_back_asks_again_and_confirms_nothing() -> None:
    """What was written down, or put off, was said when it was so: gone back to, only the question behind it is put."""
    night = Night()
    assert night.says("seen it", "easily", "skip this", "no", "four", "three").startswith("Written down.")
    assert night.says("next target", "go back") == "Say next target when you like."
    assert night.says("say that again") == "Say next target when you like."


def test_words_are_read_back_as_people_write_them() -> None:
    """A capital at the beginning, and for the one who speaks."""
    assert Night().says("I can't tell").startswith("I heard: I can't tell. ")
    assert Night().says("say that again", "what's the moon doing", "what did you hear").startswith("I heard: What's the moon doing. ")
