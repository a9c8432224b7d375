"""The words that work at any time: one table of what each is answered with, whether it changes anything, and whether we may quote it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from companion.dialogue.reprompts import Reprompts
from companion.dialogue.stage_run import StageRun
from companion.dialogue.whereabouts import where_we_are
from companion.talk.answers import UniversalAnswer
from companion.talk.guidance_phrases import (
    HeardNothingYet,
    HowToHoldTheMount,
    LastHeard,
    LikeThis,
    StillHere,
    Stopped,
    TheTime,
    Waiting,
)
from companion.talk.help_phrases import HelpWithStep, YouCanSay
from companion.talk.question_phrases import AskedAgain
from companion.talk.saying import Answers, Ask, Saying


@dataclass(frozen=True)
class Here:
    """Where the conversation stands when such a word is said."""

    question: Ask[Answers]
    """The open question."""
    again: tuple[Saying, ...]
    """What is repeated of what was said last, the open question at its end: of a long speech the last part first."""
    run: StageRun
    """The stage under way."""
    last_heard: str | None
    """The words understood last; None before the first."""
    reprompts: Reprompts
    after_a_wait: bool
    """Whether we were told to wait just before."""
    is_linked: bool
    """Whether there is a mount on the line, which then is told to halt."""


Reply: TypeAlias = Callable[[Here], tuple[Saying, ...]]


@dataclass(frozen=True)
class UniversalWord:
    """What one of them does."""

    reply: Reply | None = None
    """What it is answered with; None where it moves the evening, which the conversation sees to, or the script."""
    changes: bool = False
    """Whether it changes something, and so is asked back where it was not heard for certain."""
    may_be_quoted: bool = True
    """Whether we may say it ourselves when asked what we heard: not what is live while we speak."""


def _always(saying: Saying) -> Reply:
    return lambda _: (saying,)


def _then_the_question(saying: Saying) -> Reply:
    """Say something and ask the open question again: a yes or no after it answers what was asked last."""
    return lambda here: (saying, here.question)


def _carry_on(here: Here) -> tuple[Saying, ...]:
    """After a wait nothing was missed: only what is open is said."""
    return (AskedAgain(here.question) if here.after_a_wait else here.question,)


def _what_heard(here: Here) -> tuple[Saying, ...]:
    return (LastHeard(here.last_heard) if here.last_heard else HeardNothingYet(), here.question)


UNIVERSAL_WORDS: dict[UniversalAnswer, UniversalWord] = {
    UniversalAnswer.SAY_AGAIN: UniversalWord(lambda here: here.again, may_be_quoted=False),
    UniversalAnswer.CARRY_ON: UniversalWord(_carry_on),
    UniversalAnswer.HELP: UniversalWord(lambda here: here.reprompts.help(here.question)),
    UniversalAnswer.DONT_KNOW: UniversalWord(lambda here: here.reprompts.help(here.question)),
    UniversalAnswer.WORDS: UniversalWord(lambda here: (YouCanSay(here.question.expects),)),
    UniversalAnswer.WHY: UniversalWord(lambda here: (HelpWithStep(type(here.question)), AskedAgain(here.question))),
    UniversalAnswer.STOP: UniversalWord(
        lambda here: (HowToHoldTheMount() if here.run.stage.mount_may_move and not here.is_linked else Stopped(),), may_be_quoted=False
    ),
    UniversalAnswer.WHAT_HEARD: UniversalWord(_what_heard, may_be_quoted=False),
    UniversalAnswer.LOST: UniversalWord(lambda here: (where_we_are(here.run), AskedAgain(here.question))),
    UniversalAnswer.WAIT: UniversalWord(_always(Waiting())),
    UniversalAnswer.THERE: UniversalWord(_then_the_question(StillHere())),
    UniversalAnswer.WHAT_TIME: UniversalWord(lambda here: (TheTime(), AskedAgain(here.question))),
    UniversalAnswer.LOUDER: UniversalWord(_then_the_question(LikeThis())),
    UniversalAnswer.SOFTER: UniversalWord(_then_the_question(LikeThis())),
    UniversalAnswer.SLOWER: UniversalWord(_then_the_question(LikeThis())),
    UniversalAnswer.FASTER: UniversalWord(_then_the_question(LikeThis())),
    UniversalAnswer.BRIEFLY: UniversalWord(),
    UniversalAnswer.IN_FULL: UniversalWord(),
    # Asked back in any case.
    UniversalAnswer.GOOD_NIGHT: UniversalWord(),
    UniversalAnswer.SKIP: UniversalWord(changes=True),
    UniversalAnswer.GO_BACK: UniversalWord(changes=True),
    UniversalAnswer.LEAVE_PART: UniversalWord(changes=True),
    UniversalAnswer.BEGIN_PART_AGAIN: UniversalWord(changes=True),
}


ONLY_TELL = frozenset(
    {
        UniversalAnswer.SAY_AGAIN,
        UniversalAnswer.HELP,
        UniversalAnswer.DONT_KNOW,
        UniversalAnswer.WORDS,
        UniversalAnswer.WHY,
        UniversalAnswer.WHAT_HEARD,
        UniversalAnswer.LOST,
        UniversalAnswer.THERE,
        UniversalAnswer.WHAT_TIME,
    }
)
"""Words that have something told, and move nothing."""
VOICE_CHANGES = frozenset({UniversalAnswer.LOUDER, UniversalAnswer.SOFTER, UniversalAnswer.SLOWER, UniversalAnswer.FASTER})
"""Words for the voice alone; who holds the evening sees to them."""


def universal_word(command: str) -> UniversalWord | None:
    """Return what a command does where it works at any time; None for the others."""
    return UNIVERSAL_WORDS[UniversalAnswer(command)] if command in set(UniversalAnswer) else None
