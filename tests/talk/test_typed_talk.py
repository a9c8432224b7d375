"""What makes talk typed: a misspelt fact, an unhandled answer and a missing phrase are found before anybody stands in the dark.

What scripts write is found by mypy; what the phrase book and the grammar files hold is found when they are loaded.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from mypy import api as mypy

from companion.errors import GrammarError, MissingPart
from companion.languages import Chapter, Scene, load_language
from companion.languages.phrase import lacking
from companion.talk.answers import FinderKindAnswer
from companion.talk.equipment_phrases import FigureLeft, UnlikelyFigure, WhichFinder
from companion.vocabulary import load_vocabulary

ENGLISH = load_language("en")
TOP = Path(__file__).parents[2]

SCRIPT = '''\
"""A script with every mistake that mypy must find, each named beside its line; what has no name beside it is right."""

from __future__ import annotations

from dataclasses import dataclass
from typing import assert_never

from companion.procedure.script import Context, Done, Result, Script, ask
from companion.talk.answers import PoseTimeAnswer, ReadyAnswer, YesNoAnswer
from companion.talk.equipment_phrases import FigureLeft, HasItADiagonal, UnlikelyFigure, WhenIsThePoseTaken


@dataclass(frozen=True)
class Found(Result):
    """What another stage found out."""

    figure: float


def facts(context: Context) -> Script:
    yield UnlikelyFigure(11)
    yield UnlikelyFigure(figure=11)
    yield UnlikelyFigure(figur=11)  # call-arg
    yield UnlikelyFigure()  # call-arg
    yield UnlikelyFigure(11, 12)  # call-arg
    yield UnlikelyFigure("eleven")  # arg-type
    yield UnlikelyFigur(11)  # name-defined
    yield "unlikely-figure"  # misc
    return Done()


def results(context: Context) -> Script:
    found = context.found(Found)
    yield UnlikelyFigure(found.figure)  # union-attr
    if found is not None:
        yield UnlikelyFigure(found.figure)
        yield UnlikelyFigure(found.figur)  # attr-defined
    return {"figure": 11}  # return-value


def answers(context: Context) -> Script:
    answer = yield from ask(HasItADiagonal())
    if answer.command is YesNoAnswer.YES:
        yield FigureLeft()
    if answer.command is YesNoAnswer.YESS:  # attr-defined
        yield FigureLeft()
    if answer.command is ReadyAnswer.READY:  # comparison-overlap
        yield FigureLeft()
    if answer.command == ReadyAnswer.READY:  # comparison-overlap
        yield FigureLeft()
    if answer.command in (PoseTimeAnswer.AFTER_SETTINGS, PoseTimeAnswer.BEFORE_POWER):  # comparison-overlap
        yield FigureLeft()
    return Done()


def all_handled(context: Context) -> Script:
    answer = yield from ask(WhenIsThePoseTaken())
    match answer.command:
        case PoseTimeAnswer.AFTER_SETTINGS | PoseTimeAnswer.BEFORE_POWER:
            return Done()
        case PoseTimeAnswer.BY_ITSELF | PoseTimeAnswer.SKIP:
            yield FigureLeft()
        case _:
            assert_never(answer.command)
    return Done()


def one_left_out(context: Context) -> Script:
    answer = yield from ask(WhenIsThePoseTaken())
    match answer.command:
        case PoseTimeAnswer.AFTER_SETTINGS | PoseTimeAnswer.BEFORE_POWER:
            return Done()
        case PoseTimeAnswer.SKIP:
            yield FigureLeft()
        case _:
            assert_never(answer.command)  # arg-type
    return Done()


def another_rules_instead(context: Context) -> Script:
    answer = yield from ask(HasItADiagonal())
    match answer.command:
        case YesNoAnswer.YES | ReadyAnswer.READY:
            return Done()
        case YesNoAnswer.SKIP:
            yield FigureLeft()
        case _:
            assert_never(answer.command)  # arg-type
    return Done()
'''
"""Each comment is mypy's name for the mistake on that line."""


@pytest.fixture(scope="module")
def report(tmp_path_factory: pytest.TempPathFactory) -> str:
    """Return what mypy, set up as for the program itself, has to say of the script."""
    folder = tmp_path_factory.mktemp("script")
    (folder / "script.py").write_text(SCRIPT, encoding="utf-8")
    said, trouble, _ = mypy.run(["--config-file", str(TOP / "pyproject.toml"), "--cache-dir", str(folder), str(folder / "script.py")])
    assert not trouble
    return said


def test_mypy_finds_every_mistake_in_a_script(report: str) -> None:
    """Misspelt, missing, needless and mistyped facts, unhandled answers and those of another rule are each found, and nothing else."""
    found = {(int(line), code) for line, code in re.findall(r"script\.py:(\d+): error: .*\[([a-z-]+)\]$", report, re.MULTILINE)}
    named = (re.search(r"  # ([a-z-]+)$", line) for line in SCRIPT.splitlines())
    assert found == {(number, name[1]) for number, name in enumerate(named, 1) if name}, report


def test_mypy_names_what_is_wrong(report: str) -> None:
    """The complaints say which answer nobody deals with, and which fact must have been meant."""
    assert 'incompatible type "Literal[PoseTimeAnswer.BY_ITSELF]"' in report
    assert 'Unexpected keyword argument "figur" for "UnlikelyFigure"; did you mean "figure"?' in report


def _without(entries: Mapping[Any, Any], key: object) -> dict[Any, Any]:
    assert key in entries
    return {other: entry for other, entry in entries.items() if other is not key}


def _misspelt(scene: Scene, *, figur: float) -> str:
    return f"{figur} can't be."


def _factless(scene: Scene) -> str:
    return "That can't be."


def _with_a_fact_too_many(scene: Scene, *, figure: float) -> str:
    return f"I leave out {figure}."


BOOK = ENGLISH.book
FLAWED: Mapping[str, tuple[Chapter, str]] = {
    "a sentence": (replace(BOOK, phrases=_without(BOOK.phrases, FigureLeft)), "no words for FigureLeft"),
    "a question": (replace(BOOK, phrases=_without(BOOK.phrases, WhichFinder)), "no words for WhichFinder"),
    "a fact misspelt": (
        replace(BOOK, phrases={**BOOK.phrases, UnlikelyFigure: _misspelt}),
        "the words for UnlikelyFigure take figur, its facts are figure",
    ),
    "a fact left out": (
        replace(BOOK, phrases={**BOOK.phrases, UnlikelyFigure: _factless}),
        "the words for UnlikelyFigure take none, its facts are figure",
    ),
    "a fact misspelt in the short words": (
        replace(BOOK, terse={**BOOK.terse, UnlikelyFigure: _misspelt}),
        "the words for UnlikelyFigure take figur, its facts are figure",
    ),
    "a fact that isn't there": (
        replace(BOOK, phrases={**BOOK.phrases, FigureLeft: _with_a_fact_too_many}),
        "the words for FigureLeft take figure, its facts are none",
    ),
    "help": (replace(BOOK, step_help=_without(BOOK.step_help, WhichFinder)), "no help at WhichFinder"),
    "what help offers": (
        replace(BOOK, sayable=_without(BOOK.sayable, FinderKindAnswer)),
        "nothing to offer for FinderKindAnswer, the answers to WhichFinder",
    ),
}


@pytest.mark.parametrize("flaw", FLAWED)
def test_a_book_that_is_not_whole_is_no_language(flaw: str) -> None:
    """Whatever one entry a book lacks, or takes by a wrong name, is named, alone, and the language refuses to be made."""
    book, complaint = FLAWED[flaw]
    assert lacking(book) == [complaint]
    with pytest.raises(MissingPart, match=re.escape(f"the language 'en' is not whole: {complaint};")):
        replace(ENGLISH, book=book)


def test_all_that_is_missing_is_listed_at_once() -> None:
    """An empty book lacks everything, and one complaint lists it; the English one lacks nothing."""
    assert lacking(BOOK) == []
    with pytest.raises(MissingPart) as refused:
        replace(ENGLISH, book=Chapter({}))
    for complaint in ("no words for FigureLeft", "no words for ShallWeStart", "no help at WhichFinder", "nothing to offer for YesNoAnswer"):
        assert complaint in str(refused.value)


FINDER_KIND = "[a] red dot {dot} | [a] small telescope {optical} | (no finder | there's no finder) {no-finder}"


@pytest.mark.parametrize(
    ("wrong", "complaint"),
    [
        (f"{FINDER_KIND} | a green dot {{green}}", "{green} means nothing to us"),
        (FINDER_KIND.replace("{dot}", "{optical}"), "nothing is tagged {dot}"),
        (FINDER_KIND.replace("{no-finder}", "{none}"), "{none} means nothing to us, nothing is tagged {no-finder}"),
        (FINDER_KIND.replace(" {no-finder}", ""), "{finder_kind} means nothing to us, nothing is tagged {no-finder}"),
    ],
)
def test_tags_and_answers_must_agree(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, wrong: str, complaint: str) -> None:
    """A tag nobody deals with, an answer without a tag, a misspelt tag and a forgotten one are refused at load, with file and line."""
    file, line = _english_with(tmp_path, monkeypatch, FINDER_KIND, wrong)
    with pytest.raises(GrammarError) as refused:
        load_vocabulary(load_language())
    assert (refused.value.file, refused.value.line) == (file, line)
    assert f"{file}:{line}: <finder_kind>: {complaint}; its tags are the values of FinderKindAnswer" in str(refused.value)


def test_a_question_without_its_rule_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where no grammar file has the rule that a question expects, that is said at load."""
    _english_with(tmp_path, monkeypatch, "public <finder_kind>", "public <finder_kinds>")
    with pytest.raises(GrammarError, match=r"no file has the public rule <finder_kind>; add it"):
        load_vocabulary(load_language())


def _english_with(folder: Path, monkeypatch: pytest.MonkeyPatch, right: str, wrong: str) -> tuple[str, int]:
    """Have the English grammars read from a copy with that one difference; return its file and the line of the rule there."""
    shutil.copytree(TOP / "grammars" / "en", folder / "en")
    path = folder / "en" / "equipment.jsgf"
    text = path.read_text("utf-8")
    assert text.count(right) == 1
    path.write_text(text.replace(right, wrong), encoding="utf-8")
    monkeypatch.setattr("companion.vocabulary.loading.resources", SimpleNamespace(files=lambda _: folder))
    lines = text.splitlines()
    return str(path), next(number for number, line in enumerate(lines, 1) if "<finder_kind>" in line)
