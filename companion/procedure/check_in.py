"""Agree on time, zone and place before anything is built on them, and say how dark it is."""

from __future__ import annotations

from typing import assert_never

from companion.procedure.ask_equipment import ask_about_telescope
from companion.procedure.confirm_clock import agree_on_the_clock, year_in_doubt
from companion.procedure.confirm_place import agree_on_the_place, learn_the_place
from companion.procedure.equipment_told import tables_of
from companion.procedure.notes import Learned
from companion.procedure.script import Context, Done, Script, ask
from companion.talk.answers import StartAnswer
from companion.talk.check_in_phrases import GoodEvening, GoodEveningWhereverYouAre, HowDarkItIs, ShallWeStart
from companion.talk.equipment_phrases import AboutYourTelescope


def check_in(context: Context) -> Script:
    """Ask whether our own clock and place are right: both are suspects, for a small board may have no clock chip."""
    if context.site_is_known:
        yield GoodEvening()
        in_doubt = yield from year_in_doubt(context)
        yield from agree_on_the_clock(context, year_in_doubt=in_doubt)
        yield from agree_on_the_place()
    else:
        yield GoodEveningWhereverYouAre()
        in_doubt = yield from year_in_doubt(context)
        place = yield from learn_the_place()
        yield from agree_on_the_clock(context.at(place), year_in_doubt=in_doubt)
    yield HowDarkItIs()
    while True:
        answer = yield from ask(ShallWeStart())
        match answer.command:
            case StartAnswer.READY | StartAnswer.SKIP:
                return Done()
            case StartAnswer.ASK_ME:
                yield AboutYourTelescope()
                yield Learned(tables_of((yield from ask_about_telescope(context))))
            case _:
                assert_never(answer.command)
