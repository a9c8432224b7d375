"""What the mount on the line does of itself, beside what is said: its news announced at once, the end of its slew heard like a word."""

from __future__ import annotations

from collections.abc import Iterator

from companion.live.session import Session
from companion.live.teller import Teller
from companion.messages import Hearing


class MountAnswers:
    """Hears the mount."""

    def __init__(self, session: Session, teller: Teller) -> None:
        """Take the dialogue, which knows the mount, and who announces."""
        self._session, self._teller = session, teller

    def hearings(self) -> Iterator[Hearing]:
        """Announce what happened on the line; yield that a slew is over."""
        if self._session.mount is not None:
            for news in self._session.mount_news():
                self._teller.announce(news)
            yield from self._session.mount_hearings()
