"""Switch the mount on, and what to do when it stays dark or starts again by itself."""

from __future__ import annotations

from typing import assert_never

from companion.procedure.script import Context, Done, Script, ask
from companion.talk.answers import PowerAnswer
from companion.talk.pose_phrases import ItRestarted, NoPower, SayWhenItIsOn, SwitchOn
from companion.talk.saying import Ask


def switch_on(context: Context) -> Script:
    """Switch on and wait until it is."""
    question: Ask[PowerAnswer] = SwitchOn()
    while True:
        answer = yield from ask(question)
        match answer.command:
            case PowerAnswer.READY | PowerAnswer.SKIP:
                return Done()
            case PowerAnswer.DEAD:
                yield NoPower()
            case PowerAnswer.RESTARTED:
                yield ItRestarted()
            case _:
                assert_never(answer.command)
        question = SayWhenItIsOn()
