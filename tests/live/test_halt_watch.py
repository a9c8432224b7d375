"""A mount that turns is halted by voice on a thread of its own: the conversation's may be busy, and our own sentence may go on."""

from __future__ import annotations

import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing import glance
from companion.hearing.active import ActiveSet
from companion.hearing.stream import Captured
from companion.hearing.vad import FRAME
from companion.languages import load_language
from companion.live.barge_in import BargeIn
from companion.live.halt_watch import DOUBTFUL, IN_PASSING, HaltWatch
from companion.live.last_moment import LastMoment
from companion.live.playback_reference import PlaybackReference
from companion.messages import Heard, Hearing, NotUnderstood
from tests.english import VOCABULARY
from tests.live.echoing_room import SidePlayed
from tests.mount.lines import until

HALTING = BargeIn(VOCABULARY, load_language().words_in).while_turning
STOP = Heard("stop", "stop", {}, 0.99)


class Ear:
    """Hears the same in whatever it is given."""

    name = "same"

    def __init__(self, hearing: Hearing) -> None:
        """Take what it hears."""
        self._hearing = hearing
        self.lengths: list[float] = []

    def prepare(self, active: ActiveSet) -> None:
        """Do nothing."""

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Hear it."""
        self.lengths.append(audio.seconds)
        return self._hearing


class QuickEar(Ear):
    """Can do without a second hearing."""

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Hear something else."""
        return NotUnderstood()

    def glance(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Hear it."""
        return super().recognise(audio, active)


class NoisesAreVoices:
    """Takes whatever is loud for a voice."""

    def probability(self, frame: np.ndarray) -> float:
        """Return whether it is loud."""
        return float(np.abs(frame).max() > 0.02)

    def reset(self) -> None:
        """Do nothing."""


class Mount:
    """Turns until it is halted."""

    def __init__(self, *, turns: bool) -> None:
        """Turn, or stand."""
        self.turns = turns
        self.halted = threading.Event()

    def halt(self) -> None:
        """Stand."""
        self.turns = False
        self.halted.set()


@contextmanager
def _watch(
    hearing: Hearing, *, turns: bool = True, reference: PlaybackReference | None = None
) -> Iterator[tuple[Callable[[float, float], None], Mount, Ear]]:
    """Watch a mount; what is yielded plays so many seconds of noise so loud, as a microphone would."""
    mount, ear = Mount(turns=turns), QuickEar(hearing)
    noise, now = np.random.default_rng(3), [0.0]
    watch = HaltWatch(ear, NoisesAreVoices(), HALTING, reference, is_needed=lambda: mount.turns, halt=mount.halt)

    def play(seconds: float, level: float) -> None:
        for _ in range(round(seconds * SPEECH_RATE_HZ / FRAME)):
            block = (level * noise.standard_normal((FRAME, 1))).astype(np.float32)
            now[0] += FRAME / SPEECH_RATE_HZ
            watch.took(block, SPEECH_RATE_HZ, now[0])
            time.sleep(FRAME / SPEECH_RATE_HZ / 4)

    watch.start()
    try:
        yield play, mount, ear
    finally:
        watch.close()


def test_a_word_that_halts_needs_hardly_a_pause() -> None:
    """A tenth of a second of quiet after it is enough."""
    with _watch(Heard("stop", "stop", {}, DOUBTFUL + 0.02)) as (play, mount, _):
        play(1.5, 0.001)
        play(0.3, 0.1)
        play(0.2, 0.001)
        assert mount.halted.wait(2.0)


def test_it_looks_into_a_voice_that_goes_on() -> None:
    """No pause is waited for, and only the last moment is looked at."""
    with _watch(STOP) as (play, mount, ear):
        play(1.5, 0.001)
        play(1.5, 0.1)
        assert mount.halted.wait(2.0)
        assert ear.lengths[-1] <= 0.8 + 1e-6


def test_threads_take_turns_sooner_while_it_turns() -> None:
    """A search in another thread would hold the interpreter 5 ms at every sum of a look; afterwards all is as before."""
    usual = sys.getswitchinterval()
    with _watch(NotUnderstood()) as (play, mount, _):
        play(0.2, 0.0)
        until(lambda: sys.getswitchinterval() < usual / 10)
        mount.halt()
        until(lambda: sys.getswitchinterval() > usual / 10)
        assert sys.getswitchinterval() == pytest.approx(usual)


@pytest.mark.parametrize(("confidence", "halts"), [(DOUBTFUL + 0.02, True), (DOUBTFUL - 0.02, False)])
def test_a_doubtful_word_halts(confidence: float, halts: bool) -> None:
    """What would not be taken for an answer halts all the same; what is hardly like it doesn't."""
    with _watch(NotUnderstood(confidence)) as (play, mount, ear):
        play(1.5, 0.001)
        play(0.6, 0.1)
        play(0.3, 0.001)
        assert mount.halted.wait(1.0) is halts
        assert ear.lengths


@pytest.mark.parametrize(("confidence", "halts"), [(IN_PASSING + 0.02, True), (IN_PASSING - 0.02, False)])
def test_while_we_speak_it_must_be_surer(confidence: float, halts: bool) -> None:
    """What is left of our own voice sounds like a word now and then."""
    reference = SidePlayed()
    reference.piece = np.zeros(FRAME, np.float32)
    with _watch(Heard("stop", "stop", {}, confidence), reference=reference) as (play, mount, ear):
        play(1.5, 0.001)
        reference.piece = (0.1 * np.random.default_rng(2).standard_normal(FRAME)).astype(np.float32)
        play(0.6, 0.1)
        play(0.3, 0.001)
        assert mount.halted.wait(1.0) is halts
        assert ear.lengths


def test_what_repeats_us_does_not_halt() -> None:
    """Asking us to say it again is live meanwhile, too."""
    with _watch(Heard("say that again", "say-again", {}, 0.9)) as (play, mount, ear):
        play(1.5, 0.001)
        play(0.6, 0.1)
        play(0.3, 0.001)
        assert not mount.halted.wait(1.0)
        assert ear.lengths


def test_a_mount_that_stands_is_left_alone() -> None:
    """Nothing is even looked at, and what was said before it turned doesn't halt it."""
    with _watch(STOP, turns=False) as (play, mount, ear):
        play(1.5, 0.001)
        play(0.6, 0.1)
        assert not mount.halted.wait(0.3)
        mount.turns = True
        play(1.0, 0.001)
        assert not mount.halted.wait(0.5)
        assert not ear.lengths


def test_it_asks_for_a_glance_where_the_ear_has_one() -> None:
    """A second hearing of what is in doubt would come too late."""
    sound = Audio(np.zeros(FRAME, np.float32), SPEECH_RATE_HZ)
    assert glance(QuickEar(STOP), sound, HALTING) == STOP
    assert glance(Ear(STOP), sound, HALTING) == STOP


@pytest.mark.parametrize(("level", "is_looked_at"), [(0.02, False), (0.2, True)])
def test_what_is_left_of_our_voice_is_not_looked_at(level: float, is_looked_at: bool) -> None:
    """Our voice comes back as loud as it plays and is taken out; a rest a tenth as loud is no shout, what is as loud is one."""
    random, last = np.random.default_rng(1), LastMoment()

    def hears(seconds: float, clean_level: float) -> None:
        for number in range(round(seconds * SPEECH_RATE_HZ / FRAME)):
            clean = clean_level * random.standard_normal(FRAME)
            echo = 0.2 * random.standard_normal(FRAME)
            at = (number + 1) * FRAME / SPEECH_RATE_HZ
            last.add(Captured(clean.astype(np.float32), at), echo.astype(np.float32))

    hears(1.0, 1e-3)
    assert last.look() is None
    hears(0.5, level)
    assert (last.look() is not None) is is_looked_at


def test_what_was_heard_before_is_not_meant() -> None:
    """Of what began before a time only the rest is given, and that only once it is long enough to hold a word."""
    random, last = np.random.default_rng(1), LastMoment()
    for number in range(50):
        sound = Captured(
            (0.1 if number > 20 else 0.001) * random.standard_normal(FRAME).astype(np.float32), (number + 1) * FRAME / SPEECH_RATE_HZ
        )
        last.add(sound, np.zeros(FRAME, np.float32))
    assert last.look(since=1.4) is None
    found = last.look(since=1.0)
    assert found is not None
    assert found.seconds == pytest.approx(0.6, abs=0.001)


def test_a_late_look_holds_more() -> None:
    """Who was busy for a second looks at so much that no word can have been cut in two; who wasn't, at the usual."""
    last, lengths = LastMoment(), []
    for number in range(100):
        level = 0.1 if number > 40 else 0.001
        at = (number + 1) * FRAME / SPEECH_RATE_HZ
        sound = Captured(level * np.random.default_rng(number).standard_normal(FRAME).astype(np.float32), at)
        last.add(sound, np.zeros(FRAME, np.float32))
        busy = 50 < number < 80
        if not busy and (found := last.look()) is not None:
            lengths.append(found.seconds)
    assert min(lengths) == pytest.approx(0.8)
    assert 30 * FRAME / SPEECH_RATE_HZ < max(lengths) <= 1.6
