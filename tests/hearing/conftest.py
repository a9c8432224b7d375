"""The built-in model, read once for all tests of hearing."""

import pytest

from companion.hearing.whisper import WhisperEngine
from companion.hearing.whisper.network import Network
from companion.hearing.whisper.tokens import Tokenizer
from companion.hearing.whisper.weights import load_weights, packaged_model
from companion.languages import load_language


@pytest.fixture(scope="session")
def network() -> Network:
    """Return the packaged model's network."""
    return Network(load_weights(packaged_model()))


@pytest.fixture(scope="session")
def engine(network: Network) -> WhisperEngine:
    """Return an engine with the packaged model, whose sets stay prepared from test to test."""
    return WhisperEngine(network, Tokenizer(packaged_model()), load_language().writing)
