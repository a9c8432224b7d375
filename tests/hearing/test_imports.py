"""JSGF's ``import`` (JSpeech Grammar Format, W3C Note 5 June 2000; its rules of naming from memory): rules that stand once."""

from __future__ import annotations

from pathlib import Path

import pytest

from companion.errors import GrammarError
from companion.hearing import load_grammar, parse_grammar
from companion.hearing.active import ActiveSet
from companion.hearing.jsgf.graph import Place, WordGraph

NUMERALS = "grammar numerals;\n/** @sounds two = too */\npublic <figure> = one {1} | <two>;\npublic <few> = three {3};\n<two> = two {2};\n"
OTHERS = "grammar far.away.others;\npublic <figure> = nought {0};\npublic <pair> = <figure> <figure>;\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with two grammars to import from."""
    write(tmp_path, "numerals", NUMERALS)
    write(tmp_path, "others", OTHERS)
    return tmp_path


def write(folder: Path, name: str, body: str) -> Path:
    """Write a grammar file, its header in the first line."""
    file = folder / f"{name}.jsgf"
    file.write_text(f"#JSGF V1.0;\n{body}", "utf-8")
    return file


def phrases(file: Path) -> list[str]:
    """Return what may be said, each with its slots."""
    return [" ".join([phrase.words, *phrase.slots.values()]) for phrase in load_grammar(file).phrases()]


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        ("import <numerals.figure>;\npublic <a> = go <figure>;", ["go one 1", "go two 2"]),
        ("import <numerals.figure>;\npublic <a> = go <numerals.figure>;", ["go one 1", "go two 2"]),
        ("import <numerals.*>;\npublic <a> = go (<figure> | <few>);", ["go one 1", "go two 2", "go three 3"]),
        ("import <far.away.others.figure>;\npublic <a> = go <figure>;", ["go nought 0"]),
        ("import <far.away.others.*>;\npublic <a> = go <others.figure> <far.away.others.figure>;", ["go nought nought 0 0"]),
        ("import <far.away.others.pair>;\npublic <a> = go <pair>;", ["go nought nought 0 0"]),
        # the file's own rule comes before an imported one of its name
        ("import <numerals.*>;\npublic <a> = go <figure> | <numerals.few>;\n<figure> = ten {10};", ["go ten 10", "three"]),
        # one name from two grammars: told apart by the grammars' names, and no mistake while nobody uses it alone
        (
            "import <numerals.*>;\nimport <far.away.others.*>;\npublic <a> = <numerals.figure> | a <others.figure>;",
            ["one", "two 2", "a nought 0"],
        ),
        ("import <numerals.figure>;\nimport <numerals.*>;\npublic <a> = go <figure>;", ["go one 1", "go two 2"]),
        ("/** about */ import <numerals.few>;\n/** @example go three */\npublic <a> = go <few>;", ["go three 3"]),
    ],
)
def test_what_is_imported_can_be_said(folder: Path, body: str, expected: list[str]) -> None:
    """Rules are imported one by one or all at once, named simply, after their grammar or in full; slots have their simple name.

    A whole branch that is an imported rule stands for it, as for any public one: its tag is then the command.
    """
    file = write(folder, "t", f"grammar t;\n{body}")
    assert phrases(file) == expected
    grammar = load_grammar(file)
    grammar.check_examples()
    assert grammar.public_rules == ("a",)
    assert walked(WordGraph([grammar.rule("a")])) == {phrase.words for phrase in grammar.phrases()}


def walked(graph: WordGraph) -> set[str]:
    """Return every phrase of a graph."""

    def walk(place: Place, said: str) -> set[str]:
        found = {said} if said and graph.may_end(place) else set()
        return found.union(*(walk(step.place, f"{said} {step.text}".strip()) for step in graph.steps(place)))

    return walk(graph.start, "")


@pytest.mark.parametrize(
    ("body", "line", "complaint"),
    [
        ("import <nowhere.x>;\npublic <a> = <x>;", 3, "there is no nowhere.jsgf beside this file; put the grammar nowhere there"),
        (
            "import <others.figure>;\npublic <a> = <figure>;",
            3,
            "holds the grammar far.away.others; write 'import <far.away.others.figure>;'",
        ),
        ("\nimport <numerals.two>;\npublic <a> = <two>;", 4, "rule <two> is not public in numerals; write 'public' before it there"),
        ("import <numerals.ten>;\npublic <a> = <ten>;", 3, "numerals has no rule <ten>; its public rules are figure, few"),
        ("import <t.a>;\npublic <a> = x;", 3, "in a circle"),
        ("import <round.b>;\npublic <a> = <b>;", 3, "in a circle"),
        ("import <numerals.*>;\npublic <a> = x\n <two>;", 5, "<two> is not defined in this file"),
        ("public <a> = <numerals.figure>;", 3, "define or import it"),
        (
            "import <numerals.*>;\nimport <far.away.others.*>;\npublic <a> = <figure>;",
            5,
            "others.jsgf; put the grammar's full name before it",
        ),
        ("import <figure>;\npublic <a> = x;", 3, "import <grammar.rule>;"),
        ("import numerals.figure;\npublic <a> = x;", 3, "import <grammar.rule>;"),
        ("import <../numerals.figure>;\npublic <a> = x;", 3, "import <grammar.rule>;"),
        ("import <numerals.figure>\npublic <a> = x;", 4, "expected ';'"),
        ("public <a> = x;\nimport <numerals.figure>;", 4, "imports stand before the rules"),
    ],
)
def test_mistakes_of_importing(folder: Path, body: str, line: int, complaint: str) -> None:
    """What can't be found, is private, clashes or runs in a circle is named with file, line and remedy."""
    file = write(folder, "t", f"grammar t;\n{body}")
    write(folder, "round", "grammar round;\nimport <t.a>;\npublic <b> = <a>;")
    with pytest.raises(GrammarError) as caught:
        load_grammar(file)
    where = "round" if "<round" in body else "t"
    assert (caught.value.file, caught.value.line) == (str(folder / f"{where}.jsgf"), line)
    assert complaint in str(caught.value)


def test_a_mistake_in_what_is_imported_is_told_there(folder: Path) -> None:
    """The line that is named is the imported file's."""
    broken = write(folder, "broken", "grammar broken;\npublic <x> = (y;")
    file = write(folder, "t", "grammar t;\nimport <broken.x>;\npublic <a> = <x>;")
    with pytest.raises(GrammarError) as caught:
        load_grammar(file)
    assert (caught.value.file, caught.value.line) == (str(broken), 3)


def test_nesting_is_counted_through_imports(folder: Path) -> None:
    """Two grammars that are each flat enough may be too deep together."""
    chain = "".join(f"<x{i}> = <x{i - 1}>;" for i in range(1, 60))
    write(folder, "deep", f"grammar deep;\n<x0> = y;{chain}public <x> = <x59>;")
    own = "".join(f"<a{i}> = <a{i - 1}>;" for i in range(1, 60))
    file = write(folder, "t", f"grammar t;\nimport <deep.x>;\n<a0> = <x>;{own}public <a> = <a59>;")
    with pytest.raises(GrammarError, match="deep; flatten it"):
        load_grammar(file)


def test_a_long_chain_of_files_is_one_clear_error(tmp_path: Path) -> None:
    """Two thousand files that import from one another in a row don't run the stack over."""
    write(tmp_path, "g0", "grammar g0;\npublic <x> = y;")
    for number in range(1, 2_000):
        file = write(tmp_path, f"g{number}", f"grammar g{number};\nimport <g{number - 1}.x>;\npublic <x> = <g{number - 1}.x>;")
    with pytest.raises(GrammarError, match="in a row; put rules together"):
        load_grammar(file)


def test_sounds_come_along(folder: Path) -> None:
    """How imported words may be written by ear is known where they are imported."""
    grammar = load_grammar(write(folder, "t", "grammar t;\nimport <numerals.figure>;\n/** @sounds go = gaux */ public <a> = go <figure>;"))
    assert ActiveSet.every(grammar).sounds == {"two": ("too",), "go": ("gaux",)}


def test_text_can_import_nothing() -> None:
    """A grammar given as text has no folder to look in; it is told so."""
    with pytest.raises(GrammarError, match=r"some:3: .*save it as a file"):
        parse_grammar("#JSGF V1.0;\ngrammar t;\nimport <numerals.figure>;\npublic <a> = <figure>;", "some")
