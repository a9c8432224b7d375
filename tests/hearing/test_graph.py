"""Rules as a graph of words: the same phrases as writing them out gives, without writing them out."""

import pytest

from companion.hearing.grammar import Grammar, parse_grammar
from companion.hearing.jsgf.graph import Place, WordGraph

HEADER = "#JSGF V1.0;\ngrammar t;\n"


def graph_of(grammar: Grammar) -> WordGraph:
    """Return the graph of all public rules."""
    return WordGraph(grammar.rule(name) for name in grammar.public_rules)


def walked(graph: WordGraph, place: Place, said: str = "") -> set[str]:
    """Return every phrase found by walking."""
    found = {said} if said and graph.may_end(place) else set()
    for step in graph.steps(place):
        found |= walked(graph, step.place, f"{said} {step.text}".strip())
    return found


@pytest.mark.parametrize(
    "body",
    [
        "public <a> = yes;",
        "public <a> = [please] (go | come) back [now];",
        "public <a> = go <b> [<b>] {x}; <b> = up {u} | [far] down | <NULL>; public <c> = go up | stay;",
        'public <a> = a (<VOID> | "New York" | b [c [d]]) | a b; public <b> = a b c e;',
        "public <a> = [[x] [y]] [z];",
        "public <a> = <VOID>;",
    ],
)
def test_walking_finds_the_phrases(body: str) -> None:
    """A full walk finds just the phrases that writing out gives."""
    grammar = parse_grammar(HEADER + body)
    assert walked(graph_of(grammar), graph_of(grammar).start) <= {phrase.words for phrase in grammar.phrases()}
    graph = graph_of(grammar)
    assert walked(graph, graph.start) == {phrase.words for phrase in grammar.phrases()}


def test_shared_words_are_one_step() -> None:
    """Alternatives that begin alike are walked together."""
    graph = graph_of(parse_grammar(HEADER + "public <a> = go up | go down | [please] go home;"))
    assert [step.text for step in graph.steps(graph.start)] == ["go", "please"]
    (go,) = [step for step in graph.steps(graph.start) if step.text == "go"]
    assert {step.text for step in graph.steps(go.place)} == {"up", "down", "home"}


def test_vast_grammars_cost_what_is_walked() -> None:
    """In a grammar of 10^18 phrases and more a walk along one of them is short."""
    body = "public <a> = <d> <d> <d> <d> <d> <d>;" + "<d> = <e> <e> <e>;" + "<e> = " + "|".join(f"w{i}" for i in range(10)) + ";"
    grammar = parse_grammar(HEADER + body)
    assert grammar.phrase_count() == 10**18
    graph = graph_of(grammar)
    place = graph.start
    for number in range(18):
        assert not graph.may_end(place)
        place = next(step.place for step in graph.steps(place) if step.text == f"w{number % 10}")
    assert graph.may_end(place)
    assert graph.steps(place) == ()
