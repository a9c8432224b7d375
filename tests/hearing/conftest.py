"""The built-in model, read once for all tests of hearing."""

import pytest

from companion.hearing.builtin import BuiltinEngine
from companion.hearing.builtin.network import Network
from companion.hearing.builtin.tokens import Tokenizer
from companion.hearing.builtin.weights import load_weights, packaged_model


@pytest.fixture(scope="session")
def network() -> Network:
    """Return the packaged model's network."""
    return Network(load_weights(packaged_model()))


@pytest.fixture(scope="session")
def engine(network: Network) -> BuiltinEngine:
    """Return an engine with the packaged model, whose sets stay prepared from test to test."""
    return BuiltinEngine(network, Tokenizer(packaged_model()))
