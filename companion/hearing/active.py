"""What may be said just now: rules of one or several grammars taken together."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import combinations

from companion.errors import GrammarError
from companion.hearing.grammar import PHRASE_LIMIT, Grammar, Phrase
from companion.hearing.jsgf.size import MOST
from companion.messages import Prior

_COMPARED = 2_000
"""Rules with more phrases than this are compared with others only through the others' phrases."""


@dataclass(frozen=True)
class ActiveSet:
    """The rules an answer may come from. Equal sets are equal keys, so an engine prepares each only once."""

    sources: tuple[tuple[Grammar, str], ...]
    """Grammar and public rule, without repetition; where words fit several rules the first counts."""
    prior: Prior | None = field(default=None, compare=False)
    """What is known of the answer beforehand. An engine's preparations are the same with any."""
    is_everything: bool = False
    """Whether it is all that is known rather than the answers to a question: most of what is said beside those is for somebody else."""

    @classmethod
    def of(cls, *sources: tuple[Grammar, str]) -> ActiveSet:
        """Take rules together. Raises GrammarError when the same words would mean different things, BadRequest for an unknown rule."""
        chosen = cls(tuple(dict.fromkeys(sources)))
        if chosen.phrase_count == 0:
            grammar, rule = sources[0]
            raise GrammarError(f"nothing can be said in <{rule}>", file=grammar.file, line=grammar.line_of(rule))
        chosen._check_meanings()
        return chosen

    @classmethod
    def every(cls, *grammars: Grammar) -> ActiveSet:
        """Take all public rules of some grammars together; words with several meanings have the first, so that all can be recognised."""
        return cls(tuple((grammar, rule) for grammar in dict.fromkeys(grammars) for rule in grammar.public_rules), is_everything=True)

    def expecting(self, prior: Prior | None) -> ActiveSet:
        """Return the same rules where some answers are likelier than others."""
        return replace(self, prior=prior)

    def weight(self, phrase: Phrase) -> float:
        """Return how likely a phrase is beside the likeliest, above 0 and at most 1: by the grammar's weights and the prior."""
        return phrase.weight * (1.0 if self.prior is None else self.prior.weight(phrase.command, phrase.slots))

    @property
    def phrase_count(self) -> int:
        """How many ways there are to say something, at most 10**18."""
        return min(sum(grammar.phrase_count([rule]) for grammar, rule in self.sources), MOST)

    @property
    def sounds(self) -> dict[str, tuple[str, ...]]:
        """How words may be written by ear, by the words as phrases spell them; where several grammars tell, the first counts."""
        return {words: spellings for grammar, _ in reversed(self.sources) for words, spellings in grammar.tree.sounds.items()}

    def phrases(self, limit: int = PHRASE_LIMIT) -> tuple[Phrase, ...]:
        """Write all phrases out, each once. Raises GrammarError when there are more than ``limit`` ways."""
        if self.phrase_count > limit:
            grammar, rule = max(self.sources, key=lambda source: source[0].phrase_count([source[1]]))
            complaint = f"{self.phrase_count} phrases are too many to write out (at most {limit})"
            raise GrammarError(complaint, file=grammar.file, line=grammar.line_of(rule))
        found: dict[str, Phrase] = {}
        for grammar, rule in self.sources:
            for phrase in grammar.phrases([rule], limit):
                found.setdefault(phrase.words, phrase)
        return tuple(found.values())

    def parse(self, text: str) -> Phrase | None:
        """Return the phrase these words are, else None; forgiving as ``Grammar.parse`` is."""
        for grammar, rule in self.sources:
            if (phrase := grammar.parse(text, [rule])) is not None:
                return phrase
        return None

    def _check_meanings(self) -> None:
        small = [source for source in self.sources if source[0].phrase_count([source[1]]) <= _COMPARED]
        for grammar, rule in small:
            meanings: dict[str, Phrase] = {}
            for phrase in grammar.phrases([rule], _COMPARED):
                if not phrase.means_as(meanings.setdefault(phrase.words, phrase)):
                    complaint = f'"{phrase.words}" has two meanings in <{rule}>: {_told(meanings[phrase.words])} and {_told(phrase)}'
                    raise GrammarError(complaint, file=grammar.file, line=grammar.line_of(rule))
        for one, other in combinations(self.sources, 2):
            if one in small or other in small:
                _compare(*((one, other) if one in small else (other, one)))


def _compare(one: tuple[Grammar, str], other: tuple[Grammar, str]) -> None:
    for phrase in one[0].phrases([one[1]], _COMPARED):
        rival = other[0].parse(phrase.words, [other[1]])
        if rival is not None and not phrase.means_as(rival):
            place = f"{other[0].file}:{other[0].line_of(other[1])}"
            complaint = f'"{phrase.words}" means {_told(phrase)} in <{one[1]}> but {_told(rival)} in <{other[1]}> ({place}); change one'
            raise GrammarError(complaint, file=one[0].file, line=one[0].line_of(one[1]))


def _told(phrase: Phrase) -> str:
    return " ".join([phrase.command, *(f"{name}={value}" for name, value in phrase.slots.items())])
