"""The key that opens the ear: held while talking, or tapped for one answer. Pure: times are handed in, in seconds.

A terminal tells of a key's strokes, never of its release: a held key is seen by its repeats, which come until it is let go. A key of
the observer's own, on another device, tells when it goes down and up.
"""

from __future__ import annotations

from companion.talk.live_phrases import HoldTheKey, HoldYourKey, KeyNeeded, PressTheKey
from companion.talk.saying import Say

FIRST_REPEAT_SECONDS = 0.8
"""On common systems a held key first repeats after a quarter to two thirds of a second, then 20 to 40 times a second (from memory)."""
REPEAT_SECONDS = 0.25
"""Without a repeat for so long, a held key has been let go."""
TAP_SECONDS = 0.4
"""A key of one's own that is up again sooner was tapped. Judgement: nobody says anything while it is down so shortly."""


class Key:
    """Open or closed. Once offered or asked for, the ear is closed until the key is struck."""

    def __init__(self, *, always_open: bool, can_be_held: bool = True, is_own: bool = False) -> None:
        """Begin with an ear that is always open, or with one that needs the key; not every keyboard shows what is held.

        ``is_own``: whether the observer has chosen a key on another device.
        """
        self._can_be_held = can_be_held
        self._is_own = is_own
        self._down_at: float | None = None
        self._was_open = always_open
        self._needed = not always_open
        self._offered = False
        self._open = always_open
        self._held = False
        self._struck_at: float | None = None

    @property
    def is_open(self) -> bool:
        """Whether anything is listened to."""
        return self._open

    @property
    def invitation(self) -> tuple[Say, ...]:
        """What explains the key at the start, none where it isn't needed."""
        return (KeyNeeded(), self.how) if self._needed else ()

    @property
    def how(self) -> Say:
        """What tells how to use the key."""
        if self._is_own:
            return HoldYourKey()
        return HoldTheKey() if self._can_be_held else PressTheKey()

    def offer(self) -> None:
        """Let the next stroke turn the key's use on."""
        self._offered = True

    def struck(self, at: float) -> bool:
        """Take a stroke: open the ear, close it again, or hold it open where it is a repeat. Return whether the ear opened now.

        Where no key is needed, nothing happens.
        """
        within = REPEAT_SECONDS if self._held else FIRST_REPEAT_SECONDS
        repeated = self._open and self._struck_at is not None and at - self._struck_at <= within
        self._struck_at = at
        if self._offered:
            self._offered, self._needed, self._open = False, True, False
        if not self._needed:
            return False
        self._held = repeated
        self._open = repeated or not self._open
        return self._open and not repeated

    def went_down(self, at: float) -> bool:
        """Take a key of one's own going down: the ear is open while it is. Return whether the ear opened now."""
        if self._offered:
            self._offered, self._needed, self._open = False, True, False
        if not self._needed:
            return False
        self._was_open, self._down_at, self._struck_at = self._open, at, None
        self._held = self._open = True
        return not self._was_open

    def went_up(self, at: float) -> bool:
        """Take it coming up; return whether it was held and the ear is closed now. A tap leaves it open for one answer, or closes it."""
        if self._down_at is None:
            return False
        was_held = at - self._down_at >= TAP_SECONDS
        self._down_at, self._held = None, False
        self._open = not was_held and not self._was_open
        return was_held

    def let_go(self, now: float) -> bool:
        """Return whether a key that was held has been let go by now: the ear is closed then."""
        if not self._held or self._struck_at is None or now - self._struck_at <= REPEAT_SECONDS:
            return False
        self._held = self._open = False
        return True

    def utterance_over(self) -> None:
        """Close the ear after an utterance, where the key is needed and not held down."""
        if self._needed and not self._held:
            self._open = False
