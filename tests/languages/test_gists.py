"""What a typed line is about, by its words: only where nothing else understands it, and never acted upon unasked."""

from __future__ import annotations

import re

import pytest

from companion.dialogue.doubt import SURE
from companion.languages.en.form_gists import FORM
from companion.languages.en.gists import gists
from companion.languages.en.night_gists import NIGHT
from companion.messages import Heard, NotNow, NotUnderstood
from companion.talk import every_rule
from companion.talk.night_answers import TargetAnswer
from companion.talk.question_answers import QUESTION_RULES
from tests.english import VOCABULARY

RULES = {rule.rule(): rule for rule in every_rule()}
ASKED = {command for rule in QUESTION_RULES for command in rule}
PHRASES = [("target", phrase) for _, phrase in NIGHT] + [(rule, phrase) for rule, table in FORM.items() for _, phrase in table]


@pytest.mark.parametrize(("rule", "phrase"), PHRASES)
def test_each_phrase_is_an_answer_there(rule: str, phrase: str) -> None:
    """What a line is taken for is understood as an answer where it is offered, or as a question to us."""
    heard = VOCABULARY.understand(phrase.format(point="south west", mark="three", count="7"), RULES[rule])
    assert isinstance(heard, Heard | NotNow)
    assert isinstance(heard, Heard) or heard.command in ASKED
    assert heard.confidence == 1.0, "it is understood as it stands, not by its gist again"


@pytest.mark.parametrize(
    ("line", "command"),
    [
        ("would you jot that down for me", "seen"),
        ("a great big cloud has covered it", "cloud"),
        ("the little ones would like something too", "for-children"),
        ("could we perhaps try some other nebula", "nebulae"),
        ("there is dew all over the place", "dew"),
        ("somebody gave it a shove and it got knocked", "kicked"),
        ("have you got anything a bit more challenging", "harder"),
        ("I was wondering about the south west, anything good there", "in-direction"),
        ("right, now for a proper challenge", "harder"),
        ("I'm nearly out of juice", "battery"),
        ("would it be better at low power", "which-eyepiece"),
    ],
)
def test_lines_are_taken_for_what_they_are_about(line: str, command: str) -> None:
    """Lines that no grammar holds: their words tell, less surely than what is acted upon unasked."""
    heard = VOCABULARY.understand(line, TargetAnswer)
    assert isinstance(heard, Heard)
    assert heard.command == command
    assert heard.confidence < SURE


@pytest.mark.parametrize(
    ("rule", "line", "command"),
    [
        ("yes_no", "It's good again", "yes"),
        ("yes_no", "no it's still off", "no"),
        ("one_to_five", "four I'd say", "four"),
        ("one_to_five", "quite wobbly", "two"),
        ("milky_way", "very faint", "faintly"),
        ("star_count", "can't see any inside", "none"),
        ("how_it_looked", "like a smoke ring", "round"),
        ("power", "my power bank only gives five volts", "dead"),
        ("setting", "it only takes 24 hour time", "twenty-four-hours"),
        ("miss", "I didn't check, I already moved it", "dont-know"),
        ("check", "pretty sure but not certain", "yes"),
        ("check", "now that you say it, it could've been the other one", "no"),
    ],
)
def test_the_form_is_answered_in_other_words(rule: str, line: str, command: str) -> None:
    """Each of these was taken for something else that may be said there."""
    heard = VOCABULARY.understand(line, RULES[rule], (TargetAnswer,))
    assert isinstance(heard, Heard)
    assert (heard.command, heard.is_guess) == (command, True)


def test_a_name_among_other_words() -> None:
    """A thing by its name is shown, where the line wants to see something."""
    heard = VOCABULARY.understand("my uncle would so like to see Saturn", TargetAnswer)
    assert isinstance(heard, NotNow)
    assert (heard.command, heard.slots["name"]) == ("show-me", "Saturn")


@pytest.mark.parametrize("line", ["the lazy brown fox", "blah blah", "my uncle is a baker", "seventeen sheep"])
def test_what_is_about_nothing_is_not_understood(line: str) -> None:
    """Words that say nothing of the night are left alone."""
    assert isinstance(VOCABULARY.understand(line, TargetAnswer), NotUnderstood)


def test_other_questions_are_left_alone() -> None:
    """What is wanted at a target is wanted nowhere else: elsewhere a name is only asked about."""
    assert [*gists("we would like to see Saturn in the next galaxy", "yes_no")] == []
    assert next(gists("how high is Saturn", "yes_no")).startswith("how high is ")
    assert all(re.search(pattern, "") is None for pattern, _ in NIGHT)
