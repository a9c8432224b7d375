"""When the mount is set level and facing north."""

from __future__ import annotations

from companion.messages import Answer
from companion.procedure.script import Context
from companion.procedure.starting_pose import before_power
from companion.talk.answers import PoseTimeAnswer
from companion.talk.pose_phrases import LevelTheBase, PoseBeforePowerThen
from tests.interview import SITE, TIME


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
