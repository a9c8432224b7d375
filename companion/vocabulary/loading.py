"""Reading the grammars of a language, and that their tags are those the scripts know."""

from __future__ import annotations

from collections.abc import Sequence
from importlib import resources
from pathlib import Path

from companion.errors import GrammarError, MissingPart
from companion.hearing import Grammar, load_grammar
from companion.languages import Language
from companion.talk import every_rule
from companion.talk.answers import UniversalAnswer
from companion.talk.question_answers import NEVER_LIVE
from companion.talk.saying import Answers
from companion.vocabulary.live_words import IN_OTHER_WORDS, TYPED
from companion.vocabulary.vocabulary import Vocabulary

_TO_ANY_QUESTION = UniversalAnswer.SKIP


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
    return Vocabulary(questions, language.typing)


def _check_answers(grammars: Sequence[Grammar], folder: str) -> None:
    """Compare the tags of each rule with the answers that scripts deal with. Raises GrammarError at the first difference."""
    for answers in (*every_rule(), *NEVER_LIVE):
        grammar = next((grammar for grammar in grammars if answers.rule() in grammar.public_rules), None)
        if grammar is None:
            raise GrammarError(f"no file has the public rule <{answers.rule()}>; add it", file=folder, line=1)
        otherwise = f"{answers.rule()}{IN_OTHER_WORDS}"
        others = (other.commands(otherwise) & answers.said_otherwise() for other in grammars if otherwise in other.public_rules)
        found = grammar.commands(answers.rule()).union(*others)
        wanted, found = set(map(str, answers)) - {_TO_ANY_QUESTION}, found - {_TO_ANY_QUESTION}
        if wanted != found:
            unknown = [f"{{{tag}}} means nothing to us" for tag in sorted(found - wanted)]
            lacking = [f"nothing is tagged {{{tag}}}" for tag in sorted(wanted - found)]
            where = f"its tags are the values of {answers.__name__} in companion/talk/answers"
            complaint = f"<{answers.rule()}>: {', '.join(unknown + lacking)}; {where}"
            raise GrammarError(complaint, file=grammar.file, line=grammar.line_of(answers.rule()))
    _check_other_words(grammars)


def _check_other_words(grammars: Sequence[Grammar]) -> None:
    """Compare what is said in other words with the answers it stands for. Raises GrammarError at the first that is none."""
    every: tuple[type[Answers], ...] = (*every_rule(), *NEVER_LIVE, UniversalAnswer)
    rules = {answers.rule(): set(map(str, answers)) for answers in every}
    for grammar in grammars:
        for name in grammar.public_rules:
            if name.endswith((IN_OTHER_WORDS, TYPED)):
                rule = name.removesuffix(IN_OTHER_WORDS).removesuffix(TYPED)
                known = rules.get(rule, set()) | set(map(str, UniversalAnswer))
                if unknown := sorted(grammar.commands(name) - known):
                    complaint = f"<{name}>: {{{unknown[0]}}} is no answer of <{rule}>"
                    raise GrammarError(complaint, file=grammar.file, line=grammar.line_of(name))
