"""How much arithmetic a decision takes: every product of the built-in model's network, counted from the shapes that go into it."""

from __future__ import annotations

from pathlib import Path
from typing import Protocol, Self, runtime_checkable

from companion.hearing import WhisperEngine
from companion.hearing.whisper.features import FloatArray
from companion.hearing.whisper.network import BoolArray, IntArray, Network
from companion.hearing.whisper.tokens import Tokenizer
from companion.hearing.whisper.weights import load_weights, packaged_model
from companion.orthography import PLAIN, Orthography


@runtime_checkable
class CountsWork(Protocol):
    """An engine that knows what it has computed."""

    @property
    def multiply_adds(self) -> int:
        """Multiplications with an addition each, since it was made."""
        ...


class CountingNetwork(Network):
    """A network that counts the multiply-adds of its matrix products; the rest (norms, exponentials) is less than a hundredth."""

    multiply_adds = 0

    def _convolve(self, x: FloatArray, name: str, stride: int) -> FloatArray:
        answer = super()._convolve(x, name, stride)
        self.multiply_adds += self._w[f"{name}/weight"].size * answer.shape[1]
        return answer

    def _linear(self, x: FloatArray, name: str) -> FloatArray:
        answer = super()._linear(x, name)
        self.multiply_adds += x.size * answer.shape[1]
        return answer

    def _attend(self, queries: FloatArray, keys: FloatArray, values: FloatArray, sees: BoolArray | None = None) -> FloatArray:
        self.multiply_adds += 2 * queries.size * keys.shape[1]
        return super()._attend(queries, keys, values, sees)

    def logits(self, states: FloatArray, tokens: IntArray) -> FloatArray:
        """Count one row of the vocabulary a token."""
        self.multiply_adds += tokens.size * states.shape[1]
        return super().logits(states, tokens)

    def log_normalisers(self, states: FloatArray) -> FloatArray:
        """Count the whole vocabulary a state."""
        self.multiply_adds += states.size * len(self._embeddings)
        return super().log_normalisers(states)

    def commonest_logits(self, states: FloatArray) -> FloatArray:
        """Count the commonest tokens, a state."""
        self.multiply_adds += states.size * self.commonest
        return super().commonest_logits(states)

    def some_logits(self, states: FloatArray, tokens: IntArray) -> tuple[FloatArray, FloatArray]:
        """Count what is looked at of the vocabulary, a state."""
        self.multiply_adds += states.size * (len(tokens) + self.commonest)
        return super().some_logits(states, tokens)


class CountingEngine(WhisperEngine):
    """The built-in engine on a counting network."""

    def __init__(self, network: CountingNetwork, tokenizer: Tokenizer, writing: Orthography = PLAIN) -> None:
        """Take a model."""
        super().__init__(network, tokenizer, writing)
        self._network = network

    @classmethod
    def load(cls, model_dir: Path | None = None, writing: Orthography = PLAIN) -> Self:
        """Load a model as the engine itself does. Raises MissingPart."""
        directory = packaged_model() if model_dir is None else model_dir
        return cls(CountingNetwork(load_weights(directory)), Tokenizer(directory), writing)

    @property
    def multiply_adds(self) -> int:
        """Multiplications with an addition each, since it was made."""
        return self._network.multiply_adds
