"""Whatever is thrown at the room, the answer is a value or one clear error."""

import contextlib
import wave
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.audio import read_wav
from companion.errors import AudioFileError, GrammarError
from companion.hearing.active import ActiveSet
from companion.hearing.grammar import Grammar, parse_grammar
from companion.hearing.jsgf.graph import Place, WordGraph
from companion.hearing.typed import understand
from companion.hearing.whisper.written_variants import whole_forms
from companion.languages.en.heard_numbers import NUMBER_WORDS
from companion.languages.en.written_forms import ENGLISH_WRITING

HEADER = "#JSGF V1.0;\ngrammar t;\n"
BITS = [
    "public ",
    "<a>",
    "<b>",
    "<NULL>",
    "<VOID>",
    " = ",
    ";",
    "|",
    "(",
    ")",
    "[",
    "]",
    " go ",
    " twelve ",
    '"x y"',
    "{t}",
    "{s=v}",
    "//",
    "/*",
    "*/",
]
NUMBERS = sorted({*NUMBER_WORDS, "first", "percent", "degrees", "dollars", "yes", "please"})
NODES = st.recursive(
    st.sampled_from(["go", "up", "twelve", "<b>", "<c>", "<NULL>", "<VOID>", '"New York"', "it's"]),
    lambda inner: st.one_of(
        st.tuples(inner, inner).map(" ".join),
        st.tuples(inner, inner).map(lambda pair: f"({pair[0]} | {pair[1]})"),
        inner.map(lambda one: f"[{one}]"),
        inner.map(lambda one: f"({one}) {{tag}}"),
        inner.map(lambda one: f"({one}) {{slot=value}}"),
    ),
    max_leaves=7,
)


def written_by_hand(a: str) -> Grammar:
    """Return a grammar around one random rule."""
    return parse_grammar(HEADER + f"public <a> = {a};\n<b> = one {{1}} | [two] three;\n<c> = <b> {{c}} | four;")


@given(st.lists(st.sampled_from(BITS), max_size=30).map("".join))
@settings(max_examples=400, deadline=None)
def test_random_pieces_of_grammar(text: str) -> None:
    """Any jumble of the format's own pieces is a grammar or a GrammarError, nothing else."""
    with contextlib.suppress(GrammarError):
        grammar = parse_grammar(HEADER + text, "jumble")
        assert grammar.phrase_count() >= 0


@given(st.text(max_size=60))
@settings(max_examples=200, deadline=None)
def test_random_text(text: str) -> None:
    """Any text after the header is a grammar or a GrammarError, and any typed line gets an answer."""
    with contextlib.suppress(GrammarError):
        parse_grammar(HEADER + text)
    grammar = written_by_hand("go <c>")
    understand(text, ActiveSet.of((grammar, "a")))


@given(NODES)
@settings(max_examples=200, deadline=None)
def test_writing_out_parsing_and_walking_agree(body: str) -> None:
    """For random rules: what is written out is parsed with some meaning of its words, and the graph walks just those words."""
    grammar = written_by_hand(body)
    phrases = grammar.phrases(limit=10**6)
    meanings: dict[str, set[tuple[str, tuple[tuple[str, str], ...]]]] = {}
    for phrase in phrases:
        meanings.setdefault(phrase.words, set()).add((phrase.command, tuple(sorted(phrase.slots.items()))))
    for words, known in list(meanings.items())[:50]:
        parsed = grammar.parse(words)
        assert parsed is not None
        assert (parsed.command, tuple(sorted(parsed.slots.items()))) in known
    assert walked(WordGraph([grammar.rule("a")])) == set(meanings)


def walked(graph: WordGraph) -> set[str]:
    """Return every phrase of a graph."""

    def walk(place: Place, said: str) -> set[str]:
        found = {said} if said and graph.may_end(place) else set()
        return found.union(*(walk(step.place, f"{said} {step.text}".strip()) for step in graph.steps(place)))

    return walk(graph.start, "")


@given(st.lists(st.sampled_from(NUMBERS), min_size=1, max_size=9))
@settings(max_examples=300, deadline=None)
def test_forms_are_bounded(words: list[str]) -> None:
    """Any run of number words has few forms, the plain one first, each beginning with a space."""
    forms = whole_forms(" ".join(words), ENGLISH_WRITING)
    assert forms[0] == f" {' '.join(words)}"
    assert len(forms) <= 25
    assert all(form.startswith(" ") for form in forms)


def test_damaged_wavs(tmp_path: Path) -> None:
    """WAVs cut off or overwritten anywhere are read as what is left, or refused as files; nothing else happens."""
    path = tmp_path / "some.wav"
    rng = np.random.default_rng(1)
    with wave.open(str(path), "wb") as file:
        file.setnchannels(2)
        file.setsampwidth(2)
        file.setframerate(44_100)
        file.writeframes(rng.bytes(40_000))
    whole = path.read_bytes()
    for _ in range(150):
        data = bytearray(whole[: int(rng.integers(0, len(whole)))])
        for place in rng.integers(0, 60, size=int(rng.integers(0, 4))):
            if place < len(data):
                data[place] = int(rng.integers(256))
        path.write_bytes(data)
        try:
            audio = read_wav(path, 30.0)
        except AudioFileError:
            continue
        assert np.isfinite(audio.samples).all()
        assert audio.rate_hz > 0


@pytest.mark.parametrize(
    "text",
    [
        "(" * 900_000,
        "x" * 990_000,
        "<a" * 400_000,
        '"' * 900_000,
        "{" * 900_000,
        "/*" * 400_000,
        "| " * 400_000,
        pytest.param("x " * 490_000, marks=pytest.mark.slow),
    ],
)
def test_a_megabyte_of_anything(text: str) -> None:
    """A megabyte of one sign is told apart from a grammar in bounded time."""
    with pytest.raises(GrammarError):
        parse_grammar(HEADER + "public <a> = " + text)
