"""What a phrase book is made of: phrases, their short forms, what can be said to each question, and the help at each."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, fields
from typing import TypeAlias

from companion.equipment import FIST_DEG, LevelAid, Looker, Mount, SightLeft
from companion.observing import Direction, found_among, showpiece_of
from companion.sky import Body, Moment, Place, sight
from companion.talk import every_ask, every_say
from companion.talk.saying import Answers, Ask, Say

Phrase: TypeAlias = str | Callable[..., str]
"""Fixed words, or a function ``(scene, *, fact, …) -> words`` that takes the facts of its class by name."""
Spoken: TypeAlias = type[Say] | type[Ask[Answers]]


@dataclass(frozen=True)
class Scene(Moment):
    """A moment as one person sees it."""

    fist_deg: float = FIST_DEG
    """How much of the sky that person's fist spans at arm's length."""
    own: tuple[Body, ...] = ()
    """That person's own objects."""
    sight: SightLeft | None = None
    """What they see, where it is limited."""
    eyes: Looker | None = None
    """Who looks for them."""
    mount: Mount = field(default_factory=Mount)
    """Their mount, whose keys may be told by feel."""
    level_aid: LevelAid | None = None
    """What tells them by touch or ear that something is level."""

    def find(self, name: str) -> Body:
        """Return what a name stands for, the person's own objects included."""
        return found_among(self.own, name)

    def shown(self, name: str) -> Body:
        """Return what a name stands for, as it is shown: of a star that is a fine pair, the pair."""
        body = self.find(name)
        showpiece = None if body in self.own else showpiece_of(body)
        return body if showpiece is None else showpiece.body

    def direction(self, ra_deg: float, dec_deg: float) -> Direction:
        """Return where a place among the stars stands."""
        seen = sight(Body("there", "star", place=Place(ra_deg, dec_deg)), self, refraction=False)
        return Direction(seen.altitude_deg, seen.azimuth_deg)


@dataclass(frozen=True)
class Chapter:
    """A part of the phrase book, for one part of the evening."""

    phrases: Mapping[Spoken, Phrase]
    """Every sentence, by its class."""
    terse: Mapping[Spoken, Phrase] = field(default_factory=dict)
    """Shorter words for some of them, for who knows the procedure."""
    relayed: Mapping[Spoken, Phrase] = field(default_factory=dict)
    """Other words where somebody else looks: what concerns the eye is said to them, what concerns hands to the observer."""
    relayed_tersely: Mapping[Spoken, Phrase] = field(default_factory=dict)
    """Shorter words for some of these."""
    by_touch: Mapping[Spoken, Phrase] = field(default_factory=dict)
    """Other words for who sees nothing: by touch and ear."""
    where_nobody_sees: Mapping[Spoken, Phrase] = field(default_factory=dict)
    """What is said instead of asking for an eye, to who sees nothing and has nobody look."""
    by_touch_tersely: Mapping[Spoken, Phrase] = field(default_factory=dict)
    """Shorter words for some of these, and of the next."""
    in_poor_sight: Mapping[Spoken, Phrase] = field(default_factory=dict)
    """Other words for who sees little: what is bright and large by eye, all else by touch and ear."""
    sayable: Mapping[type[Answers], tuple[str, ...]] = field(default_factory=dict)
    """What help offers to say, by the answers expected; a test holds every entry against the grammar files."""
    step_help: Mapping[type[Ask[Answers]], str] = field(default_factory=dict)
    """The first help at each question: what this step is for and how to do it."""
    help_by_touch: Mapping[type[Ask[Answers]], str] = field(default_factory=dict)
    """The same for who sees little or nothing, and has nobody look."""

    def without_own_eye(self, kind: Spoken, scene: Scene, *, tersely: bool = False) -> Phrase | None:
        """Return the words of a sentence for who has somebody look, or sees little; None where it is said as to anybody."""
        if scene.eyes is not None and kind in self.relayed:
            return (self.relayed_tersely.get(kind) if tersely else None) or self.relayed[kind]
        if scene.sight is None:
            return None
        if scene.sight == "none" and scene.eyes is None and kind in self.where_nobody_sees:
            return self.where_nobody_sees[kind]
        words = self.by_touch if scene.sight == "none" else self.in_poor_sight
        return (self.by_touch_tersely.get(kind) if tersely and kind in words else None) or words.get(kind)

    def help_with(self, question: type[Ask[Answers]], scene: Scene) -> str:
        """Return the first help at a question, for this person."""
        alone = scene.sight is not None and scene.eyes is None
        return (self.help_by_touch.get(question) if alone else None) or self.step_help[question]


def joined(*chapters: Chapter) -> Chapter:
    """Return one chapter with all the entries of several."""
    return Chapter(
        phrases={key: entry for chapter in chapters for key, entry in chapter.phrases.items()},
        terse={key: entry for chapter in chapters for key, entry in chapter.terse.items()},
        relayed={key: entry for chapter in chapters for key, entry in chapter.relayed.items()},
        relayed_tersely={key: entry for chapter in chapters for key, entry in chapter.relayed_tersely.items()},
        by_touch={key: entry for chapter in chapters for key, entry in chapter.by_touch.items()},
        where_nobody_sees={key: entry for chapter in chapters for key, entry in chapter.where_nobody_sees.items()},
        by_touch_tersely={key: entry for chapter in chapters for key, entry in chapter.by_touch_tersely.items()},
        in_poor_sight={key: entry for chapter in chapters for key, entry in chapter.in_poor_sight.items()},
        sayable={key: entry for chapter in chapters for key, entry in chapter.sayable.items()},
        step_help={key: entry for chapter in chapters for key, entry in chapter.step_help.items()},
        help_by_touch={key: entry for chapter in chapters for key, entry in chapter.help_by_touch.items()},
    )


def lacking(book: Chapter) -> list[str]:
    """Return what a book lacks of all that scripts may say and ask; empty when it is whole."""
    return list(_lacking(book))


def _lacking(book: Chapter) -> Iterator[str]:
    sayings: tuple[Spoken, ...] = (*every_say(), *every_ask())
    alone = (book.by_touch, book.by_touch_tersely, book.where_nobody_sees, book.in_poor_sight)
    books = (book.phrases, book.terse, book.relayed, book.relayed_tersely, *alone)
    for saying in sayings:
        if saying not in book.phrases:
            yield f"no words for {saying.__name__}"
        for entry in (each.get(saying) for each in books):
            if callable(entry) and (found := _facts_of(entry)) != (wanted := {fact.name for fact in fields(saying)}):
                yield f"the words for {saying.__name__} take {_listed(found)}, its facts are {_listed(wanted)}"
    for question in every_ask():
        if question not in book.step_help:
            yield f"no help at {question.__name__}"
        if question.expects not in book.sayable:
            yield f"nothing to offer for {question.expects.__name__}, the answers to {question.__name__}"


def _facts_of(entry: Callable[..., str]) -> set[str]:
    return {name for name, kind in inspect.signature(entry).parameters.items() if kind.kind is kind.KEYWORD_ONLY}


def _listed(names: set[str]) -> str:
    return ", ".join(sorted(names)) or "none"
