"""Who is in danger, or about to be, is told what helps, however it is typed, and at whatever question."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from companion.dialogue import Conversation
from companion.languages.en.advice_phrases import TOLD as TOLD_IN_ENGLISH
from companion.languages.en.hazard_gists import hazard
from companion.messages import Heard, NotNow
from companion.procedure import EVENING
from companion.sky import Site
from companion.talk.advice import LEAVE_IT, Advice
from companion.talk.answers import LevelAnswer, ReadyAnswer, UniversalAnswer, YesNoAnswer
from companion.talk.guidance_phrases import Waiting
from companion.talk.question_phrases import Advised
from companion.talk.saying import Answers
from tests.english import ENGLISH, VOCABULARY

SITE = Site(44.1, 5.2)
DUSK = datetime(2026, 11, 27, 16, 10, tzinfo=UTC)
TOLD = [
    ("my daughter looked at the sun through it", Advice.EYE_HURT),
    ("I think I burnt my eye", Advice.EYE_HURT),
    ("I hurt my back lifting it", Advice.HURT),
    ("I've just fallen over", Advice.HURT),
    ("I feel a bit dizzy", Advice.UNWELL),
    ("I can't feel my toes any more", Advice.NUMB),
    ("there was a flash of lightning over the hill", Advice.THUNDER),
    ("smoke comes out of the mount", Advice.SMOKE),
    ("the power supply got wet", Advice.SMOKE),
    ("my sleeve is caught in the gears", Advice.TRAPPED),
    ("the tripod is tipping over", Advice.TRIPOD_TIPS),
    ("the tube is slipping", Advice.TIPS_OVER),
    ("it's turning towards the sun", Advice.RUNAWAY),
    ("the mount won't stop turning", Advice.RUNAWAY),
    ("can I use the green laser pointer", Advice.LASER),
    ("I brought a solar filter", Advice.SOLAR_FILTER),
    ("is it even allowed to park here", Advice.ALLOWED),
    ("there's somebody coming down the track", Advice.UNEASY),
]
SUN = [
    "is it safe to look at the sun through the finder",
    "can I use the sun to line up the finder",
    "I'll use the sun as the far thing",
    "the sun is still up, can I start lining up",
    "can I point it at the sunset",
    "can I see sunspots",
]


@pytest.mark.parametrize("question", [ReadyAnswer, LevelAnswer, YesNoAnswer])
@pytest.mark.parametrize(("line", "advice"), TOLD)
def test_danger_is_answered(line: str, advice: Advice, question: type[Answers]) -> None:
    """Whatever else the words may be about."""
    heard = VOCABULARY.understand(line, question)
    assert isinstance(heard, NotNow), heard
    assert heard.slots.get("advice") == advice


@pytest.mark.parametrize("line", SUN)
@pytest.mark.parametrize("question", [ReadyAnswer, LevelAnswer, YesNoAnswer])
def test_the_sun_is_never_a_mark_nor_a_sight(line: str, question: type[Answers]) -> None:
    """Each leads to the caution that the Sun blinds at once."""
    heard = VOCABULARY.understand(line, question)
    assert isinstance(heard, NotNow), heard
    assert dict(heard.slots) == {"name": "the Sun"}


@pytest.mark.parametrize(
    "line",
    [
        "when does the sun set",
        "the sun is down",
        "the sun set an hour ago",
        "it's sunday",
        "it stopped",
        "the dog is at home",
        "I cut the grass",
        "hold it",
        "i fell asleep",
        "it won't stop raining",
        "i can't stop shivering",
        "i cut my sandwich",
        "the moon looks like it is falling behind the hill",
        "i lost my coat it is stuck in the car",
        "show me the snake near ophiuchus",
        "is it worth looking before sunrise",
        "it is burning bright",
    ],
)
def test_no_danger(line: str) -> None:
    """Words of danger that tell of none."""
    assert hazard(line) is None


@pytest.mark.parametrize("advice", sorted(LEAVE_IT))
def test_danger_comes_first(advice: Advice) -> None:
    """We wait then: the step isn't asked for again until somebody goes on, and a yes doesn't do it."""
    line = next(line for line, told in TOLD if told == advice)
    conversation = Conversation(EVENING, SITE, ENGLISH, by_voice=False)
    opened = conversation.begin(DUSK).question
    assert opened is not None
    told = conversation.hear(VOCABULARY.understand(line, opened.expects), DUSK)
    assert told.sayings == (Advised(advice), Waiting())
    later = DUSK + timedelta(minutes=20)
    assert conversation.hear(Heard("yes", YesNoAnswer.YES), later).question == opened
    assert conversation.hear(Heard("carry on", UniversalAnswer.CARRY_ON), later).question == opened


def test_thunder_waits_half_an_hour() -> None:
    """National weather services advise to stay inside for thirty minutes after the last thunder (value from memory)."""
    assert "half an hour after the last thunder" in TOLD_IN_ENGLISH[Advice.THUNDER]
