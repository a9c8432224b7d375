"""The Vosk recogniser behind the common protocol.

What ends or hangs the process inside the library can't be caught in Python, so it is kept out of reach here: grammars are made by
``matching`` alone and set only when a recogniser is fresh or has given its final result, rates come from the model, and all calls
go through one lock.
"""

from __future__ import annotations

import json
import math
import threading
from collections import OrderedDict, deque
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from companion.audio import Audio
from companion.errors import BadRequest, MissingPart
from companion.hearing.active import ActiveSet
from companion.hearing.grammar import Phrase
from companion.hearing.vosk.matching import Near, Prepared, Ways, prepared
from companion.hearing.vosk.model import ModelDirectory, check_model
from companion.hearing.vosk.word_evidence import ACCEPT, stands_out, weigh
from companion.hearing.whisper.conditioning import is_silent
from companion.hearing.whisper.noise_reduction import reduce_noise
from companion.messages import Heard, Hearing, NotUnderstood, Silence
from companion.quiet_loading import quiet_loading

_GARBAGE = ("[unk]", "<UNK>", "<unk>")
"""What models call a word they can't make out; each has one of these."""
_SETS_KEPT = 64
_REFUSED_KEPT = 4
_LEAST_CLEANED = 0.6
"""Asked of what is heard only after noise was taken out. Two of 20 answers in hiss were taken wrongly, at 0.53."""
_LEAD_SECONDS, _TAIL_SECONDS = 0.3, 0.5
"""Faint noise put around an utterance: words cut close are heard worse, and the last one is only settled by what follows."""
_MARGIN_LEVEL = 1e-4


@dataclass(frozen=True, eq=False)
class _Along:
    """An utterance that is heard while it is said."""

    ready: Prepared
    """What it is held to."""
    samples: NDArray[np.float32]
    """What was taken of it so far."""

    def goes_on(self, samples: NDArray[np.float32], ready: Prepared) -> bool:
        """Tell whether a sound begins with what was taken, and is held to the same."""
        return ready is self.ready and np.array_equal(samples[: len(self.samples)], self.samples)


@dataclass(frozen=True)
class _Word:
    """One recognised word; times count from the beginning of the utterance."""

    text: str
    sureness: float
    begin_seconds: float
    end_seconds: float


class VoskEngine:
    """Recognises closed sets of phrases. May be called from several threads."""

    name = "vosk"

    def __init__(self, library: Any, directory: ModelDirectory, negations: tuple[str, ...] = ()) -> None:
        """Take the library, a checked directory and what turns a sentence round in the language; ``load`` is the usual way.

        Raises MissingPart when the library refuses the model.
        """
        self._negations = negations
        self.rate_hz = directory.rate_hz
        self._lock = threading.Lock()
        self._decoys: tuple[str, ...] = ()
        self._everything: ActiveSet | None = None
        self._sets: OrderedDict[ActiveSet, Prepared] = OrderedDict()
        self._along: _Along | None = None
        self._refused: deque[tuple[Audio, Ways]] = deque(maxlen=_REFUSED_KEPT)
        try:
            self._model = library.Model(str(directory.path))
            self._garbage = next((sign for sign in _GARBAGE if self._knows(sign)), "")
            if self._garbage:
                self._recogniser, self._recogniser_along = (
                    _Recogniser(library, self._model, self.rate_hz, self._garbage) for _ in range(2)
                )
        except Exception as error:  # The library raises nothing more particular.
            raise MissingPart(
                f"{directory.path}: vosk can't use this model ({error}); unpack it again, or get another one (companion model get en)"
            ) from error
        if not self._garbage:
            raise MissingPart(f"{directory.path}: this model has no sign for unknown words ({', '.join(_GARBAGE)}); use another one")

    @classmethod
    def load(cls, model_dir: Path, negations: tuple[str, ...] = ()) -> VoskEngine:
        """Load a dynamic-graph model from its directory: about two seconds. Raises MissingPart with the remedy."""
        directory = check_model(model_dir)
        return cls(load_library(), directory, negations)

    def try_out(self) -> None:
        """Hear a moment of noise through to its end, as an utterance is heard."""
        with self._lock:
            self._recogniser.begin(json.dumps([self._garbage]))
            self._recogniser.accept(_margin(1.0, self.rate_hz))
            self._recogniser.finish()

    def set_decoys(self, everything: ActiveSet) -> None:
        """Take what people may say at any time: it is listened for beside each set, so that it isn't taken for a phrase of that.

        Raises GrammarError as ``prepare``.
        """
        with self._lock:
            self._decoys = prepared(everything, self._knows, self._garbage).sentences
            self._everything = everything
            self._sets.clear()

    def prepare(self, active: ActiveSet) -> None:
        """Check a set's words against the model. Raises GrammarError with file and line for words it lacks."""
        self._prepared(active)

    def hear_along(self, so_far: Audio, active: ActiveSet) -> None:
        """Decode what came since the last call; sound of another rate than the model's waits for ``recognise``."""
        if so_far.rate_hz != self.rate_hz:
            return
        samples, ready = _sane(so_far.samples), self._prepared(active)
        with self._lock:
            if self._along is None or not self._along.goes_on(samples, ready):
                self._recogniser_along.begin(ready.grammar)
                self._recogniser_along.accept(_margin(_LEAD_SECONDS, self.rate_hz))
                self._along = _Along(ready, samples[:0])
            self._recogniser_along.accept(samples[len(self._along.samples) :])
            self._along = _Along(ready, samples)

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Tell which phrase of a set an utterance says, if any. Raises BadRequest for an impossible rate, GrammarError as ``prepare``."""
        return self._recognised(audio, active)

    def recognise_again(self, audio: Audio, earlier: Audio, active: ActiveSet) -> Hearing:
        """Take how both were heard together, where neither is a phrase as it stands."""
        before = (ways for refused, ways in self._refused if refused is earlier)
        return self._recognised(audio, active, next(before, ()))

    def _recognised(self, audio: Audio, active: ActiveSet, earlier: Ways = ()) -> Hearing:
        if audio.rate_hz <= 0:
            raise BadRequest(f"a sound can't have {audio.rate_hz} samples a second; record it again")
        samples = _sane(audio.samples)
        sound = Audio(samples, audio.rate_hz).at_rate(self.rate_hz) if len(samples) else Audio(samples, self.rate_hz)
        ready = self._prepared(active)
        words = self._words_along(sound, ready)
        if words is None:
            words = self._words(sound, ready.grammar)
        if is_silent(sound) or (not words and not stands_out(sound.samples, sound.rate_hz)):
            return Silence()
        phrase = ready.phrase(_texts(words))
        if phrase is not None:
            hearing = _weighed(Near(phrase), words, sound)
            if isinstance(hearing, Heard):
                return hearing
        return self._nearly(words, audio, sound, ready, earlier)

    def _nearly(self, among_all: list[_Word], audio: Audio, sound: Audio, ready: Prepared, earlier: Ways) -> Hearing:
        """Tell which phrase comes near what was heard, where it is no phrase surely and nothing known of another question.

        ``earlier`` is how the same was heard when it was said before.
        """
        if not ready.can_be_near or not self._is_open(among_all, ready):
            return NotUnderstood()
        live = self._words(sound, ready.live_grammar)
        ways = (_texts(live), _texts(among_all))
        self._refused.append((audio, ways))
        for heard in (ways, (*earlier, *ways)) if earlier else (ways,):
            found = ready.nearest(heard)
            if found is not None and self._fits(found.phrase, among_all, live):
                return _weighed(found, live, sound)
        return self._with_less_noise(among_all, sound, ready, (*earlier, *ways))

    def _with_less_noise(self, before: list[_Word], sound: Audio, ready: Prepared, ways: Ways) -> Hearing:
        """Hear it both ways once more with less noise: a phrase counts where both agree, or where both or all ways come near it."""
        cleaner = reduce_noise(sound).at_rate(self.rate_hz)
        among_all, live = (self._words(cleaner, grammar) for grammar in (ready.grammar, ready.live_grammar))
        exact, also = (ready.phrase(_texts(words)) if words else None for words in (among_all, live))
        if exact is not None:
            hearing = _weighed(Near(exact), among_all, cleaner)
            if also is not None and also.means_as(exact) and _is_sure(hearing):
                return hearing
        if not self._is_open(among_all, ready):
            return NotUnderstood()
        cleaned = (_texts(live), _texts(among_all))
        found = ready.nearest(cleaned)
        if found is not None and self._fits(found.phrase, among_all, live):
            hearing = _weighed(found, live, cleaner)
            if _is_sure(hearing):
                return hearing
        found = ready.nearest((*ways, *cleaned), with_less_noise=True)
        if found is None or not all(self._fits(found.phrase, among, live) for among in (before, among_all)):
            return NotUnderstood()
        return _weighed(found, live, cleaner)

    def _is_open(self, among_all: list[_Word], ready: Prepared) -> bool:
        """Tell whether what was heard among all that people say may be a live phrase: it is words, and no phrase known only elsewhere."""
        texts = _texts(among_all)
        known = self._everything is not None and self._everything.parse(" ".join(texts)) is not None
        return bool(texts) and self._garbage not in texts and not (known and ready.phrase(texts) is None)

    def _fits(self, phrase: Phrase, among_all: list[_Word], live: list[_Word]) -> bool:
        """Tell whether a phrase may be what was heard: no unknown word among the live ones, and no negation more or less."""
        return bool(live) and self._garbage not in _texts(live) and not self._turns_round("".join(_texts(among_all)), phrase.words)

    def _turns_round(self, heard: str, phrase: str) -> bool:
        return any(heard.count(word) != phrase.count(word) for word in self._negations)

    def _words_along(self, sound: Audio, ready: Prepared) -> list[_Word] | None:
        """Return the words of an utterance that was heard while it was said; None where it is another, or held to something else."""
        with self._lock:
            if self._along is None or not self._along.goes_on(sound.samples, ready):
                return None
            self._recogniser_along.accept(sound.samples[len(self._along.samples) :])
            self._recogniser_along.accept(_margin(_TAIL_SECONDS, self.rate_hz))
            self._along = None
            return self._recogniser_along.finish()

    def _words(self, sound: Audio, grammar: str) -> list[_Word]:
        with self._lock:
            self._recogniser.begin(grammar)
            self._recogniser.accept(_margin(_LEAD_SECONDS, self.rate_hz))
            self._recogniser.accept(sound.samples)
            self._recogniser.accept(_margin(_TAIL_SECONDS, self.rate_hz))
            return self._recogniser.finish()

    def _prepared(self, active: ActiveSet) -> Prepared:
        with self._lock:
            ready = self._sets.get(active)
            if ready is None:
                ready = self._sets[active] = prepared(active, self._knows, self._garbage, self._decoys)
            self._sets.move_to_end(active)
            while len(self._sets) > _SETS_KEPT:
                self._sets.popitem(last=False)
        return ready

    def _knows(self, word: str) -> bool:
        return bool(self._model.vosk_model_find_word(word) >= 0)


def _is_sure(hearing: Hearing) -> bool:
    return isinstance(hearing, Heard) and hearing.confidence >= _LEAST_CLEANED


def _texts(words: list[_Word]) -> list[str]:
    return [word.text for word in words]


def _weighed(found: Near, words: list[_Word], sound: Audio) -> Hearing:
    """Tell whether a phrase made of the words found in a sound is likely enough."""
    phrase = found.phrase
    sureness = float(np.mean([word.sureness for word in words]))
    begin, end = words[0].begin_seconds - _LEAD_SECONDS, words[-1].end_seconds - _LEAD_SECONDS
    confidence = weigh(sound.samples, sound.rate_hz, begin, end, sureness).confidence * found.likely
    confidence = max(confidence, found.at_least)
    if confidence < ACCEPT:
        return NotUnderstood(confidence)
    return Heard(phrase.words, phrase.command, phrase.slots, min(confidence, found.at_most), phrase.written)


def load_library() -> Any:
    """Return the library, silenced. Raises MissingPart where it isn't there.

    It brings a downloader along that we don't use.
    """
    try:
        with quiet_loading():
            import vosk  # noqa: PLC0415 - only who listens with it needs it
    except (ImportError, OSError) as error:
        raise MissingPart(f"the recogniser vosk can't be loaded ({error}); pip install vosk, or use --engine builtin") from error
    vosk.SetLogLevel(-1)
    return vosk


class _Recogniser:
    """The library's recogniser, called only in the order it bears. The caller holds the lock."""

    def __init__(self, library: Any, model: Any, rate_hz: int, garbage: str) -> None:
        self._kaldi = library.KaldiRecognizer(model, float(rate_hz), json.dumps([garbage]))
        self._kaldi.SetWords(True)
        self._rate_hz = rate_hz
        self._samples = self._finished_at = 0
        self._begun_at = 0
        self._words: list[_Word] = []

    def begin(self, grammar: str) -> None:
        """Set the grammar of the next utterance, which also forgets the sound of the last: each is heard on its own.

        In mid-utterance this would end the process, so an utterance that was left is finished first.
        """
        if self._samples > self._finished_at:
            self.finish()
        self._kaldi.SetGrammar(grammar)
        self._begun_at = self._samples
        self._words = []

    def accept(self, samples: NDArray[np.float32]) -> None:
        if len(samples) == 0:
            return
        self._samples += len(samples)
        if self._kaldi.AcceptWaveform((np.clip(samples, -1.0, 1.0) * 32767).astype("<i2").tobytes()):
            self._collect(self._kaldi.Result())  # Left unread, it would say so for ever.

    def finish(self) -> list[_Word]:
        self._collect(self._kaldi.FinalResult())
        self._finished_at = self._samples
        return self._words

    def _collect(self, result: str) -> None:
        offset = self._begun_at / self._rate_hz  # The library's clock runs on from utterance to utterance.
        try:
            found = json.loads(result).get("result", [])
            words = [_Word(str(word["word"]), *(float(word[key]) for key in ("conf", "start", "end"))) for word in found]
        except (ValueError, KeyError, TypeError, AttributeError, OverflowError, RecursionError):
            return  # A reply that is none: nothing was heard.
        words = [replace(word, begin_seconds=word.begin_seconds - offset, end_seconds=word.end_seconds - offset) for word in words]
        self._words += [word for word in words if math.isfinite(word.sureness + word.begin_seconds + word.end_seconds)]


def _sane(samples: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return samples within full scale; what is no number becomes silence."""
    return np.clip(np.nan_to_num(np.asarray(samples, np.float32), nan=0.0), -1.0, 1.0)


def _margin(seconds: float, rate_hz: int) -> NDArray[np.float32]:
    return np.random.default_rng(0).normal(0.0, _MARGIN_LEVEL, round(seconds * rate_hz)).astype(np.float32)
