"""Which rule a name means: a grammar's own, or one it imports."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from companion.errors import GrammarError
from companion.hearing.jsgf.ast import GrammarTree, Reference, Rule


@dataclass(frozen=True)
class Import:
    """One import statement."""

    grammar: str
    """The full name of the grammar."""
    rule: str
    """One of its public rules, or ``*`` for all of them."""
    file: str
    """Where the statement stands."""
    line: int


Fetch: TypeAlias = Callable[[Import], GrammarTree]
"""Finds the grammar that is imported from. Raises GrammarError."""


class ImportScope:
    """The rules that may be referred to in one file, each by its simple, its qualified and its full name.

    As the Note has it, an imported rule is public; a simple name means the file's own rule before an imported one; and a name that
    would mean two imported rules may not be used.
    """

    def __init__(self, file: str) -> None:
        """Know no rule yet."""
        self._file = file
        self._clashes: dict[str, tuple[Rule, Rule]] = {}
        self.rules: dict[str, Rule] = {}
        """By every name they have here."""

    def add_import(self, wanted: Import, grammar: GrammarTree) -> None:
        """Add what a statement imports. Raises GrammarError when there is no such rule, or it isn't public."""
        public = {name: rule for name, rule in grammar.rules.items() if rule.public}
        if wanted.rule != "*" and wanted.rule not in public:
            if wanted.rule in grammar.rules:
                complaint = f"rule <{wanted.rule}> is not public in {grammar.name}; write 'public' before it there"
            else:
                complaint = f"{grammar.name} has no rule <{wanted.rule}>; its public rules are {', '.join(public)}"
            raise GrammarError(complaint, file=wanted.file, line=wanted.line)
        for name in public if wanted.rule == "*" else [wanted.rule]:
            for spelling in _spellings(grammar.name, name):
                first = self.rules.setdefault(spelling, public[name])
                if first is not public[name]:
                    self._clashes[spelling] = (first, public[name])

    def add_own(self, grammar: str, rules: Mapping[str, Rule]) -> None:
        """Add the file's own rules."""
        for name, rule in rules.items():
            for spelling in _spellings(grammar, name):
                self.rules[spelling] = rule
                self._clashes.pop(spelling, None)

    def check(self, reference: Reference) -> None:
        """Raise GrammarError unless a reference means exactly one rule."""
        complaint = None
        if reference.name in self._clashes:
            one, other = self._clashes[reference.name]
            complaint = f"<{reference.name}> is imported from {one.file} and from {other.file}; put the grammar's full name before it"
        elif reference.name not in self.rules:
            complaint = f"rule <{reference.name}> is not defined in this file, and nothing imported is called so; define or import it"
        if complaint:
            raise GrammarError(complaint, file=self._file, line=reference.line)


def _spellings(grammar: str, rule: str) -> set[str]:
    """Return the names of a rule: simple, after its grammar's simple name, and after its grammar's full name."""
    return {rule, f"{grammar.rpartition('.')[2]}.{rule}", f"{grammar}.{rule}"}
