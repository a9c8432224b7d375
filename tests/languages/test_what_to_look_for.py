"""The sentences about showpieces: one each, short, speakable, each about its own object, and no colour where the eye sees none."""

from __future__ import annotations

import csv
import itertools
import re
from importlib.resources import files

import pytest

from companion.languages.tables import look_table
from companion.observing import moon_features, rated_showpieces

with (files("companion.languages.en") / "what_to_look_for.csv").open(encoding="utf-8") as lines:
    ROWS = list(csv.DictReader(lines))
TABLE = look_table("en")
SENTENCES = {row["object"]: row["sentence"] for row in ROWS}
ON_THE_MOON = {feature.name: (TABLE.of_feature(feature.name) or ("", "")) for feature in moon_features()}
ALL = SENTENCES | {name: sentence for name, (_, sentence) in ON_THE_MOON.items()}
KINDS = {showpiece.key: showpiece.body.kind for showpiece in rated_showpieces()}

LONGEST_WORDS = 20
"""As the plan asks."""
ALIKE = 0.4
"""Two sentences may share this part of their words. Judgement: the closest pair shares 0.36."""

COLOURS = re.compile(
    r"\b(red|reddish|orange|golden|gold|yellow\w*|green\w*|blue\w*|bluish|violet|purple|pink|crimson|copper)\b", re.IGNORECASE
)
COLOURLESS = ("galaxy", "globular cluster", "star cloud")
BRIGHT_NEBULAE = {"NGC 3372"}  # its sentence speaks of an orange star in it


def words(sentence: str) -> list[str]:
    """Return a sentence's words in lower case; a hyphened word is one."""
    return re.findall(r"[a-zö'-]+", sentence.lower())


def test_every_showpiece_has_exactly_one() -> None:
    """Each rated object has one sentence, none is left over, and no object has two."""
    assert len(ROWS) == len(SENTENCES)
    assert set(SENTENCES) == set(KINDS)
    assert all(TABLE.of_object(key) == SENTENCES[key] for key in KINDS)
    assert TABLE.of_object("M 40") is None


def test_every_feature_of_the_moon_has_one_and_a_name() -> None:
    """Each feature has one sentence and a name that can be spoken, no two the same, and none is left over."""
    with (files("companion.languages.en") / "what_to_look_for_on_the_moon.csv").open(encoding="utf-8") as lines:
        assert sorted(row["feature"] for row in csv.DictReader(lines)) == sorted(ON_THE_MOON)
    said = [name for name, _ in ON_THE_MOON.values()]
    assert len(set(said)) == len(said)
    assert all(re.fullmatch(r"[A-Za-zöü' ]+", name) for name in said)


@pytest.mark.parametrize("key", ALL)
def test_short_and_speakable(key: str) -> None:
    """At most twenty words, letters and simple stops only, one sentence that ends, no abbreviation and no photograph."""
    sentence = ALL[key]
    assert 8 <= len(words(sentence)) <= LONGEST_WORDS
    assert re.fullmatch(r"[A-Z][A-Za-z',;: -]+\.", sentence)
    # Single capitals are the letters a shape is like; no word is all capitals, none of those people have for abbreviations is there.
    assert all(len(capitals) == 1 for capitals in re.findall(r"\b[A-Z]+\b", sentence))
    assert not re.search(r"\b(photo\w*|image\w*|picture[sd]|camera\w*|mag|arcmin|deg|NGC|IC)\b", sentence)


def test_no_two_begin_alike() -> None:
    """No two share their first six words; indeed not the first three."""
    beginnings = [tuple(words(sentence)[:3]) for sentence in ALL.values()]
    assert len(set(beginnings)) == len(beginnings)


def test_none_is_made_from_a_template() -> None:
    """No two share more than a part of their words, and none but the commonest word begins many."""
    for one, other in itertools.combinations(ALL, 2):
        mine, yours = set(words(ALL[one])), set(words(ALL[other]))
        assert len(mine & yours) / len(mine | yours) < ALIKE, (one, other)


@pytest.mark.parametrize("key", [key for key in SENTENCES if KINDS[key] in (*COLOURLESS, "nebula")])
def test_no_colour_where_the_eye_sees_none(key: str) -> None:
    """Galaxies, globular clusters, star clouds and nebulae are grey to the eye in a small telescope (common practice)."""
    assert key in BRIGHT_NEBULAE or not COLOURS.search(SENTENCES[key])


def test_the_colours_of_stars_are_theirs() -> None:
    """No carbon star is called blue or white itself, and every one of them is called some kind of red (what carbon stars are)."""
    for key, kind in KINDS.items():
        if kind == "carbon star":
            assert re.search(r"\b(red\w*|orange-red|ember|coal|brick|copper-red|Copper-red)\b", SENTENCES[key], re.IGNORECASE), key


KOREAN_COLOURS = re.compile("붉|빨간|주황|노란|노르스름|초록|청록|푸른|푸르스름|보라|분홍")
KOREAN_REDS = re.compile("붉|주황|구릿|숯불|잉걸불|벽돌")


def test_korean_has_one_for_each_too() -> None:
    """The same objects and features, each sentence in Hangul alone and of at most twenty words; colours as above."""
    table = look_table("ko")
    assert all(table.of_feature(feature.name) is not None for feature in moon_features())
    told = [" ".join(table.of_feature(feature.name) or ()) for feature in moon_features()]
    for key, kind in KINDS.items():
        seen = table.of_object(key)
        assert seen is not None, key
        told.append(seen)
        if kind in (*COLOURLESS, "nebula") and key not in BRIGHT_NEBULAE:
            assert not KOREAN_COLOURS.search(seen), key
        if kind == "carbon star":
            assert KOREAN_REDS.search(seen), key
    for words_told in told:
        assert re.fullmatch("[가-힣 ,.]+", words_told), words_told
        assert all(len(sentence.split()) <= LONGEST_WORDS for sentence in words_told.split(". ")), words_told
    assert len(set(told)) == len(told)
