"""The two ways to recognise a set: score every phrase where they are few, search through the word graph where they are many."""

from __future__ import annotations

import threading
import weakref
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol, TypeAlias
from weakref import WeakKeyDictionary

import numpy as np

from companion.hearing.active import ActiveSet
from companion.hearing.grammar import Phrase
from companion.hearing.jsgf.graph import WordGraph
from companion.hearing.whisper.beam import WIDTH, WIDTH_OF_NAMES, Beam, Finished
from companion.hearing.whisper.confidence import (
    ACCEPT,
    AMONG_ALL,
    AMONG_ANSWERS,
    PRIOR_SHARE,
    FoundTexts,
    Verdict,
    doubted,
    judge,
    judge_again,
    judge_found,
    judge_found_again,
)
from companion.hearing.whisper.free_writing import FreeWriting, Written, others_than
from companion.hearing.whisper.network import EncodedUtterance, Network
from companion.hearing.whisper.prefix_tree import PrefixTree, build, lay_out
from companion.hearing.whisper.respellings import Respellings
from companion.hearing.whisper.scorer import PriorScore, Reading, Scorer
from companion.hearing.whisper.token_lexicon import Before, TokenLexicon
from companion.hearing.whisper.tokens import Tokenizer
from companion.hearing.whisper.written_variants import capitalised, whole_forms
from companion.orthography import Orthography

MOST_PHRASES = 120
MOST_NODES = 600
"""Larger sets are searched: laying out costs about 0.5 ms a node and utterance, a search 0.2 to 0.6 s whatever the size."""
_SHORTLIST = 6
_ECHO = 5.0
"""A text that is so much less likely than its own first words is those words, said once. In synthesised hand measures in noise of 9 dB
the beginning alone was likelier by 7 to 17 where nothing followed, by -7 to 3 where something did."""
_BACKGROUNDS = 2
"""Of the sounds without speech, so many are used for the shortlist, which is measured anew each time."""


class Model:
    """A network with all that works on it."""

    def __init__(self, network: Network, tokenizer: Tokenizer, writing: Orthography) -> None:
        """Take a network, its vocabulary, and how its language is written."""
        self.network = network
        self.tokenizer = tokenizer
        self.writing = writing
        self.scorer = Scorer(network, tokenizer)
        self.beam = Beam(network, tokenizer)
        self.free_writing = FreeWriting(network, tokenizer)


@dataclass(frozen=True, eq=False)
class Background:
    """Respellings without speech, as the network remembers them: about 3 MB each, so only the engine holds on to one."""

    encoded: tuple[EncodedUtterance, ...]


@dataclass(frozen=True)
class Decision:
    """What one set makes of an utterance."""

    phrase: Phrase
    confidence: float
    """Probability 0..1 that the phrase was said."""
    end_logprob: float = 0.0
    """Log-probability that nothing follows it; nought where it wasn't asked."""


Weight: TypeAlias = Callable[[Phrase], float]
"""How likely a phrase is before anything is heard, beside the likeliest: above 0, at most 1."""


class Strategy(Protocol):
    """How one set is recognised."""

    @property
    def gains_by_hearing_again(self) -> bool:
        """Whether what is in doubt is surer when it was heard faster and with less noise, too."""
        ...

    @property
    def is_measured(self) -> bool:
        """Whether the background has been looked at."""
        ...

    def measure(self, background: Background) -> None:
        """Take sounds without speech into account; the same ones again cost nothing."""
        ...

    def answer(self, encoded: Sequence[EncodedUtterance], background: Background, weight: Weight) -> Decision | None:
        """Return the best phrase for an utterance, given as heard at one or several speeds; None when nothing fits at all."""
        ...

    def answer_again(self, tries: Sequence[EncodedUtterance], background: Background, weight: Weight) -> tuple[Decision, ...]:
        """Return the phrases that utterances which may say the same come to, the likeliest first, each meaning once."""
        ...


class ExhaustiveScoring:
    """A set written out as one tree of tokens, every phrase scored."""

    def __init__(self, phrases: tuple[Phrase, ...], layout: PrefixTree, model: Model) -> None:
        """Take what ``of`` laid out."""
        self._phrases = phrases
        self._meanings = [_meaning(phrase) for phrase in phrases]
        self._again = [_is_said_again(phrase.words) for phrase in phrases]
        self._layout = layout
        self._model = model
        self._measured: tuple[weakref.ref[Background], PriorScore] | None = None
        self._read: WeakKeyDictionary[EncodedUtterance, tuple[bytes, Reading]] = WeakKeyDictionary()
        """Each utterance that is still held elsewhere, with the prior taken off: it may be weighed again, together with another."""

    @classmethod
    def of(cls, active: ActiveSet, model: Model) -> ExhaustiveScoring | None:
        """Lay a set out, unless it is too large or there is nothing in it."""
        if active.phrase_count > MOST_PHRASES:
            return None
        phrases = active.phrases()
        if not phrases:
            return None
        layout = build(phrases, model.tokenizer, model.writing, Respellings(active.sounds))
        return cls(phrases, layout, model) if len(layout.tokens) <= MOST_NODES else None

    @property
    def gains_by_hearing_again(self) -> bool:
        """It is: ``_DOUBTFUL`` of the engine tells by how much."""
        return True

    @property
    def is_measured(self) -> bool:
        """Whether the phrases' prior is known."""
        return self._measured is not None

    def measure(self, background: Background) -> None:
        """Learn how much each phrase is likely to the model before anything is said."""
        if self._measured is None or self._measured[0]() is not background:
            self._measured = (weakref.ref(background), self._model.scorer.measure_prior(self._layout, background.encoded))

    def answer(self, encoded: Sequence[EncodedUtterance], background: Background, weight: Weight) -> Decision | None:
        """Return the best phrase, less the prior measured last: measuring anew is for quieter moments."""
        prior = self._prior(weight)
        readings = self._readings(prior, encoded)
        verdict = judge(self._layout, prior.fits, readings, self._meanings, self._again)
        return Decision(self._phrases[verdict.phrase], verdict.confidence)

    def answer_again(self, tries: Sequence[EncodedUtterance], background: Background, weight: Weight) -> tuple[Decision, ...]:
        """Return the phrases, each weighed in every try."""
        prior = self._prior(weight)
        readings = [[reading] for reading in self._readings(prior, tries)]
        return _each_meaning_once(judge_again(self._layout, prior.fits, readings, self._meanings, self._again), self._phrases)

    def _readings(self, prior: PriorScore, encoded: Sequence[EncodedUtterance]) -> list[Reading]:
        """Read utterances, but those that were read before."""
        key = prior.fits.tobytes()
        new = [one for one in encoded if self._read.get(one, (b"",))[0] != key]
        for one, reading in zip(new, self._model.scorer.read(self._layout, prior, new) if new else (), strict=True):
            self._read[one] = (key, reading)
        return [self._read[one][1] for one in encoded]

    def _prior(self, weight: Weight) -> PriorScore:
        """Return what is taken off: what the phrases are likely to the model over any sound, less how likely they are to be meant."""
        prior = self._measured[1].share(PRIOR_SHARE, PRIOR_SHARE) if self._measured else PriorScore.none(self._layout)
        weights = np.array([weight(phrase) for phrase in self._phrases], np.float32)
        return replace(prior, fits=prior.fits - np.log(weights)[self._layout.owners])


@dataclass(frozen=True, eq=False)
class _Found:
    """Texts that searches have found, laid out over some sounds without speech."""

    texts: tuple[tuple[int, ...], ...]
    background: weakref.ref[Background]
    layout: PrefixTree
    prior: PriorScore
    phrases: Sequence[Phrase | None]
    meanings: Sequence[Hashable]
    readings: WeakKeyDictionary[EncodedUtterance, Reading]
    """What has been read of them."""


class BeamSearch:
    """A set of any size, searched; the best few texts found are then scored as a set of their own."""

    def __init__(self, active: ActiveSet, model: Model) -> None:
        """Take a set; nothing is written out."""
        self._active = active
        self._model = model
        graph = WordGraph(grammar.rule(name) for grammar, name in active.sources)
        self._lexicon = TokenLexicon(graph, model.tokenizer, model.writing, Respellings(active.sounds))
        self._width = WIDTH_OF_NAMES if active.sounds and not active.is_everything else WIDTH
        self._one_at_a_time = threading.Lock()
        self._searched: WeakKeyDictionary[EncodedUtterance, tuple[Finished, ...]] = WeakKeyDictionary()
        """The utterances that are still held elsewhere: one may be heard again at other speeds, or with the next."""
        self._written: WeakKeyDictionary[EncodedUtterance, list[Written]] = WeakKeyDictionary()
        """What the model would write of them if no grammar bound it."""
        self._found: _Found | None = None
        """What was found last, which is mostly asked for again."""

    @property
    def gains_by_hearing_again(self) -> bool:
        """It isn't among answers: of 55 examples in a kitchen at 9 dB 36 instead of 39 were taken rightly then, of 99 names 79 not 86."""
        return self._active.is_everything

    @property
    def is_measured(self) -> bool:
        """Nothing can be measured before texts are found."""
        return True

    def measure(self, background: Background) -> None:
        """Lay out what may be said first; the texts that will be found are measured then."""
        with self._one_at_a_time:
            self._lexicon.at(self._lexicon.graph.start, Before.NOTHING)

    def answer(self, encoded: Sequence[EncodedUtterance], background: Background, weight: Weight) -> Decision | None:
        """Return the best phrase found."""
        texts = self._shortlist(encoded[0], background, weight)
        if not texts:
            return None
        found, readings = self._read(texts, encoded, background, weight)
        verdict = judge_found(self._weighed(found), readings)
        best = found.phrases[verdict.phrase]
        if best is None:
            return None
        kind = found.meanings[verdict.phrase]
        alike = {_meaning(phrase): phrase for phrase, other in zip(found.phrases, found.meanings, strict=True) if phrase and other == kind}
        alike[_meaning(best)] = best
        confidence = verdict.confidence
        if confidence >= ACCEPT and not self._active.is_everything:
            confidence = self._doubted(confidence, texts[verdict.phrase], best, encoded[0], background)
        return Decision(self._as_spoken(tuple(alike.values()), encoded[0]), confidence, verdict.end_logprob)

    def answer_again(self, tries: Sequence[EncodedUtterance], background: Background, weight: Weight) -> tuple[Decision, ...]:
        """Return the phrases found in any try, each weighed in every one."""
        texts = {text.tokens: text for one in tries for text in self._shortlist(one, background, weight)}
        if not texts:
            return ()
        found, readings = self._read(tuple(texts.values()), tries, background, weight)
        every = [[reading] for reading in readings]
        return _each_meaning_once(judge_found_again(self._weighed(found), every), found.phrases)

    def _doubted(self, confidence: float, text: Finished, phrase: Phrase, encoded: EncodedUtterance, background: Background) -> float:
        """Return how sure a text is once the model has written freely, which costs too much where nothing would be taken.

        What the grammar has, too, was a rival already; among all that is known what nobody asked for is refused by other means.
        """
        with self._one_at_a_time:
            if encoded not in self._written:
                self._written[encoded] = self._model.free_writing.write(encoded, _silent(background))
            written = self._written[encoded]
        known = (text.words, *whole_forms(phrase.written, self._model.writing))
        others = [other for other in others_than(known, written) if self._active.parse(other.text) is None]
        return doubted(confidence, text, others)

    def _weighed(self, found: _Found) -> FoundTexts:
        return FoundTexts(found.layout, found.prior.fits, found.meanings, AMONG_ALL if self._active.is_everything else AMONG_ANSWERS)

    def _shortlist(self, encoded: EncodedUtterance, background: Background, weight: Weight) -> list[Finished]:
        """Return the few best texts, those that are likely to be meant before others that fit as well."""
        chosen: list[tuple[float, Finished]] = []
        for text in sorted(without_echoes(self._found_in(encoded, background)), key=lambda text: text.rank, reverse=True):
            # A weight only ever lowers a rank, so that whoever comes later can't rise above these; to parse is slow.
            if len(chosen) >= _SHORTLIST and sorted((rank for rank, _ in chosen), reverse=True)[_SHORTLIST - 1] >= text.rank:
                break
            phrase = self._active.parse(text.words)
            log_weight = np.log(weight(phrase) if phrase else 1.0)
            chosen.append((replace(text, log_probability=text.log_probability + log_weight).rank, text))
        return [text for _, text in sorted(chosen, key=lambda pair: pair[0], reverse=True)[:_SHORTLIST]]

    def _read(
        self, texts: Sequence[Finished], encoded: Sequence[EncodedUtterance], background: Background, weight: Weight
    ) -> tuple[_Found, list[Reading]]:
        """Lay texts out and read utterances, unless that was done; a phrase that is unlikely to be meant fits less well."""
        key, found = tuple(text.tokens for text in texts), self._found
        if found is None or found.texts != key or found.background() is not background:
            found = self._found = self._laid_out(texts, background, encoded)
        new = [one for one in encoded if one not in found.readings]
        if new:
            read = self._model.scorer.read(found.layout, found.prior.share(0.0, PRIOR_SHARE), new)
            found.readings.update(zip(new, read, strict=True))
        weights = np.log(np.array([weight(phrase) if phrase else 1.0 for phrase in found.phrases], np.float32))
        return found, [replace(reading, fits=reading.fits + weights) for reading in (found.readings[one] for one in encoded)]

    def _laid_out(self, texts: Sequence[Finished], background: Background, encoded: Sequence[EncodedUtterance]) -> _Found:
        layout = lay_out([(place, text.tokens) for place, text in enumerate(texts)], self._model.tokenizer)
        prior, read = self._model.scorer.measure_and_read(layout, background.encoded[:_BACKGROUNDS], encoded, PRIOR_SHARE)
        phrases = [self._active.parse(text.words) for text in texts]
        readings = WeakKeyDictionary(zip(encoded, read, strict=True))
        tokens = tuple(text.tokens for text in texts)
        return _Found(tokens, weakref.ref(background), layout, prior, phrases, self._kinds(texts, phrases), readings)

    def _kinds(self, texts: Sequence[Finished], phrases: Sequence[Phrase | None]) -> list[Hashable]:
        """Return what texts mean: those written alike, and numbers said in several ways ("eighty two", "eight two"), are no rivals."""
        kinds: list[Hashable] = []
        written: list[set[Hashable]] = []
        for text, phrase in zip(texts, phrases, strict=True):
            forms = whole_forms(phrase.written, self._model.writing) if phrase else ()
            written.append({text.tokens, *(form for form in forms if any(sign.isdigit() for sign in form))})
            known = (kinds[place] for place, others in enumerate(written[:-1]) if others & written[-1])
            kinds.append(next(known, _meaning(phrase)))
        return kinds

    def _as_spoken(self, alike: Sequence[Phrase], encoded: EncodedUtterance) -> Phrase:
        """Return which of phrases for the same figures was said: "25" is read "two five" too, and only in words they differ."""
        if len(alike) == 1:
            return alike[0]
        plain = [(place, "".join(f" {word}" for word in phrase.words.split())) for place, phrase in enumerate(alike)]
        tokenizer = self._model.tokenizer
        forms = [(place, tokenizer.encode(form)) for place, text in plain for form in (capitalised(text), text)]
        layout = lay_out(forms, tokenizer)
        (reading,) = self._model.scorer.read(layout, PriorScore.none(layout), [encoded])
        return alike[int(layout.owners[int(np.argmax(reading.fits))])]

    def _found_in(self, encoded: EncodedUtterance, background: Background) -> tuple[Finished, ...]:
        """Search an utterance, unless that was done."""
        with self._one_at_a_time:
            if encoded not in self._searched:
                # Among all that is known rare phrases would be found in other people's talk: of 15 remarks two instead of none.
                silent = None if self._active.is_everything else _silent(background)
                self._searched[encoded] = self._model.beam.search(self._lexicon, encoded, silent, self._width)
            return self._searched[encoded]


def _silent(background: Background) -> EncodedUtterance:
    return background.encoded[:_BACKGROUNDS][-1]


def _is_said_again(words: str) -> bool:
    first, *others = words.split()
    return bool(others) and set(others) == {first}


def _meaning(phrase: Phrase | None) -> Hashable:
    return phrase and (phrase.command, tuple(sorted(phrase.slots.items())))


def _each_meaning_once(verdicts: Sequence[Verdict], phrases: Sequence[Phrase | None]) -> tuple[Decision, ...]:
    likeliest: dict[Hashable, Decision] = {}
    for verdict in verdicts:
        if (phrase := phrases[verdict.phrase]) is not None:
            likeliest.setdefault(_meaning(phrase), Decision(phrase, verdict.confidence))
    return tuple(likeliest.values())


def without_echoes(texts: Sequence[Finished]) -> list[Finished]:
    """Leave out texts that go on after the words said: a model that writes likes to say them again."""
    return [
        text
        for text in texts
        if not any(text.words.startswith(f"{start.words} ") and start.log_probability - text.log_probability > _ECHO for start in texts)
    ]
