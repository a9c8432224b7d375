"""Evenings with a mount on the line, read aloud like the others: ``mount:`` lines beside ``you:`` and ``it:`` say what it does.

``mount: points at NAME`` (somebody has steered it there), ``arrives``, ``line lost``, ``line back``, ``is parked``; ``is
waited for``: something more is said of it. The header's table
``[link]`` says what the mount believes at first: ``clock_error_s``, ``latitude_deg``, ``longitude_deg``. The mount, and nothing else, is
feigned: session, line, flight watch and journal are the real ones, hurried on.
"""

from __future__ import annotations

import tempfile
import time as system_time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import timedelta
from pathlib import Path
from unittest import mock

from companion import sky
from companion.dialogue import Journal, Turn
from companion.documents.equipment_tables import equipment_from
from companion.documents.site_table import site_from
from companion.live import MountLink, Session, journal_path
from companion.messages import Hearing, Silence
from companion.mount import Horizontal, Line
from companion.sky import Moment, Site
from companion.vocabulary import Vocabulary
from tests.english import ENGLISH, VOCABULARY
from tests.evenings.script import LINE, SILENCE, USUAL_PAUSE, Script
from tests.mount.memory_mount import MemoryMount

HERE = Path(__file__).parent / "on_the_line"
_HURRIED = {
    "companion.mount.line.POLL_STANDING_S": 0.05,
    "companion.mount.line.POLL_SLEWING_S": 0.05,
    "companion.mount.line.RETRY_S": 0.05,
    "companion.mount.stopping.STOP_LIMIT_S": 0.3,
    "companion.mount.stopping.PAUSE_S": 0.02,
    "companion.mount.flight_watch.SILENT_S": 60.0,
    "companion.live.flight.LOOK_EVERY_S": 0.02,
}
"""What is waited for in the field, and need not be here; a busy machine is no silent mount."""
_SPOKEN_WITHIN_S = 8.0


class LinkedEvening:
    """One evening under way."""

    def __init__(self, session: Session, mount: MemoryMount, vocabulary: Vocabulary) -> None:
        """Take the parts."""
        self._session, self._mount, self._clock, self._vocabulary = session, mount, mount.clock, vocabulary

    def begin(self) -> Iterator[tuple[str, Turn]]:
        """Yield what is said first."""
        self._turn = self._session.begin()
        yield from self._said()
        yield from self._news()

    def do(self, line: str) -> Iterator[tuple[str, Turn]]:
        """Do a line of the script; yield it, and what is said then."""
        match = LINE.fullmatch(line)
        assert match is not None, line
        self._clock.go_on(timedelta(minutes=int(match["minutes"])) if match["minutes"] else USUAL_PAUSE)
        yield line, self._turn
        if match["who"] == "mount":
            self._mount_does(match["words"])
            if not match["words"].startswith("points at") and match["words"] != "is parked":
                yield from self._news()
            return
        assert self._turn.question is not None, f"the evening was over before: {line}"
        words, expects = match["words"], self._turn.question.expects
        hearing: Hearing = Silence() if words == SILENCE else self._vocabulary.understand(words, expects, self._session.instead)
        self._turn = self._session.hear(hearing)
        yield from (self._said() if self._turn.sayings else self._news())

    def _said(self) -> Iterator[tuple[str, Turn]]:
        if words := self._session.words(*self._turn.sayings):
            yield f"it:  {words}", self._turn

    def _news(self) -> Iterator[tuple[str, Turn]]:
        """Wait until the mount leads to something that is said; yield that."""
        deadline = system_time.monotonic() + _SPOKEN_WITHIN_S
        told = False
        while not told:
            assert system_time.monotonic() < deadline, "the mount leads to nothing"
            # One thing at a time, so that it doesn't matter which two of them came between two looks.
            for say in self._session.mount_news():
                told = True
                yield f"it:  {self._session.words(say)}", self._turn
                break
            for hearing in () if told else self._session.mount_hearings():
                told = True
                self._turn = self._session.hear(hearing)
                yield from self._said()
            system_time.sleep(0.01)

    def _mount_does(self, what: str) -> None:
        match what.split():
            case ["points", "at", *words]:
                here = Moment(self._site, self._clock.time)
                seen = sky.sight(sky.find(" ".join(words)), here, refraction=False)
                self._mount.put_on(Horizontal(seen.altitude_deg, seen.azimuth_deg))
            case ["arrives"]:
                self._mount.arrive()
            case ["line", how]:
                self._mount.is_cut = how == "lost"
            case ["is", "waited", *_]:
                pass
            case ["is", "parked"]:
                self._mount.parked = True
            case _:
                raise ValueError(f"no mount {what}")

    @property
    def _site(self) -> Site:
        return self._session._conversation.moment(self._clock.time).site


@contextmanager
def at_the_mount(script: Script, vocabulary: Vocabulary, home: Path, mount: MemoryMount) -> Iterator[LinkedEvening]:
    """Hold a session whose journal lies in a folder, with a mount that stays what it is when the session ends."""
    clock, equipment = mount.clock, equipment_from(script.facts)
    with Journal(journal_path(home)) as journal:
        line = Line(mount, mount, clock)
        line.start()
        link = MountLink(line, clock, equipment)
        site = site_from(script.facts["site"], "site")
        session = Session(site, clock, journal, equipment, language=ENGLISH, by_voice=True, mount=link)
        try:
            yield LinkedEvening(session, mount, vocabulary)
        finally:
            link.close()


@contextmanager
def hurried() -> Iterator[None]:
    """Let nothing be waited for longer than it must."""
    with ExitStack() as stack:
        for name, value in _HURRIED.items():
            stack.enter_context(mock.patch(name, value))
        yield


def played(script: Script, vocabulary: Vocabulary = VOCABULARY) -> Iterator[tuple[str, Turn]]:
    """Hold the evening; yield each line of all three sides with the turn it belongs to."""
    mount = MemoryMount.of(script.facts)
    with tempfile.TemporaryDirectory() as home, hurried(), at_the_mount(script, vocabulary, Path(home), mount) as evening:
        yield from evening.begin()
        for line in script.lines:
            if not line.startswith("it:"):
                yield from evening.do(line)


def scripts() -> list[Path]:
    """Return all evenings with a mount on the line."""
    return sorted(HERE.glob("*.txt"))
