"""What a typed line is most likely about, by its words: the phrase that would have said it.

Only for lines that are understood in no other way. What changes anything is asked back, so a wrong guess costs one word.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from companion.languages.en.content_words import asks
from companion.languages.en.form_gists import FORM
from companion.languages.en.hazard_gists import hazard
from companion.languages.en.names_in_lines import asked_of_a_name, names_in, wishes_for_a_name
from companion.languages.en.night_gists import NIGHT


def gists(line: str, rule: str) -> Iterator[str]:
    """Yield the phrases that a typed line may stand for where answers of that rule are expected, the likeliest first."""
    bare = " ".join(re.findall(r"[a-z0-9']+", line.lower()))
    for pattern, phrase in FORM.get(rule, ()):
        if found := re.search(pattern, bare):
            yield phrase.format(**found.groupdict())
    if (danger := hazard(bare)) is not None:
        yield danger
    ask = asked_of_a_name(bare) if asks(line) else None
    if ask is not None:
        yield from (ask.format(name) for name in names_in(bare))
    if rule == "target":
        yield from _at_a_target(bare)
    if ask is None and asks(line):
        yield from (f"where is {name}" for name in names_in(bare))


def _at_a_target(bare: str) -> Iterator[str]:
    """Yield the same where targets are visited: a thing by its name first, then what the words are about."""
    yield from wishes_for_a_name(bare)
    for pattern, phrase in NIGHT:
        if found := re.search(pattern, bare):
            yield phrase.format(**found.groupdict())
