"""A mount that turns is halted by voice on a thread of its own: the conversation's may be busy, and our own sentence may go on."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing import glance
from companion.hearing.active import ActiveSet
from companion.hearing.vad import FRAME
from companion.languages import load_language
from companion.live.barge_in import BargeIn
from companion.live.halt_watch import DOUBTFUL, HaltWatch, _Heard
from companion.live.playback_reference import PlaybackReference
from companion.live.turn_policy import SURE
from companion.messages import Heard, Hearing, NotUnderstood
from tests.english import VOCABULARY
from tests.live.echoing_room import SidePlayed
from tests.live.fakes import ScriptedVoice

HALTING = BargeIn(VOCABULARY, load_language().words_in).while_turning
STOP = Heard("stop", "stop", {}, 0.9)


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
    """Watch a mount; what is yielded plays so many seconds at a probability of a voice, as a microphone would."""
    mount, ear = Mount(turns=turns), Ear(hearing)
    watch = HaltWatch(ear, ScriptedVoice(), HALTING, reference, is_needed=lambda: mount.turns, halt=mount.halt)

    def play(seconds: float, voice: float) -> None:
        for _ in range(round(seconds * SPEECH_RATE_HZ / FRAME)):
            watch.took(np.full((FRAME, 1), voice, np.float32), SPEECH_RATE_HZ, time.monotonic())
            time.sleep(FRAME / SPEECH_RATE_HZ / 4)

    watch.start()
    try:
        yield play, mount, ear
    finally:
        watch.close()


def test_a_word_that_halts_needs_hardly_a_pause() -> None:
    """A tenth of a second of quiet after it is enough."""
    with _watch(STOP) as (play, mount, _):
        play(0.5, 0.0)
        play(0.3, 1.0)
        play(0.2, 0.0)
        assert mount.halted.wait(2.0)


def test_it_looks_into_a_voice_that_goes_on() -> None:
    """Ours may go on beside it: no pause is waited for, and only the last moment is looked at."""
    with _watch(STOP) as (play, mount, ear):
        play(0.5, 0.0)
        play(1.5, 1.0)
        assert mount.halted.wait(2.0)
        assert ear.lengths[-1] == pytest.approx(0.9)


@pytest.mark.parametrize(("confidence", "halts"), [(DOUBTFUL + 0.05, True), (DOUBTFUL - 0.05, False)])
def test_a_doubtful_word_halts(confidence: float, halts: bool) -> None:
    """What would not be taken for an answer halts all the same; what is hardly like it doesn't."""
    with _watch(NotUnderstood(confidence)) as (play, mount, ear):
        play(0.5, 0.0)
        play(0.3, 1.0)
        play(0.3, 0.0)
        assert mount.halted.wait(1.0) is halts
        assert ear.lengths


@pytest.mark.parametrize(("confidence", "halts"), [(SURE + 0.05, True), (SURE - 0.05, False)])
def test_while_we_speak_it_must_be_surer(confidence: float, halts: bool) -> None:
    """What is left of our own voice sounds like a word now and then."""
    reference = PlaybackReference()
    with _watch(Heard("stop", "stop", {}, confidence), reference=reference) as (play, mount, ear):
        play(0.5, 0.0)
        hiss = np.random.default_rng(2).standard_normal(SPEECH_RATE_HZ)
        reference.took((0.1 * hiss).astype(np.float32), SPEECH_RATE_HZ)
        play(0.3, 1.0)
        play(0.3, 0.0)
        assert mount.halted.wait(1.0) is halts
        assert ear.lengths


def test_what_repeats_us_does_not_halt() -> None:
    """Asking us to say it again is live meanwhile, too."""
    with _watch(Heard("say that again", "say-again", {}, 0.9)) as (play, mount, ear):
        play(0.5, 0.0)
        play(0.3, 1.0)
        play(0.3, 0.0)
        assert not mount.halted.wait(1.0)
        assert ear.lengths


def test_a_mount_that_stands_is_left_alone() -> None:
    """Nothing is even looked at, and what was said before it turned doesn't halt it."""
    with _watch(STOP, turns=False) as (play, mount, ear):
        play(0.3, 1.0)
        play(0.5, 0.0)
        assert not mount.halted.wait(0.3)
        mount.turns = True
        play(0.5, 0.0)
        assert not mount.halted.wait(0.5)
        assert not ear.lengths


class QuickEar(Ear):
    """Can do without a second hearing."""

    def __init__(self, hearing: Hearing) -> None:
        """Take what a glance hears."""
        super().__init__(NotUnderstood())
        self._at_a_glance = hearing

    def glance(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Hear it."""
        return self._at_a_glance


def test_it_asks_for_a_glance_where_the_ear_has_one() -> None:
    """A second hearing of what is in doubt would come too late."""
    assert glance(QuickEar(STOP), Audio(np.zeros(FRAME, np.float32), SPEECH_RATE_HZ), HALTING) == STOP
    assert glance(Ear(STOP), Audio(np.zeros(FRAME, np.float32), SPEECH_RATE_HZ), HALTING) == STOP


def test_what_is_left_of_our_voice_is_not_looked_at() -> None:
    """Our voice comes back as loud as it plays and is learnt and taken out; a rest a tenth as loud is no shout, what is as loud is one."""
    random = np.random.default_rng(1)
    ours = (0.2 * random.standard_normal(2 * SPEECH_RATE_HZ)).astype(np.float32)
    played = SidePlayed()
    heard = _Heard(ScriptedVoice(), played)
    for number, start in enumerate(range(0, len(ours) - FRAME, FRAME)):
        played.piece = ours[start : start + FRAME]
        echo = ours[max(0, start - 1600) : max(0, start - 1600) + FRAME]
        heard.next(echo[:, None], SPEECH_RATE_HZ, number * FRAME / SPEECH_RATE_HZ, since=0.0, look=False)
    quiet, loud = (Audio((level * random.standard_normal(8000)).astype(np.float32), SPEECH_RATE_HZ) for level in (0.02, 0.2))
    assert heard._is_too_faint(quiet)
    assert not heard._is_too_faint(loud)
