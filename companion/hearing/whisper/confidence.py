"""From readings to the best phrase and the probability that it is right.

All weights were fitted by logistic regression on synthesised speech of four voices (flite slt and kal, hibari, espeak-ng en-us):
close cut, in a room, over a telephone's band and in noise of 12 dB. For sets scored phrase by phrase: 270 sentences of three small
grammars of other trades and 271 answers of our own stages, half of them out of grammar, a third of those sentences by one word only.
For sets searched through: 320 sentences of four large grammars of other trades, made in the same way, and 390 names, numbers and
measures of our own, in and out. Other grammars and five other voices were held out. Which evidence to weigh was chosen with what was
held out in view, ``ACCEPT`` and the cost of no speech with the recorded human digits and noises in view, so figures on those are not
wholly blind.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from companion.hearing.whisper.features import FloatArray
from companion.hearing.whisper.network import IntArray
from companion.hearing.whisper.prefix_tree import PrefixTree
from companion.hearing.whisper.scorer import Reading

ACCEPT = 0.6
"""Answers less likely right than this are refused: a wrong answer costs more than saying it again. Of 90 recorded human digits 87 pass,
none wrong; until the utterance's own noise went on around it 88 did, and a "six" without its hiss passed as "two"."""
PRIOR_SHARE = 0.75
"""The share of a short form's log-probability on noise that is taken off: likely texts are likely over any sound."""

_LAID_OUT = (-0.39, 0.96, 0.71, 1.74, 0.91)
"""Offset, and weights of the score a token, of the closing, of the lead over the next phrase, and of the least likely token, for sets
scored phrase by phrase. Without the last a sentence with one word exchanged was taken for what the grammar has, seven times in ten. The
offset was fitted as -0.69, and raised with ``_MOST_TOKEN``."""
_AGAIN_LEAST, _AGAIN_COST = 1.0, 3.0
"""Where a phrase is one word said again, as "no no", the model writes it a second time over any sound once it has written it; so the
least likely token must be so much likelier than over noise, or each unit it lacks costs so much score. In 0.8 s of twenty such words by
voices that may be tuned on, a kitchen or wind 12 dB below, it came to 1.3 to 3.3; in 363 looks at our own echo's rest, wind, kitchen and
neighbours' talk that had been taken for such a phrase at 0.9 and more, to 1 in one and to 0.6 at most in the others."""
_LARGEST_LEAD = 4.0
_LARGEST_LEAD_FOUND = 12.0
_LEAST_TOKEN, _LEAST_CLOSING = -12.0, -8.0
"""Less likely tokens and ends than these count no more."""
_MOST_TOKEN = 0.5
"""Nor, in sets scored phrase by phrase, that every token is likelier than this over noise: "top say" was taken for "top" for having a rare
word in it. With the offset raised by 0.3, one hearing, 54 instead of 52 of 55 examples are taken clean, 76 of 83 at 9 dB and 53 of 55 at
6 dB as before, and 10 instead of 12 of 125 sentences with a word exchanged or of chatter (voices that may be tuned on)."""
LENGTH_POWER = 1.3
"""Of two texts of different length that a search follows, the sum of log-probabilities over this power of the length decides: by the sum
alone what may be left out at the end of a phrase would be lost."""
LEAST_END_UNASKED = -2.5
"""From a lower log-probability of its end on, a text found among all that is known is the beginning of a longer sentence: "I forgot the
password", "I'm going to bed, I'm worn out". Of 200 everyday sentences the five taken for something with more than 0.4 ended at -3.1 to
-7.6, wishes to go to another part, said whole, at -1.2 and above (voices that may be tuned on)."""
_FASTEST = 35.0
"""Letters a second that nobody speaks: a sound too short for a phrase is not that phrase."""
_LONGEST_LETTER_SECONDS, _LONGEST_REST_SECONDS = 0.15, 1.2
"""A sound that is loud for longer than this a letter, and this beside, is more than the phrase: talk that goes on, a hum. Three times
what synthesised speech took in noise of 6 dB."""
_SAID_AGAIN = 1.5
"""Added to the evidence of several tries, log-odds: who isn't understood and speaks again most likely says something known, and the same.
Chosen on 60 examples of the voices that may be tuned on, in a synthesised kitchen at 3 dB, where what was right came to -0.5 and more or
was found in the second try alone; of 20 sentences of chatter said twice none came to more than -7.5."""
_NO_SPEECH_FREE, _NO_SPEECH_COST = 0.6, 8.0
"""From this probability of no speech on it counts against an answer, at this weight."""

_WRITTEN_PRIOR_SHARE = 0.5
_CLEAR_WITHIN, _WRITTEN_FREE, _WRITTEN_COST = 5.0, 1.1, 1.5
"""By how much a text written freely fits better than the one found, each less this share of its log-probability on noise, counts in units
of what the likeliest text costs, and the first number more: where the model wouldn't write anything surely, what it writes tells little.
What goes beyond the second number counts against the text found, at the third a unit, log-odds. The second and third were chosen on 565
utterances by eight voices that may be tuned on: of 199 sentences with a word exchanged, and of examples, names and phrases at random,
clean and in a kitchen at 9 dB, 2 in 100 of what was right asked back."""


@dataclass(frozen=True)
class Weighing:
    """How texts that a search has found are ranked, and what speaks for the best of them."""

    prior_share: float
    """The share of a text's log-probability on noise that is taken off where it is ranked."""
    length_power: float
    """What is left of it is divided by this power of its length."""
    offset: float
    per_excess: float
    """Of the excess over noise a token."""
    per_lead: float
    """Of the root of the lead over texts with other meanings."""
    per_min_token: float
    """Of the least likely token."""
    per_closing: float
    most_token: float = math.inf
    """That every token is likelier than this over noise counts no more."""


AMONG_ALL = Weighing(0.35, LENGTH_POWER, -1.78, 0.56, 1.25, 0.93, 0.32)
"""Among all that is known. Without the last two weights a sentence with one word exchanged, or that goes on after the text found, was taken
for what the grammar has half of the time. The offset was fitted as -2.18, and raised when numbers said in several ways were no rivals any
more. In noise "I don't know" was likelier than what was said: of 27 texts that were found, at 9 dB mostly, 25 instead of 21 came first with
this share taken off (any from 0.25 to 0.5, voices that may be tuned on)."""
AMONG_ANSWERS = Weighing(0.7, 0.7, -0.68, 0.23, 1.56, 0.88, 1.26, most_token=0.0)
"""Among the answers to one question. Fitted (26 November 2026) on 148 times "it says NAME", 76 examples in a kitchen at 9 dB and 150
sentences with a word exchanged, by ten voices that may be tuned on; the offset was fitted as -2.18 and raised, for people say what can be
said more often than not. As much is taken off as while texts are followed: rare names were outdone by whatever is likely over any sound.
By the mean, nine digits with commas between them lose against eight without. Figures are so unlikely over noise that "twenty five minutes"
was "two five" for sure. Beside the other weights, one hearing, of 99 of the names 83 instead of 76 are taken rightly and 6 instead of 5
wrongly; of the examples 54 instead of 58 rightly and 8 instead of 10 wrongly, 2 instead of 10 of them unasked; of the sentences 43 instead
of 65 are taken, 24 instead of 44 unasked."""


class Fit(Protocol):
    """A text with its end, as an utterance and noise make it likely."""

    @property
    def log_probability(self) -> float:
        """On the utterance."""
        ...

    @property
    def on_noise(self) -> float:
        """Where nobody speaks."""
        ...


@dataclass(frozen=True, eq=False)
class FoundTexts:
    """Texts that searches have found, one form each."""

    layout: PrefixTree
    prior: FloatArray
    """Shape (forms,): each text's log-probability on noise."""
    meanings: Sequence[Hashable]
    weighing: Weighing


@dataclass(frozen=True)
class Verdict:
    """The best phrase."""

    phrase: int
    """Its place among the phrases of the layout."""
    confidence: float
    """Probability 0..1 that it was said."""
    end_logprob: float = 0.0
    """Log-probability that nothing follows it, at least -8; nought where it wasn't asked."""


def judge(
    layout: PrefixTree, prior: FloatArray, readings: Sequence[Reading], meanings: Sequence[Hashable], again: Sequence[bool] = ()
) -> Verdict:
    """Weigh one or several readings of one utterance; ``prior``, shape (forms,), is taken off the fits.

    Phrases of the same meaning are no rivals: "small telescope" isn't in doubt for being like "a small telescope". ``again`` says of each
    phrase whether it is one word said again and again.
    """
    scores = _scores(layout, prior, readings, again)
    form = int(np.argmax(scores))
    return Verdict(int(layout.owners[form]), _probability(_evidence(layout, scores, readings, form, _kinds(layout, meanings))))


def judge_found(texts: FoundTexts, readings: Sequence[Reading]) -> Verdict:
    """Weigh the texts a search has found. Texts of the same meaning are no rivals."""
    best = int(np.argmax(_ranks(texts, readings)))
    return Verdict(best, _probability(_evidence_found(texts, readings, best)), _weakest(readings, best)[1])


def judge_again(
    layout: PrefixTree, prior: FloatArray, tries: Sequence[Sequence[Reading]], meanings: Sequence[Hashable], again: Sequence[bool] = ()
) -> tuple[Verdict, ...]:
    """Weigh every phrase by what each of several tries tells of it, the likeliest first."""
    evidence = [0.0] * (int(layout.owners.max()) + 1)
    kinds = _kinds(layout, meanings)
    for readings in tries:
        scores = _scores(layout, prior, readings, again)
        for phrase in range(len(evidence)):
            forms = np.flatnonzero(layout.owners == phrase)
            evidence[phrase] += _evidence(layout, scores, readings, int(forms[np.argmax(scores[forms])]), kinds)
    return _in_order(evidence)


def judge_found_again(texts: FoundTexts, tries: Sequence[Sequence[Reading]]) -> tuple[Verdict, ...]:
    """Do the same for the texts that searches have found in any of the tries."""
    places = range(len(texts.layout.lengths))
    return _in_order([sum(_evidence_found(texts, readings, text) for readings in tries) for text in places])


def _in_order(evidence: Sequence[float]) -> tuple[Verdict, ...]:
    best_first = sorted(range(len(evidence)), key=lambda place: -evidence[place])
    return tuple(Verdict(place, _probability(evidence[place] + _SAID_AGAIN)) for place in best_first)


def _scores(layout: PrefixTree, prior: FloatArray, readings: Sequence[Reading], again: Sequence[bool]) -> FloatArray:
    scores = (np.mean([reading.fits for reading in readings], axis=0) - prior) / layout.lengths
    if any(again):
        lacks = _AGAIN_LEAST - np.mean([reading.min_token_logprob for reading in readings], axis=0)
        scores = scores - np.array(again)[layout.owners] * _AGAIN_COST * np.maximum(lacks, 0.0)
    return np.asarray(scores)


def _kinds(layout: PrefixTree, meanings: Sequence[Hashable]) -> IntArray:
    """Return a number for what each form means, shape (forms,)."""
    numbers = {meaning: number for number, meaning in enumerate(dict.fromkeys(meanings))}
    return np.array([numbers[meaning] for meaning in meanings], np.intp)[layout.owners]


def _evidence(layout: PrefixTree, scores: FloatArray, readings: Sequence[Reading], form: int, kinds: IntArray) -> float:
    """Return the evidence for a form of a set scored phrase by phrase, log-odds; ``kinds``, shape (forms,): what each means."""
    others = kinds != kinds[form]
    # Where everything means the same, nothing speaks for a meaning; then the other phrases tell how well this one fits.
    rivals = scores[others if others.any() else layout.owners != layout.owners[form]]
    lead = min(float(scores[form] - rivals.max()), _LARGEST_LEAD) if len(rivals) else _LARGEST_LEAD
    min_token_logprob, closing = _weakest(readings, form)
    min_token_logprob = min(min_token_logprob, _MOST_TOKEN)
    offset, per_score, per_closing, per_lead, per_min_token = _LAID_OUT
    evidence = offset + per_score * float(scores[form]) + per_closing * closing + per_lead * lead + per_min_token * min_token_logprob
    return evidence - _cost_of_no_speech(readings)


def _ranks(texts: FoundTexts, readings: Sequence[Reading]) -> FloatArray:
    fits = np.mean([reading.fits for reading in readings], axis=0) - np.float32(texts.weighing.prior_share) * texts.prior
    return np.asarray(fits / texts.layout.lengths**texts.weighing.length_power)


def _evidence_found(texts: FoundTexts, readings: Sequence[Reading], text: int) -> float:
    """Return the evidence for a text that a search has found, log-odds; a text that others outdo has a lead below none."""
    weighing, length, ranks = texts.weighing, int(texts.layout.lengths[text]), _ranks(texts, readings)
    rivals = [rank for rank, meaning in zip(ranks, texts.meanings, strict=True) if meaning != texts.meanings[text]]
    lead = float((ranks[text] - max(rivals)) * length**weighing.length_power) if rivals else _LARGEST_LEAD_FOUND
    fits = float(np.mean([reading.fits[text] for reading in readings]))
    min_token_logprob, closing = _weakest(readings, text)
    evidence = weighing.offset + weighing.per_excess * (fits - float(texts.prior[text])) / length
    evidence += weighing.per_lead * math.copysign(math.sqrt(min(abs(lead), _LARGEST_LEAD_FOUND)), lead)
    evidence += weighing.per_min_token * min(min_token_logprob, weighing.most_token) + weighing.per_closing * closing
    return evidence - _cost_of_no_speech(readings)


def _weakest(readings: Sequence[Reading], form: int) -> tuple[float, float]:
    """Return the log-probabilities of a form's least likely token, the prior taken off, and of its end."""
    min_token_logprob = max(_LEAST_TOKEN, float(np.mean([reading.min_token_logprob[form] for reading in readings])))
    return min_token_logprob, max(_LEAST_CLOSING, float(np.mean([reading.end_logprob[form] for reading in readings])))


def _cost_of_no_speech(readings: Sequence[Reading]) -> float:
    no_speech = float(np.mean([reading.no_speech for reading in readings]))
    return _NO_SPEECH_COST * max(0.0, no_speech - _NO_SPEECH_FREE)


def _probability(evidence: float) -> float:
    return 1.0 / (1.0 + math.exp(-max(-30.0, min(30.0, evidence))))


def doubted(confidence: float, found: Fit, written: Sequence[Fit]) -> float:
    """Return the confidence in a text found, where other texts were written freely: lower where one of them fits much better.

    What is likely over any sound is taken off both, so that a rare word rightly heard isn't outdone by a common one like it.
    """
    if not written:
        return confidence
    own, *others = (text.log_probability - _WRITTEN_PRIOR_SHARE * text.on_noise for text in (found, *written))
    unit = _CLEAR_WITHIN - max(text.log_probability for text in (found, *written))
    evidence = math.log(confidence / (1.0 - confidence)) if confidence < 1.0 else math.inf
    return _probability(evidence - _WRITTEN_COST * max(0.0, (max(others) - own) / unit - _WRITTEN_FREE))


def is_possible(words: str, seconds: float, loud_seconds: float) -> bool:
    """Tell whether somebody can have said these words, and not much more, in a sound so long that is loud for so long."""
    return len(words) <= _FASTEST * seconds and loud_seconds <= _LONGEST_LETTER_SECONDS * len(words) + _LONGEST_REST_SECONDS
