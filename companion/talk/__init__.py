"""All that can be said, asked and answered, without words: a class for each sentence with typed facts, an enum for each rule's answers."""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module
from pkgutil import iter_modules
from typing import TypeVar

from companion.talk.answers import UniversalAnswer
from companion.talk.saying import Answers, Ask, Say, Wanted

W = TypeVar("W", bound=Wanted)


def every_say() -> tuple[type[Say], ...]:
    """Return the class of every sentence that waits for no answer."""
    _load_chapters()
    return tuple(_leaves(Say))


def every_ask() -> tuple[type[Ask[Answers]], ...]:
    """Return the class of every question."""
    _load_chapters()
    return tuple(_leaves(Ask))


def every_rule() -> tuple[type[Answers], ...]:
    """Return the answers of every rule, the universal words among them."""
    rules = (rule for question in every_ask() for rule in (question.expects, *question.also))
    return tuple(dict.fromkeys((UniversalAnswer, *rules)))


def _load_chapters() -> None:
    for module in iter_modules(__path__):
        import_module(f"{__name__}.{module.name}")


def _leaves(kind: type[W]) -> Iterator[type[W]]:
    """Yield the classes that stand for something that is really said: those of our chapters."""
    for child in kind.__subclasses__():
        if child.__subclasses__():
            yield from _leaves(child)
        elif child.__module__.startswith(f"{__name__}."):
            yield child
