"""How sure one must be of what was heard, or guessed, before it is acted upon unasked."""

from __future__ import annotations

from collections.abc import Collection

from companion.dialogue.expectations import LIKELY
from companion.dialogue.jumps import is_jump
from companion.dialogue.questions import is_question
from companion.dialogue.universal import ONLY_TELL
from companion.messages import Heard, NotNow, Prior
from companion.talk.answers import ONLY_ASK, YesNoAnswer
from companion.talk.saying import Answers, Ask

SURE = 0.8
"""An answer that changes something acts at once from this confidence on; below it is asked back. Judgement: one more word costs two
seconds, a wrong step with cold fingers costs minutes."""
SURE_OF_THE_UNLIKELY = 0.95
"""The same for an answer that would surprise: a star that is down, a latitude far from here. Judgement."""
YES_AND_NO = frozenset(YesNoAnswer) - {YesNoAnswer.SKIP}
"""What is shorter said again than asked back."""


def sure_from(heard: Heard, prior: Prior | None, easily_confused: Collection[str]) -> float:
    """Return the confidence from which an answer isn't asked back: higher for one that would surprise.

    What sounds much like another answer is always asked back; only what was typed is as sure as that.
    """
    if heard.phrase in easily_confused or heard.command in easily_confused:
        return 1.0
    return SURE if prior is None or prior.weight(heard.command, heard.slots) >= LIKELY else SURE_OF_THE_UNLIKELY


def may_be_either(first: Heard, second: Heard) -> bool:
    """Say whether it is worth asking which of two was said."""
    return YES_AND_NO.isdisjoint((first.command, second.command))


def is_taken(guess: Heard | NotNow, question: Ask[Answers]) -> bool:
    """Say whether a guess is anything that can be done now: an answer, a question, a part to go to."""
    return isinstance(guess, Heard) or is_question(guess) or is_jump(guess) or any(guess.command in set(rule) for rule in question.also)


def only_asks(guess: Heard | NotNow, question: Ask[Answers]) -> bool:
    """Say whether a guess only has something told, and so may be answered without being asked back: nothing is lost if it is wrong."""
    if guess.command in ONLY_ASK:
        return True
    answers = {command for rule in (question.expects, *question.also) for command in rule}
    return guess.command not in answers and (guess.command in ONLY_TELL or (isinstance(guess, NotNow) and is_question(guess)))
