"""An evening with a microphone and a loudspeaker. Typed lines are taken beside them, and all that is said is printed, a line each."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Sequence
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from dataclasses import dataclass

from companion.dialogue import VOICE_CHANGES, Turn
from companion.hearing import Engine
from companion.hearing.echo_canceller import EchoCanceller
from companion.hearing.endpoint import Timing
from companion.hearing.engine import MeasuresBackground
from companion.hearing.listener import Listener, Live, Utterance
from companion.hearing.noise_floor import NoiseFloor
from companion.hearing.vad import VoiceDetector
from companion.languages import Language
from companion.live.barge_in import SAY_AGAIN, STOP, BargeIn
from companion.live.health import Health
from companion.live.playback_reference import PlaybackReference
from companion.live.push_to_talk import Key
from companion.live.session import Session
from companion.live.sound_devices import SoundDevices
from companion.live.terminal import Typing
from companion.live.turn_taking import Action, Patience, TurnTaking
from companion.messages import Heard, Hearing, NotNow, Silence
from companion.speaking import HEARD, LISTENING, NOT_UNDERSTOOD
from companion.speaking.speaker import Speaker, Speech
from companion.talk.answers import UniversalAnswer
from companion.talk.centring_phrases import WhileItSlews
from companion.talk.live_phrases import (
    KeepOneEarFree,
    LoudspeakerBack,
    MicrophoneBack,
    MicrophoneLost,
    MicrophoneSilent,
    TooNoisy,
    VoiceAtItsLimit,
)
from companion.talk.saying import Answers, Ask, Say, Saying
from companion.vocabulary import Vocabulary

_LOG = logging.getLogger("companion.live")
_LOG.addHandler(logging.NullHandler())
_TICK_SECONDS = 0.05
_TIMING = Timing(after_complete_seconds=0.4)
"""A tenth less than usual: the first word then comes 1.26 s after speech has ended instead of 1.33 (medians, two busy cores)."""
_HOPE_SECONDS = 600.0
"""A microphone that was there and went away is looked for so long, where nobody can type either."""


@dataclass(frozen=True)
class Ear:
    """What it takes to hear."""

    engine: Engine
    detector: VoiceDetector
    vocabulary: Vocabulary
    language: Language


class SpokenEvening:
    """Holds an evening by voice. Everything happens on the caller's thread, but for rendering, playing, capturing and preparing."""

    def __init__(
        self,
        evening: Session,
        ear: Ear,
        sound: SoundDevices,
        speaker: Speaker,
        *,
        lines: Typing,
        show: Callable[[str], None],
        headset: bool = False,
        own_voice: PlaybackReference | None = None,
        key: Key | None = None,
        clock: Callable[[], float] = time.monotonic,
        rest: Callable[[float], None] = time.sleep,
        meanwhile: Executor | None = None,
    ) -> None:
        """Take all the parts; ``show`` receives one printed line a call; ``own_voice`` knows what the loudspeaker plays.

        ``clock`` gives seconds, ``rest`` lets them pass, ``meanwhile`` works while we speak.
        """
        self._evening = evening
        self._ear = ear
        self._sound = sound
        self._speaker = speaker
        self._lines = lines
        self._show = show
        self._own_voice = own_voice
        self._echo = EchoCanceller()
        self._key = key or Key(always_open=True)
        self._clock = clock
        self._rest = rest
        self._meanwhile = meanwhile or ThreadPoolExecutor(1, "meanwhile")
        self._headset = headset
        self._turns = TurnTaking(headset=headset)
        self._interruptions = BargeIn(ear.vocabulary, ear.language.words_in)
        self._surroundings = NoiseFloor()
        self._troubles = Health()
        self._patience = Patience()
        self._listener = Listener(ear.engine, ear.detector, self._live, _TIMING)
        self._turn: Turn | None = None
        self._cut_off_at: float | None = None

    def hold(self) -> bool:
        """Hold the evening; return whether it came to its end (else the lines ran out, and there is no microphone)."""
        try:
            for news in self._troubles.at_start(self._sound, self._speaker):
                self._announce(news)
            if self._headset:
                self._announce(KeepOneEarFree())
            self._tell(self._evening.begin(), before=self._key.invitation, speak=self._speaker.add)
            if self._sound.microphone is not None and self._key.is_open:
                self._speaker.sound(LISTENING)
            while self._goes_on():
                self._listen()
                self._mind_the_key()
                for line in self._lines.waiting():
                    self._typed(line)
                self._mind_troubles()
                self._mind_silence()
            return self._turn is not None and self._turn.finished
        finally:
            self._meanwhile.shutdown(wait=True, cancel_futures=True)

    def _goes_on(self) -> bool:
        if self._turn is None or self._turn.finished:
            return self._speaker.is_speaking
        if self._sound.microphone is not None or not self._lines.ended or self._speaker.is_speaking:
            self._cut_off_at = None
        elif self._cut_off_at is None:
            self._cut_off_at = self._clock()
        return self._cut_off_at is None or (self._troubles.had_microphone and self._clock() - self._cut_off_at < _HOPE_SECONDS)

    # --- listening ---------------------------------------------------------------------------------------------------

    def _listen(self) -> None:
        """Take what the microphone has heard next."""
        captured = self._sound.microphone.read(_TICK_SECONDS) if self._sound.microphone is not None else None
        if captured is None:
            if self._sound.microphone is None:
                self._rest(_TICK_SECONDS)
            return
        if self._troubles.captured(captured):
            self._announce(MicrophoneSilent())
        if not self._key.is_open:
            return
        samples = captured.samples
        if self._own_voice is not None:
            samples = self._echo.feed(samples, self._own_voice.beside(captured))
        for utterance in self._listener.feed(samples, captured.at):
            self._heard(utterance)
        if self._listener.hears_voice:
            self._speaker.wake()
        ours = self._turns.overlapping_speech(captured.at, captured.at) is not None
        self._surroundings.feed(samples, voice=self._listener.hears_voice or ours)
        if self._listener.hears_voice and self._turns.is_stale(self._listener.began, captured.at):
            self._listener.reset()

    def _live(self, began: float, voice_ended: float) -> Live:
        """Tell what an utterance between these times may say."""
        ours = self._turns.overlapping_speech(began, voice_ended)
        if ours is not None:
            return Live(self._interruptions.against(ours.text))
        active = self._ear.vocabulary.active(self._turns.question_at(began).expects)
        # What would be passed over anyway, unless it is an answer, isn't looked up among all that is known: that takes a second.
        return Live(active, self._ear.vocabulary.everything if self._turns.deserves_a_reply(began, voice_ended) else None)

    def _heard(self, utterance: Utterance) -> None:
        deed = self._turns.weigh(utterance)
        if self._turn is None or self._turn.finished:
            return
        if deed is Action.IGNORE:
            if not self._speaker.is_speaking and self._turns.is_early_answer(utterance):
                self._speaker.sound(LISTENING)
            return
        hearing = utterance.hearing
        if deed is Action.BARGE_IN or self._speaker.is_speaking:
            self._speaker.hush()
        self._speaker.sound(HEARD if isinstance(hearing, (Heard, NotNow)) else NOT_UNDERSTOOD)
        self._show(f"you: {hearing.phrase if isinstance(hearing, (Heard, NotNow)) else '(not understood)'}")
        too_noisy = self._troubles.heard(hearing, self._surroundings.speech_to_noise_db(utterance.sound))
        self._key.utterance_over()
        if deed is Action.CORRECT:
            self._evening.command(UniversalAnswer.GO_BACK)
        self._answer(hearing)
        if too_noisy:
            self._key.offer()
            self._announce(TooNoisy(), self._key.how)

    # --- typed lines -------------------------------------------------------------------------------------------------

    def _typed(self, line: str) -> None:
        """Take a line: an empty one is the key that opens and closes the ear, any other an answer."""
        if self._turn is None or self._turn.question is None:
            return
        if not line.strip():
            self._struck(self._clock())
            return
        self._speaker.hush()
        self._answer(self._ear.vocabulary.understand(line, self._turn.question.expects))

    def _mind_the_key(self) -> None:
        """Open the ear while the key is held; where it is let go, what was said is whole."""
        for at in self._lines.strokes():
            self._struck(at)
        if self._key.let_go(self._clock()):
            for utterance in self._listener.finish(self._clock()):
                self._heard(utterance)

    def _struck(self, at: float) -> None:
        if self._sound.microphone is not None and self._key.struck(at):
            self._listener.reset()
            self._speaker.hush()
            self._speaker.sound(LISTENING)

    # --- answering ---------------------------------------------------------------------------------------------------

    def _answer(self, hearing: Hearing) -> None:
        """Give the dialogue what was heard, and speak its answer; what is asked of the voice is done first."""
        if isinstance(hearing, Heard) and hearing.command in VOICE_CHANGES and not self._speaker.change(hearing.command):
            self._announce(VoiceAtItsLimit())
            return
        if isinstance(hearing, Heard):
            self._turns.answered(hearing)
        self._tell(self._evening.hear(hearing))
        if isinstance(hearing, Heard) and hearing.command in (UniversalAnswer.WAIT, STOP):
            self._patience.wait_no_longer()

    def _tell(self, turn: Turn, before: Sequence[Say] = (), speak: Callable[[str], Speech] | None = None) -> None:
        """Speak a turn; what is being said gives way, unless ``speak`` does otherwise.

        Meanwhile what the turn rests on reaches the disk, and the ear gets ready for the answer.
        """
        self._turn = turn
        sayings: tuple[Saying, ...] = (*before, *turn.sayings)
        words = self._evening.words(*sayings)
        speech = (speak or self._speaker.say)(words)
        self._turns.spoke(speech)
        if words:
            self._show(f"it:  {words}")
        if turn.question is not None:
            self._turns.asked(turn.question, speech)
            self._meanwhile.submit(self._prepare, turn.question, words).add_done_callback(_complain)
            slewing = isinstance(turn.question, WhileItSlews)
            self._patience.wait_no_longer() if slewing else self._patience.wait_from(self._clock())
        self._evening.sync()

    def _prepare(self, question: Ask[Answers], words: str) -> None:
        """Get the ear ready for the answers to a question, in this place's noise."""
        engine = self._ear.engine
        clips = self._surroundings.changed_clips()
        if clips and isinstance(engine, MeasuresBackground):
            engine.set_background(clips)
        if words:
            engine.prepare(self._interruptions.against(words))
        engine.prepare(self._ear.vocabulary.active(question.expects))

    def _announce(self, *news: Say) -> None:
        """Say something the dialogue knows nothing of, after what is being said."""
        _LOG.warning(
            "%s; sound lost %d times",
            ", ".join(one.code() for one in news),
            self._sound.microphone.overflows if self._sound.microphone else 0,
        )
        words = self._evening.words(*news)
        self._show(f"it:  {words}")
        self._turns.spoke(self._speaker.add(words))

    # --- trouble and silence -----------------------------------------------------------------------------------------

    def _mind_troubles(self) -> None:
        busy = self._speaker.is_speaking or self._listener.hears_voice
        changes = self._sound.mend(self._clock(), busy=busy)
        self._speaker.loudspeaker = self._sound.loudspeaker
        if MicrophoneLost() in changes or MicrophoneBack() in changes:
            self._listener.reset()
        for news in (*changes, *self._troubles.news(self._sound, self._speaker)):
            self._announce(news)
        if MicrophoneBack() in changes and self._key.is_open:
            self._speaker.sound(LISTENING)
        if LoudspeakerBack() in changes and self._turn is not None and self._turn.question is not None:
            # What was cut off is said again, after the news.
            self._tell(self._evening.command(SAY_AGAIN), speak=self._speaker.add)

    def _mind_silence(self) -> None:
        """Break a long silence once."""
        now = self._clock()
        if self._speaker.is_speaking or self._listener.hears_voice:
            self._patience.put_off(now)
        elif self._patience.is_over(now):
            self._answer(Silence())
            self._patience.wait_no_longer()


def _complain(done: Future[None]) -> None:
    """Log what went wrong in getting ready: the recogniser will meet it again, and then it counts."""
    if not done.cancelled() and (error := done.exception()) is not None:
        _LOG.warning("not ready for the next answer", exc_info=error)
