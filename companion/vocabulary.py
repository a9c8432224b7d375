"""The words we listen for: the grammar files of a language, and which of their rules are live at a question."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import resources

from companion.errors import BadRequest
from companion.hearing import ActiveSet, Grammar, parse_grammar, understand
from companion.messages import Hearing

UNIVERSAL = "universal"
"""The rule that is always live beside the one a question expects."""


@dataclass(frozen=True)
class Vocabulary:
    """All grammars of one language, by rule."""

    grammars: tuple[Grammar, ...]

    def active(self, rule: str) -> ActiveSet:
        """Return what is live at a question that expects ``rule``: its phrases and the universal ones."""
        return ActiveSet.of(self._place(rule), self._place(UNIVERSAL))

    @property
    def everything(self) -> ActiveSet:
        """Every public rule of every file."""
        return ActiveSet.every(*self.grammars)

    def understand(self, line: str, rule: str) -> Hearing:
        """Tell what a typed line says at a question that expects ``rule``."""
        return understand(line, self.active(rule), self.everything)

    def _place(self, rule: str) -> tuple[Grammar, str]:
        return next((grammar, rule) for grammar in self.grammars if rule in grammar.public_rules)


def load_vocabulary(language: str = "en") -> Vocabulary:
    """Read the grammar files of a language. BadRequest, with the choices, when there is no such language."""
    folders = resources.files("companion.grammars")
    folder = folders / language
    if not language.isalpha() or not folder.is_dir():
        known = sorted(entry.name for entry in folders.iterdir() if entry.is_dir() and entry.name.isalpha())
        raise BadRequest(f"I don't speak the language '{language}'; choose one of: {', '.join(known)}")
    files = sorted((entry for entry in folder.iterdir() if entry.name.endswith(".jsgf")), key=lambda entry: entry.name)
    return Vocabulary(tuple(parse_grammar(file.read_text("utf-8"), f"grammars/{language}/{file.name}") for file in files))
