"""How somebody who has never seen a name writes what they hear: from the letters of Arabic, Greek and Latin names to English spellings.

A name's letters are read in the ways English speakers read them, and each reading is written as an English word would be: the recogniser
knows sounds only as writing, in pieces of English words. ``RULES`` are tried in order at each place of a word, and the first that fits
is taken. Its spellings stand with the usual one first; of all that can be put together those with the fewest unusual ones are kept.

Sources: ``latin`` is the English reading of Latin and Greek as English dictionaries teach it (common practice, value from memory),
``arabic`` how Arabic letters are romanised and read by those who don't speak it (the same), ``schwa`` that English vowels without stress
fall together, ``lax`` that voice is lost at a word's end (both textbook phonetics, value from memory). Which spellings stand for a
sound, and in which order, is judgement.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import islice, product

MOST = 12
"""Spellings of a name: each is a further text to be weighed wherever the name is."""
_LOOKED_AT = 6_000
"""Ways to put a word together that are compared; only the longest names have more."""

RULES: tuple[tuple[str, str, str], ...] = (
    # Letters as a regular expression, their spellings, and why.
    (r"^betel", "beetle/betel", "English took it for two words"),
    (r"g(?:eu|ue)[sz]e$", "juice/jooz/gerz", "the same"),
    (r"sch", "sh", "latin, as German took it over"),
    (r"^ds?ch|^dz", "j", "arabic: one sound, j"),
    (r"ph", "f", "latin"),
    (r"th", "th/t/f", "lax: few languages tell them apart"),
    (r"gh", "g", "arabic"),
    (r"dh", "d", "arabic"),
    (r"sh", "sh", "arabic"),
    (r"qu", "kw", "latin"),
    (r"q", "k", "arabic"),
    (r"ch(?=[^aeiouy]|$)", "k/ck", "latin and arabic"),
    (r"ch", "k/ch", "latin and arabic"),
    (r"sc(?=[eiy])", "s", "latin"),
    (r"c(?=[eiy])", "s", "latin"),
    (r"ck|k$", "k/ck", "English doubling"),
    (r"c", "c/k", "latin"),
    (r"k", "k/c", "latin"),
    (r"^gie(?=n)", "jee/je/gee", "latin: g is soft"),
    (r"g(?=[eiy])", "j/g", "latin: g is soft; arabic: it isn't"),
    (r"^x", "z", "latin"),
    (r"x$", "x/cks/cs", "English doubling"),
    (r"ae|oe", "ee/ay", "latin"),
    (r"ai(?=.)", "ay/eye/i", "arabic: ay; English: eye"),
    (r"ai$", "eye/ay/y", "arabic: ay; English: eye"),
    (r"au", "ow/aw/o", "latin: aw; arabic: ow"),
    (r"ei", "ay/ee/i", "arabic: ay"),
    (r"ieb", "eeb/ib", "latin"),
    (r"ao", "ayo/ow", "latin: two syllables; English: one"),
    (r"ea", "ee/ea/ay a", "English"),
    (r"ia$", "ia/ya/ee a", "latin"),
    (r"uu", "oo/u", "arabic: long"),
    (r"aa", "a/ah", "arabic: long"),
    (r"eh$|e$", "ee/ay/", "latin: said; English: silent"),
    (r"ah$|a$", "a/ah/er", "schwa"),
    (r"^i$", "eye/ee", "English: a word by itself"),
    (r"i$", "ee/y/eye", "latin: eye; arabic: ee"),
    (r"[ie]us$", "ius/eus/ias", "schwa"),
    (r"us$", "us/is/as", "schwa"),
    (r"[ieu]r(?=[^aeiouy])", "er/ur/ir", "schwa: one vowel before r"),
    (r"ar$", "ar/er/are", "schwa"),
    (r"or$", "or/er/ar", "schwa"),
    (r"h(?=[^aeiouy])", "/h", "arabic: lost"),
    (r"(?<=b)h", "", "arabic: lost"),
    (r"b$", "b/p", "lax"),
    (r"d$", "d/t", "lax"),
    (r"(?<=[^aeiouy])a(?=[^aeiouy]{1,2}$)", "a/o/u/e", "schwa"),
    (r"(?<=[^aeiouy])e(?=[^aeiouy]{1,2}$)", "e/a/i", "schwa"),
    (r"(?<=[^aeiouy])i(?=[^aeiouy]{1,2}$)", "i/ee/e", "schwa; arabic: long"),
    (r"(?<=[^aeiouy])o(?=[^aeiouy]{1,2}$)", "o/a/au", "schwa"),
    (r"^i(?=[^aeiou][aeiou])", "i/eye/ee", "English: long before one consonant"),
    (r"a(?=[^aeiou][aeiou])", "a/ay", "the same"),
    (r"u(?=[^aeiou]h?[aeiou])", "oo/u", "arabic: long"),
    (r"i(?=[^aeiou][aeiou])", "i/ee/y", "arabic: long; English: eye"),
    (r"e(?=[^aeiou][aeiou])", "e/ee", "English: long before one consonant"),
    (r"y(?=[^aeiou])", "i/y/eye", "latin; English: long"),
)
_READ = tuple((re.compile(letters), tuple(spellings.split("/"))) for letters, spellings, _ in RULES)
_ARTICLE = re.compile(r"(?:al|el)(?=[^aeiouy]{1,2}[aeiouy])")
"""Arabic "the": said, and heard, as a word of its own."""
_INNER_ARTICLE = re.compile(r"([^aeiouy]*[aeiouy]+\w*?[^aeiouy])(al|el|es)(?=[^aeiouy]{1,2}[aeiouy]\w)")
"""The same between two Arabic words: "Sadal Melik" and "Sad Al Melik"."""
_FIRST_SYLLABLE = re.compile(
    r"[aeio](?=[^aeiouy]h?[aeiourl])|[^aeiouy]+[aeiouy]+(?:[^aeiouy](?=[^aeiouyhr][aeiouy])|(?=[^aeiouy][aeiouy]))"
)
"""A first syllable is easily taken for a word: "a Dara", "Men Kar", "My Rack"."""


def spellings(name: str) -> tuple[str, ...]:
    """Return how a name of one or several words may be written by ear, at most ``MOST``, never as it is written already."""
    words = [_of_word(word) for word in name.lower().split()]
    every = dict.fromkeys(" ".join(chosen) for chosen in _usual_first(words))
    every.pop(name, None)
    return tuple(islice(every, MOST))


def _of_word(word: str) -> list[str]:
    """Return the readings of a word, the likeliest first, with large first letters; whole and cut in two take turns."""
    whole = [text.capitalize() for text in _readings(word)]
    if article := _ARTICLE.match(word):
        rests = _written_first(word[article.end() :])
        return _in_turn([f"{the} {rest.capitalize()}" for rest in rests for the in ("Al", "El")], whole)
    if inner := _INNER_ARTICLE.match(word):
        firsts, rests = (_written_first(part) for part in (inner[1], word[inner.end() :]))
        pairs = [(first.capitalize(), rest.capitalize()) for first, rest in _usual_first([firsts, rests])]
        apart = [f"{first} {inner[2].capitalize()} {rest}" for first, rest in pairs]
        return _in_turn(_in_turn([f"{first}{inner[2]} {rest}" for first, rest in pairs], whole), apart)
    if syllable := _FIRST_SYLLABLE.match(word):
        first, rest = _written_first(word[: syllable.end()]), _written_first(word[syllable.end() :])
        return _in_turn(whole, [f"{one.capitalize()} {other.capitalize()}" for one, other in _usual_first([first, rest])])
    return whole


def _readings(word: str) -> list[str]:
    return list(dict.fromkeys("".join(parts) for parts in _usual_first(_parts(word))))


def _written_first(part: str) -> list[str]:
    """Return the readings of a part of a word, behind the part as it is written: cut off, it is new."""
    return list(dict.fromkeys((part, *_readings(part))))


def _parts(word: str) -> list[tuple[str, ...]]:
    """Cut a word into the pieces that the rules know, each with its spellings; a letter that none knows stays as it is."""
    parts: list[tuple[str, ...]] = []
    at = 0
    while at < len(word):
        fitting = ((found.end(), spelt) for letters, spelt in _READ if (found := letters.match(word, at)) and found.end() > at)
        at, spelt = next(fitting, (at + 1, (word[at],)))
        parts.append(spelt)
    return parts


def _in_turn(one: Sequence[str], other: Sequence[str]) -> list[str]:
    longest = max(len(one), len(other))
    return [text for at in range(longest) for some in (one, other) for text in some[at : at + 1]]


def _usual_first(choices: Sequence[Sequence[str]]) -> Iterator[tuple[str, ...]]:
    """Yield one of each list at a time, those with the fewest and the least unusual choices first."""
    places = islice(product(*(range(len(options)) for options in choices)), _LOOKED_AT)
    for chosen in sorted(places, key=sum):
        yield tuple(options[place] for options, place in zip(choices, chosen, strict=True))
