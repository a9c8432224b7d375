"""What the air and the twilight leave to be seen, and when a star first shows."""

from __future__ import annotations

import math
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.sky import SUN, Moment, Site, dimming_mag, find, first_seen, sight, stars_come_out, visible_now
from companion.sky.visibility import air_mass, faintest_star_mag, sun_for_star_deg
from tests.sky import astropy_reference as reference

VIENNA = Site(48.2082, 16.3738, 200.0)
EDINBURGH = Site(55.95, -3.19)


def kasten_young(altitude_deg: float) -> float:
    """Return the air mass of Kasten and Young, Applied Optics 28 (1989) 4735: another formula, fitted to another model atmosphere."""
    return 1.0 / (math.sin(math.radians(altitude_deg)) + 0.50572 * (altitude_deg + 6.07995) ** -1.6364)


@pytest.mark.parametrize("altitude_deg", [90.0, 60.0, 30.0, 20.0, 15.0, 10.0, 5.0])
def test_air_mass_by_another_formula(altitude_deg: float) -> None:
    """Pickering's formula (2002), ours, agrees to 1 per cent with Kasten and Young's (1989) from 5 degrees up."""
    assert air_mass(altitude_deg) == pytest.approx(kasten_young(altitude_deg), rel=0.01)


@pytest.mark.parametrize(("altitude_deg", "lost_mag"), [(10.0, 1.2), (20.0, 0.5)])
def test_dimming(altitude_deg: float, lost_mag: float) -> None:
    """A star loses about 1.2 magnitudes at 10 degrees and 0.5 at 20 against the zenith (common practice, no published source)."""
    assert dimming_mag(altitude_deg) == pytest.approx(lost_mag, abs=0.06)


@pytest.mark.parametrize(("sun_deg", "magnitude"), [(-5.0, 0.0), (-6.5, 1.0), (-8.5, 2.0)])
def test_first_stars(sun_deg: float, magnitude: float) -> None:
    """Stars of magnitude 0, 1 and 2 first show with the Sun 5, 6.5 and 8.5 degrees down (common practice, no published source)."""
    assert faintest_star_mag(sun_deg) == pytest.approx(magnitude)
    assert sun_for_star_deg(magnitude) == pytest.approx(sun_deg)


def test_too_faint_for_any_night() -> None:
    """A star of magnitude 7 never shows, something as bright as the Moon always."""
    assert sun_for_star_deg(7.0) is None
    assert sun_for_star_deg(-12.0) == 90.0


@pytest.mark.parametrize(("magnitude", "sun_deg"), [(0.0, -5.0), (1.0, -6.5), (2.0, -8.5)])
def test_when_first_seen(magnitude: float, sun_deg: float) -> None:
    """At the time told for a star overhead astropy has the Sun at the depth that goes with its magnitude, on its way down."""
    noon = datetime(2026, 10, 10, 11, tzinfo=UTC)
    when = first_seen(magnitude, 90.0, Moment(VIENNA, noon))
    assert when is not None
    assert noon < when < noon + timedelta(hours=9)
    altitude, _ = reference.altaz(SUN, VIENNA, reference.times(when, 0.0))
    assert altitude == pytest.approx(sun_deg, abs=0.01)


def test_low_stars_show_later() -> None:
    """The same star shows later when it stands low."""
    evening = Moment(VIENNA, datetime(2026, 10, 10, 15, tzinfo=UTC))
    high, low = first_seen(1.0, 60.0, evening), first_seen(1.0, 10.0, evening)
    assert high is not None
    assert low is not None
    assert low > high


def test_white_nights() -> None:
    """At midsummer in Edinburgh (the Sun 10.6 degrees down at midnight) stars of magnitude 2 show and those of 5 never do."""
    midsummer = Moment(EDINBURGH, datetime(2026, 6, 21, 14, tzinfo=UTC))
    assert first_seen(2.0, 60.0, midsummer) is not None
    assert first_seen(5.0, 60.0, midsummer) is None


def test_already_there_and_too_late() -> None:
    """What shows already is there now; in the morning twilight what has faded comes no more this night."""
    night = Moment(VIENNA, datetime(2026, 10, 10, 21, tzinfo=UTC))
    assert first_seen(3.0, 45.0, night) == night.time
    dawn = Moment(VIENNA, datetime(2026, 10, 11, 4, 30, tzinfo=UTC))
    assert first_seen(2.0, 45.0, dawn) is None


@settings(max_examples=40, deadline=None)
@given(st.floats(-70.0, 70.0), st.floats(-1.5, 5.5), st.floats(10.0, 90.0), st.integers(0, 365 * 24))
def test_not_before_and_from_then_on(latitude_deg: float, magnitude: float, altitude_deg: float, hour: int) -> None:
    """A minute before the time told the sky is too light, a minute after it is dark enough, wherever and whenever."""
    moment = Moment(Site(latitude_deg, 16.0), datetime(2026, 1, 1, tzinfo=UTC) + timedelta(hours=hour))
    when = first_seen(magnitude, altitude_deg, moment)

    def dark_enough(time: datetime) -> bool:
        sun = sight(SUN, Moment(moment.site, time), refraction=False)
        return magnitude + dimming_mag(altitude_deg) <= faintest_star_mag(sun.altitude_deg)

    if when is None:
        assert not dark_enough(moment.time)
    elif when > moment.time:
        assert not dark_enough(when - timedelta(seconds=30))
        assert not dark_enough(moment.time)
        # The Sun may be at the turn just there, where half a minute brings it down no further.
        assert dark_enough(when + timedelta(seconds=1))
    else:
        assert dark_enough(when)


def test_visible_now() -> None:
    """Vega shows at night and not by day; what is down never shows."""
    day, night = (Moment(VIENNA, datetime(2026, 10, 10, hour, tzinfo=UTC)) for hour in (13, 19))
    assert not visible_now(sight(find("Vega"), day), day)
    assert visible_now(sight(find("Vega"), night), night)
    assert sight(find("Acrux"), night).altitude_deg < 0.0
    assert not visible_now(sight(find("Acrux"), night), night)


@pytest.mark.parametrize(
    ("latitude_deg", "day", "come_out"),
    [(70.1, 22, False), (64.1, 22, False), (59.9, 22, True), (48.2, 22, True)],
)
def test_nights_without_stars(latitude_deg: float, day: int, come_out: bool) -> None:
    """At midsummer the Sun stands 23.44 - (90 - latitude) degrees at midnight: 3.5, -2.5, -6.7, -18.4. A star shows from about -5 on.

    It holds of the whole night: at noon before it, at midnight, and in the morning twilight.
    """
    for hour in (12, 24, 26):
        moment = Moment(Site(latitude_deg, 0.0), datetime(2026, 6, day, tzinfo=UTC) + timedelta(hours=hour))
        assert stars_come_out(moment) is come_out
