"""Captured sound to utterance: what is recognised when, against which set, and how often; and words that need no pause."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing import ActiveSet
from companion.hearing.endpoint import FRAME_SECONDS, Endpointer, Timing
from companion.hearing.noise_floor import NoiseFloor
from companion.hearing.stream import Captured, Segment, SegmentExtent
from companion.hearing.vad import FRAME
from companion.languages import load_language
from companion.live.barge_in import BargeIn
from companion.live.listening import Listening
from companion.live.stop_words import ECHO_IS_FOUND_SECONDS, INTERRUPTS, StopWordWatcher
from companion.live.turn_history import TurnHistory
from companion.live.turn_policy import Action, TurnPolicy, Utterance
from companion.messages import Heard, Hearing, NotNow, NotUnderstood
from companion.speaking.speaker import Speech
from companion.talk.answers import YesNoAnswer
from companion.talk.guidance_phrases import LeaveNow
from tests.english import VOCABULARY

BARGE_IN = BargeIn(VOCABULARY, load_language().words_in)
QUESTION = LeaveNow()
ANSWERS, ALL = VOCABULARY.active(YesNoAnswer), VOCABULARY.everything
BEGAN = 100.0


class Scripted:
    """Both detector and recogniser: reads the probability of a voice off the frame, and always hears the same words."""

    name = "scripted"

    def __init__(self, words: str, confidence: float = 1.0) -> None:
        """Take the words."""
        self._words = words
        self._confidence = confidence
        self.asked: list[ActiveSet] = []

    def probability(self, frame: np.ndarray) -> float:
        """Return the frame's first sample."""
        return float(frame[0])

    def reset(self) -> None:
        """Do nothing: it remembers nothing."""

    def prepare(self, active: ActiveSet) -> None:
        """Do nothing."""

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Hear the words where the set has them."""
        self.asked.append(active)
        phrase = active.parse(self._words)
        return NotUnderstood() if phrase is None else Heard(phrase.words, phrase.command, confidence=self._confidence)


def stream(*parts: tuple[float, float], chunk: int = 700) -> Iterator[Captured]:
    """Yield captured pieces of (seconds, probability) parts, from BEGAN on."""
    sound = np.concatenate([np.full(round(seconds / FRAME_SECONDS) * FRAME, level, np.float32) for seconds, level in parts])
    for start in range(0, len(sound), chunk):
        piece = sound[start : start + chunk]
        yield Captured(piece, BEGAN + (start + len(piece)) / SPEECH_RATE_HZ)


def policy(*, begun: float = BEGAN - 9, over: float | None = BEGAN - 8) -> TurnPolicy:
    """Return who rules after a question that was spoken between two times."""
    history, speech = TurnHistory(), Speech("Is the tripod level?", begun=begun, over=over)
    history.spoke(speech)
    history.asked(QUESTION, speech)
    return TurnPolicy(history, VOCABULARY, BARGE_IN)


def listening(ear: Scripted, ruled_by: TurnPolicy) -> Listening:
    """Return the stages without echo removal."""
    return Listening(None, Endpointer(ear), ear, ruled_by, NoiseFloor())


def heard(through: Listening, captured: Iterator[Captured]) -> list[tuple[float, Utterance]]:
    """Return each utterance, and how long after the voice ended it came."""
    return [(piece.at - utterance.segment.voice_ended, utterance) for piece in captured for utterance in through.feed(piece)]


@pytest.mark.parametrize(
    ("words", "hearing", "asked", "decided_after"),
    [
        ("yes", Heard("yes", "yes"), [ANSWERS], 0.5),
        ("stop", Heard("stop", "stop"), [ANSWERS], 0.5),
        ("centred", NotNow("centred", "centred"), [ANSWERS, ALL], 1.2),
        ("what a lovely evening", NotUnderstood(), [ANSWERS, ALL], 1.2),
    ],
)
def test_what_is_recognised(words: str, hearing: Hearing, asked: list[ActiveSet], decided_after: float) -> None:
    """Each utterance is recognised once, in the first half second of quiet, so that nothing is left to do when it is over."""
    ear = Scripted(words)
    ((after, utterance),) = heard(listening(ear, policy()), stream((1, 0), (0.5, 0.9), (2, 0)))
    assert utterance.hearing == hearing
    assert ear.asked == asked
    assert utterance.segment.began == pytest.approx(BEGAN + 1.0, abs=0.1)
    assert utterance.segment.voice_ended == pytest.approx(BEGAN + 1.5, abs=0.1)
    assert after == pytest.approx(decided_after, abs=0.1)


class Along(Scripted):
    """Hears while somebody speaks."""

    def __init__(self, words: str) -> None:
        """Take the words."""
        super().__init__(words)
        self.came: list[tuple[float, ActiveSet]] = []

    def hear_along(self, so_far: Audio, active: ActiveSet) -> None:
        """Note how much had come."""
        self.came.append((so_far.seconds, active))


def test_what_is_being_said_is_heard_along() -> None:
    """A recogniser that can has all but the last of it before the pause is noticed, held to the same; while we speak, nothing."""
    ear = Along("yes")
    ((_, utterance),) = heard(listening(ear, policy()), stream((1, 0), (0.5, 0.9), (2, 0)))
    lengths = [seconds for seconds, _ in ear.came]
    assert lengths == sorted(lengths)
    assert utterance.segment.sound.seconds - 0.1 <= lengths[-1] <= utterance.segment.sound.seconds
    assert {active for _, active in ear.came} == {ANSWERS}
    ear = Along("yes")
    heard(listening(ear, policy(begun=BEGAN, over=None)), stream((1, 0), (0.5, 0.9), (2, 0)))
    assert ear.came == []


def test_a_pause_inside_an_answer_is_recognised_again_when_it_goes_on() -> None:
    """What is no whole answer at the first pause is heard as one with what follows."""
    ear = Scripted("what a lovely evening")
    ((_, utterance),) = heard(listening(ear, policy()), stream((1, 0), (0.5, 0.9), (0.8, 0), (0.5, 0.9), (2, 0)))
    assert ear.asked == [ANSWERS, ALL] * 2
    assert utterance.segment.voice_ended - utterance.segment.began == pytest.approx(1.8, abs=0.1)


def test_reset_forgets_an_utterance() -> None:
    """What was going on at a reset is not heard."""
    through = listening(Scripted("yes"), policy())
    assert heard(through, stream((1, 0.9))) == []
    assert through.hears_voice
    through.reset()
    assert not through.hears_voice
    assert heard(through, stream((3, 0))) == []


def test_an_utterance_ends_with_the_stream() -> None:
    """Finished in the voice, or in a pause after words that are no answer, what was said comes out, recognised once."""
    for words, parts, asked in (("yes", [(1, 0.9)], 1), ("what a lovely evening", [(1, 0.9), (0.8, 0)], 2)):
        ear = Scripted(words)
        through = listening(ear, policy())
        assert heard(through, stream((1, 0), *parts)) == []
        assert len(list(through.finish(BEGAN + 3))) == 1
        assert len(ear.asked) == asked
        assert not through.hears_voice


@pytest.mark.parametrize(("words", "confidence", "after"), [("stop", 0.9, Timing().glance_seconds), ("stop", 0.6, 0.5), ("yes", 0.9, 1.2)])
def test_a_word_that_cannot_wait_needs_no_pause(words: str, confidence: float, after: float) -> None:
    """While we speak "stop" is taken a moment after it was said, if it is sure; all else waits for its pause, and is passed over."""
    ear = Scripted(words, confidence)
    found = heard(listening(ear, policy(begun=BEGAN, over=None)), stream((1, 0), (0.5, 0.9), (2, 0)))
    ((took, utterance),) = found
    assert took == pytest.approx(after, abs=0.1)
    assert utterance.action is (Action.BARGE_IN if after < 0.5 else Action.IGNORE)
    assert set(ear.asked) == {BARGE_IN.against("Is the tripod level?")}


def test_in_silence_nothing_is_looked_for_before_the_pause() -> None:
    """The watcher asks the recogniser only where the policy knows a word that can't wait."""
    running = Segment(Audio(np.zeros(SPEECH_RATE_HZ, np.float32), SPEECH_RATE_HZ), BEGAN + 1.0, BEGAN + 1.5, SegmentExtent.RUNNING)
    ear = Scripted("stop")
    assert StopWordWatcher(ear, policy()).watch(running) is None
    assert ear.asked == []
    taken = StopWordWatcher(ear, policy(begun=BEGAN, over=None)).watch(running)
    assert taken is not None
    assert taken.action is Action.BARGE_IN


class QuickEar(Scripted):
    """Can do without a second hearing."""

    def glance(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Hear the same."""
        return self.recognise(audio, active)


def _beside_a_place(place: float, *, turning: bool = False) -> Utterance | None:
    """Return what a moment of 0.1 leads to that is surely "stop", where our own voice was just heard over a place so loud (RMS)."""
    ear, ruled_by = QuickEar("stop"), policy(begun=BEGAN, over=None)
    ruled_by.mount_is_turning = lambda: turning
    watcher, random = StopWordWatcher(ear, ruled_by), np.random.default_rng(4)
    for number in range(30):
        around = (place * random.standard_normal(FRAME)).astype(np.float32)
        watcher.beside_us(Captured(around, BEGAN + (number + 1) * FRAME_SECONDS), np.zeros(FRAME, np.float32), voice=False)
    word = (0.1 * random.standard_normal(SPEECH_RATE_HZ // 2)).astype(np.float32)
    return watcher.watch(Segment(Audio(word, SPEECH_RATE_HZ), BEGAN + 1.0, BEGAN + 1.5, SegmentExtent.RUNNING))


def test_what_hardly_stands_out_of_the_place_silences_nobody() -> None:
    """Beside our voice a word must be 6 dB above the place; a mount that turns is halted by a fainter one."""
    assert _beside_a_place(0.01) is not None
    assert _beside_a_place(0.07) is None
    assert _beside_a_place(0.07, turning=True) is not None


@pytest.mark.parametrize(
    ("level", "confidence", "turning", "is_taken"),
    [
        (0.03, INTERRUPTS - 0.01, False, False),
        (0.03, INTERRUPTS + 0.01, False, True),
        (0.2, INTERRUPTS - 0.01, False, True),
        (0.03, INTERRUPTS - 0.01, True, True),
    ],
)
def test_what_may_be_left_of_our_voice_must_be_surer(level: float, confidence: float, turning: bool, is_taken: bool) -> None:
    """Beside an echo of 0.2 a word of 0.03 may be what wasn't taken out; a mount that turns is halted by it all the same."""
    ear, ruled_by = QuickEar("stop", confidence), policy(begun=BEGAN, over=None)
    ruled_by.mount_is_turning = lambda: turning
    watcher, random = StopWordWatcher(ear, ruled_by), np.random.default_rng(4)
    for number in range(30):
        clean, echo = ((scale * random.standard_normal(FRAME)).astype(np.float32) for scale in (0.001, 0.2))
        watcher.beside_us(Captured(clean, BEGAN + (number + 1) * FRAME_SECONDS), echo, voice=False)
    word = Audio((level * random.standard_normal(SPEECH_RATE_HZ // 2)).astype(np.float32), SPEECH_RATE_HZ)
    taken = watcher.watch(Segment(word, BEGAN + 1.0, BEGAN + 1.5, SegmentExtent.RUNNING))
    assert (taken is not None) is is_taken


def _interruption(words: str, confidence: float, *, speaking: bool, turning: bool = False, voice: bool = True) -> Utterance | None:
    """Return what a second of noise leads to whose words are always heard."""
    ear, ruled_by = QuickEar(words, confidence), policy(begun=BEGAN - 1, over=None if speaking else BEGAN - 0.9)
    ruled_by.mount_is_turning = lambda: turning
    watcher, random = StopWordWatcher(ear, ruled_by), np.random.default_rng(4)
    for number in range(80):
        level = 0.1 if number > 48 else 0.001
        piece = (level * random.standard_normal(FRAME)).astype(np.float32)
        captured = Captured(piece, BEGAN + (number + 1) * FRAME_SECONDS)
        if (found := watcher.beside_us(captured, np.zeros(FRAME, np.float32), voice=voice)) is not None:
            return found
    return None


def _first_interruption(echo_level: float) -> float | None:
    """Return how many seconds after we began to speak for the first time a loud "stop" is taken, something of us taken out or not."""
    watcher, random = StopWordWatcher(QuickEar("stop", 0.99), policy(begun=BEGAN - 1, over=None)), np.random.default_rng(4)
    for number in range(80):
        level = 0.1 if number > 20 else 0.001
        piece, echo = ((scale * random.standard_normal(FRAME)).astype(np.float32) for scale in (level, echo_level))
        if watcher.beside_us(Captured(piece, BEGAN + (number + 1) * FRAME_SECONDS), echo, voice=True) is not None:
            return (number + 1) * FRAME_SECONDS
    return None


def test_our_first_words_are_not_looked_at_before_the_echo_is_found() -> None:
    """They are our own voice, whole; where an echo is taken out, or never will be (a headset), a stop is taken."""
    untold, told = _first_interruption(0.0), _first_interruption(0.01)
    assert untold is not None
    assert untold >= ECHO_IS_FOUND_SECONDS
    assert told is not None
    assert told < ECHO_IS_FOUND_SECONDS


def test_while_we_speak_a_word_needs_no_pause() -> None:
    """What surely silences us does so out of the last moment of sound; not what repeats us, is less sure, no voice, or said to a mount."""
    found = _interruption("stop", INTERRUPTS + 0.01, speaking=True)
    assert found is not None
    assert found.action is Action.BARGE_IN
    assert found.segment.sound.seconds == pytest.approx(0.8)
    assert _interruption("stop", INTERRUPTS - 0.01, speaking=True) is None
    assert _interruption("stop", 0.99, speaking=True, voice=False) is None
    assert _interruption("yes", 0.99, speaking=True) is None
    assert _interruption("repeat that", 0.99, speaking=True) is None
    assert _interruption("stop", 0.99, speaking=False) is None
    assert _interruption("stop", 0.99, speaking=True, turning=True) is None
