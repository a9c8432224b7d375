"""The key that opens the ear for one answer: where people talk, or in noise. On a terminal it is the enter key."""

from __future__ import annotations


class Key:
    """Open or closed. Once offered or asked for, the ear is closed until the key is pressed, and again after each utterance."""

    def __init__(self, *, always_open: bool) -> None:
        """Begin with an ear that is always open, or with one that needs the key."""
        self._needed = not always_open
        self._offered = False
        self._open = always_open

    @property
    def is_open(self) -> bool:
        """Whether anything is listened to."""
        return self._open

    @property
    def invitation(self) -> str | None:
        """The phrase that explains the key at the start, None where it isn't needed."""
        return "hold-the-key" if self._needed else None

    def offer(self) -> None:
        """Let the next press turn the key's use on."""
        self._offered = True

    def pressed(self) -> bool:
        """Open the ear, or close it again; return whether it is open now. Where no key is needed, nothing happens."""
        if self._offered:
            self._offered, self._needed, self._open = False, True, False
        if not self._needed:
            return False
        self._open = not self._open
        return self._open

    def utterance_over(self) -> None:
        """Close the ear after an utterance, where the key is needed."""
        if self._needed:
            self._open = False
