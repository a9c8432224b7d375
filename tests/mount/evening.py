"""An evening with a mount on the line, driven by typed words, on loopback."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from pathlib import Path

from companion.dialogue import Journal, Turn
from companion.equipment import Equipment, Mount, Observer
from companion.languages import Language, load_language
from companion.live import MountLink, Session, journal_path
from companion.messages import Hearing, Silence
from companion.mount import mount_address, open_line
from companion.sky import Site
from companion.talk.saying import Note, Saying
from companion.vocabulary import Vocabulary, load_vocabulary
from tests.mount.altaz_server import AltAzServer
from tests.mount.lines import until

SITE = Site(46.31, -67.52, 100.0, "America/Moncton")
KIT = Equipment(mount=Mount(star_choice="list", pose_time="before-power", last_keys="up-right"), observer=Observer(in_company=False))
NIGHT = datetime(2026, 11, 15, 0, 30, tzinfo=UTC)
"""Half past eight in the evening at the site: the Sun is far down."""


@lru_cache(maxsize=1)
def words() -> tuple[Language, Vocabulary]:
    """Return English and its grammars."""
    language = load_language("en")
    return language, load_vocabulary(language)


class Evening:
    """Says things to a session and keeps what it says. Its clock is ``ahead`` of the machine's, and so is the mount's."""

    def __init__(self, session: Session, link: MountLink, server: AltAzServer | None, ahead: timedelta) -> None:
        """Take the parts."""
        self.session, self.link, self._server = session, link, server
        self.said: list[str] = []
        self.sayings: list[Saying] = []
        self._ahead = ahead
        self.turn = self._told(session.begin())

    @property
    def server(self) -> AltAzServer:
        """The tests' own mount."""
        assert self._server is not None
        return self._server

    def now(self) -> datetime:
        """Return the time by the evening's own clock."""
        return datetime.now(UTC) + self._ahead

    def notes(self) -> tuple[Note, ...]:
        """Return all that was noted so far."""
        return tuple(self.session._conversation.notes())

    def _told(self, turn: Turn) -> Turn:
        self.sayings += turn.sayings
        if said := self.session.words(*turn.sayings):
            self.said.append(said)
        self.session.sync()
        return turn

    def hear(self, *lines: str) -> str:
        """Say these lines; return what was said to the last of them."""
        for line in lines:
            assert self.turn.question is not None
            before = len(self.said)
            hearing: Hearing = words()[1].understand(line, self.turn.question.expects, self.session.instead) if line else Silence()
            self.turn = self._told(self.session.hear(hearing))
        return " ".join(self.said[before:])

    def look(self) -> None:
        """Take what the mount does of itself."""
        assert self.session.mount is not None
        for news in self.session.mount_news():
            self.said.append(self.session.words(news))
        for hearing in self.session.mount_hearings():
            self.turn = self._told(self.session.hear(hearing))

    def until(self, condition: Callable[[], bool], limit_s: float = 15.0) -> None:
        """Look until this is so."""
        deadline = time.monotonic() + limit_s
        while not condition():
            assert time.monotonic() < deadline, f"it never came true after {self.said[-3:]}"
            self.look()
            time.sleep(0.02)

    def vanish(self) -> None:
        """End as a machine that loses its power does: nothing more is sent."""
        self.link._flight = None

    def until_said(self, text: str, limit_s: float = 20.0) -> str:
        """Look until this was said; return what was said since."""
        first, deadline = len(self.said), time.monotonic() + limit_s
        while not any(text in said for said in self.said[first:]):
            assert time.monotonic() < deadline, f"never said {text!r} after {self.said[-3:]}"
            self.look()
            time.sleep(0.02)
        return " ".join(self.said[first:])


@contextmanager
def evening(server: AltAzServer | str, home: Path, at: datetime = NIGHT, equipment: Equipment = KIT) -> Iterator[Evening]:
    """Hold an evening that begins at a time, with the tests' own mount or one at an address."""
    ahead = at - datetime.now(UTC)

    def clock() -> datetime:
        return datetime.now(UTC) + ahead

    link = MountLink(open_line(mount_address(server if isinstance(server, str) else server.address), clock), clock, equipment)
    try:
        until(lambda: link.is_up)
        with Journal(journal_path(home)) as journal:
            session = Session(SITE, clock, journal, equipment, language=words()[0], mount=link)
            yield Evening(session, link, None if isinstance(server, str) else server, ahead)
    finally:
        link.close()


def right_clock(at: datetime = NIGHT) -> float:
    """Return the clock error that makes a mount agree with an evening that begins at a time."""
    return (at - datetime.now(UTC)) / timedelta(seconds=1)


def knowing(**mount: float) -> dict[str, float]:
    """Return a mount that knows time and place."""
    return {"clock_error_s": right_clock(), "latitude_deg": SITE.latitude_deg, "longitude_deg": SITE.longitude_deg, **mount}
