"""The words we listen for: the grammar files of a language, and which of their rules are live at a question."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import cached_property
from importlib import resources
from pathlib import Path

from companion import places
from companion.errors import GrammarError, MissingPart
from companion.hearing import ActiveSet, Grammar, Phrase, load_grammar, understand
from companion.hearing.content import ContentIndex, Guess
from companion.languages import Language
from companion.languages.typing_habits import TypingHabits
from companion.messages import Heard, Hearing, NotNow, NotUnderstood
from companion.talk import every_rule
from companion.talk.answers import DENIED, HaltAnswer, TownAnswer, TownLettersAnswer, UniversalAnswer
from companion.talk.night_answers import ShowMeAnswer
from companion.talk.question_answers import (
    NEVER_LIVE,
    QUESTION_RULES,
    GearAnswer,
    JumpAnswer,
    OneselfAnswer,
    SkyQuestionAnswer,
    WordQuestionAnswer,
)
from companion.talk.saying import Answers

_ASKED = frozenset(str(command) for rule in QUESTION_RULES for command in rule)
_TO_ANY_QUESTION = UniversalAnswer.SKIP
_GUESSED = 0.5
"""How sure we are of what a line is taken for by its gist: less than is acted upon unasked. Judgement."""
_NEAR_ENOUGH = 0.6
"""How near a line must come to something for it to be guessed, and"""
_ASKED_BESIDE = 0.75
"""how much less likely a line that asks nothing is a question, or a wish to go elsewhere;"""
_DENIED = 0.9
"""how likely a line that denies an answer gives the contrary one. Tuned on 1113 answers in other words, each without all like it."""
_AS_LIKELY = 0.92
"""What comes so near to the likeliest is as likely: which of the two is meant is asked. Tuned on the same."""
_LONGEST_GUESSED = 60
"""Of a line of more words nothing is guessed: nobody says one thing in so many, and looking them all up takes its time. Judgement."""
_SHORTEST_MISSPELT = 4
"""Shorter words are too near to too many."""
_SPELT_ALIKE_HERE, _SPELT_ALIKE, _SPELT_NEARLY = 0.7, 0.75, 0.85
"""How much of two words is the same where one is taken for the other: among what answers the question, among all, and where the line is
only guessed at. Judgement."""
_OF_NAMES = {SkyQuestionAnswer.rule(), ShowMeAnswer.rule()}
_LED_TO = (ShowMeAnswer.SHOW_ME, SkyQuestionAnswer.WHERE, SkyQuestionAnswer.UP)
"""What leads to one of the observer's own objects."""
_LONGEST_TOWN_WORDS = 3
"""A town that we don't know has no longer a name: what is longer is said of something else. Judgement."""
_NEVER_HEARD = {TownLettersAnswer.rule(), GearAnswer.rule()}
"""Letters are said where they are asked for only, and what is told unasked of a telescope is typed: elsewhere they would be found in
whatever people say."""
_IN_OTHER_WORDS = "_otherwise"
"""Ends the name of the rule that holds the answers of another one in words that are not live."""
_TYPED = "_typed"
"""Ends the name of one that no ear listens for either: each further word costs a small model others."""


@dataclass(frozen=True)
class Vocabulary:
    """All grammars of one language, by rule."""

    grammars: tuple[Grammar, ...]
    typing: TypingHabits
    """How people type it."""
    own_names: tuple[str, ...] = ()
    """What the observer's own objects are called: known where they are typed."""

    def active(self, expects: type[Answers]) -> ActiveSet:
        """Return what is live at a question that expects these answers: their phrases and the universal ones."""
        live = self._live_at.get(expects)
        if live is None:
            live = self._live_at[expects] = ActiveSet.of(self._place(expects), self._place(UniversalAnswer))
        return live

    def universal(self) -> tuple[Phrase, ...]:
        """Return the words that work at any time."""
        grammar, rule = self._place(UniversalAnswer)
        return grammar.phrases([rule])

    def halting(self) -> tuple[Phrase, ...]:
        """Return what else halts a mount that turns."""
        grammar, rule = self._place(HaltAnswer)
        return grammar.phrases([rule])

    @property
    def everything(self) -> ActiveSet:
        """Every public rule of every file that an ear may listen for. Where words stand in several, those of a live set decide."""
        sources = ActiveSet.every(*self.grammars).sources
        heard = [source for source in sources if not source[1].endswith(_TYPED) and source[1] not in _NEVER_HEARD]
        return ActiveSet(tuple(sorted(heard, key=lambda source: source[1].endswith(_IN_OTHER_WORDS))), is_everything=True)

    @property
    def answers(self) -> ActiveSet:
        """The same without what may only be asked: what an ear that needs decoys listens for beside a live set."""
        asked = {rule.rule() for rule in NEVER_LIVE}
        return ActiveSet(tuple((grammar, rule) for grammar, rule in self.everything.sources if rule not in asked))

    def understand(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]] = ()) -> Hearing:
        """Tell what a typed line says at a question that expects these answers: as a whole, else in its parts, else what it is about.

        ``instead``: the rules whose answers are taken there, too. What is said of those comes as ``NotNow``, like all that is no answer
        of ``expects``.
        """
        if ShowMeAnswer in instead and (own := self._own_object(line)) is not None:
            return own
        heard = self._in_any_way(line, expects, instead)
        clauses = self.typing.clauses(line)
        if isinstance(heard, NotUnderstood) and len(clauses) > 1:
            heard = self._in_parts(clauses, expects, instead)
        if isinstance(heard, NotUnderstood) and len(line.split()) <= _LONGEST_GUESSED:
            return self._town(line, expects, instead) or self._misspelt(line, expects, instead) or self._guessed(line, expects, instead)
        if not self._is_an_answer_elsewhere(heard, expects, instead):
            return heard
        return self._by_its_gist(line, expects, instead) or heard

    def _town(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]]) -> Heard | NotNow | None:
        """Take a line for one of all the towns there are, of which an ear knows only the largest; None where it names none."""
        told = [name for part in (line, *self.typing.clauses(line)) if (name := self.typing.town_in(part)) is not None]
        if not told and expects in (TownAnswer, TownLettersAnswer) and self._may_be_a_town(line):
            told = [line.strip(" .!")]
        name = next((name for name in told if places.towns_named(name)), min(told, key=len, default=None))
        if name is not None and expects is TownLettersAnswer:
            letters = places.beginning_of(name)
            return Heard(line, TownLettersAnswer.LETTERS, {"letters": letters}) if places.towns_beginning(letters) else None
        if name is None or TownAnswer not in (expects, *instead):
            return None
        known = places.towns_named(name)
        is_a_name = len(name.split()) <= _LONGEST_TOWN_WORDS
        if not known and (expects is not TownAnswer or not is_a_name or self._guesses(name, expects)):
            return None
        command = TownAnswer.TOWN if known else TownAnswer.UNKNOWN
        slots = {"town_name": known[0].name if known else name}
        return Heard(line, command, slots) if expects is TownAnswer else NotNow(line, command, slots)

    def _may_be_a_town(self, line: str) -> bool:
        """Say whether a whole line may be a name: not where it asks something, or says what people say of other things."""
        asks = self.typing.telling is not None and self.typing.telling.asks(line)
        words = [word.strip(".,;:!?").lower() for word in line.split()]
        return bool(places.towns_named(line.strip(" .!"))) or not (asks or self._known_words.issuperset(words))

    def _misspelt(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]]) -> Heard | NotNow | None:
        """Take a line with the words that nothing has spelt as the nearest that something has; None where that says nothing."""
        here = _words_of((self._place(expects), *self._otherwise(expects).sources))
        for words, alike in ((here, _SPELT_ALIKE_HERE), (self._known_words, _SPELT_ALIKE)):
            spelt = self._spelt(line, words, alike)
            heard = NotUnderstood() if spelt == line else self._in_any_way(spelt, expects, instead)
            if isinstance(heard, Heard | NotNow):
                return replace(heard, confidence=_GUESSED, is_guess=True)
        return None

    def _spelt(self, line: str, words: Collection[str], alike: float) -> str:
        """Return a line with each word that nothing has put as the nearest among some."""
        return " ".join(self._nearest(word, words, alike) for word in line.split())

    def _nearest(self, word: str, words: Collection[str], alike: float) -> str:
        """Return the word among some that was most likely meant where nothing has this one."""
        bare = word.strip(".,;:!?").lower()
        if bare in self._known_words or len(bare) < _SHORTEST_MISSPELT:
            return word
        return next(iter(get_close_matches(bare, words, 1, alike)), word)

    @cached_property
    def _known_words(self) -> frozenset[str]:
        """Every word that some phrase has."""
        return _words_of(self.everything.sources)

    def _own_object(self, line: str) -> NotNow | None:
        """Take a line that wants to see one of the observer's own objects, or asks where it is, for the wish to be led there."""
        for name in sorted(self.own_names, key=len, reverse=True):
            said, times = re.subn(rf"(?<!\w)(the\s+)?{re.escape(name)}(?!\w)", self.typing.any_name, line, count=1, flags=re.IGNORECASE)
            ways = self.typing.ways(said) if times else ()
            asked = next((one for way in ways if (one := self._questions.parse(way)) is not None), None)
            if self.typing.any_name in ways or (asked is not None and asked.command in _LED_TO):
                return NotNow(name, ShowMeAnswer.SHOW_ME, {"name": name})
        return None

    def _in_any_way(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]] = ()) -> Hearing:
        """Take a line in each of the ways to write it: for an answer, else for what is known elsewhere."""
        active, ways = self.active(expects), self.typing.ways(line)
        for words in ways:
            heard = understand(words, active)
            if isinstance(heard, NotUnderstood):
                heard = self._in_other_words(words, expects, confidence=1.0) or heard
            if not isinstance(heard, NotUnderstood):
                return heard
        # What asks us something is a question wherever it is said, though at another one it is an answer.
        known = (self._questions, *map(self._all_words, instead), self._gear, self._of_oneself, self.everything)
        elsewhere = (understand(words, active, words_of) for words_of in known for words in ways)
        return next((heard for heard in elsewhere if not isinstance(heard, NotUnderstood)), NotUnderstood())

    def _is_an_answer_elsewhere(self, heard: Hearing, expects: type[Answers], instead: Sequence[type[Answers]]) -> bool:
        """Say whether something would only be an answer to another question than the one that is open."""
        taken: tuple[type[Answers], ...] = (expects, UniversalAnswer, *instead, *NEVER_LIVE)
        return isinstance(heard, NotNow) and not any(heard.command in set(rule) for rule in taken)

    def _in_parts(self, clauses: Sequence[str], expects: type[Answers], instead: Sequence[type[Answers]]) -> Hearing:
        """Take the question among several clauses, or the part to go to, else the last answer: who goes on after "no" says it better.

        Where a clause that isn't understood may turn the others round, nothing is.
        """
        heard = [self._clause(clause, expects, instead) for clause in clauses]
        lost = (clause for clause, one in zip(clauses, heard, strict=True) if isinstance(one, NotUnderstood))
        if any(map(self.typing.may_turn_it_round, lost)):
            return NotUnderstood()
        gear = tuple(one for one in heard if isinstance(one, NotNow) and one.command in set(GearAnswer))
        known = [one for one in heard if isinstance(one, NotNow) and one not in gear]
        asked = [one for one in known if one.command in _ASKED or one.command in set(JumpAnswer)]
        answers = [one for one in heard if isinstance(one, Heard)]
        taken: tuple[Hearing, ...] = (*asked, *reversed(answers), *known)
        if taken and (rest := self._rest_of(clauses, heard)) and (meant := self._by_its_gist(rest, expects, instead)) is not None:
            return meant
        if gear and not taken:
            return replace(gear[-1], beside=gear[:-1])
        return replace(taken[0], beside=gear) if gear and isinstance(taken[0], Heard | NotNow) else taken[0] if taken else NotUnderstood()

    def _clause(self, clause: str, expects: type[Answers], instead: Sequence[type[Answers]]) -> Hearing:
        """Take one of several clauses: what it tells of the telescope first, and of towns those we know."""
        heard = self._in_any_way(clause, expects, instead)
        ways = () if isinstance(heard, Heard) else self.typing.ways(clause)
        if (gear := next((phrase for way in ways if (phrase := self._gear.parse(way)) is not None), None)) is not None:
            return NotNow(gear.words, gear.command, gear.slots, spelling=gear.written)
        town = self._town(clause, expects, instead) if isinstance(heard, NotUnderstood) else None
        return heard if town is None or town.command == TownAnswer.UNKNOWN else town

    @staticmethod
    def _rest_of(clauses: Sequence[str], heard: Sequence[Hearing]) -> str:
        """Return what isn't understood of a line whose only other clause is a word, such as "right"; else nothing."""
        lost = [clause for clause, one in zip(clauses, heard, strict=True) if isinstance(one, NotUnderstood)]
        understood = [clause for clause in clauses if clause not in lost]
        return " ".join(lost) if all(len(clause.split()) == 1 for clause in understood) and len(understood) == 1 else ""

    def _guessed(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]]) -> Hearing:
        """Take a line for what its words are most likely about: never for sure, so that whatever changes anything is asked back.

        Of two that are as likely neither is taken.
        """
        if (gist := self._by_its_gist(line, expects, instead)) is not None:
            return gist
        rules = (expects, *instead)
        near = [(guess, rule) for rule in rules for guess in self._guesses(line, rule)]
        if not near and (spelt := self._spelt(line, self._known_words, _SPELT_NEARLY)) != line:
            near = [(guess, rule) for rule in rules for guess in self._guesses(spelt, rule)]
        near.sort(key=lambda one: -one[0].nearness)
        meant: list[Heard | NotNow] = []
        for guess, rule in near:
            if meant and guess.nearness < _AS_LIKELY * near[0][0].nearness:
                break
            one = self._first_guess(((guess.phrase, rule),), expects)
            if one is not None and all((one.command, one.slots) != (other.command, other.slots) for other in meant):
                meant.append(one)
        if len(meant) == 1 or (meant and meant[0].command in set(expects) and meant[1].command in set(UniversalAnswer)):
            return meant[0]  # What answers the question comes before what may be said anywhere.
        return NotUnderstood(_GUESSED, guesses=tuple(meant[:2])) if meant else NotUnderstood()

    def _by_its_gist(self, line: str, expects: type[Answers], instead: Sequence[type[Answers]]) -> Heard | NotNow | None:
        """Do the same by the gists alone; None where there is none."""
        phrases = ((phrase, rule) for rule in (expects, *instead) for phrase in self.typing.gists(line, rule.rule()))
        return self._first_guess(phrases, expects)

    def _first_guess(self, phrases: Iterable[tuple[str, type[Answers]]], expects: type[Answers]) -> Heard | NotNow | None:
        """Return the first of some phrases, each with the rule it is said by, that means something; ``NotNow`` if not by ``expects``."""
        guesses = ((self._as_guess(phrase, rule), rule) for phrase, rule in phrases)
        guess, rule = next((one for one in guesses if one[0] is not None), (None, expects))
        return guess if rule is expects or not isinstance(guess, Heard) else _beside(guess)

    def _as_guess(self, phrase: str, expects: type[Answers]) -> Heard | NotNow | None:
        """Return what a phrase of ours means here; None where it means nothing."""
        active = self.active(expects)
        answer = active.parse(phrase) or self._otherwise(expects).parse(phrase)
        if answer is not None and any(value.isdigit() for value in answer.slots.values()):
            return None  # Figures are told, never guessed.
        if answer is not None:
            return Heard(answer.words, answer.command, answer.slots, _GUESSED, answer.written, is_guess=True)
        other = self._questions.parse(phrase) or self._elsewhere.parse(phrase)
        if other is None:
            return None
        return NotNow(other.words, other.command, other.slots, _GUESSED, other.written, is_guess=True)

    def _guesses(self, line: str, expects: type[Answers]) -> list[Guess]:
        """Return what a line comes near enough to, the nearest first: an answer, a question, a part to go to."""
        telling = self.typing.telling
        if telling is None:
            return []
        asks, index = telling.asks(line), self._answers_at(expects)
        # Who tells something with a word of the trade doesn't ask what that is, nor wants to go where it is used.
        goes = telling.goes(line)
        others = [
            guess
            for guess in self._asked_or_gone_to.guesses(line)
            if (asks or not self._asks_for_a_word(guess.phrase)) and (goes or self._elsewhere.parse(guess.phrase) is None)
        ]
        others = [replace(guess, nearness=(1.0 if asks else _ASKED_BESIDE) * guess.nearness) for guess in others]
        guesses = (*index.guesses(line), *self._denials(line, expects), *others)
        return sorted((guess for guess in guesses if guess.nearness >= _NEAR_ENOUGH), key=lambda guess: -guess.nearness)

    def _denials(self, line: str, expects: type[Answers]) -> Iterator[Guess]:
        """Yield what a line comes to that denies an answer: whose star "isn't in the finder" says "not yet"."""
        index, active = self._answers_at(expects), self.active(expects)
        for guess in index.denied(line):
            denied = active.parse(guess.phrase) or self._otherwise(expects).parse(guess.phrase)
            contrary = None if denied is None else DENIED.get(denied.command)
            words = None if contrary is None else index.plainest(contrary, denying=True)
            if words is not None:
                yield Guess(words, _DENIED * guess.nearness)

    def _answers_at(self, expects: type[Answers]) -> ContentIndex:
        """Return what may be guessed among the answers to a question."""
        assert self.typing.telling is not None
        if expects not in self._indexes:
            sources = (self._place(expects), self._place(UniversalAnswer), *self._otherwise(expects).sources)
            self._indexes[expects] = ContentIndex(sources, self.typing.telling)
        return self._indexes[expects]

    def _asks_for_a_word(self, phrase: str) -> bool:
        asked = self._questions.parse(phrase)
        return asked is not None and asked.command == WordQuestionAnswer.WHAT_IS

    def settled(self, hearing: Hearing, expects: type[Answers]) -> Hearing:
        """Take a phrase that the second search found for an answer to a question, where it is one in other words."""
        if not isinstance(hearing, NotNow):
            return hearing
        here = self._in_other_words(hearing.phrase, expects, hearing.confidence)
        if here is not None or (asked := self._questions.parse(hearing.phrase)) is None:
            return here or hearing
        return NotNow(asked.words, asked.command, asked.slots, hearing.confidence, asked.written)

    def _in_other_words(self, words: str, expects: type[Answers], confidence: float) -> Heard | None:
        """Return the answer that words which are not live stand for, by the question's rule or the universal one."""
        phrase = self._otherwise(expects).parse(words)
        return None if phrase is None else Heard(phrase.words, phrase.command, phrase.slots, confidence, phrase.written)

    def _otherwise(self, expects: type[Answers]) -> ActiveSet:
        """Return the other words for answers to a question: what the grammars hold beside its rule and the universal one."""
        names = [f"{answers.rule()}{ending}" for answers in (expects, UniversalAnswer) for ending in (_IN_OTHER_WORDS, _TYPED)]
        return ActiveSet(tuple((grammar, name) for name in names for grammar in self.grammars if name in grammar.public_rules))

    def _all_words(self, rule: type[Answers]) -> ActiveSet:
        """Return all the words for the answers of a rule, live or not."""
        return ActiveSet((self._place(rule), *self._otherwise(rule).sources))

    @cached_property
    def _questions(self) -> ActiveSet:
        """What asks us something, in the words that are only typed, too."""
        asking = {rule.rule() for rule in QUESTION_RULES}
        heard = [(grammar, rule) for grammar, rule in self.everything.sources if rule in asking]
        names = [f"{rule}{_TYPED}" for rule in sorted(asking)]
        typed = [(grammar, name) for name in names for grammar in self.grammars if name in grammar.public_rules]
        return ActiveSet((*heard, *typed))

    @cached_property
    def _gear(self) -> ActiveSet:
        """What is told of the telescope."""
        return ActiveSet((self._place(GearAnswer),))

    @cached_property
    def _of_oneself(self) -> ActiveSet:
        """What is told of oneself in words that are only typed."""
        typed = f"{OneselfAnswer.rule()}{_TYPED}"
        return ActiveSet(tuple((grammar, typed) for grammar in self.grammars if typed in grammar.public_rules))

    @cached_property
    def _elsewhere(self) -> ActiveSet:
        """The parts to go to."""
        return ActiveSet((self._place(JumpAnswer),))

    @cached_property
    def _asked_or_gone_to(self) -> ContentIndex:
        """What may be guessed at any question. Names are looked for among a line's words (``gists``)."""
        assert self.typing.telling is not None
        sources = (*self._questions.sources, *self._elsewhere.sources)
        return ContentIndex(tuple(source for source in sources if source[1] not in _OF_NAMES), self.typing.telling)

    @cached_property
    def _indexes(self) -> dict[type[Answers], ContentIndex]:
        """What may be guessed among the answers, by question, where it was wanted before."""
        return {}

    @cached_property
    def _live_at(self) -> dict[type[Answers], ActiveSet]:
        """What was live before, by question: that no words have two meanings is looked into once."""
        return {}

    def _place(self, expects: type[Answers]) -> tuple[Grammar, str]:
        rule = expects.rule()
        return next((grammar, rule) for grammar in self.grammars if rule in grammar.public_rules)


def _beside(heard: Heard) -> NotNow:
    """Return an answer of another rule than the question's as what it is: not the one that was expected."""
    return NotNow(heard.phrase, heard.command, heard.slots, heard.confidence, heard.spelling, is_guess=heard.is_guess)


def _words_of(sources: Iterable[tuple[Grammar, str]]) -> frozenset[str]:
    """Return every word of some rules, lower case."""
    return frozenset(word for grammar, rule in sources for word in grammar.words(rule))


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
        otherwise = f"{answers.rule()}{_IN_OTHER_WORDS}"
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
            if name.endswith((_IN_OTHER_WORDS, _TYPED)):
                rule = name.removesuffix(_IN_OTHER_WORDS).removesuffix(_TYPED)
                known = rules.get(rule, set()) | set(map(str, UniversalAnswer))
                if unknown := sorted(grammar.commands(name) - known):
                    complaint = f"<{name}>: {{{unknown[0]}}} is no answer of <{rule}>"
                    raise GrammarError(complaint, file=grammar.file, line=grammar.line_of(name))
