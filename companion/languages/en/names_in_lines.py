"""What a typed line may name, and what it asks or wants of that: the phrases of ours that would have said it."""

from __future__ import annotations

import re
from collections.abc import Iterator

_LONGEST_NAME = 4
_NO_NAME = frozenset(
    re.findall(
        r"\w+",
        "show see look go try do start begin first want wants next find visit point please like can could they she he "
        "we you i me us them the a an at is are was were it that this what where when which how who in on of to for "
        "with and or my our their again now then one some any good north south east west ",
    )
)
"""No name begins or ends with them, save "the"."""
_SHORTEST_NAME = 4
_NUMBER = re.compile(r"\b(m|messier|n ?g ?c|i ?c|c|caldwell) ?(\d+)\b")
"""An object by its catalogue's number."""
_WANTED = re.compile(
    r"\b(show|see|look|go|try|do|start|begin|first|want|wants|next|find|visit|point|please|like|swing|take|slew"
    r"|over to|get|bring|let me|how about|what about|fancy|love to)\b"
)
_ASKED_OF_A_NAME = (
    (r"\bwhere\w*\b|\bwhich (way|direction)\b", "where is {}"),
    (r"\b(rises?|comes? up|rising)\b", "when does {} rise"),
    (r"\b(sets?|goes? down|setting|disappears?|sinks?)\b", "when does {} set"),
    (r"\bhow (high|low)\b", "how high is {}"),
    (r"\bhow (far|distant)\b|\bdistance\b|\blight ?years?\b", "how far is {}"),
    (r"\bhow (big|large|wide)\b|\bsize\b", "how big is {}"),
    (r"\b(up|visible|out)\b", "is {} up"),
    (r"^(what|what's) (kind|sort|is|are|exactly)\b", "what is {}"),
)
"""What is asked of a thing by its name, wherever that stands in the line."""


def asked_of_a_name(bare: str) -> str | None:
    """Return what a line asks of the thing it names, with a place for the name; None where it asks nothing of the kind."""
    return next((ask for pattern, ask in _ASKED_OF_A_NAME if re.search(pattern, bare)), None)


def wishes_for_a_name(bare: str) -> Iterator[str]:
    """Yield the wishes to see what a line may name, the likeliest first."""
    yield f"show me {bare}"  # a name and nothing else
    yield from (f"show me {' '.join(found.groups())}" for found in _NUMBER.finditer(bare))
    if _WANTED.search(bare):
        yield from (f"show me {name}" for name in names_in(bare))
    if re.search(r"\b(in|next|to)\b", bare):
        yield from (f"something in {name}" for name in names_in(bare))


def names_in(bare: str) -> Iterator[str]:
    """Yield what may be a name in it, the longest first."""
    words = bare.split()
    for count in range(min(_LONGEST_NAME, len(words)), 0, -1):
        for first in range(len(words) - count + 1):
            name = words[first : first + count]
            if count == 1 and name[0].endswith("s"):
                # "saturns rings": whose they are is named.
                yield from (
                    one for one in (name[0].removesuffix("'s").removesuffix("s"),) if one not in _NO_NAME and len(one) >= _SHORTEST_NAME
                )
            if name[-1] not in _NO_NAME and name[0] not in _NO_NAME and len(" ".join(name)) >= _SHORTEST_NAME:
                yield " ".join(name)
