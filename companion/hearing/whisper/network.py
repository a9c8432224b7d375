"""Whisper's encoder and decoder in numpy (Radford et al. 2022; attention after Vaswani et al. 2017)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from companion.hearing.whisper.embeddings import widened
from companion.hearing.whisper.features import FloatArray
from companion.hearing.whisper.weights import Weights

_EPSILON = np.float32(1e-5)
_GELU_AT_ONCE = 32_768
"""Numbers worked on at one time: two pieces of 128 kB stay in a processor's cache through all steps."""
_FEW_ROWS = 64
"""Up to so many rows the weights are taken as they lie, times the rows on end: six to nine tenths of the time (OpenBLAS, widths 384 and
1536, 3 to 40 rows), for the larger array is then packed the cheaper way."""

IntArray = NDArray[np.intp]
BoolArray = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class EncodedUtterance:
    """An encoded utterance as the decoder looks at it: for each layer keys and values, shape (heads, frames, width / heads)."""

    keys: tuple[FloatArray, ...]
    values: tuple[FloatArray, ...]


class Network:
    """One model's sums. Holds no state but its weights, so threads may share it."""

    def __init__(self, weights: Weights) -> None:
        """Take checked weights."""
        self._weights = weights
        self._w = weights.arrays
        self._scale = np.float32((weights.width // weights.heads) ** -0.5)
        self._embeddings = weights.embeddings

    @property
    def commonest(self) -> int:
        """How many tokens, numbered from 0 on, ``commonest_logits`` tells of."""
        return self._embeddings.commonest

    def encode(self, mel: FloatArray) -> FloatArray:
        """Return the hidden states, shape (frames / 2, width), of a spectrogram, shape (80, frames), frames <= 3000."""
        x: FloatArray = mel
        for name, stride in (("encoder/conv1", 1), ("encoder/conv2", 2)):
            x = _gelu(self._convolve(x, name, stride))
        x = np.ascontiguousarray(x.T) + self._w["encoder/position_encodings/encodings"][: x.shape[1]]
        for layer in range(self._weights.encoder_layers):
            here = f"encoder/layer_{layer}"
            queries, keys, values = self._heads(self._linear(self._norm(x, f"{here}/self_attention"), f"{here}/self_attention/linear_0"), 3)
            x = x + self._linear(self._attend(queries, keys, values), f"{here}/self_attention/linear_1")
            x = self._feed_forward(x, here)
        return self._norm(x, "encoder")

    def cross_attention(self, states: FloatArray) -> EncodedUtterance:
        """Return what the decoder needs of encoded speech, shape (frames, width)."""
        pairs = [
            self._heads(self._linear(states, f"decoder/layer_{layer}/attention/linear_1"), 2)
            for layer in range(self._weights.decoder_layers)
        ]
        return EncodedUtterance(tuple(pair[0] for pair in pairs), tuple(pair[1] for pair in pairs))

    def log_normalisers(self, states: FloatArray) -> FloatArray:
        """Return the log of the sum over all tokens, shape (n,), for decoder states, shape (n, width)."""
        return self._embeddings.log_normalisers(states)

    def logits(self, states: FloatArray, tokens: IntArray) -> FloatArray:
        """Return the logits of chosen tokens: states (n, width) and tokens (n,) give (n,), tokens (n, k) give (n, k)."""
        if tokens.ndim == 1:
            return np.asarray(np.einsum("nw,nw->n", states, self._embeddings.rows(tokens)))
        return np.asarray(np.einsum("nw,nkw->nk", states, self._embeddings.rows(tokens)))

    def commonest_logits(self, states: FloatArray) -> FloatArray:
        """Return the logits of the commonest tokens, shape (n, commonest), for states, shape (n, width)."""
        return self._embeddings.commonest_logits(states)

    def some_logits(self, states: FloatArray, tokens: IntArray) -> tuple[FloatArray, FloatArray]:
        """Return the logits, shape (n, tokens), of tokens, each given once, and nearly the log of the sum over all, shape (n,).

        The sum is over those tokens and the commonest (``Embeddings.some_logits``); states have shape (n, width).
        """
        return self._embeddings.some_logits(states, tokens)

    def _convolve(self, x: FloatArray, name: str, stride: int) -> FloatArray:
        kernel = self._w[f"{name}/weight"]
        length = (x.shape[1] - 1) // stride + 1
        padded = np.pad(x, ((0, 0), (1, 1)))
        columns = np.concatenate([padded[:, at : at + stride * (length - 1) + 1 : stride] for at in range(3)])
        answer = np.asarray(kernel.transpose(0, 2, 1).reshape(len(kernel), -1) @ columns)
        answer += self._w[f"{name}/bias"][:, None]
        return answer

    def _linear(self, x: FloatArray, name: str) -> FloatArray:
        weight = self._matrix(name)
        answer = np.ascontiguousarray((weight @ x.T).T) if len(x) <= _FEW_ROWS else np.asarray(x @ weight.T)
        answer += self._w[f"{name}/bias"]
        return answer

    def _matrix(self, name: str) -> FloatArray:
        half = self._weights.halves.get(f"{name}/weight")
        return self._w[f"{name}/weight"] if half is None else widened(half)

    def _norm(self, x: FloatArray, name: str) -> FloatArray:
        centred = x - x.mean(-1, keepdims=True)
        spread = np.sqrt((centred * centred).mean(-1, keepdims=True) + _EPSILON)
        centred /= spread
        centred *= self._w[f"{name}/layer_norm/gamma"]
        centred += self._w[f"{name}/layer_norm/beta"]
        return np.asarray(centred)

    def _feed_forward(self, x: FloatArray, here: str) -> FloatArray:
        inner = _gelu(self._linear(self._norm(x, f"{here}/ffn"), f"{here}/ffn/linear_0"))
        return x + self._linear(inner, f"{here}/ffn/linear_1")

    def _heads(self, x: FloatArray, parts: int) -> list[FloatArray]:
        """Cut (n, parts x width) into ``parts`` arrays of shape (heads, n, width / heads)."""
        return [part.reshape(len(x), self._weights.heads, -1).transpose(1, 0, 2) for part in np.split(x, parts, axis=1)]

    def _attend(self, queries: FloatArray, keys: FloatArray, values: FloatArray, sees: BoolArray | None = None) -> FloatArray:
        scores = (queries * self._scale) @ keys.transpose(0, 2, 1)
        if sees is not None:
            scores[:, ~sees] = -1e9
        scores -= scores.max(-1, keepdims=True)
        np.exp(scores, out=scores)
        scores /= scores.sum(-1, keepdims=True)
        return np.asarray((scores @ values).transpose(1, 0, 2).reshape(queries.shape[1], -1))


class TokenTree:
    """Texts that share their beginnings, each token computed once: every node sees its own ancestors only.

    Nodes are numbered in the order they are added, from 0.
    """

    def __init__(self, network: Network, *encoded: EncodedUtterance) -> None:
        """Begin an empty tree over an encoded utterance, or over several at once: their nodes are the same, their states apart."""
        self._network = network
        self._encoded = encoded
        self._keys: list[FloatArray] = []
        self._values: list[FloatArray] = []
        self._depths = np.zeros(0, np.intp)
        self._ancestors: BoolArray = np.zeros((0, 0), np.bool_)

    def add(self, tokens: IntArray, parents: IntArray) -> FloatArray:
        """Add nodes, shape (n,), under parents (-1: none; a parent may be among the added ones before it).

        Returns their states, shape (n, width), ready for ``Network.logits``; over several utterances those over the first, then those
        over the second, and so on.
        """
        old, added = len(self._depths), len(tokens)
        self._grow(parents)
        sees = self._ancestors[old:]
        network, w = self._network, self._network._w
        x = network._embeddings.rows(tokens) + w["decoder/position_encodings/encodings"][self._depths[old:]]
        if len(x) != added:
            raise ValueError("every token needs one parent")
        x = np.tile(x, (len(self._encoded), 1))
        for layer in range(network._weights.decoder_layers):
            here = f"decoder/layer_{layer}"
            projected = network._linear(network._norm(x, f"{here}/self_attention"), f"{here}/self_attention/linear_0")
            queries, keys, values = self._apart(projected, 3)
            self._store(layer, keys, values)
            mixed = network._attend(queries, self._keys[layer], self._values[layer], sees)
            heard = np.concatenate(np.split(mixed, len(self._encoded), axis=1))
            x = x + network._linear(heard, f"{here}/self_attention/linear_1")
            (queries,) = self._apart(network._linear(network._norm(x, f"{here}/attention"), f"{here}/attention/linear_0"), 1)
            each = zip(np.split(queries, len(self._encoded)), self._encoded, strict=True)
            heard = np.concatenate([network._attend(some, one.keys[layer], one.values[layer]) for some, one in each])
            x = network._feed_forward(x + network._linear(heard, f"{here}/attention/linear_2"), here)
        return network._norm(x, "decoder")

    def _apart(self, x: FloatArray, parts: int) -> list[FloatArray]:
        """Cut (utterances x n, parts x width) into ``parts`` arrays of shape (utterances x heads, n, width / heads)."""
        count, heads = len(self._encoded), self._network._weights.heads
        shaped = [part.reshape(count, len(x) // count, heads, -1).transpose(0, 2, 1, 3) for part in np.split(x, parts, axis=1)]
        return [part.reshape(count * heads, len(x) // count, -1) for part in shaped]

    def _grow(self, parents: IntArray) -> None:
        old = len(self._depths)
        total = old + len(parents)
        ancestors = np.zeros((total, total), np.bool_)
        ancestors[:old, :old] = self._ancestors
        depths = np.concatenate([self._depths, np.zeros(len(parents), np.intp)])
        for node, parent in enumerate(parents, start=old):
            if parent >= 0:
                ancestors[node] = ancestors[parent]
                depths[node] = depths[parent] + 1
            ancestors[node, node] = True
        self._ancestors, self._depths = ancestors, depths

    def _store(self, layer: int, keys: FloatArray, values: FloatArray) -> None:
        if layer == len(self._keys):
            self._keys.append(keys)
            self._values.append(values)
        else:
            self._keys[layer] = np.concatenate([self._keys[layer], keys], axis=1)
            self._values[layer] = np.concatenate([self._values[layer], values], axis=1)


def _gelu(x: FloatArray) -> FloatArray:
    """Gaussian error linear unit, in place; the error function after Abramowitz and Stegun 7.1.26, off by less than 2e-7."""
    flat = x.reshape(-1)
    for start in range(0, len(flat), _GELU_AT_ONCE):
        piece = flat[start : start + _GELU_AT_ONCE]
        size = np.abs(piece)
        size *= np.float32(0.5**0.5)
        t = np.float32(0.3275911) * size
        t += 1
        np.reciprocal(t, out=t)
        series = np.float32(1.061405429) * t
        for term in (-1.453152027, 1.421413741, -0.284496736, 0.254829592):
            series += np.float32(term)
            series *= t
        np.multiply(size, size, out=size)
        np.negative(size, out=size)
        series *= np.exp(size, out=size)
        erf = np.copysign(np.subtract(1, series, out=series), piece, out=series)
        erf += 1
        erf *= np.float32(0.5)
        piece *= erf
    return x
