"""Grammar text -> tokens, each with its line. One pass, linear in the length of the text."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto

from companion.errors import GrammarError


class Kind(Enum):
    """What a token is."""

    WORD = auto()
    REFERENCE = auto()
    TAG = auto()
    MARK = auto()
    WEIGHT = auto()
    DOC = auto()
    END = auto()


@dataclass(frozen=True)
class Token:
    """One token of a grammar file."""

    kind: Kind
    text: str
    """Without its brackets, quotes and escapes."""
    line: int
    quoted: bool = False


LONGEST_WORD = 64
"""Letters of one word; a longer one is a slip, and costs the recognisers time without end."""
_HEADER = re.compile(r"#JSGF[ \t]+V1\.0(?:[ \t]+([^\s;]+))?(?:[ \t]+([^\s;]+))?[ \t]*;")
_TOKEN = re.compile(
    r"""
      (?P<space>\s+)
    | (?P<doc>/\*\*(?!/).*?\*/)
    | (?P<comment>//[^\n]*|/\*.*?\*/)
    | <(?P<reference>[^<>\n]*)>
    | \{(?P<tag>(?:\\.|[^\\}])*)\}
    | "(?P<quoted>(?:\\.|[^\\"\n])*)"
    | (?P<mark>[=;|()\[\]])
    | /(?P<weight>[^/*\n]*)/
    | (?P<word>[^\s=;|*+<>()\[\]{}/"\\]+)
    """,
    re.VERBOSE | re.DOTALL,
)
_ESCAPE = re.compile(r"\\(.)", re.DOTALL)
_COMPLAINTS = {
    "*": "'*' (any number of times) is not in our subset; write the repeats out, so that the grammar stays finite",
    "+": "'+' (once or more) is not in our subset; write the repeats out, so that the grammar stays finite",
    "/*": "this comment is never closed; end it with */",
    "/": "this weight is never closed; write it as /0.5/",
    "<": "this rule name is never closed; end it with '>' on the same line",
    ">": "'>' without a '<' before it",
    "{": "this tag is never closed; end it with '}'",
    "}": "'}' without a '{' before it",
    '"': "this quoted word is never closed; end it with '\"' on the same line",
    "\\": "a backslash only belongs inside quotes or a tag",
}


def tokens(text: str, file: str) -> Iterator[Token]:
    """Yield the tokens after the ``#JSGF V1.0 …;`` header, then END. Raises GrammarError at what is no token."""
    header = _HEADER.match(text)
    if header is None:
        raise GrammarError("the first line must be '#JSGF V1.0;'", file=file, line=1)
    starts = [0, *(found.end() for found in re.finditer("\n", text))]
    at = header.end()
    while at < len(text):
        line = bisect_right(starts, at)
        found = _TOKEN.match(text, at)
        if found is None:
            complaint = next(words for start, words in _COMPLAINTS.items() if text.startswith(start, at))
            raise GrammarError(complaint, file=file, line=line)
        at = found.end()
        match found.lastgroup:
            case "doc":
                yield Token(Kind.DOC, found["doc"], line)
            case "reference":
                yield Token(Kind.REFERENCE, found["reference"].strip(), line)
            case "tag":
                yield Token(Kind.TAG, _ESCAPE.sub(r"\1", found["tag"]).strip(), line)
            case "quoted":
                yield Token(Kind.WORD, _spoken(_ESCAPE.sub(r"\1", found["quoted"]), file, line), line, quoted=True)
            case "mark":
                yield Token(Kind.MARK, found["mark"], line)
            case "weight":
                yield Token(Kind.WEIGHT, found["weight"].strip(), line)
            case "word":
                yield Token(Kind.WORD, _spoken(found["word"], file, line), line)
    yield Token(Kind.END, "", len(starts))


def _spoken(words: str, file: str, line: int) -> str:
    """Return what is in a token, unless one of its words is longer than anybody says."""
    longest = max(words.split(), key=len, default="")
    if len(longest) > LONGEST_WORD:
        raise GrammarError(f"the word {longest[:20]}… has {len(longest)} letters, at most {LONGEST_WORD} can be said", file=file, line=line)
    return words


def declared_encoding(head: bytes) -> str | None:
    """Return the character encoding that a file's header names, if any."""
    found = _HEADER.match(head.decode("latin-1"))
    return found[1] if found else None
