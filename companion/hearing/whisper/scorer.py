"""How well each form of a layout fits an utterance.

A form's probability is that of its tokens and of the transcript ending there. The end is looked at twice: first the probability
of a closing sign, for all forms; then, for the best few, that the transcript really is over after that sign. It tells "go back"
from the beginning of "go back to bed".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from companion.hearing.whisper.features import FloatArray
from companion.hearing.whisper.network import EncodedUtterance, IntArray, Network, TokenTree
from companion.hearing.whisper.prefix_tree import PrefixTree
from companion.hearing.whisper.tokens import Tokenizer

CLOSING_SIGNS = ".!?"
"""What may stand after the words before the transcript ends; a comma would mean that more was said."""
_LOOKED_AT_EXACTLY = 24
"""So many forms, by what the commonest tokens tell, are weighed against the whole vocabulary: most of the time goes there."""
_LOOKED_AT_TWICE = 12
_NOT_LOOKED_AT = 10.0
"""Taken off where the end was not looked at twice, so that such a form can't win."""


@dataclass(frozen=True, eq=False)
class PriorScore:
    """How much a layout is likely to the model before anything is said: log-probabilities on sounds without speech, or a share of them."""

    fits: FloatArray
    """Shape (forms,): of each form and its end."""
    steps: FloatArray
    """Shape (steps,): of each token of each form."""

    @classmethod
    def none(cls, layout: PrefixTree) -> PriorScore:
        """Return nothing to take off."""
        return cls(np.zeros(len(layout.last), np.float32), np.zeros(len(layout.edges_to), np.float32))

    def share(self, of_fits: float, of_steps: float) -> PriorScore:
        """Return so much of it."""
        return PriorScore(np.float32(of_fits) * self.fits, np.float32(of_steps) * self.steps)


@dataclass(frozen=True, eq=False)
class Reading:
    """What one utterance makes of every form of a layout."""

    fits: FloatArray
    """Shape (forms,): log-probability of the tokens and the end."""
    end_logprob: FloatArray
    """Shape (forms,): log-probability that the transcript ends after the form, part of ``fits``."""
    min_token_logprob: FloatArray
    """Shape (forms,): the least log-probability among each form's tokens, its prior taken off: one word exchanged in a long
    phrase shows here."""
    no_speech: float
    """Probability 0..1 that nobody speaks."""


@dataclass(frozen=True, eq=False)
class _Look:
    """Log-probabilities of every form of a layout before the end is looked at twice."""

    fits: FloatArray
    """Shape (forms,)."""
    ends: FloatArray
    """Shape (forms, 4): of each sign, and of the end, after the form."""
    steps: FloatArray
    """Shape (steps,)."""
    no_speech: float
    """Probability 0..1 that nobody speaks."""


class Scorer:
    """Reads utterances with one model."""

    def __init__(self, network: Network, tokenizer: Tokenizer) -> None:
        """Take a model and its vocabulary."""
        self._network = network
        self._signs = np.array([tokenizer.encode(sign)[0] for sign in CLOSING_SIGNS], np.intp)
        self._end = tokenizer.end
        self._no_speech = np.array([tokenizer.no_speech], np.intp)

    def measure_prior(self, layout: PrefixTree, backgrounds: Sequence[EncodedUtterance]) -> PriorScore:
        """Return the mean of log-probabilities on sounds without speech."""
        states = [TokenTree(self._network, encoded).add(layout.tokens, layout.parents) for encoded in backgrounds]
        # All at once: what a look at the whole vocabulary takes hardly depends on how many look.
        normalisers = np.split(self._network.log_normalisers(np.concatenate(states)), len(states))
        looks = [self._look(layout, some, sums) for some, sums in zip(states, normalisers, strict=True)]
        fits = np.mean([look.fits for look in looks], axis=0)
        steps = np.mean([look.steps for look in looks], axis=0)
        return PriorScore(np.asarray(fits, np.float32), np.asarray(steps, np.float32))

    def read(self, layout: PrefixTree, prior: PriorScore, encoded: EncodedUtterance) -> Reading:
        """Read an utterance; ``prior`` is taken off where the best few are chosen, and from each token."""
        tree = TokenTree(self._network, encoded)
        states = tree.add(layout.tokens, layout.parents)
        look = self._look(layout, states, self._normalisers(layout, states, prior))
        chosen = np.argsort(-(look.fits - prior.fits) / layout.lengths)[:_LOOKED_AT_TWICE]
        sure = self._second_look(tree, layout.last[chosen], look.ends[chosen])
        end_logprob = np.logaddexp.reduce(look.ends, axis=1)
        final = look.fits - _NOT_LOOKED_AT
        final[chosen] = look.fits[chosen] - end_logprob[chosen] + sure
        end_logprob[chosen] = sure
        min_token_logprob = np.minimum.reduceat(look.steps - prior.steps, layout.first_edges)
        return Reading(np.asarray(final), np.asarray(end_logprob), np.asarray(min_token_logprob), look.no_speech)

    def _normalisers(self, layout: PrefixTree, states: FloatArray, prior: PriorScore) -> FloatArray:
        """Return each node's log of the sum over all tokens: exactly along the likeliest forms, else nearly."""
        if len(layout.last) <= _LOOKED_AT_EXACTLY:
            return self._network.log_normalisers(states)
        tokens = np.unique(np.concatenate([layout.edges_to, self._signs, [self._end]]))
        _, normalisers = self._network.some_logits(states, tokens)
        rough = self._look(layout, states, normalisers)
        likeliest = np.argsort(-(rough.fits - prior.fits) / layout.lengths)[:_LOOKED_AT_EXACTLY]
        form_of_step = np.repeat(np.arange(len(layout.last)), layout.lengths - 1)
        on_the_way = layout.edges_from[np.isin(form_of_step, likeliest)]
        nodes = np.unique(np.concatenate([[0], on_the_way, layout.last[likeliest]]))
        normalisers[nodes] = self._network.log_normalisers(states[nodes])
        return normalisers

    def _look(self, layout: PrefixTree, states: FloatArray, normalisers: FloatArray) -> _Look:
        """Look at all forms."""
        network = self._network
        steps = network.logits(states[layout.edges_from], layout.edges_to) - normalisers[layout.edges_from]
        closers = np.broadcast_to(np.append(self._signs, self._end), (len(layout.last), len(self._signs) + 1))
        ends = network.logits(states[layout.last], closers) - normalisers[layout.last][:, None]
        no_speech = np.exp(network.logits(states[:1], self._no_speech) - normalisers[:1])
        fits = np.add.reduceat(steps, layout.first_edges) + np.logaddexp.reduce(ends, axis=1)
        return _Look(np.asarray(fits), np.asarray(ends), np.asarray(steps), float(no_speech[0]))

    def _second_look(self, tree: TokenTree, nodes: IntArray, ends: FloatArray) -> FloatArray:
        """Return the log-probability, (n,), that the transcript is over after each node, with a closing sign or without."""
        states = tree.add(np.tile(self._signs, len(nodes)), np.repeat(nodes, len(self._signs)))
        over, normalisers = self._network.some_logits(states, np.array([self._end]))
        with_sign = np.logaddexp.reduce(ends[:, :-1] + (over[:, 0] - normalisers).reshape(len(nodes), -1), axis=1)
        return np.asarray(np.logaddexp(with_sign, ends[:, -1]))
