"""Every word of the trade that we say has an answer, short enough to be told in one breath."""

from __future__ import annotations

import ast
import re
from importlib import resources

import pytest

from companion.languages.en.advice_phrases import TOLD
from companion.languages.en.trade_word_phrases import FORMS, TASKS, WORDS, first_trade_word
from companion.talk.advice import Advice
from companion.talk.trade_words import Task, TradeWord
from tests.english import VOCABULARY

LONGEST_WORDS = 20
_LISTED = """
alignment, altitude scale, aperture, apparent field, arrow key, aurora, averted vision, azimuth, axis, backlash, balance, barlow,
base, bearing, bezel, bubble, cap, catalogue number, celestial pole, clamp, clutch, collimation, compass needle, constellation,
conjunction, counterweight, culmination, dark adaptation, daylight saving, declination, dew, dew shield, diagonal, double star,
dovetail, drift, eclipse, ecliptic, ephemeris, equator, eyepiece, field stop, filter, finder, finder screws, fist, focal length,
focal ratio, focuser, fork, galaxy, globular cluster, globular star cluster, goto, hand control, heater, landmark, latitude, leg
lock, libration, limb, longitude, low power, magnification, magnitude, meridian, Milky Way, mirror cover, mount, nebula, nutation,
open cluster, open star cluster, park, parallax, planetary nebula, plate solving, pole star, polar scope, proof, quadrant, red
dot, reference star, refraction, reticle, right ascension, seeing, sidereal, slack, slew, slow keys, solar filter, spirit level,
starting pose, sync, target, terminator, transit, transparency, tripod, true north, tube, turret, twilight, Universal Time,
vignette, wedge, worm gear, zenith, zone
"""
TRADE = tuple(" ".join(word.split()) for word in _LISTED.split(","))
"""Words of the trade, ours and others: when a sentence of ours takes a new one, it needs an answer. Judgement."""


def _sentences_of_the_book() -> str:
    """Return all words in the phrase book's chapters, docstrings and names of our modules apart."""
    told = []
    for entry in (resources.files("companion.languages") / "en").iterdir():
        if not entry.name.endswith(("_phrases.py", "_words.py")):
            continue
        tree = ast.parse(entry.read_text("utf-8"))
        docs = {id(node.body[0].value) for node in ast.walk(tree) if hasattr(node, "body") and _is_doc(node.body)}
        told += [
            node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs
        ]
    return " \n ".join(words for words in told if " " in words)


def _is_doc(body: object) -> bool:
    return isinstance(body, list) and bool(body) and isinstance(body[0], ast.Expr)


EVERYTHING = VOCABULARY.everything
ADVICE_GRAMMAR = next(grammar for grammar in VOCABULARY.grammars if grammar.name == "advice")
TYPED_GRAMMAR = next(grammar for grammar in VOCABULARY.grammars if grammar.name == "typed")


def test_every_trade_word_said_has_an_answer() -> None:
    """Walk the phrase book for words of the trade: each has an answer among ours."""
    book = _sentences_of_the_book()
    assert "Tripod on firm ground, fully spread, every lock tight." in book
    ours = {form.casefold() for forms in FORMS.values() for form in forms}
    said = [word for word in TRADE if re.search(rf"\b{word.replace(' ', '[ -]')}s?\b", book, re.IGNORECASE)]
    assert len(said) > 40
    assert [word for word in said if word.casefold() not in ours] == []


@pytest.mark.parametrize("answer", [*WORDS.values(), *TASKS.values(), *TOLD.values()])
def test_answers_are_short(answer: str) -> None:
    """At most two sentences, each of at most twenty words; nothing that silences or repeats us."""
    sentences = re.split(r"(?<=[.?!])\s+", answer)
    assert len(sentences) <= 2
    assert all(len(sentence.split()) <= LONGEST_WORDS for sentence in sentences)
    assert not re.search(r"\bstop\b|say that again|\d", answer, re.IGNORECASE)


def test_every_word_and_task_has_its_entry() -> None:
    """No word without answer and form, no task and no piece of advice without answer."""
    assert set(TOLD) == set(Advice)
    assert set(WORDS) == set(FORMS) == set(TradeWord)
    assert set(TASKS) == set(Task)


@pytest.mark.parametrize("advice", Advice)
def test_each_piece_of_advice_can_be_had(advice: Advice) -> None:
    """Something in the grammars leads to each, and to no other; what is made of short everyday words is only typed."""
    heard, typed = ADVICE_GRAMMAR.phrases(), TYPED_GRAMMAR.phrases(["advice_question_typed"])
    assert advice in {phrase.slots["advice"] for phrase in (*heard, *typed)}


@pytest.mark.parametrize("words", ["I can't lift it alone", "it's too heavy for me", "I can't carry it"])
def test_a_load_too_heavy_for_one(words: str) -> None:
    """Who says so is told not to lift it, however it is put."""
    phrase = ADVICE_GRAMMAR.parse(words)
    assert phrase is not None
    assert phrase.slots["advice"] == Advice.HEAVY


@pytest.mark.parametrize("word", TradeWord)
def test_each_can_be_asked(word: TradeWord) -> None:
    """Each form of a word is in the grammar, with its tag."""
    for form in FORMS[word]:
        for asked in (f"what is a {form}", f"what does {form} mean"):
            phrase = EVERYTHING.parse(asked)
            assert phrase is not None, asked
            assert (phrase.command, phrase.slots["word"]) == ("what-is", word)


@pytest.mark.parametrize(
    ("words", "word"),
    [
        ("Firm ground, legs spread, every leg lock tight. Ready?", TradeWord.LEG_LOCK),
        ("Start with the low-power eyepiece.", TradeWord.LOW_POWER),
        ("Is that right?", None),
    ],
)
def test_the_first_word_in_a_sentence(words: str, word: TradeWord | None) -> None:
    """The word said first is found, the longer of two in the same place, hyphens or not."""
    assert first_trade_word(words) is word
