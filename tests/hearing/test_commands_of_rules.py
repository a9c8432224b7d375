"""What a rule can mean, told without writing it out: compared with what its phrases do mean, in our grammars and in odd ones."""

from __future__ import annotations

import random

import pytest

from companion.hearing import Grammar, parse_grammar
from companion.hearing.grammar import PHRASE_LIMIT
from tests.any_phrase import any_phrase
from tests.english import VOCABULARY

RULES = [(grammar, rule) for grammar in VOCABULARY.grammars for rule in grammar.public_rules]
SMALL = [(grammar, rule) for grammar, rule in RULES if grammar.phrase_count([rule]) <= PHRASE_LIMIT]
LARGE = [(grammar, rule) for grammar, rule in RULES if grammar.phrase_count([rule]) > PHRASE_LIMIT]


def written_out(grammar: Grammar, rule: str) -> set[str]:
    """Return the commands of all phrases of a rule."""
    return {phrase.command for phrase in grammar.phrases([rule])}


@pytest.mark.parametrize(("grammar", "rule"), SMALL, ids=[rule for _, rule in SMALL])
def test_a_rule_means_what_its_phrases_mean(grammar: Grammar, rule: str) -> None:
    """Of every rule of ours that can be written out, the commands are those of its phrases: none more, none less."""
    assert grammar.commands(rule) == written_out(grammar, rule)


@pytest.mark.parametrize(("grammar", "rule"), LARGE, ids=[rule for _, rule in LARGE])
def test_a_large_rule_means_what_is_said_of_it(grammar: Grammar, rule: str) -> None:
    """Of the rules with too many phrases, some hundred said at random mean all of the commands and no other."""
    choose = random.Random(rule)
    said = (grammar.parse(any_phrase(grammar, rule, choose), [rule]) for _ in range(200))
    assert grammar.commands(rule) == {phrase.command for phrase in said if phrase is not None}


OTHER = "public <other> = p {other-p} | q;"
CASES: dict[str, tuple[str, str, set[str]]] = {
    "no tag": ("a | b c", "", {"t"}),
    "one tag": ("a {x}", "", {"x"}),
    "some without": ("a {x} | b", "", {"x", "t"}),
    "an optional tag": ("a [b {x}]", "", {"x", "t"}),
    "optional tags on both sides": ("[a {x}] b [c {y}]", "", {"x", "y", "t"}),
    "optional within optional": ("a [b {x} [c {y}]]", "", {"x", "y", "t"}),
    "the last one counts": ("a {x} b {y}", "", {"y"}),
    "nothing after it": ("a {x} b", "", {"x"}),
    "two tags on one word": ("a {x} {y}", "", {"y"}),
    "the whole bracket": ("(a | b {x}) {y}", "", {"y"}),
    "choices within choices": ("((a {x} | b) | (c {y} | d {z} [e {w}]))", "", {"x", "y", "z", "w", "t"}),
    "a choice before a tag that may be missing": ("(a {x} | b {y}) [c {z}]", "", {"x", "y", "z"}),
    "a slot is no command": ("a {side=left} | b {x}", "", {"t", "x"}),
    "a slot beside a command": ("a {side=left} {x} | b {y} {side=right}", "", {"x", "y"}),
    "tags of a private rule are a slot": ("<value> | b {x}", "<value> = c {d};", {"t", "x"}),
    "a private rule does not hand on another": ("<value>", f"<value> = c | <other>; {OTHER}", {"t"}),
    "another public rule stands in": ("<other> | b {x}", OTHER, {"other-p", "other", "x"}),
    "in brackets": ("((<other>)) | b", OTHER, {"other-p", "other", "t"}),
    "in a nested choice": ("(<other> | a) | b {x}", OTHER, {"other-p", "other", "t", "x"}),
    "alone": ("<other>", OTHER, {"other-p", "other"}),
    "one after another": ("<other> | a", "public <other> = <third> | q {y}; public <third> = s {z} | u;", {"z", "third", "y", "t"}),
    "a public rule with a word is a slot": ("a <other>", OTHER, {"t"}),
    "a public rule that may be missing is a slot": ("[<other>] a", OTHER, {"t"}),
    "a public rule with a tag means that": ("<other> {x}", OTHER, {"x"}),
    "a public rule with a slot is a slot": ("<other> {side=left}", OTHER, {"t"}),
    "a public rule among tagged words": ("(a | <other>) {x}", OTHER, {"x"}),
    "nothing to hear beside a word": ("<NULL> {x} b | c <NULL> {y}", "", {"x", "y"}),
    "what can't be said": ("a {x} | <VOID>", "", {"x"}),
    "words with what can't be said": ("a {x} | b <VOID>", "", {"x"}),
    "a tag before what can't be said": ("a {x} | b {y} <VOID>", "", {"x"}),
    "a tag on what can't be said": ("a {x} | <VOID> {y}", "", {"x"}),
    "a tag after what can't be said": ("a {x} | b <VOID> c {y}", "", {"x"}),
    "a tag around what can't be said": ("a {x} | (b <VOID>) {y}", "", {"x"}),
    "a choice with what can't be said": ("(a {x} | <VOID> {y}) b", "", {"x"}),
    "what can't be said may be missing": ("a {x} | b [<VOID> {y}]", "", {"x", "t"}),
    "a rule that can't be said": ("a {x} | b <nothing> | <nothing> {y}", "<nothing> = <VOID>;", {"x"}),
    "a public rule that can't be said": ("a {x} | <nothing>", "public <nothing> = <VOID>;", {"x"}),
    "nothing said is no phrase": ("[a {x}] [b {y}]", "", {"x", "y"}),
    "nothing to hear is no phrase": ("<NULL> {y} | b {x}", "", {"x"}),
    "a rule that may be silent is no phrase": ("a {x} | <quiet>", "<quiet> = [<NULL>];", {"x"}),
}


@pytest.mark.parametrize("case", CASES)
def test_what_an_odd_rule_means(case: str) -> None:
    """Optional tags, nested choices, rules that stand in for another, silence and VOID: told as worked out by hand, and as written out."""
    body, further, meant = CASES[case]
    grammar = parse_grammar(f"#JSGF V1.0;\ngrammar odd;\npublic <t> = {body};\n{further}")
    assert grammar.commands("t") == meant
    assert written_out(grammar, "t") == meant


PARTS = ("a", "b", "c {x}", "d {y}", "<NULL>", "<VOID>", "<value>", "<other>")


def _any_body(choose: random.Random, depth: int) -> str:
    """Return the right side of a rule: words, tags, brackets, choices and references at random."""
    if depth == 0 or choose.random() < 0.2:
        return choose.choice(PARTS)
    inner = [_any_body(choose, depth - 1) for _ in range(choose.randint(1, 3))]
    body = choose.choice((" ".join(f"({part})" for part in inner), " | ".join(inner), f"[{inner[0]}] {inner[-1]}"))
    return choose.choice((body, f"({body}) {{z}}", f"({body}) {{side=left}}", f"[{body}]", f"({body})"))


@pytest.mark.parametrize("seed", range(200))
def test_what_any_rule_means(seed: int) -> None:
    """Rules put together at random mean exactly what their phrases mean."""
    body = _any_body(random.Random(seed), depth=3)
    grammar = parse_grammar(f"#JSGF V1.0;\ngrammar odd;\npublic <t> = {body};\n<value> = v {{w}} | <VOID> | [u];\n{OTHER}")
    assert grammar.commands("t") == written_out(grammar, "t"), body
