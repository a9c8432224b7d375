"""A language: all that differs from tongue to tongue, made in one place and handed to whoever speaks or listens."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import cache
from importlib import import_module, resources
from pathlib import Path

from companion.diagnosis import Cause, CauseFound
from companion.equipment import Mount, Observer
from companion.errors import BadRequest, CompanionError, MissingPart
from companion.languages.phrase import Chapter, Scene, lacking
from companion.languages.typing_habits import TypingHabits
from companion.observing import RankedTarget
from companion.orthography import Orthography
from companion.sky import Body, Moment, Sight, Site
from companion.talk.saying import Saying

_ANYBODY = Observer()
_ANYWHERE = Moment(Site(0.0, 0.0), datetime(2026, 1, 1, tzinfo=UTC))
_ANY_MOUNT = Mount()


def _as_it_is(name: str) -> str:
    return name


@dataclass(frozen=True)
class SkyWords:
    """How single things of the sky are told, outside any conversation."""

    sun_caution: str
    """The caution that comes first where the Sun is up."""
    describe: Callable[[Sight, Moment], str]
    """Where a body is and how bright it looks, with the caution first when it is the Sun or stands near a risen one."""
    introduce: Callable[[RankedTarget, Moment], str]
    """A target's name and number, what and where it is, which eyepiece, what to look for; by day the caution first."""
    look_for: Callable[[Body, Moment], str | None]
    """What a person sees of a target at that moment, None where we don't know."""
    reasons: Callable[[tuple[str, ...]], list[str]]
    """Each reason of a choice as a short phrase."""
    warning: Callable[[str | None], str | None]
    """What a warning about the declination means, or None."""
    explain: Callable[[CauseFound], str]
    """What a likely cause of a miss means here."""
    sum_up: Callable[[CauseFound], str]
    """The same in one sentence."""
    what_would_decide: Callable[[Sequence[CauseFound]], str | None]
    """What tells a few causes from one another; None where there is but one."""
    remedy: Callable[[Cause], str]
    """The least that must be done again for a cause."""
    night_lines: Callable[[Mapping[str, datetime | None], str], list[str]]
    """Whose clock it is, the zone given, and a line for each event of the night; None is one there is not."""
    moon_line: Callable[[float, datetime | None, datetime | None], str]
    """The share of the Moon that is lit, 0..1, and its next rise and set."""
    place_line: Callable[[float, float, str], str]
    """Where something is: its altitude and azimuth in degrees, its constellation's three letters."""


@dataclass(frozen=True)
class Language:
    """One language. Adding another is a folder beside this file, its grammar folder, its rehearsal and its lines in pyproject.toml."""

    code: str
    """As in ``--language``: the name of its folder here and under ``grammars/``."""
    book: Chapter
    """The words of everything that can be said and asked."""
    sky: SkyWords
    writing: Orthography
    """How it looks where somebody types or transcribes it."""
    words_in: Callable[[str], list[str]]
    """A sentence's bare words, lower case, in order: what could be heard of it."""
    typing: TypingHabits
    """How people type it."""
    yes_and_no: frozenset[str]
    """The phrases that say yes or no and nothing else: after a pause they answer nothing."""
    engines: tuple[str, ...]
    """The recognisers that can hear it."""
    voices: tuple[str, ...]
    """The voices that speak it, the best first."""
    pronunciations: Path | None
    """Words that those voices would guess wrong."""
    rehearsed: Callable[[bool, tuple[int, int], tuple[int, int]], list[str]]
    """Lines on a rehearsal: whether it came to its end, how many of how many answers were understood, and strange utterances refused."""
    easily_confused: frozenset[str] = frozenset()
    """Answers that sound so like another to the same question that they are read back however well they were heard; commands, where all
    of theirs do."""
    topics: Mapping[str, str] = field(default_factory=dict)
    """What ``companion help`` tells, a text for each topic. The user's part of the README is made of the same."""
    body_called: Callable[[str], str] = _as_it_is
    """The sky's own name for what people call something; any other as it is."""
    town_called: Callable[[str], str] = _as_it_is
    """The same for towns."""
    error_words: Callable[[CompanionError], str] = str
    """What an error means and what mends it, in one line; its own English one unless the language has others."""
    rehearsal: str = "first_evening"
    """The recorded evening that is rehearsed in it, one of ``audio_fixtures``."""
    reviewed: bool = True
    """Whether somebody who grew up with it has read its sentences."""

    def __post_init__(self) -> None:
        """Refuse a language that could fall silent in the dark. Raises MissingPart with the list of what is missing."""
        if missing := lacking(self.book):
            raise MissingPart(f"the language '{self.code}' is not whole: {'; '.join(missing)}; complete companion/languages/{self.code}")

    def with_details(self, words: str, line: str) -> str:
        """Return this language's words for what is amiss with the English line behind them; that alone where they are no other."""
        return line if self.error_words is str else f"{' '.join(words.split())} ({line})"

    def plain_words(self, saying: Saying) -> str:
        """Return the words of a saying in which neither place nor time is named."""
        return self.words(saying, _ANYWHERE)

    def words(
        self, saying: Saying, moment: Moment, observer: Observer = _ANYBODY, own: tuple[Body, ...] = (), mount: Mount = _ANY_MOUNT
    ) -> str:
        """Return the words of a saying.

        Directions are worked out here, for ``moment``, so that a repeated sentence points where the star is now.
        ``own``: the observer's own objects, which the sky doesn't know. ``mount``: theirs, for its keys.
        """
        scene = Scene(moment.site, moment.time, observer.fist_deg, own, observer.sight, observer.eyes, mount, observer.level_aid)
        short = self.book.terse.get(type(saying)) if observer.terse else None
        entry = self.book.without_own_eye(type(saying), scene, tersely=observer.terse) or short or self.book.phrases[type(saying)]
        return entry if isinstance(entry, str) else entry(scene, **saying.facts)


@cache
def load_language(code: str = "en") -> Language:
    """Return a language. BadRequest, with the choices, when there is no such language; MissingPart when it is not whole."""
    folder = resources.files("companion.languages")
    known = sorted(entry.name for entry in folder.iterdir() if entry.is_dir() and (entry / "__init__.py").is_file())
    if code not in known:
        raise BadRequest(f"I don't speak the language '{code}'; choose one of: {', '.join(known)}")
    language: Language = import_module(f"companion.languages.{code}").LANGUAGE
    return language
