"""The words we listen for: the grammar files of a language, and which of their rules are live at a question."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from importlib import resources
from pathlib import Path

from companion.errors import GrammarError, MissingPart
from companion.hearing import ActiveSet, Grammar, Phrase, load_grammar, understand
from companion.languages import Language
from companion.messages import Hearing
from companion.talk import every_rule
from companion.talk.answers import UniversalAnswer
from companion.talk.question_answers import QUESTION_RULES
from companion.talk.saying import Answers

_TO_ANY_QUESTION = UniversalAnswer.SKIP


@dataclass(frozen=True)
class Vocabulary:
    """All grammars of one language, by rule."""

    grammars: tuple[Grammar, ...]

    def active(self, expects: type[Answers]) -> ActiveSet:
        """Return what is live at a question that expects these answers: their phrases and the universal ones."""
        return ActiveSet.of(self._place(expects), self._place(UniversalAnswer))

    def universal(self) -> tuple[Phrase, ...]:
        """Return the words that work at any time."""
        grammar, rule = self._place(UniversalAnswer)
        return grammar.phrases([rule])

    @property
    def everything(self) -> ActiveSet:
        """Every public rule of every file."""
        return ActiveSet.every(*self.grammars)

    @property
    def answers(self) -> ActiveSet:
        """The same without what may only be asked: what an ear that needs decoys listens for beside a live set."""
        asked = {rule.rule() for rule in QUESTION_RULES}
        return ActiveSet(tuple((grammar, rule) for grammar, rule in self.everything.sources if rule not in asked))

    def understand(self, line: str, expects: type[Answers]) -> Hearing:
        """Tell what a typed line says at a question that expects these answers."""
        return understand(line, self.active(expects), self.everything)

    def _place(self, expects: type[Answers]) -> tuple[Grammar, str]:
        rule = expects.rule()
        return next((grammar, rule) for grammar in self.grammars if rule in grammar.public_rules)


def load_vocabulary(language: Language) -> Vocabulary:
    """Read the grammar files of a language. MissingPart when there are none, GrammarError where one is wrong.

    A grammar that others import only lends them its rules.
    """
    folder = Path(str(resources.files("companion.grammars"))) / language.code
    grammars = [load_grammar(file, language.writing) for file in sorted(folder.glob("*.jsgf"))]
    if not grammars:
        raise MissingPart(f"there are no grammars for '{language.code}'; add grammars/{language.code}")
    imported = {name for grammar in grammars for name in grammar.tree.imports}
    questions = tuple(grammar for grammar in grammars if grammar.name not in imported)
    _check_answers(questions, str(folder))
    return Vocabulary(questions)


def _check_answers(grammars: Sequence[Grammar], folder: str) -> None:
    """Compare the tags of each rule with the answers that scripts deal with. Raises GrammarError at the first difference."""
    for answers in (*every_rule(), *QUESTION_RULES):
        grammar = next((grammar for grammar in grammars if answers.rule() in grammar.public_rules), None)
        if grammar is None:
            raise GrammarError(f"no file has the public rule <{answers.rule()}>; add it", file=folder, line=1)
        wanted, found = set(map(str, answers)) - {_TO_ANY_QUESTION}, grammar.commands(answers.rule()) - {_TO_ANY_QUESTION}
        if wanted != found:
            unknown = [f"{{{tag}}} means nothing to us" for tag in sorted(found - wanted)]
            lacking = [f"nothing is tagged {{{tag}}}" for tag in sorted(wanted - found)]
            where = f"its tags are the values of {answers.__name__} in companion/talk/answers.py"
            complaint = f"<{answers.rule()}>: {', '.join(unknown + lacking)}; {where}"
            raise GrammarError(complaint, file=grammar.file, line=grammar.line_of(answers.rule()))
