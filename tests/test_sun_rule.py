"""Nothing near the Sun is offered, nor told of without its caution. More: ``python -m tests.sun_rule``."""

from __future__ import annotations

from collections import Counter
from datetime import UTC, datetime
from pathlib import Path

import pytest

from companion.languages.en.sight_words import SUN_CAUTION, describe_with_caution
from companion.sky import Moment, Site, find, sight
from tests.sun_rule import sun_at, sweep


def test_a_sun_that_has_just_set_is_still_cautioned_of() -> None:
    """Venus beside a Sun at -0.9 degrees, which may shine yet from a hill; beside one at -1.5 it is the evening star."""
    site = Site(-31.79, 130.65)
    for minute, cautioned in ((0, True), (4, False)):
        time = datetime(2027, 8, 30, 9, minute, tzinfo=UTC)
        assert (sun_at(time, site.latitude_deg, site.longitude_deg).altitude_deg > -1.0) == cautioned
        moment = Moment(site, time)
        assert describe_with_caution(sight(find("Venus"), moment), moment).startswith(SUN_CAUTION) == cautioned


@pytest.mark.slow
def test_the_rule_over_a_year_and_all_latitudes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A seeded few moments with the Sun up."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    counts = Counter[str]()
    assert list(sweep(4, 20261126, counts)) == []
    assert counts["offered by stars"] > 20
    assert counts["near the Sun, by what"] > 4
