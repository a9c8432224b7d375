"""Which loudspeaker is heard and which microphone hears: found by asking, by voice or by a key, within a minute."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import chain, repeat

import numpy as np
import pytest

from companion.audio import Audio
from companion.devices import Device as KnownDevice
from companion.errors import MissingPart
from companion.hearing.vad import FRAME
from companion.live.first_sound import Answered, FirstSound, in_turn
from companion.speaking.speaker import Speech
from companion.talk.machine_phrases import CanYouHearMe, CanYouHearMeOrPress, SayYesOnceMore
from companion.talk.saying import Say
from tests.live.fakes import Loudspeaker, Microphone, ScriptedVoice, World, quiet, voice

QUESTION_SECONDS = 3.0
YES = 1
ELSE = 2


@dataclass
class Room:
    """Loudspeakers and microphones by name, somebody who answers, and what was asked."""

    hears: dict[str, Callable[[], Iterator[np.ndarray]]]
    """By microphone: what it gives after a question on the loudspeaker that is heard; else quiet."""
    heard_on: str = "near"
    refuses: tuple[str, ...] = ()
    key_at: float | None = None
    """The key is struck that many seconds after the beginning."""
    world: World = field(default_factory=World)
    asked: list[tuple[str, Say]] = field(default_factory=list)
    closed: list[str] = field(default_factory=list)
    loudspeaker: Loudspeaker | None = None
    is_mute: bool = False
    voices_left: int = 1

    def find(self, loudspeakers: list[str], microphones: list[str]) -> Answered | None:
        """Look for a pair."""
        first = FirstSound(
            self,  # type: ignore[arg-type]
            lambda sound: round(float(sound.samples.reshape(-1, FRAME)[:, 1].max()) * 100) == YES,
            self._tell,
            open_microphone=self._microphone,
            open_loudspeaker=self._open,
            key_pressed=None if self.key_at is None else self._pressed,
            detector=ScriptedVoice,
            clock=self.world.clock,
        )
        return first.found(loudspeakers, microphones)

    # --- as the speaker ----------------------------------------------------------------------------------------------

    def add(self, text: str) -> Speech:
        """Speak at once, for as long as it takes."""
        began = self.world.now
        self.world.now += QUESTION_SECONDS
        return Speech(text, begun=began, over=self.world.now)

    def sound(self, earcon: Audio) -> None:
        """Play nothing."""

    def hush(self) -> None:
        """Do nothing."""

    # --- devices and key -----------------------------------------------------------------------------------------------

    def _tell(self, saying: Say) -> str:
        assert self.loudspeaker is not None
        self.asked.append((self.loudspeaker.name, saying))
        return "words"

    def _open(self, name: str) -> Loudspeaker:
        if name in self.refuses:
            raise MissingPart("it refuses")
        room, device = self, Loudspeaker(name=name)
        device.close = lambda: room.closed.append(name)  # type: ignore[method-assign]
        return device

    def _microphone(self, name: str) -> Microphone:
        if name in self.refuses:
            raise MissingPart("it refuses")
        room = self

        def frames() -> Iterator[np.ndarray]:
            for frame in quiet(60):
                if room.asked and room.asked[-1][0] == room.heard_on:
                    break
                yield frame
            yield from chain(room.hears[name](), *repeat(list(quiet(1)), 60))

        device = Microphone(self.world, frames())
        device.name = name
        device.close = lambda: room.closed.append(name)  # type: ignore[method-assign]
        return device

    def _pressed(self) -> bool:
        if self.key_at is not None and self.world.now - 1000.0 >= self.key_at:
            self.key_at = float("inf")
            return True
        return False


def answer(words: int = YES, after: float = 1.0) -> Callable[[], Iterator[np.ndarray]]:
    """Return what a microphone gives that hears somebody answer."""
    return lambda: chain(quiet(after), voice(words))


def nothing() -> Iterator[np.ndarray]:
    """Return what a microphone gives that hears nobody."""
    return iter(())


def test_the_first_pair_that_answers() -> None:
    """Loudspeakers are asked in turn until one is heard; the microphone that hears the answer is the one; all are closed again."""
    room = Room({"deaf": nothing, "good": answer()}, refuses=("broken",))
    assert room.find(["far", "broken", "near", "further"], ["deaf", "broken", "good"]) == Answered("near", "good")
    assert room.asked == [("far", CanYouHearMe()), ("near", CanYouHearMe())]
    assert sorted(room.closed) == ["deaf", "far", "good", "near"]


def test_other_words_are_no_answer() -> None:
    """What isn't a yes counts for nothing."""
    assert Room({"good": answer(ELSE)}).find(["near"], ["good"]) is None


def test_our_own_words_are_no_answer() -> None:
    """The question holds the answer: what arrives as it ends is passed over."""
    assert Room({"echoing": lambda: voice(YES, seconds=0.25)}).find(["near"], ["echoing"]) is None
    assert Room({"echoing": lambda: voice(YES, seconds=0.6)}).find(["near"], ["echoing"]) is not None


@pytest.mark.parametrize("hears", [answer(), nothing])
def test_a_key_tells_that_the_loudspeaker_is_heard(hears: Callable[[], Iterator[np.ndarray]]) -> None:
    """Then the voice is asked for once more; where no microphone hears it, the loudspeaker alone is known."""
    room = Room({"good": hears}, heard_on="nowhere", key_at=4.0)
    found = room.find(["far", "near"], ["good"])
    assert found == Answered("far", None)
    assert room.asked == [("far", CanYouHearMeOrPress()), ("far", SayYesOnceMore())]
    room = Room({"good": lambda: chain(quiet(2.0), voice(ELSE), quiet(2.0), voice(YES))}, heard_on="far", key_at=4.0)
    assert room.find(["far"], ["good"]) == Answered("far", "good")


def test_it_takes_less_than_a_minute() -> None:
    """However many devices there are that nobody hears."""
    room = Room({"deaf": nothing}, heard_on="nowhere")
    assert room.find([f"loudspeaker {number}" for number in range(40)], ["deaf"]) is None
    assert room.world.now - 1000.0 < 60
    assert len(room.asked) >= 4


def test_without_a_voice_nothing_is_tried() -> None:
    """There is nothing to hear then."""
    room = Room({"good": answer()}, voices_left=0)
    assert room.find(["near"], ["good"]) is None
    assert room.asked == []


def test_no_device_twice() -> None:
    """The system's default comes first; names that are one device's are tried once."""
    known = [KnownDevice(number, name, 48_000, 2) for number, name in enumerate(("Internal", "Headset", "headset", "Webcam"))]
    assert in_turn(known, known[1]) == ["Headset", "Internal", "Webcam"]
