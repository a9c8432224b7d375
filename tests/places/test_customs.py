"""What is usual where we are, by the country of its zone."""

from __future__ import annotations

import pytest

from companion.equipment import Observer
from companion.languages import load_language
from companion.places import Customs, customs
from companion.sky import Moment, Site
from companion.talk.check_in_phrases import IsTheClockRight
from companion.talk.ground_phrases import PickAFarMark
from companion.talk.settings_phrases import KeyTheDate, KeyTheTime
from tests.interview import TIME

AMERICAN = Site(40.0, -105.3, 1600, zone="America/Denver")


@pytest.mark.parametrize(
    ("zone", "usual"),
    [
        ("America/Denver", Customs(feet=True, miles=True, date_order="month-day", hours=12)),
        ("America/Moncton", Customs(hours=12)),
        ("Europe/Berlin", Customs()),
        ("Europe/London", Customs(miles=True)),
        ("Asia/Kathmandu", Customs()),
        ("Etc/GMT+3", Customs()),
    ],
)
def test_customs_follow_the_country(zone: str, usual: Customs) -> None:
    """Feet, miles, order and clock as Unicode's CLDR has them for these countries (values from memory); the rest is metric, day first."""
    assert customs(Site(0.0, 0.0, zone=zone)) == usual


def test_what_is_said_follows_the_place_and_the_profile_goes_before() -> None:
    """At a place in the United States: feet, the month first, twelve hours; what a mount is known to want is said as it wants it."""
    english, moment = load_language(), Moment(AMERICAN, TIME)

    def said(saying: KeyTheDate | KeyTheTime | PickAFarMark | IsTheClockRight) -> str:
        return english.words(saying, moment, Observer())

    assert "Thursday, October fifteenth." in said(IsTheClockRight())
    assert "at least four hundred feet off" in said(PickAFarMark(100))
    assert said(KeyTheDate()) == "The date. The month is October: one zero. Day one five. Year two zero two six."
    assert said(KeyTheDate("day-month")).startswith("The date. Day one five.")
    assert said(KeyTheTime()) == "The time, on the twelve-hour clock. Hours zero five. Minutes zero zero. P M."
    assert "twenty-four-hour clock" in said(KeyTheTime(24))
