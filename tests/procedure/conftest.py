"""A ranking of a test's own for the night, which no other test may see."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from companion import observing
from companion.procedure.night import offer

_REMEMBERED = (offer.offers, offer.offers_in, offer.offers_towards, offer.offer_of)


@pytest.fixture
def rank_by(monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> Callable[[Any], None]:
    """Return what has the night ranked by something else; what it remembers of other rankings is forgotten before and after."""

    def forget() -> None:
        for remembered in _REMEMBERED:
            remembered.cache_clear()

    def use(ranking: Any) -> None:
        forget()
        monkeypatch.setattr(observing, "targets", ranking)
        request.addfinalizer(forget)

    return use
