"""Grammar files: what the format allows (JSpeech Grammar Format, W3C Note 5 June 2000, our finite part), and what it comes to."""

import pytest

from companion.errors import BadRequest, GrammarError
from companion.hearing.active import ActiveSet
from companion.hearing.grammar import Phrase, load_grammar, parse_grammar
from companion.languages.en.written_forms import ENGLISH_WRITING

HEADER = "#JSGF V1.0;\ngrammar t;\n"


def words(body: str, rule: str | None = None) -> list[str]:
    """Return the phrases of a grammar without its header."""
    return [phrase.words for phrase in parse_grammar(HEADER + body).phrases(rule and [rule])]


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        ("public <a> = yes;", ["yes"]),
        ("public <a> = Yes | NO;", ["yes", "no"]),
        ("public <a> = go [right] back;", ["go back", "go right back"]),
        ("public <a> = (go | come) back;", ["go back", "come back"]),
        ("public <a> = go <b>;\n<b> = up | down;", ["go up", "go down"]),
        ("public <a> = go <t.b>;\n<b> = up;", ["go up"]),
        ("public <a> = go (<NULL> | up);", ["go", "go up"]),
        ("public <a> = go (<VOID> | up);", ["go up"]),
        ("public <a> = go | (up <VOID>);", ["go"]),
        ('public <a> = "New  York" | "say \\"cheese\\"";', ["new york", 'say "cheese"']),
        ("public <a> = it's | o'clock | north-east;", ["it's", "o'clock", "north-east"]),
        ("public <a> = one // two\n | /* three | */ four;", ["one", "four"]),
        ("public <a> = one {a tag with \\} and \\\\};", ["one"]),
        ("public <a> = [go];", ["go"]),
        ("public <a> = x | x | (x);", ["x"]),
        ("public<a>=one|two;public<b>=three;", ["one", "two", "three"]),
        ("/** about */ public <a> = /** in between */ one;", ["one"]),
        ("public <grüße> = grüß dich;", ["grüß dich"]),
    ],
)
def test_phrases(body: str, expected: list[str]) -> None:
    """Each construct of the subset expands to its phrases, in file order, each once."""
    assert words(body) == expected


@pytest.mark.parametrize(
    ("text", "line", "complaint"),
    [
        ("", 1, "#JSGF"),
        ("#JSGF V2.0;\ngrammar t;\npublic <a> = x;", 1, "#JSGF"),
        ("#JSGF V1.0;\npublic <a> = x;", 2, "grammar name;"),
        (HEADER, 1, "no rule is public"),
        (HEADER + "<a> = x;", 1, "no rule is public"),
        (HEADER + "public <a> = x*;", 3, "'*'"),
        (HEADER + "public <a> = x\n+;", 4, "'+'"),
        (HEADER + "public <a> = /10/ x | y;", 3, "all must have one"),
        (HEADER + "public <a> = /none/ x | /1/ y;", 3, "write a number above 0"),
        (HEADER + "public <a> = /0/ x | /1/ y;", 3, "write a number above 0"),
        (HEADER + "public <a> = /10 x | y;", 3, "never closed"),
        (HEADER + "import <b.*>;\npublic <a> = x;", 3, "import"),
        (HEADER + "public <a> = x;\n\npublic <a> = y;", 5, "already defined in line 3"),
        (HEADER + "public <a> = x\n <b>;", 4, "<b> is not defined"),
        (HEADER + "public <a> = <a>;", 3, "leads back to itself"),
        (HEADER + "public <a> = <b>;\n<b> = x [<c>];\n<c> = <a>;", 5, "leads back to itself"),
        (HEADER + "public <a> = (x;", 3, "expected ')'"),
        (HEADER + "public <a> = [x);", 3, "expected ']'"),
        (HEADER + "public <a> = x);", 3, "expected ';'"),
        (HEADER + "public <a> = x", 3, "expected ';'"),
        (HEADER + "public <a> = x\npublic <b> = y;", 4, "expected ';'"),
        (HEADER + "public <a> = ;", 3, "empty"),
        (HEADER + "public <a> = x | ;", 3, "empty"),
        (HEADER + "public <a> = x | | y;", 3, "empty"),
        (HEADER + "public <a> = x ();", 3, "empty"),
        (HEADER + "public <a> = {t} x;", 3, "tag must follow"),
        (HEADER + "public <a> = x {};", 3, "tag is empty"),
        (HEADER + "public <a> = x {t;", 3, "never closed"),
        (HEADER + 'public <a> = "x;\n', 3, "never closed"),
        (HEADER + "public <a> = <b;\n", 3, "never closed"),
        (HEADER + "\n/* public <a> = x;", 4, "never closed"),
        (HEADER + "public <a> = x}y;", 3, "without a '{'"),
        (HEADER + "public <a> = x\\y;", 3, "backslash"),
        (HEADER + "public <a> = &;", 3, "nothing to say"),
        (HEADER + "public <NULL> = x;", 3, "built in"),
        (HEADER + "public <> = x;", 3, "no rule name"),
        (HEADER + "public a = x;", 3, "expected a rule"),
    ],
)
def test_mistakes(text: str, line: int, complaint: str) -> None:
    """Each mistake is named with the file and the line it stands in."""
    with pytest.raises(GrammarError) as caught:
        parse_grammar(text, "some.jsgf")
    assert caught.value.line == line
    assert str(caught.value).startswith(f"some.jsgf:{line}: ")
    assert complaint in str(caught.value)


MEANINGS = """
public <turn> = [please] turn <dir> [<angle> degrees];
<dir> = left {L} | (to the right) {R};
<angle> = <digit> [point <digit>];
<digit> = one {1} | two {2};
public <centred> = (it is | it's) centred {centred} | centre {centred};
public <pair> = <digit> <digit> {pair};
public <both> = (go {first} there) {second};
public <side> = <off> {side=left} | that way {side=right};
<off> = off;
public <answers> = <turn> | (<centred> | <side>);
public <wrapped> = well <centred>;
"""


@pytest.mark.parametrize(
    ("rule", "said", "command", "slots"),
    [
        ("turn", "turn left", "turn", {"dir": "L"}),
        ("turn", "please turn to the right", "turn", {"dir": "R"}),
        ("turn", "turn left one point two degrees", "turn", {"dir": "L", "angle": "1 point 2"}),
        ("centred", "it's centred", "centred", {}),
        ("pair", "two one", "pair", {"digit": "2 1"}),
        ("both", "go there", "second", {}),
        ("side", "off", "side", {"side": "left"}),
        ("answers", "turn left", "turn", {"dir": "L"}),
        ("answers", "centre", "centred", {}),
        ("answers", "that way", "side", {"side": "right"}),
        ("wrapped", "well it is centred", "wrapped", {"centred": "it is centred"}),
    ],
)
def test_meaning(rule: str, said: str, command: str, slots: dict[str, str]) -> None:
    """Commands and slots follow the convention, and writing out agrees with parsing."""
    grammar = parse_grammar(HEADER + MEANINGS)
    parsed = grammar.parse(said, [rule])
    written = next(phrase for phrase in grammar.phrases([rule]) if phrase.words == said)
    for phrase in (parsed, written):
        assert phrase is not None
        assert (phrase.words, phrase.command, dict(phrase.slots)) == (said, command, slots)


@pytest.mark.parametrize(
    ("typed", "phrase"),
    [
        ("It's  CENTRED!", "it's centred"),
        ("its centred", "it's centred"),
        ("North East", "north-east"),
        ("north-east.", "north-east"),
        ("bootes", "boötes"),
        ("12 ounces", "twelve ounces"),
        ("12-ounces", "twelve ounces"),
        ("one two three", "one two three"),
        ("123", "one two three"),
        ("1,024 of them", "one thousand twenty four of them"),
        ("one thousand twenty-four of them", "one thousand twenty four of them"),
        ("6:30", "six thirty"),
        ("1.5", "one point five"),
    ],
)
def test_typed_words_are_forgiven(typed: str, phrase: str) -> None:
    """Case, punctuation, hyphens, apostrophes, accents and figures don't matter; the answer is the grammar's own spelling."""
    grammar = parse_grammar(
        HEADER
        + "public <a> = it's centred | north-east | boötes | twelve ounces | one two three | one thousand twenty four of them"
        + " | six thirty | one point five;",
        writing=ENGLISH_WRITING,
    )
    found = grammar.parse(typed)
    assert found is not None
    assert found.words == phrase


@pytest.mark.parametrize("typed", ["", " ", "?!", "centre", "it's", "it's centred now", "is it centred", "99999999999999999999999"])
def test_other_words_are_no_phrase(typed: str) -> None:
    """Only whole phrases count: no part, no more, no other order, nothing at all."""
    assert parse_grammar(HEADER + "public <a> = [it's] centred [please];".replace("[it's]", "it's")).parse(typed) is None


def test_sounds() -> None:
    """``@sounds`` tells how words may be written by ear, over several lines too; the phrases stay as they are."""
    text = "/**\n * @sounds Yed  Prior = Ed Prior |  Yet Prior\n * @sounds Phact = Fact\n * @sounds phact = Fakt | */\n"
    grammar = parse_grammar(f"{HEADER}{text}public <a> = it says (Phact | Yed Prior);")
    assert grammar.tree.sounds == {"yed prior": ("Ed Prior", "Yet Prior"), "phact": ("Fact", "Fakt")}
    assert {phrase.words for phrase in grammar.phrases()} == {"it says phact", "it says yed prior"}
    assert grammar.parse("it says fact") is None
    assert ActiveSet.every(grammar).sounds == grammar.tree.sounds


def test_examples_are_tests() -> None:
    """``@example`` and ``@counterexample`` before a rule are checked against that rule, and a failure is named with its line."""
    good = "/** moves\n * @example please go up\n * @counterexample go sideways */\npublic <a> = [please] go (up | down);\n"
    grammar = parse_grammar(HEADER + good)
    assert [(e.rule, e.words, e.line, e.accepted) for e in grammar.examples] == [
        ("a", "please go up", 4, True),
        ("a", "go sideways", 5, False),
    ]
    grammar.check_examples()
    for bad, line in ((good.replace("go up\n", "go in\n"), 4), (good.replace("go sideways", "go down"), 5)):
        with pytest.raises(GrammarError) as caught:
            parse_grammar(HEADER + bad).check_examples()
        assert caught.value.line == line


def test_counts_without_writing_out() -> None:
    """A grammar of two to the thirtieth phrases is counted, parsed against, and refused only when written out."""
    grammar = parse_grammar(HEADER + "public <a> = " + " ".join(f"[w{i}]" for i in range(30)) + ";")
    assert grammar.phrase_count() == 2**30
    found = grammar.parse("w3 w7 w29")
    assert found is not None
    assert found.words == "w3 w7 w29"
    with pytest.raises(GrammarError, match="1073741824 phrases are too many"):
        grammar.phrases()


def test_doubling_rules_stay_bounded() -> None:
    """Rules that swell fourfold at every step do not hang: the count stops, and a sentence without end is refused."""
    doubling = "<a0> = x | y;\n" + "".join(f"<a{i}> = <a{i - 1}> | <a{i - 1}> | <a{i - 1}> | <a{i - 1}>;\n" for i in range(1, 45))
    assert parse_grammar(HEADER + doubling + "public <p> = <a44>;").phrase_count() == 10**18
    assert parse_grammar(HEADER + doubling + "public <p> = <a44>;").parse("y") is not None
    with pytest.raises(GrammarError, match="words; split it"):
        parse_grammar(HEADER + doubling.replace("> | <", "> <") + "public <p> = <a44>;")


def test_void_beside_much_costs_nothing() -> None:
    """What can't be said because of a <VOID> is not written out on the way."""
    assert words("public <a> = go | (" + "(x|y)" * 60 + " <VOID>);") == ["go"]


@pytest.mark.parametrize("opening", ["(", "["])
def test_brackets_without_end(opening: str) -> None:
    """Deep nesting is one clear error, whatever the depth."""
    with pytest.raises(GrammarError, match="brackets within one another"):
        parse_grammar(HEADER + "public <a> = " + opening * 250_000)


def test_a_long_chain_of_rules() -> None:
    """A chain of ten thousand references is one clear error, not a stack running over."""
    with pytest.raises(GrammarError, match="deep"):
        parse_grammar(HEADER + "public <a0> = x;" + "".join(f"<a{i}> = <a{i - 1}>;" for i in range(1, 10_000)))


def test_a_rule_with_many_references() -> None:
    """As many references in one rule as a file holds are read in one pass."""
    body = "".join(f"<b{i}> = w{i};" for i in range(10_000)) + "public <a> = " + "|".join(f"<b{i}>" for i in range(10_000)) + ";"
    assert parse_grammar(HEADER + body).phrase_count() == 10_000


def test_too_large() -> None:
    """More than 256 kB is refused."""
    with pytest.raises(GrammarError, match="larger than 256 kB"):
        parse_grammar(HEADER + "/*" + "x" * 1_000_000 + "*/ public <a> = x;")


def test_files(tmp_path) -> None:
    """Files are read in the encoding their header names, with or without a byte-order mark; others are refused with the line."""
    latin = tmp_path / "latin.jsgf"
    latin.write_bytes("#JSGF V1.0 ISO8859-1 de;\r\ngrammar t;\r\npublic <a> = grün;\r\n".encode("latin-1"))
    assert load_grammar(latin).parse("grün") is not None
    marked = tmp_path / "marked.jsgf"
    marked.write_bytes("\ufeff#JSGF V1.0;\ngrammar t;\npublic <a> = grün;".encode())
    assert load_grammar(marked).parse("grün") is not None
    broken = tmp_path / "broken.jsgf"
    broken.write_bytes(b"#JSGF V1.0;\ngrammar t;\npublic <a> = gr\xfcn;")
    with pytest.raises(GrammarError, match=r"broken\.jsgf:3: .*UTF-8"):
        load_grammar(broken)
    broken.write_bytes(b"#JSGF V1.0 nonsense en;\ngrammar t;\npublic <a> = x;")
    with pytest.raises(GrammarError, match="nonsense"):
        load_grammar(broken)
    with pytest.raises(BadRequest, match="can't be read"):
        load_grammar(tmp_path / "absent.jsgf")
    with pytest.raises(BadRequest, match="can't be read"):
        load_grammar(tmp_path)


def test_unknown_rule_lists_the_choices() -> None:
    """Asking for a rule that is not there names those that are."""
    with pytest.raises(BadRequest, match="no rule 'c'; its public rules are a, b"):
        parse_grammar(HEADER + "public <a> = x; public <b> = y;").phrases(["c"])


def test_active_set_takes_rules_together() -> None:
    """Rules of two grammars form one set; the same words with the same meaning are one phrase; equal sets are equal keys."""
    one = parse_grammar(HEADER + "public <a> = yes {yes} | no {no};", "one.jsgf")
    two = parse_grammar(HEADER + "public <b> = yes {yes} | help {help};", "two.jsgf")
    both = ActiveSet.of((one, "a"), (two, "b"))
    assert [phrase.words for phrase in both.phrases()] == ["yes", "no", "help"]
    assert both.parse("Help!") == Phrase("help", "help")
    assert hash(both) == hash(ActiveSet.of((one, "a"), (two, "b")))
    assert both == ActiveSet.of((one, "a"), (two, "b"))


def test_two_meanings_are_refused() -> None:
    """The same words with two meanings in one set are refused, naming both places; alone each is fine."""
    one = parse_grammar(HEADER + "\npublic <a> = yes {yes};", "one.jsgf")
    two = parse_grammar(HEADER + "public <b> = (yes | x) {go};", "two.jsgf")
    with pytest.raises(GrammarError, match=r'one\.jsgf:4: "yes" means yes in <a> but go in <b> \(two\.jsgf:3\)'):
        ActiveSet.of((one, "a"), (two, "b"))
    with pytest.raises(GrammarError, match="two meanings in <c>: p and q"):
        ActiveSet.of((parse_grammar(HEADER + "public <c> = x {p} | x {q};"), "c"))
    many = parse_grammar(HEADER + "public <m> = " + "[yes] " + " ".join(f"[w{i}]" for i in range(30)) + ";", "many.jsgf")
    with pytest.raises(GrammarError, match=r"many\.jsgf:3"):
        ActiveSet.of((many, "m"), (one, "a"))


def test_nothing_to_say_is_refused() -> None:
    """A set in which nothing can be said is refused."""
    with pytest.raises(GrammarError, match="nothing can be said"):
        ActiveSet.of((parse_grammar(HEADER + "public <a> = <VOID>;"), "a"))


def test_weights_tell_how_likely_alternatives_are() -> None:
    """As the Note's example has it, /10/ small | /2/ medium | /1/ large: shares of the likeliest, multiplied along a phrase.

    Source: JSpeech Grammar Format, W3C Note 5 June 2000, section on weights (from memory). They change neither tags nor slots.
    """
    size = "<size> = /10/ small {s} | /2/ medium {m} | /1/ large {l};\npublic <b> = q {z};\n"
    grammar = parse_grammar(HEADER + size + "public <a> = /1/ <size> | /4/ a <size> {x} | /1/ <b>;")
    weights = {phrase.words: phrase.weight for phrase in grammar.phrases(["a"])}
    bare_sizes = {"small": 0.25, "medium": 0.05, "large": 0.025}
    assert weights == pytest.approx(bare_sizes | {"a small": 1, "a medium": 0.2, "a large": 0.1, "q": 0.25})
    medium, bare = grammar.parse("a medium", ["a"]), grammar.parse("q", ["a"])
    assert medium is not None
    assert bare is not None
    assert (medium.command, medium.slots, medium.weight) == ("x", {"size": "m"}, pytest.approx(0.2))
    assert bare.command == "z"
    assert grammar.commands("a") == {"a", "x", "z"}
