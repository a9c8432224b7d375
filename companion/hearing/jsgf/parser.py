"""Tokens -> tree, by recursive descent, then the checks that need the whole file."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NoReturn

from companion.errors import GrammarError
from companion.hearing.jsgf.ast import (
    Choice,
    Example,
    GrammarTree,
    Node,
    Null,
    Optional,
    Reference,
    Rule,
    Sequence,
    Tag,
    Tagged,
    Void,
    Word,
    children,
)
from companion.hearing.jsgf.lexer import Kind, Token, tokens
from companion.hearing.jsgf.words import keys_of, spelled

DEEPEST = 100
"""Brackets and references within one another, taken together: far beyond any sentence, far below Python's stack."""

_EXAMPLE = re.compile(r"[\s*]*@(example|counterexample)[ \t]+(.*?)[\s*/]*$")
_SOUNDS = re.compile(r"[\s*]*@sounds[ \t]+([^=|]+)=(.*?)[\s*/]*$")
_SLOT_TAG = re.compile(r"([^\W\d][\w.-]*)\s*=\s*(.*)", re.DOTALL)
_BUILT_IN: dict[str, type[Null] | type[Void]] = {"NULL": Null, "VOID": Void}
_CLOSERS = {"(": ")", "[": "]"}


def parse(text: str, file: str) -> GrammarTree:
    """Return the checked tree of a grammar; ``file`` is its name in complaints. Raises GrammarError."""
    reader = _Reader(text, file)
    name = reader.grammar_name()
    rules: dict[str, Rule] = {}
    docs: list[tuple[str, Token]] = []
    while (rule := reader.rule(name, docs)) is not None:
        if rule.name in rules:
            first = rules[rule.name].line
            raise GrammarError(f"rule <{rule.name}> is already defined in line {first}; rename one", file=file, line=rule.line)
        rules[rule.name] = rule
    if not any(rule.public for rule in rules.values()):
        raise GrammarError("no rule is public; put 'public' before what may be said", file=file, line=1)
    _check_references(rules, file)
    examples = tuple(example for rule_name, doc in docs for example in _examples(doc, rule_name))
    return GrammarTree(name, rules, examples, _sounds(docs))


class _Reader:
    """The state of one pass over the tokens: where we are."""

    def __init__(self, text: str, file: str) -> None:
        self._file = file
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

    def rule(self, grammar: str, docs: list[tuple[str, Token]]) -> Rule | None:
        """Read one definition, adding the comments before it with its name; None at the end of the file."""
        before: list[Token] = []
        while self._next.kind is Kind.DOC:
            before.append(self._take())
        if self._next.kind is Kind.END:
            return None
        if self._at(Kind.WORD, "import"):
            self._fail("import is not in our subset; put the rules in this file")
        line = self._next.line
        public = self._at(Kind.WORD, "public")
        if public:
            self._take()
        if self._next.kind is not Kind.REFERENCE:
            self._fail("expected a rule, '[public] <name> = …;'")
        name = self._rule_name(self._take(), grammar)
        if name in _BUILT_IN:
            self._fail(f"<{name}> is built in and can't be defined anew")
        self._expect("=", f"after <{name}>")
        body = self._choice(grammar, 1, f"in rule <{name}>")
        self._expect(";", f"at the end of rule <{name}>")
        docs += [(name, doc) for doc in before]
        return Rule(name, public, body, line)

    def _choice(self, grammar: str, depth: int, where: str) -> Node:
        if depth > DEEPEST:
            self._fail(f"more than {DEEPEST} brackets within one another; use rules with names")
        options = [self._sequence(grammar, depth, where)]
        while self._at(Kind.MARK, "|"):
            self._take()
            options.append(self._sequence(grammar, depth, where))
        return options[0] if len(options) == 1 else Choice(tuple(options))

    def _sequence(self, grammar: str, depth: int, where: str) -> Node:
        items: list[Node] = []
        while (item := self._item(grammar, depth)) is not None:
            while self._next.kind is Kind.TAG:
                item = Tagged(item, self._tag(self._take()))
            items.append(item)
        if not items:
            if self._next.kind is Kind.TAG:
                self._fail("a tag must follow the words it belongs to")
            self._fail(f"an alternative {where} is empty; write <NULL> where nothing need be said")
        return items[0] if len(items) == 1 else Sequence(tuple(items))

    def _item(self, grammar: str, depth: int) -> Node | None:
        while self._next.kind is Kind.DOC:
            self._take()
        token = self._next
        if token.kind is Kind.WORD:
            return self._word(self._take())
        if token.kind is Kind.REFERENCE:
            name = self._rule_name(self._take(), grammar)
            if name in _BUILT_IN:
                return _BUILT_IN[name]()
            return Reference(name, token.line)
        if token.kind is Kind.MARK and token.text in _CLOSERS:
            self._take()
            inner = self._choice(grammar, depth + 1, "in brackets")
            self._expect(_CLOSERS[token.text], f"to close the '{token.text}' of line {token.line}")
            return inner if token.text == "(" else Optional(inner)
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

    def _rule_name(self, token: Token, grammar: str) -> str:
        name = token.text.removeprefix(f"{grammar}.")
        if not name or re.search(r"\s", name):
            self._fail(f"<{token.text}> is no rule name; use letters, figures and dashes", token)
        return name

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


def _check_references(rules: dict[str, Rule], file: str) -> None:
    """Refuse unknown rules, circles and too deep nesting; a walk with its own stack, visiting each reference once."""
    references = {name: _references(rule.body) for name, rule in rules.items()}
    depths: dict[str, int] = {}
    for start in rules:
        path = {start: iter(references[start])} if start not in depths else {}
        while path:
            name = next(reversed(path))
            reference = next(path[name], None)
            if reference is None:
                del path[name]
                depths[name] = _deepest(rules[name].body, depths)
                if depths[name] > DEEPEST:
                    complaint = f"rule <{name}> nests brackets and rules more than {DEEPEST} deep; flatten it"
                    raise GrammarError(complaint, file=file, line=rules[name].line)
            elif reference.name not in rules:
                raise GrammarError(f"rule <{reference.name}> is not defined in this file", file=file, line=reference.line)
            elif reference.name in path:
                complaint = f"rule <{reference.name}> leads back to itself; a grammar must be finite"
                raise GrammarError(complaint, file=file, line=reference.line)
            elif reference.name not in depths:
                path[reference.name] = iter(references[reference.name])


def _references(body: Node) -> list[Reference]:
    return [node for node, _ in _walk(body) if isinstance(node, Reference)]


def _deepest(body: Node, depths: dict[str, int]) -> int:
    return max(depth + (depths[node.name] if isinstance(node, Reference) else 0) for node, depth in _walk(body))


def _walk(body: Node) -> Iterator[tuple[Node, int]]:
    """Yield every node of a rule's body with its depth there, in file order."""
    stack: list[tuple[Node, int]] = [(body, 1)]
    while stack:
        node, depth = stack.pop()
        yield node, depth
        stack.extend((child, depth + 1) for child in reversed(children(node)))
