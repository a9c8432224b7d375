"""Tokens -> tree, by recursive descent, then the checks that need the whole file."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from typing import NoReturn

from companion.errors import GrammarError
from companion.hearing.jsgf.ast import (
    NULL,
    VOID,
    Choice,
    Example,
    GrammarTree,
    Node,
    Reference,
    Rule,
    Sequence,
    Tag,
    Tagged,
    Weight,
    Word,
    optional,
)
from companion.hearing.jsgf.finite import DEEPEST, check_finite, references
from companion.hearing.jsgf.imports import Fetch, Import, ImportScope
from companion.hearing.jsgf.lexer import Kind, Token, tokens
from companion.hearing.jsgf.words import keys_of, spelled

_EXAMPLE = re.compile(r"[\s*]*@(example|counterexample)[ \t]+(.*?)[\s*/]*$")
_SOUNDS = re.compile(r"[\s*]*@sounds[ \t]+([^=|]+)=(.*?)[\s*/]*$")
_SLOT_TAG = re.compile(r"([^\W\d][\w.-]*)\s*=\s*(.*)", re.DOTALL)
_IMPORT = re.compile(r"([\w-]+(?:\.[\w-]+)*)\.(\*|[^\s.*]+)")
_BUILT_IN: dict[str, Node] = {"NULL": NULL, "VOID": VOID}
_CLOSERS = {"(": ")", "[": "]"}


def parse(text: str, file: str, fetch: Fetch) -> GrammarTree:
    """Return the checked tree of a grammar; ``file`` is its name in complaints, ``fetch`` finds what it imports. Raises GrammarError."""
    scope = ImportScope(file)
    reader = _Reader(text, file, scope.rules)
    name = reader.grammar_name()
    imported: list[GrammarTree] = []
    for wanted in reader.imports():
        imported.append(fetch(wanted))
        scope.add_import(wanted, imported[-1])
    rules: dict[str, Rule] = {}
    docs: list[tuple[str, Token]] = []
    while (rule := reader.rule(name, docs)) is not None:
        if rule.name in rules:
            first = rules[rule.name].line
            raise GrammarError(f"rule <{rule.name}> is already defined in line {first}; rename one", file=file, line=rule.line)
        rules[rule.name] = rule
    if not any(rule.public for rule in rules.values()):
        raise GrammarError("no rule is public; put 'public' before what may be said", file=file, line=1)
    scope.add_own(name, rules)
    for rule in rules.values():
        for reference in references(rule.body):
            scope.check(reference)
    check_finite(rules.values())
    examples = tuple(example for rule_name, doc in docs for example in _examples(doc, rule_name))
    sounds = {words: spellings for grammar in imported for words, spellings in grammar.sounds.items()}
    return GrammarTree(name, rules, frozenset(grammar.name for grammar in imported), examples, sounds | _sounds(docs))


class _Reader:
    """The state of one pass over the tokens: where we are."""

    def __init__(self, text: str, file: str, scope: Mapping[str, Rule]) -> None:
        self._file = file
        self._scope = scope
        self._before: list[Token] = []
        """The comments read last."""
        self._tokens = tokens(text, file)
        self._next = next(self._tokens)

    def grammar_name(self) -> str:
        while self._next.kind is Kind.DOC:
            self._take()
        if not self._at(Kind.WORD, "grammar"):
            self._fail("expected 'grammar name;' after the header")
        self._take()
        name = self._take()
        if name.kind is not Kind.WORD or name.quoted:
            self._fail("the grammar has no name; write 'grammar name;'", name)
        self._expect(";", "after the grammar's name")
        return name.text

    def imports(self) -> Iterator[Import]:
        """Read the imports, which stand between the grammar's name and its rules."""
        self._read_comments()
        while self._at(Kind.WORD, "import"):
            self._take()
            token = self._take()
            found = _IMPORT.fullmatch(token.text) if token.kind is Kind.REFERENCE else None
            if found is None:
                self._fail("expected 'import <grammar.rule>;', or 'import <grammar.*>;' for all its public rules", token)
            self._expect(";", f"after <{token.text}>")
            yield Import(found[1], found[2], self._file, token.line)
            self._before.clear()
            self._read_comments()

    def rule(self, grammar: str, docs: list[tuple[str, Token]]) -> Rule | None:
        """Read one definition, adding the comments before it with its name; None at the end of the file."""
        self._read_comments()
        if self._next.kind is Kind.END:
            return None
        if self._at(Kind.WORD, "import"):
            self._fail("imports stand before the rules; move this one up")
        line = self._next.line
        public = self._at(Kind.WORD, "public")
        if public:
            self._take()
        if self._next.kind is not Kind.REFERENCE:
            self._fail("expected a rule, '[public] <name> = …;'")
        name = self._rule_name(self._take()).removeprefix(f"{grammar}.")
        if name in _BUILT_IN:
            self._fail(f"<{name}> is built in and can't be defined anew")
        self._expect("=", f"after <{name}>")
        body = self._choice(1, f"in rule <{name}>")
        self._expect(";", f"at the end of rule <{name}>")
        docs += [(name, doc) for doc in self._before]
        self._before.clear()
        return Rule(name, public, body, self._file, line)

    def _choice(self, depth: int, where: str) -> Node:
        if depth > DEEPEST:
            self._fail(f"more than {DEEPEST} brackets within one another; use rules with names")
        weights, options = [self._weight()], [self._sequence(depth, where)]
        while self._at(Kind.MARK, "|"):
            self._take()
            weights.append(self._weight())
            options.append(self._sequence(depth, where))
        given = [weight for weight in weights if weight is not None]
        if given and len(given) < len(options):
            self._fail("where one alternative has a weight, all must have one")
        if given:
            likeliest = max(given)
            options = [Tagged(option, Weight(weight / likeliest)) for option, weight in zip(options, given, strict=True)]
        return options[0] if len(options) == 1 else Choice(tuple(options))

    def _weight(self) -> float | None:
        """Read the weight before an alternative, if there is one: a number above nought."""
        if self._next.kind is not Kind.WEIGHT:
            return None
        token = self._take()
        try:
            weight = float(token.text)
        except ValueError:
            weight = 0.0
        if not 0 < weight < math.inf:
            self._fail(f"/{token.text}/ is no weight; write a number above 0", token)
        return weight

    def _sequence(self, depth: int, where: str) -> Node:
        items: list[Node] = []
        while (item := self._item(depth)) is not None:
            while self._next.kind is Kind.TAG:
                item = Tagged(item, self._tag(self._take()))
            items.append(item)
        if not items:
            if self._next.kind is Kind.TAG:
                self._fail("a tag must follow the words it belongs to")
            self._fail(f"an alternative {where} is empty; write <NULL> where nothing need be said")
        return items[0] if len(items) == 1 else Sequence(tuple(items))

    def _item(self, depth: int) -> Node | None:
        while self._next.kind is Kind.DOC:
            self._take()
        token = self._next
        if token.kind is Kind.WORD:
            return self._word(self._take())
        if token.kind is Kind.REFERENCE:
            name = self._rule_name(self._take())
            return _BUILT_IN.get(name) or Reference(name, token.line, self._scope)
        if token.kind is Kind.MARK and token.text in _CLOSERS:
            self._take()
            inner = self._choice(depth + 1, "in brackets")
            self._expect(_CLOSERS[token.text], f"to close the '{token.text}' of line {token.line}")
            return inner if token.text == "(" else optional(inner)
        return None

    def _word(self, token: Token) -> Word:
        keys = keys_of(token.text)
        if not keys:
            self._fail(f"there is nothing to say in '{token.text}'; write it as a word", token)
        return Word(spelled(token.text), keys, " ".join(token.text.split()))

    def _tag(self, token: Token) -> Tag:
        if not token.text:
            self._fail("this tag is empty; write its meaning between the braces", token)
        found = _SLOT_TAG.fullmatch(token.text)
        return Tag(found[1], found[2]) if found else Tag(None, token.text)

    def _rule_name(self, token: Token) -> str:
        if not token.text or re.search(r"\s", token.text):
            self._fail(f"<{token.text}> is no rule name; use letters, figures and dashes", token)
        return token.text

    def _read_comments(self) -> None:
        while self._next.kind is Kind.DOC:
            self._before.append(self._take())

    def _at(self, kind: Kind, text: str) -> bool:
        return self._next.kind is kind and self._next.text == text and not self._next.quoted

    def _expect(self, mark: str, where: str) -> None:
        if not self._at(Kind.MARK, mark):
            found = f"'{self._next.text}'" if self._next.kind is not Kind.END else "the end of the file"
            self._fail(f"expected '{mark}' {where}, found {found}")
        self._take()

    def _take(self) -> Token:
        token = self._next
        if token.kind is not Kind.END:
            self._next = next(self._tokens)
        return token

    def _fail(self, message: str, token: Token | None = None) -> NoReturn:
        raise GrammarError(message, file=self._file, line=(token or self._next).line)


def _examples(doc: Token, rule: str) -> list[Example]:
    found = []
    for offset, line in enumerate(doc.text.removeprefix("/").removesuffix("/").split("\n")):
        if match := _EXAMPLE.match(line):
            found.append(Example(rule, spelled(match[2]), doc.line + offset, accepted=match[1] == "example"))
    return found


def _sounds(docs: list[tuple[str, Token]]) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for _, doc in docs:
        for line in doc.text.removeprefix("/").removesuffix("/").split("\n"):
            if match := _SOUNDS.match(line):
                spellings = (" ".join(spelling.split()) for spelling in match[2].split("|"))
                found[spelled(match[1])] = (*found.get(spelled(match[1]), ()), *filter(None, spellings))
    return found
