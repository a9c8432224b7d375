"""The night ahead, told by day: its hours against another library, what is asked once and kept, and never too much at once."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, get_args

import pytest

from companion import sky
from companion.cli import main
from companion.dialogue import Conversation
from companion.equipment import NOTHING_KNOWN, Equipment, Instrument, Kit, Observer, Obstruction
from companion.messages import Heard
from companion.observing.night_ahead import night_ahead
from companion.procedure import Stage
from companion.procedure.prepare import best_of, tell_about_tonight, the_night, to_pack
from companion.profile import load_profile, write_profile
from companion.sky import Moment, Site
from companion.talk.prepare_phrases import BeThereBy
from tests.english import ENGLISH, VOCABULARY
from tests.sky import astropy_reference

SITE = Site(46.31, -67.52, 180.0, zone="America/Moncton")
NOON = datetime(2026, 10, 15, 15, 0, tzinfo=UTC)
A_DAY = timedelta(days=1)


# --- which night -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("hour", [0, 5, 8, 13])
def test_the_night_is_the_one_that_begins_next(hour: int) -> None:
    """At any hour the dark is still to begin, within a day; by day it is the night of ``companion night``."""
    moment = Moment(SITE, NOON + timedelta(hours=hour))
    ahead = night_ahead(moment)
    assert ahead.dark_from is not None
    assert ahead.dark_until is not None
    assert moment.time <= ahead.dark_from < moment.time + A_DAY
    assert ahead.dark_from < ahead.dark_until < ahead.dark_from + A_DAY
    if sky.sun_state(moment).is_up:
        assert ahead.dark_from == sky.night_around(moment).astronomical_dusk


@pytest.mark.parametrize("site", [SITE, Site(-33.4, 149.6, zone="Australia/Sydney"), Site(1.2, 36.8, zone="Africa/Nairobi")])
def test_it_is_dark_when_another_library_says_so(site: Site) -> None:
    """At both ends of the dark hours astropy has the Sun 18 degrees down (the definition of astronomical twilight)."""
    ahead = night_ahead(Moment(site, NOON))
    for time in (ahead.dark_from, ahead.dark_until):
        assert time is not None
        altitude_deg, _ = astropy_reference.altaz(sky.SUN, site, astropy_reference.times(time, [0.0]))
        assert float(altitude_deg[0]) == pytest.approx(-18.0, abs=0.01)


def test_nights_without_dark() -> None:
    """A bright night has no dark hours, yet something to see; a midnight Sun neither; dark all day counts from noon."""
    bright = night_ahead(Moment(Site(56.0, 10.0, zone="Europe/Copenhagen"), datetime(2026, 6, 20, 12, 0, tzinfo=UTC)))
    assert (bright.dark_from, bright.dark_until) == (None, None)
    assert len(best_of(bright, NOTHING_KNOWN)) == 5
    midnight_sun = night_ahead(Moment(Site(75.0, 10.0), datetime(2026, 6, 20, 12, 0, tzinfo=UTC)))
    assert midnight_sun.dark_from is None
    assert best_of(midnight_sun, NOTHING_KNOWN) == ()
    polar = night_ahead(Moment(Site(89.0, 10.0), datetime(2026, 12, 20, 12, 30, tzinfo=UTC)))
    assert polar.dark_from is not None
    assert polar.dark_from >= datetime(2026, 12, 20, 12, 30, tzinfo=UTC)
    assert not any(isinstance(saying, BeThereBy) for saying in the_night(polar))
    assert any(isinstance(saying, BeThereBy) for saying in the_night(bright))


def test_targets_are_for_this_place_and_telescope() -> None:
    """Five of them, none behind the trees when one begins to look, none of them given to who can't see faint stars unless easy."""
    ahead = night_ahead(Moment(SITE, NOON))
    behind = Equipment(horizon=(Obstruction(0.0, 180.0, 70.0),))
    shown = best_of(ahead, behind)
    assert len(shown) == len({target.sight.body.name for target in shown}) == 5
    assert not any(behind.hides(target.sight.azimuth_deg, target.sight.altitude_deg) for target in shown)
    assert {target.sight.body.name for target in shown} != {target.sight.body.name for target in best_of(ahead, NOTHING_KNOWN)}


# --- what to pack ----------------------------------------------------------------------------------------------------


def test_what_is_packed_follows_the_profile() -> None:
    """All that is of use while nobody has told; then only what is there."""
    assert set(get_args(Kit)) <= set(to_pack(NOTHING_KNOWN))
    known = Equipment(Instrument(has_diagonal=False, finder="dot"), observer=Observer(compass="card", brings=frozenset({"chair"})))
    packed = to_pack(known)
    assert "finder-battery" in packed
    assert "compass" in packed
    assert "diagonal" not in packed
    assert set(packed) & set(get_args(Kit)) == {"chair"}
    assert packed[0] == "mount-battery"


def test_what_one_brings_is_kept_in_the_profile(tmp_path: Path) -> None:
    """The file holds it, "nothing" too, and gives it back."""
    for brings in (frozenset[Kit](), frozenset[Kit]({"dew-strip", "chair"}), None):
        profile = replace(load_profile(None), equipment=Equipment(observer=Observer(brings=brings)))
        write_profile(profile, tmp_path / "profile.toml", load_profile(str(tmp_path / "profile.toml"), must_exist=False))
        assert load_profile(str(tmp_path / "profile.toml")).equipment.observer.brings == brings


# --- by voice --------------------------------------------------------------------------------------------------------


def _held(
    said: Sequence[str], time: datetime = NOON, equipment: Equipment = NOTHING_KNOWN, site: Site = SITE
) -> tuple[list[str], Conversation]:
    """Return what was said, a turn each, and the conversation."""
    conversation = Conversation([Stage("tonight", tell_about_tonight)], site, ENGLISH, equipment=equipment)
    turn = conversation.begin(time)
    told = []
    for words in (*said, None):
        told.append(" ".join(conversation.words(saying, time) for saying in turn.sayings))
        if words is not None:
            assert turn.question is not None, words
            heard = VOCABULARY.understand(words, turn.question.expects)
            assert isinstance(heard, Heard), words
            turn = conversation.hear(heard, time)
    assert turn.finished
    return told, conversation


def test_told_by_day() -> None:
    """Dark hours, Moon, when to be there; then what not to miss and what to pack: each figure is that of the command, to five minutes."""
    told, conversation = _held(["yes", "yes", "a red light", "warm gloves", "that's all", "ready"])
    assert told[0].endswith("It's day. Shall I tell you about tonight first?")
    assert told[1].startswith("Tonight it's fully dark from twenty-five past eight in the evening until ten past six in the morning.")
    assert "The Moon is a waxing crescent, and up until ten past nine in the evening." in told[1]
    assert "Caps on until the Sun is down" in told[1]
    assert told[2].startswith("Not to miss: ")
    assert told[-2].startswith("Charge the mount's battery and this device: cold drains them. Pack ")
    assert told[-2].endswith("And spirit level, red light and gloves. Say ready when you want to set up, now or this evening.")
    assert conversation.equipment.observer.brings == {"red-light", "gloves"}
    for words in told:
        assert len(re.findall(r"[.?!](?:\s|$)", words)) <= 5


def test_what_is_known_is_not_asked() -> None:
    """Who has told what they bring hears the list at once."""
    told, _ = _held(["yes", "yes", "ready"], equipment=Equipment(observer=Observer(brings=frozenset({"chair"}))))
    assert told[-2].startswith("Not to miss: ")
    assert "spirit level and a chair." in told[-2]


@pytest.mark.parametrize("said", [["no"], ["skip this"], ["yes", "no", "ready"], ["yes", "yes", "skip this", "skip this"]])
def test_none_of_it_is_forced(said: Sequence[str]) -> None:
    """No is enough at each question; skipping what one brings leaves it to be asked another time."""
    _, conversation = _held(said)
    assert conversation.equipment.observer.brings is None


@pytest.mark.parametrize(
    ("time", "site"),
    [
        (NOON + timedelta(hours=9), SITE),
        (NOON + timedelta(hours=6, minutes=15), SITE),
        (datetime(2026, 6, 20, 12, 0, tzinfo=UTC), Site(75.0, 10.0)),
    ],
    ids=["by night", "an hour before sunset", "the Sun stays up"],
)
def test_nothing_is_offered_when_it_is_time_to_begin(time: datetime, site: Site) -> None:
    """By night, shortly before sunset and where the Sun doesn't set, the stage says nothing at all."""
    assert _held([], time, site=site)[0] == [""]


# --- the command -----------------------------------------------------------------------------------------------------


def _document(capsys: pytest.CaptureFixture[str], *arguments: str) -> Any:
    assert main(["prepare", "--lat", "46.31", "--lon", "-67.52", *arguments]) == 0
    return capsys.readouterr().out


def test_the_command(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The promised fields on one line, times with the site's offset; for people the same in words; without a place one line."""
    monkeypatch.setenv("COMPANION_HOME", str(tmp_path))
    at = ("--at", NOON.isoformat())
    out = _document(capsys, *at, "--json")
    assert out.count("\n") == 1
    document = json.loads(out)
    assert list(document) == ["dark_from", "dark_until", "moon", "pack", "targets"]
    assert document["dark_from"].startswith("2026-10-15T20:2")
    assert document["dark_from"].endswith("-03:00")
    assert list(document["moon"]) == ["phase_deg", "illuminated_fraction", "rise", "set"]
    assert len(document["targets"]) == 5
    assert "spare batteries" in document["pack"]
    assert main(["night", "--lat", "46.31", "--lon", "-67.52", *at, "--json"]) == 0
    night = json.loads(capsys.readouterr().out)
    assert (document["dark_from"], document["dark_until"]) == (night["astronomical_dusk"], night["astronomical_dawn"])
    assert "Tonight it's fully dark from twenty-five past eight" in _document(capsys, *at)
    assert main(["prepare", *at]) == 2
    assert capsys.readouterr().err.startswith("companion: error: I need to know where you are")
