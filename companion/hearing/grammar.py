"""Grammar files as closed sets of phrases with meaning, and the set that is active for one question.

The format is the finite part of the JSpeech Grammar Format (W3C Note, 5 June 2000): ``[public] <rule> = …;``, ``|``, ``( )``,
``[ ]``, ``/weights/`` before alternatives, references, ``<NULL>``, ``<VOID>``, "quoted words", ``{tags}``, comments, and
``/** @example words */`` before a rule as a test of it (ours are ``@counterexample words``, words it must refuse, and
``@sounds words = spelling | spelling``, how a recogniser that writes may spell them by ear). How tags become commands and slots:
``jsgf.meaning``. ``import <grammar.rule>;``, and ``import <grammar.*>;`` for all public rules, look for ``grammar.jsgf`` beside the file
that imports; of a name with dots, the last part is the file's.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property, partial
from pathlib import Path
from types import MappingProxyType
from typing import NoReturn

from companion.errors import BadRequest, GrammarError
from companion.files import is_file, read_file, size_in_words
from companion.hearing.jsgf.ast import Example, GrammarTree, Reference, Rule, Word, walk
from companion.hearing.jsgf.expand import Pieces, WordsUsed, every_way, way_of
from companion.hearing.jsgf.finite import DEEPEST
from companion.hearing.jsgf.imports import Fetch, Import
from companion.hearing.jsgf.lexer import declared_encoding
from companion.hearing.jsgf.meaning import Interpreter, said, weight_of
from companion.hearing.jsgf.parser import parse
from companion.hearing.jsgf.size import MOST, Sizes
from companion.hearing.jsgf.words import readings
from companion.messages import NO_SLOTS
from companion.orthography import PLAIN, Orthography

LARGEST_BYTES = 256_000
"""A larger grammar file is refused."""
LONGEST_WORDS = 300
"""A public rule that can say more words than this is refused: nobody speaks it in one breath."""
PHRASE_LIMIT = 10_000
"""Sets with more ways to say something are not written out, unless the caller raises the limit."""


@dataclass(frozen=True)
class Phrase:
    """One thing that can be said, and what it means."""

    words: str
    """As the grammar spells them, lower case, single spaces."""
    command: str
    """The public rule's tag, else its name."""
    slots: Mapping[str, str] = field(default_factory=lambda: NO_SLOTS, compare=False)
    """Slot name -> value."""
    written: str = field(default="", compare=False)
    """The words with the capitals of the file, a hint for recognisers that write."""
    weight: float = field(default=1.0, compare=False)
    """How likely it is beside the likeliest phrases of its rule, as the grammar's weights tell, 0..1."""

    def means_as(self, other: Phrase) -> bool:
        """Tell whether both ask for the same."""
        return self.command == other.command and dict(self.slots) == dict(other.slots)


@dataclass(frozen=True, eq=False)
class Grammar:
    """One grammar file. Two grammars are equal only when they are the same object."""

    file: str
    """Its name in complaints."""
    tree: GrammarTree
    writing: Orthography = PLAIN
    """How its language is written: typed figures are taken for number words."""

    @property
    def name(self) -> str:
        """What the file calls itself."""
        return self.tree.name

    @cached_property
    def public_rules(self) -> tuple[str, ...]:
        """The rules that may be said for themselves, in file order."""
        return tuple(rule.name for rule in self.tree.rules.values() if rule.public)

    @property
    def examples(self) -> tuple[Example, ...]:
        """What the comments promise."""
        return self.tree.examples

    def rule(self, name: str) -> Rule:
        """Return a rule of this file. Raises BadRequest, with the choices, when there is none."""
        rule = self.tree.rules.get(name)
        if rule is None:
            raise BadRequest(f"{self.file} has no rule '{name}'; its public rules are {', '.join(self.public_rules)}")
        return rule

    def line_of(self, rule: str) -> int:
        """Return the line where a rule begins."""
        return self.rule(rule).line

    def commands(self, rule: str) -> frozenset[str]:
        """Return every command that a public rule can mean."""
        return self._interpreter.commands(self.rule(rule))

    def words(self, rule: str) -> frozenset[str]:
        """Return every word that a rule has somewhere, lower case."""
        found: set[str] = set()
        waiting, seen = [self.rule(rule)], set()
        while waiting:
            for node, _ in walk(waiting.pop().body):
                if isinstance(node, Word):
                    found.update(node.text.split())
                elif isinstance(node, Reference) and id(node.rule) not in seen:
                    seen.add(id(node.rule))
                    waiting.append(node.rule)
        return frozenset(found)

    def phrase_count(self, rules: Iterable[str] | None = None) -> int:
        """Return how many ways there are to say something, at most 10**18; default: in all public rules."""
        return min(sum(self._sizes.of(self.rule(name)).ways for name in self._chosen(rules)), MOST)

    def phrases(self, rules: Iterable[str] | None = None, limit: int = PHRASE_LIMIT) -> tuple[Phrase, ...]:
        """Write out all phrases in file order, each once per meaning. Raises GrammarError when there are more than ``limit`` ways."""
        chosen = self._chosen(rules)
        count = self.phrase_count(chosen)
        if count > limit:
            raise GrammarError(f"{count} phrases are too many to write out (at most {limit})", file=self.file, line=self.line_of(chosen[0]))
        found = {(phrase.words, phrase.command, tuple(phrase.slots.items())): phrase for name in chosen for phrase in self._all(name)}
        return tuple(found.values())

    def parse(self, text: str, rules: Iterable[str] | None = None) -> Phrase | None:
        """Return the phrase these words are, else None. Case, accents, punctuation and figures for number words are forgiven."""
        for keys in readings(text, self.writing):
            for name in self._chosen(rules) if keys else ():
                rule = self.rule(name)
                pieces = way_of(keys, rule) if self._words_used.by(rule).issuperset(keys) else None
                if pieces is not None:
                    return self._phrase(rule, pieces)
        return None

    def check_examples(self) -> None:
        """Run the comments' examples. Raises GrammarError at the first that fails."""
        for example in self.examples:
            if (self.parse(example.words, [example.rule]) is not None) != example.accepted:
                verdict = "is not accepted" if example.accepted else "is accepted"
                raise GrammarError(f'the example "{example.words}" {verdict} by <{example.rule}>', file=self.file, line=example.line)

    @cached_property
    def _sizes(self) -> Sizes:
        return Sizes()

    @cached_property
    def _words_used(self) -> WordsUsed:
        return WordsUsed()

    @cached_property
    def _interpreter(self) -> Interpreter:
        return Interpreter()

    def _chosen(self, rules: Iterable[str] | None) -> tuple[str, ...]:
        return self.public_rules if rules is None else tuple(rules)

    def _all(self, name: str) -> Iterator[Phrase]:
        rule = self.rule(name)
        for pieces in every_way(rule.body):
            phrase = self._phrase(rule, pieces)
            if phrase.words:
                yield phrase

    def _phrase(self, rule: Rule, pieces: Pieces) -> Phrase:
        meaning = self._interpreter.meaning(rule, pieces)
        words = list(said(pieces))
        slots = MappingProxyType(dict(meaning.slots))
        spoken, written = (" ".join(parts) for parts in ((word.text for word in words), (word.written for word in words)))
        return Phrase(spoken, meaning.command, slots, written, weight_of(pieces))


def load_grammar(path: str | os.PathLike[str], writing: Orthography = PLAIN) -> Grammar:
    """Read and check a grammar file. Raises GrammarError with file and line, BadRequest when there is no such file."""
    file = Path(path)
    return _checked(str(file), _Files().tree(file), writing)


def parse_grammar(text: str, file: str = "<text>", writing: Orthography = PLAIN) -> Grammar:
    """Check a grammar given as text, which can import nothing; ``file`` is its name in complaints. Raises GrammarError."""

    def nothing_beside(wanted: Import) -> NoReturn:
        raise GrammarError("nothing lies beside a grammar given as text; save it as a file to import", file=file, line=wanted.line)

    return _checked(file, _parsed(text, file, nothing_beside), writing)


class _Files:
    """Grammar files that import from one another, each read once."""

    def __init__(self) -> None:
        self._trees: dict[Path, GrammarTree | None] = {}
        """None: it is being read."""

    def tree(self, path: Path) -> GrammarTree:
        self._trees[path] = None
        tree = self._trees[path] = _parsed(_text_of(path), str(path), partial(self._beside, path))
        return tree

    def _beside(self, path: Path, wanted: Import) -> GrammarTree:
        """Return the grammar imported from: the file beside this one that is called as it is."""
        other = path.with_name(f"{wanted.grammar.rpartition('.')[2]}.jsgf")
        complaint = None
        if not is_file(other):
            complaint = f"there is no {other.name} beside this file; put the grammar {wanted.grammar} there, or mend its name here"
        elif sum(tree is None for tree in self._trees.values()) > DEEPEST:
            complaint = f"more than {DEEPEST} files import from one another in a row; put rules together"
        elif (tree := self._trees[other] if other in self._trees else self.tree(other)) is None:
            complaint = f"{other.name} itself imports from here, in a circle; move what both need into a third file"
        elif tree.name != wanted.grammar:
            complaint = f"{other.name} holds the grammar {tree.name}; write 'import <{tree.name}.{wanted.rule}>;'"
        else:
            return tree
        raise GrammarError(complaint, file=wanted.file, line=wanted.line)


def _text_of(path: Path) -> str:
    name = str(path)
    try:
        data = read_file(path, LARGEST_BYTES)
    except OSError as error:
        if error.errno == errno.EFBIG:
            raise GrammarError(f"{error.strerror}; split it", file=name, line=1) from error
        raise BadRequest(f"{name}: this grammar can't be read ({error.strerror}); give a .jsgf file") from error
    data = data.removeprefix(b"\xef\xbb\xbf")
    encoding = declared_encoding(data[:200]) or "utf-8"
    try:
        text = data.decode(encoding)
        text.encode()  # Some encodings yield halves of characters, which nobody can say or print.
        return text
    except UnicodeError as error:
        # Some encodings can't say where they failed.
        line = data[: error.start].count(b"\n") + 1 if isinstance(error, UnicodeDecodeError) else 1
        raise GrammarError(f"this is not {encoding} text; save the file as UTF-8", file=name, line=line) from error
    except (LookupError, ValueError) as error:
        raise GrammarError(f"the character encoding '{encoding}' is not known; use UTF-8", file=name, line=1) from error


def _parsed(text: str, file: str, fetch: Fetch) -> GrammarTree:
    if len(text) > LARGEST_BYTES:
        raise GrammarError(f"larger than {size_in_words(LARGEST_BYTES)}; split it", file=file, line=1)
    return parse(text.replace("\r\n", "\n").replace("\r", "\n"), file, fetch)


def _checked(file: str, tree: GrammarTree, writing: Orthography) -> Grammar:
    grammar = Grammar(file, tree, writing)
    for name in grammar.public_rules:
        if grammar._sizes.of(grammar.rule(name)).longest > LONGEST_WORDS:
            raise GrammarError(f"rule <{name}> can run to more than {LONGEST_WORDS} words; split it", file=file, line=grammar.line_of(name))
    return grammar
