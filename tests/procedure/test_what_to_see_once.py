"""What a person sees of a target is told once on the way: not again when it is found."""

from __future__ import annotations

from datetime import UTC, datetime
from types import SimpleNamespace
from typing import Any, cast

import pytest

from companion import sky
from companion.languages import load_language
from companion.procedure.night.answers import _of_this
from companion.procedure.night.state import Night
from companion.procedure.script import Context
from companion.sky import Moment, Site
from companion.talk.night_answers import TargetAnswer
from companion.talk.night_phrases import LookAtIt, WhatToSee

TIME = datetime(2026, 3, 13, 11, 0, tzinfo=UTC)
ALIKE: Any = SimpleNamespace(moment=lambda time: None, equipment=None, hides=None)


@pytest.mark.parametrize("code", ["en", "ko"])
def test_found_after_what_to_see_says_something_else(code: str) -> None:
    """Asked before, told before; at the next target it is told anew."""
    body = sky.find("M 44")
    asked, what = _of_this(cast(Context, ALIKE), Night().at(body.name), body, TargetAnswer.WHAT_TO_SEE, TIME)
    night, found = _of_this(cast(Context, ALIKE), asked, body, TargetAnswer.FOUND, TIME)
    _, fresh = _of_this(cast(Context, ALIKE), night.at(body.name), body, TargetAnswer.FOUND, TIME)
    assert isinstance(what, WhatToSee)
    assert (found, fresh) == (LookAtIt(body.name, None, told=True), LookAtIt(body.name, None, told=False))
    language, moment = load_language(code), Moment(Site(35.9, 128.4, 120.0), TIME)
    said = [language.words(one, moment) for one in (what, found, fresh)]
    assert said[0] == said[2]
    assert said[0] != said[1]
