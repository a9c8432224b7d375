"""Which reference stars are offered, and in what order."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.alignment import reference_stars, rivals
from companion.sky import SUN, Moment, Sight, Site, find, separation_deg, sight

VIENNA = Site(48.2082, 16.3738, 200.0)
SYDNEY = Site(-33.8688, 151.2093, 58.0)
EVENING = Moment(VIENNA, datetime(2026, 11, 5, 18, 10, tzinfo=UTC))

DARK = [
    Moment(site, datetime(2026, month, 15, hour, tzinfo=UTC))
    for site, hour in ((VIENNA, 22), (SYDNEY, 13), (Site(64.1, -21.9), 0), (Site(-0.2, -78.5), 4))
    for month in (1, 3, 10, 12)
]
ANYWHERE = st.builds(
    Moment,
    st.builds(Site, st.floats(-90.0, 90.0), st.floats(-180.0, 180.0)),
    st.datetimes(datetime(2024, 1, 1), datetime(2032, 1, 1)).map(lambda time: time.replace(tzinfo=UTC)),
)


@pytest.mark.parametrize("moment", DARK)
def test_first_two_are_a_good_pair(moment: Moment) -> None:
    """At night the first two stars are up 15-75 degrees, bright, about 60-120 degrees apart and to be seen (common practice)."""
    first, second = reference_stars(moment, count=2)
    for star in (first, second):
        assert 15.0 <= star.sight.altitude_deg <= 75.0
        assert (star.sight.magnitude or 0.0) <= 2.2
        assert "sky-too-bright" not in star.reasons
    assert 55.0 <= separation_deg(first.sight, second.sight) <= 120.0
    assert ("well-apart" in second.reasons) == (separation_deg(first.sight, second.sight) >= 60.0)


@settings(max_examples=60, deadline=None)
@given(ANYWHERE, st.integers(0, 12))
def test_what_always_holds(moment: Moment, count: int) -> None:
    """Anywhere, any time: no more than asked, none twice, none below the horizon or near a risen Sun, scores 0..1 that never rise."""
    ranked = reference_stars(moment, count)
    assert len(ranked) <= count
    assert len({star.sight.body.name for star in ranked}) == len(ranked)
    scores = [star.score for star in ranked]
    assert scores == sorted(scores, reverse=True)
    sun = sight(SUN, moment)
    for star in ranked:
        assert 0.0 <= star.score <= 1.0
        assert 15.0 <= star.sight.altitude_deg <= 75.0
        assert star.reasons
        if sun.altitude_deg > -0.8333:
            assert separation_deg(star.sight, sun) >= 20.0
            assert "sky-too-bright" in star.reasons or star.sight.body.name in ("Sirius", "Canopus")


def test_same_question_same_answer() -> None:
    """The order is the same each time."""
    assert reference_stars(EVENING) == reference_stars(EVENING)


def test_daylight_gives_stars_with_the_warning() -> None:
    """By day stars that are up are still listed, with a low score and the reason."""
    ranked = reference_stars(Moment(VIENNA, datetime(2026, 6, 21, 11, tzinfo=UTC)))
    assert ranked
    assert all(star.score <= 0.2 and "sky-too-bright" in star.reasons for star in ranked)


def test_avoiding_and_hidden() -> None:
    """A star to avoid is not offered, in any spelling of case, nor is what stands behind the house."""
    best = reference_stars(EVENING)[0].sight.body.name
    assert best not in {star.sight.body.name for star in reference_stars(EVENING, avoiding=[best.upper()])}

    def behind_the_house(seen: Sight) -> bool:
        return seen.azimuth_deg > 180.0

    free = reference_stars(EVENING, hidden=behind_the_house)
    assert free
    assert all(star.sight.azimuth_deg <= 180.0 for star in free)


def test_next_star_is_apart_from_those_already_centred() -> None:
    """With a star already centred the next offered is well apart from it."""
    vega = find("Vega")
    best = reference_stars(EVENING, count=1, avoiding=["Vega"], partners=[vega])[0]
    assert 60.0 <= separation_deg(best.sight, sight(vega, EVENING)) <= 120.0
    assert "well-apart" in best.reasons


def test_one_star_stands_for_a_close_pair() -> None:
    """Rigil Kentaurus and Toliman look like one star: only the brighter is offered."""
    names = {star.sight.body.name for star in reference_stars(Moment(SYDNEY, datetime(2026, 6, 15, 10, tzinfo=UTC)), count=30)}
    assert "Rigil Kentaurus" in names
    assert "Toliman" not in names


def test_reasons_tell_the_truth() -> None:
    """Each reason given is a fact about the star."""
    for star in reference_stars(EVENING, count=12):
        high = star.sight.altitude_deg
        assert ("low" in star.reasons) == (high < 25.0)
        assert ("high" in star.reasons) == (high > 60.0)
        assert ("good-height" in star.reasons) == (25.0 <= high <= 60.0)
        assert ("alone" in star.reasons) == (not rivals(star.sight.body, EVENING))
        assert ("very-bright" in star.reasons) == ((star.sight.magnitude or 0.0) <= 1.0)


def test_rivals_of_castor() -> None:
    """Castor's rival is Pollux, 4.5 degrees away (4°31' by catalogue); brilliant Vega has none."""
    spring = Moment(VIENNA, datetime(2027, 3, 5, 19, tzinfo=UTC))
    ((pollux, apart),) = [(seen, apart) for seen, apart in rivals(find("Castor"), spring) if seen.body.kind == "star"]
    assert pollux.body.name == "Pollux"
    assert apart == pytest.approx(4.5, abs=0.05)
    assert rivals(find("Vega"), EVENING) == []


def test_planets_are_rivals() -> None:
    """A planet beside a star of like brightness is named as its rival: Jupiter stood 7 degrees from Pollux in January 2026."""
    names = [seen.body.name for seen, _ in rivals(find("Pollux"), Moment(VIENNA, datetime(2026, 1, 10, 22, tzinfo=UTC)))]
    assert "Jupiter" in names


def test_rivals_leave_out_what_cannot_be_told_apart() -> None:
    """Alpha Centauri's companion, 10 arcseconds away, is no rival."""
    winter = Moment(SYDNEY, datetime(2026, 6, 15, 10, tzinfo=UTC))
    assert "Toliman" not in {seen.body.name for seen, _ in rivals(find("Rigil Kentaurus"), winter)}
