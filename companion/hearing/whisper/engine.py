"""The recogniser that needs no download: Whisper tiny.en asked how well each allowed phrase fits."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.active import ActiveSet
from companion.hearing.whisper.conditioning import is_silent, loud_seconds, prepare
from companion.hearing.whisper.confidence import ACCEPT, LEAST_END_UNASKED, is_possible
from companion.hearing.whisper.features import log_mel
from companion.hearing.whisper.network import EncodedUtterance, Network
from companion.hearing.whisper.noise_reduction import reduce_noise
from companion.hearing.whisper.strategies import Background, BeamSearch, Decision, ExhaustiveScoring, Model, Strategy
from companion.hearing.whisper.tokens import Tokenizer
from companion.hearing.whisper.weights import load_weights, packaged_model
from companion.memory import give_back_memory
from companion.messages import Heard, Hearing, NotUnderstood, Silence
from companion.orthography import PLAIN, Orthography

_SETS_KEPT = 64
_BACKGROUNDS = 4
"""Sounds without speech that a set's prior is measured on."""
_HISS = ((1.0, 1e-4), (2.0, 1e-3), (3.0, 5e-3), (1.5, 1e-2))
"""Seconds and level of the hiss that stands in until a real background is known."""
_DOUBTFUL = (0.1, 0.9)
"""Between these confidences an utterance is heard again: a little faster (slower helps nobody; chosen on the recorded digits), and with
less noise. In a kitchen at 6 dB 39 instead of 37 of 48 were then taken, all rightly, where it had been heard at two speeds before. Outside
them it rarely changes anything: of what was refused below 0.1 none was taken for it (voices that may be tuned on, 9 dB, few of them)."""
_FASTER = 1.1
_CLEAR = 0.9
"""What is heard so surely needs no help from what was said before."""
_WORTH_ASKING = 0.03
"""Of two utterances refused together, the two likeliest phrases are told from this confidence of the first on: chosen as _SAID_AGAIN was,
where what had been said was mostly one of the two down to this, and chatter said twice came to a tenth of it at most."""


@dataclass(eq=False)
class _Views:
    """One utterance as the network remembers it, some 3 MB each."""

    audio: Audio
    plain: EncodedUtterance
    others: tuple[EncodedUtterance, ...] = ()
    """The same a little faster and with less noise, once that was needed."""


class WhisperEngine:
    """Recognises closed sets of phrases of any size. ``prepare`` and ``recognise`` may be called from different threads."""

    name = "builtin"

    def __init__(self, network: Network, tokenizer: Tokenizer, writing: Orthography = PLAIN) -> None:
        """Take a model; ``load`` is the usual way."""
        self._model = Model(network, tokenizer, writing)
        self._lock = threading.Lock()
        self._strategies: OrderedDict[ActiveSet, Strategy] = OrderedDict()
        self._background: Background | None = None
        self._encoded_last: list[_Views] = []

    @classmethod
    def load(cls, model_dir: Path | None = None, writing: Orthography = PLAIN) -> WhisperEngine:
        """Load the packaged model, or a CTranslate2 directory of an English-only Whisper model. Raises MissingPart.

        ``writing`` is the language's; without it figures and other spellings aren't expected.
        """
        directory = packaged_model() if model_dir is None else model_dir
        loaded = cls(Network(load_weights(directory)), Tokenizer(directory), writing)
        give_back_memory()
        return loaded

    def set_background(self, clips: Sequence[Audio]) -> None:
        """Take recent sounds without speech, 1 to 4 s each, from the microphone in use; sets are measured anew when next prepared."""
        chosen = [clip for clip in clips if not is_silent(clip)][-_BACKGROUNDS:]
        if chosen:
            background = Background(tuple(self._encode(clip) for clip in chosen))
            with self._lock:
                self._background = background

    def prepare(self, active: ActiveSet) -> None:
        """Lay a set out and measure it on the background: some tenths of a second, once."""
        background = self._known_background()
        self._strategy(active).measure(background)

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Tell which phrase of a set an utterance says, if any."""
        return self._recognised(audio, active, again=True)

    def glance(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Do the same without hearing again what is in doubt: in a third of the time then."""
        return self._recognised(audio, active, again=False)

    def overhear(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Do as ``recognise``, but take no text that only begins what was said: most of what nobody asked for is talk among people."""
        if is_silent(audio):
            return Silence()
        answer = self._answer(audio, active, again=True)
        if answer is not None and answer.end_logprob < LEAST_END_UNASKED:
            return NotUnderstood()
        return self._hearing(answer)

    def _recognised(self, audio: Audio, active: ActiveSet, *, again: bool) -> Hearing:
        return Silence() if is_silent(audio) else self._hearing(self._answer(audio, active, again=again))

    def _answer(self, audio: Audio, active: ActiveSet, *, again: bool) -> Decision | None:
        strategy, background = self._strategy(active), self._known_background()
        if not strategy.is_measured:
            strategy.measure(background)
        views = self._views(audio)
        answer = strategy.answer([views.plain], background, active.weight)
        if answer is not None and not is_possible(answer.phrase.words, audio.seconds, loud_seconds(audio)):
            return None
        if again and strategy.gains_by_hearing_again and answer is not None and _DOUBTFUL[0] < answer.confidence < _DOUBTFUL[1]:
            views.others = others = views.others or self._heard_otherwise(audio)
            answer = strategy.answer([views.plain, *others], background, active.weight)
        return answer

    def recognise_again(self, audio: Audio, earlier: Audio, active: ActiveSet) -> Hearing:
        """Tell what an utterance says, taken together with one that was refused a moment before, which perhaps said the same.

        Where the two together speak for something else than the second alone, and for nothing surely, the likeliest two are told.
        """
        alone = self.recognise(audio, active)
        if isinstance(alone, Silence) or (isinstance(alone, Heard) and alone.confidence >= _CLEAR):
            return alone
        tries = [self._views(earlier).plain, self._views(audio).plain]
        likeliest = [
            _heard(decision)
            for decision in self._strategy(active).answer_again(tries, self._known_background(), active.weight)
            if all(is_possible(decision.phrase.words, said.seconds, loud_seconds(said)) for said in (earlier, audio))
        ]
        if not likeliest:
            return alone
        best = likeliest[0]
        if isinstance(alone, Heard) and (alone.command, alone.slots) == (best.command, best.slots):
            return max(alone, best, key=lambda heard: heard.confidence)
        if best.confidence >= ACCEPT:
            return best
        return NotUnderstood(best.confidence, tuple(likeliest[:2]) if best.confidence >= _WORTH_ASKING and len(likeliest) > 1 else ())

    @staticmethod
    def _hearing(answer: Decision | None) -> Hearing:
        if answer is None or answer.confidence < ACCEPT:
            return NotUnderstood(answer.confidence if answer else 0.0)
        return _heard(answer)

    def _strategy(self, active: ActiveSet) -> Strategy:
        """Return how a set is recognised: phrase by phrase where it is small, else by a search."""
        with self._lock:
            strategy = self._strategies.get(active)
        if strategy is None:
            strategy = ExhaustiveScoring.of(active, self._model) or BeamSearch(active, self._model)
        with self._lock:
            strategy = self._strategies.setdefault(active, strategy)
            self._strategies.move_to_end(active)
            while len(self._strategies) > _SETS_KEPT:
                self._strategies.popitem(last=False)
        return strategy

    def _known_background(self) -> Background:
        with self._lock:
            known = self._background
        if known is None:
            hiss = Background(tuple(self._encode(clip) for clip in _hisses()))
            with self._lock:
                self._background = known = self._background or hiss
        return known

    def _views(self, audio: Audio) -> _Views:
        """Encode an utterance, unless it is one of the last two (asked against a larger set, or with what was said after it)."""
        for known in self._encoded_last:
            if known.audio is audio:
                return known
        views = _Views(audio, self._encode(audio))
        for earlier in self._encoded_last:
            earlier.others = ()
        self._encoded_last = [*self._encoded_last[-1:], views]
        return views

    def _heard_otherwise(self, audio: Audio) -> tuple[EncodedUtterance, ...]:
        return self._encode(Audio(audio.samples, round(audio.rate_hz * _FASTER))), self._encode(reduce_noise(audio))

    def _encode(self, audio: Audio) -> EncodedUtterance:
        network = self._model.network
        return network.cross_attention(network.encode(log_mel(prepare(audio))))


def _heard(decision: Decision) -> Heard:
    phrase = decision.phrase
    return Heard(phrase.words, phrase.command, phrase.slots, decision.confidence, phrase.written)


def _hisses() -> list[Audio]:
    rng = np.random.default_rng(0)
    return [Audio((rng.normal(size=int(seconds * SPEECH_RATE_HZ)) * level).astype(np.float32), SPEECH_RATE_HZ) for seconds, level in _HISS]
