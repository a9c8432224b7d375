"""End the evening safely, and offer to remember what was told for the next one."""

from __future__ import annotations

from companion.procedure.notes import Keep
from companion.procedure.script import Context, Done, Script, ask
from companion.talk.answers import YesNoAnswer
from companion.talk.targets_phrases import GoodNight, ShallIRemember


def good_night(context: Context) -> Script:
    """Keep what was told only if that is wanted; say how to leave the telescope and oneself in one piece."""
    if context.something_learned and (yield from ask(ShallIRemember())).command is YesNoAnswer.YES:
        yield Keep()
    yield GoodNight()
    return Done()
