"""Questions as people ask them, one or more of every kind, as a typed line finds them among all that is known."""

from __future__ import annotations

from functools import cache

from companion.messages import NotNow
from companion.talk.answers import YearAnswer
from companion.talk.saying import Answers, Ask
from tests.english import VOCABULARY

QUESTIONS = (
    "is there another way",
    "how old is it",
    "what colour is it",
    "what constellation is it in",
    "what is it made of",
    "why that one",
    "why Altair",
    "what's the date",
    "what's the declination",
    "what can we see tonight",
    "is west minus",
    "what does success mean",
    "it tips over",
    "what's the clamp for",
    "what's that bright one low in the west",
    "what is that bright star",
    "what's the orange one high up in the south east",
    "what are the two bright ones in the east",
    "where is Saturn",
    "where is the Moon",
    "show me Saturn",
    "where is the Sun",
    "is Vega still up",
    "when does Arcturus rise",
    "when does Fomalhaut set",
    "when does the Moon rise",
    "when does the Sun set",
    "how high is Capella",
    "where's the Andromeda Galaxy",
    "Messier thirteen",
    "where is N G C eight nine one",
    "where is it",
    "is it up",
    "when does it rise",
    "when does it set",
    "how high is it",
    "how far away is it",
    "how far is Saturn",
    "how old is its light",
    "how big is it",
    "how big is Jupiter",
    "how bright is it",
    "tell me its story",
    "tell me about Saturn",
    "what's that fuzzy thing",
    "what is the Crab Nebula",
    "is there a comet tonight",
    "which planets are up",
    "any meteors tonight",
    "how faint can I see",
    "what should I pack",
    "tell me about tonight",
    "will it clear up",
    "how long have we been out",
    "how long until dark",
    "when does it get light",
    "what's the moon doing",
    "what's the time",
    "where are we",
    "where is it pointing",
    "where was I",
    "what did I tell you",
    "which star was that",
    "which way is south west",
    "how much longer",
    "why",
    "what next",
    "how many stars are left",
    "what do you mean",
    "how do I balance it",
    "what is a leg lock",
    "what does sync mean",
    "which screw",
)


@cache
def question_asked(words: str) -> NotNow:
    """Return what is understood of a question where nothing live fits."""
    asked = VOCABULARY.understand(words, YearAnswer)
    assert isinstance(asked, NotNow), words
    return asked


def all_asked() -> tuple[NotNow, ...]:
    """Return all of them."""
    return tuple(map(question_asked, QUESTIONS))


def asked_at(question: Ask[Answers]) -> tuple[NotNow, ...]:
    """Return all that only asks at this question: "show me Saturn" is an answer while targets are visited."""
    return tuple(asked for asked in all_asked() if not any(asked.command in set(rule) for rule in question.also))
