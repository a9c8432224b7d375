"""How people type what the grammars spell in one way only: contractions, American spellings, catalogue numbers, "we" for "I".

Each way is tried in turn, so a form that fits nothing costs nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from companion.languages.en.number_words import ordinal
from companion.languages.en.written_forms import to_british

_CATALOGUE = re.compile(r"\b(ngc|ic|m|c)\s*(\d+)\b", re.IGNORECASE)
_RATIO = re.compile(r"\bf\s*/?\s*(?=\d)", re.IGNORECASE)
_ADVERBS = re.compile(
    r"\b(really|actually|quite|still|already|definitely|probably|very|all|now|way(?= over)|roughly|over(?= to )"
    r"|(?<=a )(?:tiny|little|wee|small)) |\s+(to|for) me\b"
    r"|\s+(any ?more|any longer|at all|at the moment|just now|right now|or so|ish|or thereabouts)\b",
    re.IGNORECASE,
)
"""What makes a thing more or less so, and changes no answer."""
_BEFORE_A_FIGURE = re.compile(r"^((it's|it is|about|around|roughly|a|an|my|the) )+(?=\d)", re.IGNORECASE)
_UNITS = {
    "mm": "millimetres",
    "km": "kilometres",
    "mi": "miles",
    "k": "kilometres",
    "kms": "kilometres",
    "in": "inches",
    "°": "degrees",
    "deg": "degrees",
}
_UNIT = re.compile(rf"(?<=\d)\s*({'|'.join(_UNITS)})(?![a-z])", re.IGNORECASE)
_PLACE = re.compile(r"\b(\d{1,2})(?:st|nd|rd|th)\b", re.IGNORECASE)
_LETTERS = re.compile(r"\b(?!OK\b)[A-Z]{2,4}\b")
"""Said letter by letter."""
_PLAIN = {
    "ok": "okay", "alright": "all right", "cannot": "can't", "gonna": "going to", "goodnight": "good night", "wanna": "want to",
    "scope": "telescope", "scope's": "telescope's", "tele": "telescope", "ep": "eyepiece", "eps": "eyepieces", "batt": "battery",
    "batts": "batteries", "dunno": "I don't know", "idk": "I don't know", "brb": "just a minute", "thx": "thanks", "pls": "please",
    "ur": "your", "u": "you", "wot": "what", "yer": "yes", "yup": "yes", "yeh": "yes", "nah": "no", "hc": "handset",
    "alt": "altitude", "az": "azimuth", "lat": "latitude", "mins": "minutes",
    "secs": "seconds", "hrs": "hours", "dst": "daylight saving", "tz": "time zone",
}  # fmt: skip
_IN_SHORT = {
    "skip": "skip this", "back": "go back", "undo": "go back", "again": "say that again", "how": "help", "in": "that's in", "go": "ready",
    "gone": "it's gone", "great": "that's great", "nice": "that's great", "cool": "that's great", "pretty": "that's great",
    "mag": "how bright is it", "magnitude": "how bright is it",
}  # fmt: skip
"""Whole lines too short to be spoken for certain."""
_OF_SEVERAL = {"we": "I", "we've": "I've", "we're": "I'm", "we'll": "I'll", "us": "me", "our": "my", "ours": "mine"}
"""A group's spokesman says the same as one alone."""
_SHORT = {
    "it is": "it's", "it has": "it's", "that is": "that's", "there is": "there's", "what is": "what's", "where is": "where's",
    "when is": "when's", "how is": "how's", "who is": "who's", "I am": "I'm", "I have": "I've", "I will": "I'll", "I would": "I'd",
    "is not": "isn't", "are not": "aren't", "was not": "wasn't", "does not": "doesn't", "do not": "don't", "did not": "didn't",
    "can not": "can't", "could not": "couldn't", "will not": "won't", "has not": "hasn't", "have not": "haven't", "let us": "let's",
    "they are": "they're", "we are": "we're", "everything is": "everything's", "the Moon is": "the Moon's",
}  # fmt: skip
"""Two words and what they are in one."""
_LONG = {**{short: long for long, short in reversed(_SHORT.items())}, "isn't": "is not"}
_OTHER_WORDS = ("we're", "we'll", "I'll", "I'd")
"""Without their apostrophes these are words of their own."""
_CLOSED_UP = {short.replace("'", ""): short for short in (*_SHORT.values(), "we've") if short not in _OTHER_WORDS}
"""As people type in a hurry."""
_NEGATIONS = (short for short in _SHORT.values() if short.endswith("n't"))
CONTRARY_WORDS = frozenset({"but", "except", "unless", "if", "although", "not", "never", *_NEGATIONS})
"""What may turn an answer beside it round."""


def typed_forms(line: str) -> tuple[str, ...]:
    """Return the other ways to write a line, the nearest to it first."""
    return tuple(dict.fromkeys(_forms(line)))


def _forms(line: str) -> Iterator[str]:
    if (whole := _IN_SHORT.get(line.strip(" .!?").lower())) is not None:
        yield whole
    line = line if line.isupper() else _LETTERS.sub(lambda found: " ".join(found[0]), line)
    line = _UNIT.sub(lambda found: f" {_UNITS[found[1].lower()]}", _BEFORE_A_FIGURE.sub("", line))
    line = _PLACE.sub(lambda found: ordinal(int(found[1])).replace("-", " "), _RATIO.sub("F ", line))
    plain = _by_word(_CATALOGUE.sub(lambda found: f"{' '.join(found[1])} {found[2]}", line.replace("’", "'")), _PLAIN)
    plain = " ".join(_CLOSED_UP.get(word.strip(",.!?").lower(), to_british(word)) for word in plain.split())
    for barely in dict.fromkeys((plain, _ADVERBS.sub("", plain))):
        forms = (barely, _by_pair(barely), _by_word(barely, _LONG))
        yield from forms
        yield from (_by_word(form, _OF_SEVERAL) for form in forms)
        yield _IS.sub(" is", barely)


def _by_word(line: str, table: dict[str, str]) -> str:
    """Return the line with words replaced, whatever stands right after them left alone."""
    known = {word.lower(): other for word, other in table.items()}
    return re.sub(r"[A-Za-z']+", lambda found: known.get(found[0].lower(), found[0]), line)


_IS = re.compile(r"(?<=\w)'s\b")
"""After any word, not only after those that the grammars shorten."""
_PAIRS = re.compile(rf"\b(?:{'|'.join(map(re.escape, _SHORT))})\b", re.IGNORECASE)
_BY_PAIR = {pair.lower(): short for pair, short in _SHORT.items()}


def _by_pair(line: str) -> str:
    return _PAIRS.sub(lambda found: _BY_PAIR[found[0].lower()], line)


_NEAR_A_TOWN = re.compile(
    r"^(?:(?:no|I'm|we're|I am|we are|it's)\W+)*(?:near|close to|by|in|at|outside|not far from)\s+(?P<town>.+?)\W*$", re.IGNORECASE
)


def town_in(line: str) -> str | None:
    """Return the town that a line says somebody is near to."""
    found = _NEAR_A_TOWN.match(line.strip().replace("’", "'"))
    return None if found is None else found["town"]
