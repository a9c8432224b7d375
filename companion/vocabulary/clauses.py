"""A typed line of several clauses: the question among them, the part to go to, else the last answer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from companion.languages.typing_habits import TypingHabits
from companion.messages import Heard, Hearing, NotNow, NotUnderstood
from companion.talk.answers import TownAnswer
from companion.talk.question_answers import QUESTION_RULES, GearAnswer, JumpAnswer
from companion.talk.saying import Answers
from companion.vocabulary.guessing import Guessing
from companion.vocabulary.live_words import LiveWords
from companion.vocabulary.towns import Towns
from companion.vocabulary.written_words import WrittenWords

_ASKED = frozenset(str(command) for rule in QUESTION_RULES for command in rule)


class Clauses:
    """Takes lines apart."""

    def __init__(self, words: LiveWords, typing: TypingHabits, written: WrittenWords, towns: Towns, guessing: Guessing) -> None:
        """Take the grammars, the language's habits, and what understands a clause."""
        self._words, self._typing, self._written, self._towns, self._guessing = words, typing, written, towns, guessing

    def in_parts(self, clauses: Sequence[str], expects: type[Answers], instead: Sequence[type[Answers]]) -> Hearing:
        """Take the question among several clauses, or the part to go to, else the last answer: who goes on after "no" says it better.

        Where a clause that isn't understood may turn the others round, nothing is.
        """
        heard = [self._clause(clause, expects, instead) for clause in clauses]
        lost = (clause for clause, one in zip(clauses, heard, strict=True) if isinstance(one, NotUnderstood))
        if any(map(self._typing.may_turn_it_round, lost)):
            return NotUnderstood()
        gear = tuple(one for one in heard if isinstance(one, NotNow) and one.command in set(GearAnswer))
        known = [one for one in heard if isinstance(one, NotNow) and one not in gear]
        asked = [one for one in known if one.command in _ASKED or one.command in set(JumpAnswer)]
        answers = [one for one in heard if isinstance(one, Heard)]
        taken: tuple[Hearing, ...] = (*asked, *reversed(answers), *known)
        if taken and (rest := self._rest_of(clauses, heard)) and (meant := self._guessing.by_its_gist(rest, expects, instead)) is not None:
            return meant
        if gear and not taken:
            return replace(gear[-1], beside=gear[:-1])
        return replace(taken[0], beside=gear) if gear and isinstance(taken[0], Heard | NotNow) else taken[0] if taken else NotUnderstood()

    def _clause(self, clause: str, expects: type[Answers], instead: Sequence[type[Answers]]) -> Hearing:
        """Take one of several clauses: what it tells of the telescope first, and of towns those we know."""
        heard = self._written.in_any_way(clause, expects, instead)
        ways = () if isinstance(heard, Heard) else self._typing.ways(clause)
        if (gear := next((phrase for way in ways if (phrase := self._words.gear.parse(way)) is not None), None)) is not None:
            return NotNow(gear.words, gear.command, gear.slots, spelling=gear.written)
        town = self._towns.town_in(clause, expects, instead) if isinstance(heard, NotUnderstood) else None
        return heard if town is None or town.command == TownAnswer.UNKNOWN else town

    @staticmethod
    def _rest_of(clauses: Sequence[str], heard: Sequence[Hearing]) -> str:
        """Return what isn't understood of a line whose only other clause is a word, such as "right"; else nothing."""
        lost = [clause for clause, one in zip(clauses, heard, strict=True) if isinstance(one, NotUnderstood)]
        understood = [clause for clause in clauses if clause not in lost]
        return " ".join(lost) if all(len(clause.split()) == 1 for clause in understood) and len(understood) == 1 else ""
