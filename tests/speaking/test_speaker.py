"""Speaking sentence by sentence: order, interruption, and what happens when a voice or the loudspeaker fails."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable

import numpy as np
import pytest

from companion.audio import Audio
from companion.errors import MissingPart
from companion.speaking.player import Outcome
from companion.speaking.rate import FASTEST_RATE_WPM
from companion.speaking.speaker import FASTER, PAUSE_SECONDS, Speaker, close_cut, sentences

RATE_HZ = 8_000
READY_SECONDS = 5.0


class Voice:
    """Renders each sentence as a tone as long as its text; fails where told to."""

    rate_wpm = 165

    def __init__(self, name: str = "voice", fails_from: int | None = None) -> None:
        """Fail from so many sentences on."""
        self.name = name
        self.rendered: list[str] = []
        self._fails_from = fails_from

    def render(self, text: str) -> Audio:
        """Return the tone, with silence around it."""
        if self._fails_from is not None and len(self.rendered) >= self._fails_from:
            raise MissingPart("gone")
        self.rendered.append(text)
        return Audio(np.concatenate([np.zeros(4000), np.full(len(text) * 100, 0.1), np.zeros(4000)]).astype(np.float32), RATE_HZ)

    def close(self) -> None:
        """Do nothing."""


class Playback:
    """A sound that ends when the loudspeaker says so."""

    def __init__(self) -> None:
        """Wait."""
        self.over = threading.Event()
        self.outcome = Outcome.FINISHED

    def wait(self) -> Outcome:
        """Block until it is over."""
        self.over.wait(READY_SECONDS)
        return self.outcome


class Loudspeaker:
    """Keeps what it is given."""

    lost = False

    def __init__(self, *, instant: bool = True) -> None:
        """End each sound at once, or when told."""
        self.played: list[Audio] = []
        self.playbacks: list[Playback] = []
        self.stops = 0
        self._instant = instant

    def play(self, audio: Audio) -> Playback:
        """Keep it."""
        self.played.append(audio)
        self.playbacks.append(Playback())
        if self._instant:
            self.playbacks[-1].over.set()
        return self.playbacks[-1]

    def wake(self) -> None:
        """Do nothing."""

    def stop(self) -> None:
        """End everything."""
        self.stops += 1
        for playback in self.playbacks:
            playback.outcome = Outcome.STOPPED
            playback.over.set()

    def close(self) -> None:
        """Do nothing."""


def until(true: Callable[[], object]) -> None:
    """Wait for the worker."""
    deadline = time.monotonic() + READY_SECONDS
    while not true():
        assert time.monotonic() < deadline
        time.sleep(0.005)


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("One. Two? Three!", ["One.", "Two?", "Three!"]),
        ("Zero point five metres.", ["Zero point five metres."]),
        ("I heard: yes. Right?", ["I heard: yes.", "Right?"]),
        ("  ", []),
    ],
)
def test_sentences(text: str, cut: list[str]) -> None:
    """A text is cut after each full stop, question mark and exclamation mark."""
    assert sentences(text) == cut


def test_a_text_is_spoken_in_order() -> None:
    """Each sentence is its own sound, close cut, with a pause behind; the speech begins and ends on the clock."""
    times = iter([1.0, 7.0])
    voice, loudspeaker = Voice(), Loudspeaker()
    speaker = Speaker([voice], loudspeaker, clock=lambda: next(times))
    speech = speaker.add("Level. Now north.")
    until(lambda: speech.over is not None)
    assert voice.rendered == ["Level.", "Now north."]
    assert (speech.begun, speech.over, speech.cut) == (1.0, 7.0, False)
    assert not speaker.is_speaking
    # 100 samples a letter, and 20 ms at both ends.
    assert [sound.seconds - PAUSE_SECONDS for sound in loudspeaker.played] == pytest.approx([0.115, 0.165], abs=0.001)


def test_louder_and_softer() -> None:
    """Each step is 6 dB of the sound that is played, up to one step louder and three softer; louder never leaves full scale."""
    voice, loudspeaker = Voice(), Loudspeaker()
    speaker = Speaker([voice], loudspeaker)

    def level() -> float:
        speech = speaker.add("Level.")
        until(lambda: speech.over is not None)
        return float(np.abs(loudspeaker.played[-1].samples).max())

    assert level() == pytest.approx(0.1)
    assert [speaker.change("softer") for _ in range(4)] == [True, True, True, False]
    assert level() == pytest.approx(0.1 * 10 ** (-18 / 20))
    assert [speaker.change("louder") for _ in range(5)] == [True] * 4 + [False]
    assert level() == pytest.approx(np.tanh(0.1 * 10 ** (6 / 20)))
    assert level() < 1.0


def test_faster_and_slower() -> None:
    """Every voice that may speak changes its pace, within what we speak at; where that ends nothing changes."""
    voices = [Voice(), Voice()]
    speaker = Speaker(voices, Loudspeaker())
    assert speaker.change("slower")
    assert [voice.rate_wpm for voice in voices] == [143, 143]
    while speaker.change("faster"):
        pass
    assert voices[0].rate_wpm <= FASTEST_RATE_WPM < voices[0].rate_wpm * FASTER["faster"]


def test_a_new_text_takes_the_place_of_the_old() -> None:
    """Saying something else silences what is being said; adding waits its turn."""
    loudspeaker = Loudspeaker(instant=False)
    speaker = Speaker([Voice()], loudspeaker)
    old = speaker.add("This is old.")
    until(lambda: loudspeaker.played)
    speaker.hush()
    new = speaker.add("This is new.")
    more = speaker.add("And more.")
    assert old.cut
    assert old.over is not None
    until(lambda: len(loudspeaker.played) == 2)
    assert speaker.is_speaking
    loudspeaker.playbacks[1].over.set()
    until(lambda: len(loudspeaker.played) == 3)
    assert new.over is not None
    loudspeaker.playbacks[2].over.set()
    until(lambda: more.over is not None)
    assert (new.cut, more.cut, loudspeaker.stops) == (False, False, 1)


def test_hush_before_the_first_sound() -> None:
    """Hushed while the first sentence is still rendered, nothing of it is played."""
    gate = threading.Event()

    class Slow(Voice):
        def render(self, text: str) -> Audio:
            gate.wait(READY_SECONDS)
            return super().render(text)

    loudspeaker = Loudspeaker()
    speaker = Speaker([Slow()], loudspeaker)
    speech = speaker.add("Too late.")
    speaker.hush()
    gate.set()
    speaker.close()
    assert speech.cut
    assert loudspeaker.played == []


def test_another_voice_stands_in() -> None:
    """A voice that fails isn't asked again; the sentence is said by the next."""
    first, second = Voice("first", fails_from=1), Voice("second")
    speaker = Speaker([first, second], Loudspeaker())
    speech = speaker.add("One. Two. Three.")
    until(lambda: speech.over is not None)
    assert (first.rendered, second.rendered, speaker.voices_left) == (["One."], ["Two.", "Three."], 1)


@pytest.mark.parametrize("how", ["no loudspeaker", "a lost one", "no voice"])
def test_what_cannot_be_spoken_is_over_at_once(how: str) -> None:
    """Without loudspeaker or voice a speech begins and ends in the same moment, and nothing waits for it."""
    loudspeaker = Loudspeaker()
    loudspeaker.lost = how == "a lost one"
    speaker = Speaker([] if how == "no voice" else [Voice()], None if how == "no loudspeaker" else loudspeaker)
    speech = speaker.add("Nobody hears this.")
    assert speaker.is_mute
    assert speech.begun == speech.over is not None
    speaker.sound(Audio(np.zeros(10, np.float32), RATE_HZ))
    speaker.wake()
    assert not speaker.is_speaking


def test_a_loudspeaker_that_goes_away_cuts_the_speech() -> None:
    """A sound that ends as lost makes the speech a cut one."""
    loudspeaker = Loudspeaker(instant=False)
    speaker = Speaker([Voice()], loudspeaker)
    speech = speaker.add("Gone.")
    until(lambda: loudspeaker.playbacks)
    loudspeaker.playbacks[0].outcome = Outcome.DEVICE_LOST
    loudspeaker.playbacks[0].over.set()
    until(lambda: speech.over is not None)
    assert speech.cut


def test_silence_around_a_sentence_is_cut() -> None:
    """A sentence keeps 20 ms around what is audible; silence stays silence."""
    sound = Voice().render("ten chars.")
    assert len(close_cut(sound).samples) == pytest.approx(1000 + 2 * 160, abs=2)
    silent = Audio(np.zeros(100, np.float32), RATE_HZ)
    assert close_cut(silent) is silent
