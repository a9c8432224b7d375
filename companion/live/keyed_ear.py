"""The ear: what the microphone captures is listened to while the talking key, where one is needed, holds it open."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Protocol

from companion.live.capture import Capture
from companion.live.listening import Listening
from companion.live.push_to_talk import Key
from companion.live.terminal import Typing
from companion.live.turn_policy import Utterance
from companion.speaking import LISTENING
from companion.speaking.speaker import Speaker

TICK_SECONDS = 0.05


class Changes(Protocol):
    """A key that tells when it goes down and up."""

    def changes(self) -> Iterator[tuple[bool, float]]:
        """Yield each time it went down (True) or up (False) since, and when."""
        ...


class KeyedEar:
    """Hears utterances."""

    def __init__(
        self,
        capture: Capture,
        listening: Listening,
        speaker: Speaker,
        *,
        key: Key,
        typing: Typing,
        clock: Callable[[], float],
        hand_key: Changes | None = None,
    ) -> None:
        """Take where sound comes from and goes through, who sounds that we listen, the key and its strokes, and the time in seconds.

        ``hand_key`` tells when a key of the observer's own goes down and up, where there is one.
        """
        self._hand_key = hand_key
        self._capture = capture
        self._listening = listening
        self.key = key
        self._typing = typing
        self._speaker = speaker
        self._clock = clock

    @property
    def hears_voice(self) -> bool:
        """Whether somebody is speaking."""
        return self._listening.hears_voice

    def utterances(self) -> Iterator[Utterance]:
        """Yield what was said in what the microphone gives next; where a held key is let go, what was said is whole."""
        captured = self._capture.read(TICK_SECONDS)
        if captured is not None and self.key.is_open:
            yield from self._listening.feed(captured)
        for at in self._typing.strokes():
            self._struck(at)
        for down, at in self._hand_key.changes() if self._hand_key is not None else ():
            if down and self._capture.is_possible and self.key.went_down(at):
                self._opened()
            elif not down and self.key.went_up(at):
                yield from self._listening.finish(self._clock())
        if self.key.let_go(self._clock()):
            yield from self._listening.finish(self._clock())

    def struck(self) -> None:
        """Open or close the ear as a stroke of the key does."""
        self._struck(self._clock())

    def pass_over(self) -> None:
        """Let what the microphone gives next go unheard."""
        self._capture.read(TICK_SECONDS)

    def reset(self) -> None:
        """Forget the sound so far: the microphone went away, or is another one."""
        self._listening.reset()

    def invite(self) -> None:
        """Sound that we listen, if we do."""
        if self._capture.is_possible and self.key.is_open:
            self._speaker.sound(LISTENING)

    def speech_to_noise_db(self, utterance: Utterance) -> float | None:
        """Return how far an utterance stands out of the place, in dB; None while the place isn't known."""
        return self._listening.speech_to_noise_db(utterance)

    def _struck(self, at: float) -> None:
        """Take a stroke; an ear that it opens begins anew, and we fall silent."""
        if self._capture.is_possible and self.key.struck(at):
            self._opened()

    def _opened(self) -> None:
        self._listening.reset()
        self._speaker.hush()
        self._speaker.sound(LISTENING)
