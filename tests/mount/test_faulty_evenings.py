"""A few of the random evenings with faults; ``python -m tests.mount.faulty_evenings`` runs many."""

from __future__ import annotations

from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

import pytest

from tests.mount.faulty_evenings import one_evening

_SEEDS = range(16_000, 16_004)


@pytest.mark.slow
def test_nothing_turns_unasked_and_nothing_is_sent_twice() -> None:
    """Whatever is said and whatever fails on the line, through a resume. They mostly wait for their mounts, so they are held at once."""
    with ProcessPoolExecutor(len(_SEEDS), get_context("spawn")) as processes:
        held = {seed: processes.submit(one_evening, seed) for seed in _SEEDS}
        sent = {seed: evening.result()[1] for seed, evening in held.items()}
    assert all(sum(requests.values()) for requests in sent.values()), "an evening sent nothing: it wasn't held"
