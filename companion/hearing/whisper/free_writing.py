"""What the model would write if no grammar bound it: texts that fit better than the one a search has found tell of another sentence."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np

from companion.hearing.whisper.features import FloatArray
from companion.hearing.whisper.network import EncodedUtterance, IntArray, Network, TokenTree
from companion.hearing.whisper.scorer import CLOSING_SIGNS
from companion.hearing.whisper.tokens import Tokenizer

_WIDTH = 5
"""Texts followed at once."""
_MOST_TOKENS = 24
_HOPELESS = 4.0
"""Once all that is followed is so much less likely than the likeliest text that has ended, it is given up."""
_SIGNS_WITHIN = " '-"
_SHORTEST_ECHO = 4
"""Letters: what is written twice over from this length on, the model wrote again for want of sound."""


@dataclass(frozen=True)
class Written:
    """A text the model might write, with its end."""

    text: str
    log_probability: float
    on_noise: float
    """The same where nobody speaks."""

    @property
    def letters(self) -> str:
        """Its letters and figures alone."""
        return letters_of(self.text)


@dataclass(frozen=True, eq=False)
class _Text:
    tokens: tuple[int, ...]
    log_probability: float
    on_noise: float
    node: int


def letters_of(text: str) -> str:
    """Return the letters and figures of a text, small: whether it is written with a large letter or a comma makes it no other."""
    return "".join(sign for sign in text.lower() if sign.isalnum())


class FreeWriting:
    """Writes with one model, in its commonest tokens."""

    def __init__(self, network: Network, tokenizer: Tokenizer) -> None:
        """Take a model and its vocabulary."""
        self._network = network
        self._prompt = np.array([tokenizer.start, tokenizer.no_timestamps], np.intp)
        self._end = np.array([tokenizer.end], np.intp)
        self._signs = [tokenizer.encode(sign)[0] for sign in CLOSING_SIGNS]
        self._texts = tokenizer.texts(network.commonest)
        self._spoken = np.array([number for number, text in enumerate(self._texts) if _is_spoken(text)], np.intp)
        self._figures = np.array([text[-1:].isdigit() for text in self._texts])

    def write(self, encoded: EncodedUtterance, silent: EncodedUtterance) -> list[Written]:
        """Return texts that fit an utterance, whatever they say, the likeliest first; ``silent`` is a sound without speech."""
        tree = TokenTree(self._network, encoded, silent)
        states = tree.add(self._prompt, np.array([-1, 0]))[1::2]
        followed, nodes = [_Text((), 0.0, 0.0, 1)], 2
        finished: list[Written] = []
        for _ in range(_MOST_TOKENS):
            over, on = np.split(self._logprobs(states), 2)
            if followed[0].tokens:
                finished += [self._finish(*each) for each in zip(followed, over, on, strict=True)]
            followed = self._next(followed, over, on)
            states = tree.add(np.array([text.tokens[-1] for text in followed]), np.array([text.node for text in followed]))
            followed = [_Text(text.tokens, text.log_probability, text.on_noise, nodes + at) for at, text in enumerate(followed)]
            nodes += len(followed)
            likeliest = max((text.log_probability for text in finished), default=-np.inf)
            if all(text.log_probability < likeliest - _HOPELESS for text in followed):
                break
        return sorted(finished, key=lambda text: -text.log_probability)

    def _logprobs(self, states: FloatArray) -> FloatArray:
        """Return nearly the log-probabilities of the commonest tokens and, last, of the end, shape (n, tokens + 1)."""
        end = self._network.logits(states, np.tile(self._end, (len(states), 1)))
        logits = np.concatenate([self._network.commonest_logits(states), end], axis=1)
        peak = logits.max(axis=1, keepdims=True)
        return np.asarray(logits - peak - np.log(np.exp(logits - peak).sum(axis=1, keepdims=True)))

    def _next(self, followed: Sequence[_Text], over: FloatArray, on: FloatArray) -> list[_Text]:
        candidates: list[tuple[float, int, int]] = []
        for at, (text, row) in enumerate(zip(followed, over, strict=True)):
            likely = self._spoken[np.argpartition(-row[self._spoken], _WIDTH)[:_WIDTH]]
            candidates += [(text.log_probability + float(row[token]), at, int(token)) for token in likely]
        best = sorted(candidates, reverse=True)[:_WIDTH]
        return [
            _Text((*followed[at].tokens, token), worth, followed[at].on_noise + float(on[at, token]), followed[at].node)
            for worth, at, token in best
        ]

    def _finish(self, text: _Text, over: FloatArray, on: FloatArray) -> Written:
        """End a text; after a figure a full stop may begin a decimal, so it is no end there."""
        signs = self._signs[1:] if self._figures[text.tokens[-1]] else self._signs
        endings: IntArray = np.array([*signs, len(over) - 1], np.intp)
        ends = np.logaddexp.reduce(over[endings]), np.logaddexp.reduce(on[endings])
        written = "".join(self._texts[token] for token in text.tokens)
        return Written(written, text.log_probability + float(ends[0]), text.on_noise + float(ends[1]))


def others_than(known: Collection[str], written: Sequence[Written]) -> list[Written]:
    """Leave out what is one of the texts known, but for how it is written, and what was written twice for want of sound."""
    same = {letters_of(text) for text in known}
    return [text for text in written if (letters := text.letters) and letters not in same and not _is_echo(letters)]


def _is_echo(letters: str) -> bool:
    return any(letters.startswith(letters[:half] * 2) for half in range(_SHORTEST_ECHO, len(letters) // 2 + 1))


def _is_spoken(text: str) -> bool:
    return bool(text.strip()) and (text[0].isalnum() or text[0] in _SIGNS_WITHIN)
