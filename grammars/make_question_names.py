"""Writes grammars/en/question_names.jsgf: where and when every star a mount may name, planet, Moon, Sun and showpiece stands.

``show me`` asks for it as the next target.

Deep-sky objects go by their common names and by their numbers, read as people read them; how Greek and Latin words may be written by ear
comes from target_name_sounds.csv. Run by hand after the tables or that file change: ``python grammars/make_question_names.py``. A test
holds the grammar against this.
"""

from __future__ import annotations

import csv
import re
from collections import defaultdict
from collections.abc import Iterator
from importlib import resources
from pathlib import Path

from companion import observing, sky
from companion.languages.en.number_words import cardinal, digits

HEAD = """#JSGF V1.0 UTF-8 en;

// Made by grammars/make_question_names.py from the tables of stars and deep-sky objects. Never live beside an open question.
grammar question_names;

/**
 * @example where is Saturn
 * @example is the Moon up
 * @example when does Arcturus rise
 * @example when does the Sun set
 * @example where's the Andromeda Galaxy
 * @example where is Messier thirteen
 * @example Messier thirty one
 * @example N G C eight nine one
 * @example how far is Saturn
 * @example can I look at the Sun
 * @example what is the Crab Nebula
 * @counterexample where is M
 * @counterexample Arcturus
SOUNDS */
public <sky_question> = (where is {where-now} | where's {where-now} | where do I find {where-now} | how far [away] is {how-far}
                        | how big is {how-big} | what is {what-kind} | what kind of thing is {what-kind} | tell me about {tell-story}
                        | (tell me the story of | what's the story of) {tell-story}) <name>
                      | is <name> (up | still up | up yet | up tonight | out | visible | well placed | worth a look) {up-now}
                      | (which way [is] | which way's | which direction is | whereabouts is | is that) <name> {where-now}
                      | is <name> (gone | down) [yet] {up-now}
                      | has <name> (set | gone | gone down | risen | come up) [yet] {up-now}
                      | when does <name> (rise | come up) {rises-when}
                      | when is <name> (up | rising) {rises-when}
                      | when does <name> (set | go down) {sets-when}
                      | (how high is | how high's) <name> {height-of}
                      | (why | why not | why is it | why do you want) <name> {why-it}
                      | (can I | may I | is it safe to) (look at | point at | point it at) <name> {where-now}
                      | <object> {where-now};

/**
 * @example show me Saturn
 * @example let's see the Andromeda Galaxy
 * @example go to Messier thirteen
 * @example let's do Saturn again
 * @counterexample show me
 */
public <show_me> = <wanted> <name> [again | please | now | next | before it sets | while it's up | first] {show-me};
<wanted> = show (me | us | them) | (can | could) you show [me | us] | go to | back to | how about | what about | give me | let me see
         | take (me | us) to | find [me] | let's (see | look at | do | go to | start with | try | have | have a look at)
         | can we (see | try | look at | do) | can you see | I'd like to see | I'd rather (see | use) | tell them about
         | (I | we | they | the kids | the children) want to (see | try | look at);

<name> = [the] <body> | <showpiece>;
<object> = <showpiece>;
"""

SOUNDS = Path(__file__).with_name("target_name_sounds.csv")
_NUMBERED = re.compile(r"(M|C|NGC|IC) (\d+)")
_NOT_SAID_SO = re.compile(r"^[A-Z]+ \d|[a-z]\d")
"""A catalogue's number, which is spelled its own way, and a letter with a small figure above."""
_LETTER_AND_FIGURE = re.compile(r"(?<=[A-Z])(?=\d)")
_CATALOGUES = {"M": "Messier", "C": "Caldwell", "NGC": "N G C", "IC": "I C"}


def grammar_text() -> str:
    """Return the whole file."""
    bodies = [f"({' | '.join(spellings)}) {{{name}}}" for name, spellings in _bodies().items()]
    showpieces = [f"([the] ({' | '.join(spellings)})) {{{name}}}" for name, spellings in _showpieces().items()]
    sounds = csv.DictReader(SOUNDS.read_text("utf-8").splitlines())
    head = HEAD.replace("SOUNDS", "".join(f" * @sounds {row['words']} = {row['sounds']}\n" for row in sounds))
    return head + _choice("body", bodies) + _choice("showpiece", showpieces)


def _choice(rule: str, ways: list[str]) -> str:
    """Return a rule, one way a line."""
    return f"\n<{rule}> = " + f"\n{' ' * (len(rule) + 3)}| ".join(ways) + ";\n"


def _bodies() -> dict[str, list[str]]:
    """Return the spellings of each star, planet, the Moon and the Sun, by the name we find it with."""
    spellings = {body.name: [body.name] for body in sky.nameable()} | {name: [f"the {name}", name] for name in ("Moon", "Sun")}
    aliases = defaultdict(list)
    for row in _rows("star_aliases.csv"):
        aliases[row["name"]].append(row["alias"])
    return {
        name: [spelling for spelling in dict.fromkeys((*own, *aliases[name])) if re.fullmatch(r"[A-Za-z' ]+", spelling)]
        for name, own in spellings.items()
    }


def _showpieces() -> dict[str, list[str]]:
    """Return the names and the numbers of each showpiece as they are spoken, by the name we find it with; a spelling only once."""
    taken = {spelling.casefold() for spellings in _bodies().values() for spelling in spellings}
    found: dict[str, list[str]] = {}
    for row in _rows("deep_sky.csv"):
        if row["showpiece"] != "1":
            continue
        names, numbers = row["names"].split(";"), row["designations"].split(";")
        spoken = [*(_in_words(name) for name in names if name), *(words for number in numbers for words in _spelled(number))]
        fresh = [words for words in dict.fromkeys(spoken) if words.casefold() not in taken]
        taken |= {words.casefold() for words in fresh}
        if fresh:
            found[sky.find(numbers[0]).name] = fresh
    for name, spellings in _fine_stars().items():
        fresh = [words for words in dict.fromkeys(spellings) if words.casefold() not in taken]
        taken |= {words.casefold() for words in fresh}
        if fresh:
            found[name] = fresh
    return found


def _fine_stars() -> dict[str, list[str]]:
    """Return the spellings of what else is shown: doubles, carbon and variable stars, star clouds."""
    names = defaultdict(list)
    for table in ("double_stars.csv", "variable_stars.csv"):
        for row in _rows(table):
            every = row["names"].split(";")
            names[sky.find(every[0]).name] += every
    for showpiece in observing.rated_showpieces():
        body = sky.find(showpiece.key)
        names[body.name] += [body.name, *(_spelled(body.designation) if body.designation else ())]
    return {
        name: [_in_words(_LETTER_AND_FIGURE.sub(" ", spelling)) for spelling in spellings if not _NOT_SAID_SO.search(spelling)]
        for name, spellings in names.items()
    }


def _in_words(name: str) -> str:
    """Return a name with its figures in words and no hyphens."""
    return re.sub(r"\d+", lambda figures: cardinal(int(figures.group())), name).replace("-", " ").replace(".", "")


def _spelled(number: str) -> Iterator[str]:
    """Yield how a catalogue number is read: the small ones as numbers, the large ones figure by figure; of other catalogues nothing."""
    match = _NUMBERED.fullmatch(number)
    if match is None:
        return
    catalogue, figures = match.groups()
    if catalogue in ("M", "C"):
        yield f"{_CATALOGUES[catalogue]} {_number(figures)}"
    else:
        yield f"{_CATALOGUES[catalogue]} {digits(figures)}"
    if catalogue == "M":
        yield f"M {_number(figures)}"


def _number(figures: str) -> str:
    """Return a number in words as grammars spell it, its "and" left to the speaker."""
    return cardinal(int(figures)).replace("-", " ").replace(" and ", " [and] ")


def _rows(table: str) -> Iterator[dict[str, str]]:
    yield from csv.DictReader((resources.files("companion.sky.data") / table).read_text("utf-8").splitlines())


if __name__ == "__main__":
    (Path(__file__).parent / "en" / "question_names.jsgf").write_text(grammar_text(), "utf-8")
