"""When the mount is set level and facing north."""

from __future__ import annotations

import pytest

from companion.equipment import CompassKind, Equipment, Observer
from companion.messages import Answer, Heard, NotNow
from companion.procedure.notes import Learned
from companion.procedure.script import Context
from companion.procedure.starting_pose import before_power, face_north
from companion.talk.answers import BearingAnswer, NorthAnswer, PoseTimeAnswer
from companion.talk.pose_phrases import FaceTrueNorth, LevelTheBase, PoseBeforePowerThen, SayFacingNorth, TurnByCompass
from tests.english import VOCABULARY
from tests.interview import ENGLISH, SITE, TIME


def test_what_is_assumed_is_said() -> None:
    """Who skips the question hears what is taken for granted before it is done; who answers it doesn't."""
    script = before_power(Context(SITE, TIME, {}))
    next(script)
    assert isinstance(script.send(Answer(PoseTimeAnswer.SKIP, TIME)), PoseBeforePowerThen)
    assert isinstance(next(script), LevelTheBase)
    script = before_power(Context(SITE, TIME, {}))
    next(script)
    script.send(Answer(PoseTimeAnswer.BEFORE_POWER, TIME))
    assert isinstance(next(script), LevelTheBase)


def with_a_compass(kind: CompassKind = "card") -> Context:
    """Return an evening with such a compass."""
    return Context(SITE, TIME, {}, Equipment(observer=Observer(compass=kind)))


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("my compass is already corrected", "true"),
        ("my phone is set to true north", "true"),
        ("the declination is dialled in", "true"),
        ("it shows true north already", "true"),
        ("I have a needle compass", "needle"),
    ],
)
def test_what_compass_it_is_may_be_told_at_north(line: str, kind: CompassKind) -> None:
    """One that is corrected already, turned by the declination once more, would be off by all of it: north is told anew, and kept."""
    told = VOCABULARY.understand(line, NorthAnswer, FaceTrueNorth.also)
    assert isinstance(told, Heard | NotNow)
    script = face_north(with_a_compass(), TIME)
    assert next(script) == FaceTrueNorth("card")
    assert script.send(Answer(told.command, TIME, told.slots)) == Learned.one("observer", "compass", kind)
    assert next(script) == FaceTrueNorth(kind)


@pytest.mark.parametrize(("line", "told"), [("my compass reads 0", "to the right"), ("my phone says 30", "to the left")])
def test_what_the_compass_reads_may_be_told_at_north(line: str, told: str) -> None:
    """Here a compass reads 16 where true north lies (declination 16 degrees west): less than that is left of it, more is right."""
    heard = VOCABULARY.understand(line, NorthAnswer, FaceTrueNorth.also)
    assert isinstance(heard, Heard | NotNow)
    assert heard.command == BearingAnswer.BEARING
    script = face_north(with_a_compass(), TIME)
    next(script)
    turn = script.send(Answer(heard.command, TIME, heard.slots))
    assert isinstance(turn, TurnByCompass)
    assert told in ENGLISH.words(turn, with_a_compass().moment(TIME), Observer())
    assert isinstance(next(script), SayFacingNorth)
