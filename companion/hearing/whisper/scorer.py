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
        return self.measure_and_read(layout, backgrounds, (), 0.0)[0]

    def read(self, layout: PrefixTree, prior: PriorScore, encoded: Sequence[EncodedUtterance]) -> list[Reading]:
        """Read utterances; ``prior`` is taken off where the best few are chosen, and from each token."""
        trees, states = self._laid_over(layout, encoded)
        normalisers = self._normalisers(layout, states, prior)
        looks = [self._look(layout, some, sums) for some, sums in zip(states, normalisers, strict=True)]
        return [self._reading(layout, prior, tree, look) for tree, look in zip(trees, looks, strict=True)]

    def measure_and_read(
        self, layout: PrefixTree, backgrounds: Sequence[EncodedUtterance], encoded: Sequence[EncodedUtterance], share_of_steps: float
    ) -> tuple[PriorScore, list[Reading]]:
        """Do both for a layout of few forms that was unknown before; only a share of the prior of each token is taken off.

        One look at the whole vocabulary serves all: what it takes hardly depends on how many look.
        """
        trees, states = self._laid_over(layout, (*backgrounds, *encoded))
        looks = [self._look(layout, some, sums) for some, sums in zip(states, self._exact_normalisers(states), strict=True)]
        silent, spoken = looks[: len(backgrounds)], looks[len(backgrounds) :]
        fits = np.mean([look.fits for look in silent], axis=0)
        steps = np.mean([look.steps for look in silent], axis=0)
        prior = PriorScore(np.asarray(fits, np.float32), np.asarray(steps, np.float32))
        shared = prior.share(0.0, share_of_steps)
        return prior, [self._reading(layout, shared, tree, look) for tree, look in zip(trees[len(backgrounds) :], spoken, strict=True)]

    def _laid_over(self, layout: PrefixTree, encoded: Sequence[EncodedUtterance]) -> tuple[list[TokenTree], list[FloatArray]]:
        """Return the layout over each utterance, and the states of its nodes."""
        trees = [TokenTree(self._network, one) for one in encoded]
        return trees, [tree.add(layout.tokens, layout.parents) for tree in trees]

    def _reading(self, layout: PrefixTree, prior: PriorScore, tree: TokenTree, look: _Look) -> Reading:
        """Look twice at the ends of the best few forms."""
        chosen = np.argsort(-(look.fits - prior.fits) / layout.lengths)[:_LOOKED_AT_TWICE]
        sure = self._second_look(tree, layout.last[chosen], look.ends[chosen])
        end_logprob = np.logaddexp.reduce(look.ends, axis=1)
        final = look.fits - _NOT_LOOKED_AT
        final[chosen] = look.fits[chosen] - end_logprob[chosen] + sure
        end_logprob[chosen] = sure
        min_token_logprob = np.minimum.reduceat(look.steps - prior.steps, layout.first_edges)
        return Reading(np.asarray(final), np.asarray(end_logprob), np.asarray(min_token_logprob), look.no_speech)

    def _normalisers(self, layout: PrefixTree, states: Sequence[FloatArray], prior: PriorScore) -> list[FloatArray]:
        """Return each node's log of the sum over all tokens: exactly along the likeliest forms, else nearly."""
        if len(layout.last) <= _LOOKED_AT_EXACTLY:
            return self._exact_normalisers(states)
        tokens = np.unique(np.concatenate([layout.edges_to, self._signs, [self._end]]))
        nearly = [self._network.some_logits(some, tokens)[1] for some in states]
        looked_at = [self._likeliest_nodes(layout, self._look(layout, *pair), prior) for pair in zip(states, nearly, strict=True)]
        exact = self._exact_normalisers([some[nodes] for some, nodes in zip(states, looked_at, strict=True)])
        for normalisers, nodes, sums in zip(nearly, looked_at, exact, strict=True):
            normalisers[nodes] = sums
        return nearly

    def _likeliest_nodes(self, layout: PrefixTree, rough: _Look, prior: PriorScore) -> IntArray:
        likeliest = np.argsort(-(rough.fits - prior.fits) / layout.lengths)[:_LOOKED_AT_EXACTLY]
        form_of_step = np.repeat(np.arange(len(layout.last)), layout.lengths - 1)
        on_the_way = layout.edges_from[np.isin(form_of_step, likeliest)]
        return np.unique(np.concatenate([[0], on_the_way, layout.last[likeliest]]))

    def _exact_normalisers(self, states: Sequence[FloatArray]) -> list[FloatArray]:
        ends = np.cumsum([len(some) for some in states])[:-1]
        return np.split(self._network.log_normalisers(np.concatenate(states)), ends)

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
