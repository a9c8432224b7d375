"""Magnetic declination: against the model's own test values."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import pytest

from companion.places import declination
from companion.places.declination import decimal_year
from companion.sky import Moment, Site

# The 12 rows of the WMM2025 report (NOAA and BGS): decimal year, km, latitude, longitude, declination. As shipped with PyPI AHRS 0.4.0.
REPORT = [
    (2025.0, 0.0, 80.0, 0.0, 1.28),
    (2025.0, 0.0, 0.0, 120.0, -0.16),
    (2025.0, 0.0, -80.0, 240.0, 68.78),
    (2025.0, 100.0, 80.0, 0.0, 0.85),
    (2025.0, 100.0, 0.0, 120.0, -0.15),
    (2025.0, 100.0, -80.0, 240.0, 68.21),
    (2027.5, 0.0, 80.0, 0.0, 2.59),
    (2027.5, 0.0, 0.0, 120.0, -0.24),
    (2027.5, 0.0, -80.0, 240.0, 68.49),
    (2027.5, 100.0, 80.0, 0.0, 2.16),
    (2027.5, 100.0, 0.0, 120.0, -0.23),
    (2027.5, 100.0, -80.0, 240.0, 67.93),
]
WHEN = {2025.0: datetime(2025, 1, 1, tzinfo=UTC), 2027.5: datetime(2027, 7, 2, 12, tzinfo=UTC)}


@pytest.mark.parametrize(("year", "km", "latitude_deg", "longitude_deg", "printed_deg"), REPORT)
def test_report_of_the_model(year: float, km: float, latitude_deg: float, longitude_deg: float, printed_deg: float) -> None:
    """The report's 12 rows come out as printed, to half of the last figure."""
    assert decimal_year(WHEN[year]) == year
    site = Site(latitude_deg, longitude_deg if longitude_deg <= 180.0 else longitude_deg - 360.0, km * 1000.0)
    found = declination(Moment(site, WHEN[year]))
    assert found.declination_deg == pytest.approx(printed_deg, abs=0.0051)
    assert (found.model, found.epoch_valid) == ("WMM2025", True)


@pytest.mark.parametrize(
    ("time", "valid"),
    [
        (datetime(2024, 12, 31, 23, 59, 59, tzinfo=UTC), False),
        (datetime(2025, 1, 1, tzinfo=UTC), True),
        (datetime(2025, 1, 1, 1, tzinfo=timezone(timedelta(hours=2))), False),
        (datetime(2030, 1, 1, tzinfo=UTC), True),
        (datetime(2030, 1, 1, 0, 0, 1, tzinfo=UTC), False),
        (datetime(2060, 1, 1, tzinfo=UTC), False),
    ],
)
def test_years_of_the_model(time: datetime, valid: bool) -> None:
    """From 2025.0 to 2030.0 there is a figure, outside there is none and a warning instead."""
    found = declination(Moment(Site(48.2, 16.4), time))
    assert found.epoch_valid is valid
    assert (found.declination_deg is not None) is valid
    assert found.warning == (None if valid else "outside-model-years")


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "warning"),
    [
        (48.2, 16.4, None),
        (85.8, 139.0, "blackout-zone"),
        (-63.8, 135.1, "blackout-zone"),
        (-62.0, 128.0, "caution-zone"),
        (90.0, 0.0, "blackout-zone"),
    ],
)
def test_warning_where_no_compass_can_be_trusted(latitude_deg: float, longitude_deg: float, warning: str | None) -> None:
    """Around the dip poles (85.8 N 139 E and 63.8 S 135 E in 2025, from memory) the figure comes with its warning."""
    found = declination(Moment(Site(latitude_deg, longitude_deg), datetime(2026, 1, 1, tzinfo=UTC)))
    assert found.warning == warning
    assert found.declination_deg is not None
