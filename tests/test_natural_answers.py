"""A walk over the grammar: every question takes three natural ways to say yes, no, not yet, don't know and can't, or it is said why not."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from companion.talk import every_ask
from companion.talk.saying import Answers
from tests.english import VOCABULARY

LEAST = 3
WAYS: Mapping[str, tuple[str, ...]] = {
    "yes": ("yes", "yes it is", "yeah", "okay", "sure", "of course", "that's right", "got it", "done"),
    "no": ("no", "nope", "no it isn't", "not really", "no thanks", "no not yet", "not ready", "not quite", "nothing", "none", "no more"),
    "not yet": ("not yet", "just a minute", "hang on", "give me a minute", "wait a moment", "one moment"),
    "don't know": ("I don't know", "no idea", "I've no idea", "how should I know", "I'm not sure"),
    "can't": ("I can't", "I can't do that", "I can't manage that", "that's not possible", "I can't see it", "skip this"),
}
"""What people say who answer in their own words. Common practice, no published source."""
WHICH = "it asks which of several, so yes and no say nothing"
FIGURE = "it asks for a figure or a name, so yes and no say nothing"
_WHICH_RULES = (
    "either",
    "facing",
    "confirm_key",
    "fullness",
    "phone_north",
    "pose_time",
    "star_choice_else",
    "view",
    "arrow_by_cable",
    "last_keys",
    "tube_rose",
    "tube_turned",
)
_FIGURE_RULES = (
    *(
        "bearing",
        "calendar_date",
        "clock_time",
        "coordinate",
        "field_width",
        "finder_width",
        "fists",
        "from_town",
        "millimetres",
    ),
    *("key_place", "miss", "one_to_five", "star_name", "town", "year"),
)
_NO_YES = ("company", "compass_kind", "finder_kind", "horizon", "kit", "level_aid", "limits", "milky_way", "star_choice", "unseen")
WHY_NOT: Mapping[str, Mapping[str, str]] = {
    **{rule: {"yes": WHICH, "no": WHICH} for rule in _WHICH_RULES},
    **{rule: {"yes": FIGURE, "no": FIGURE} for rule in _FIGURE_RULES},
    **{rule: {"yes": WHICH} for rule in _NO_YES},
    "few_millimetres": {"yes": FIGURE},
    "town_letters": {"yes": "it asks for letters", "no": "it asks for letters"},
    "star_count": {"yes": FIGURE},
    "how_it_showed": {"yes": WHICH},
    "how_it_looked": {"yes": WHICH},
    "turn": {"yes": "a mount turns only on words of its own: a yes is said too easily"},
}
"""What a question can't be answered with, by its rule, and why."""
WHY_FEWER: Mapping[tuple[str, str], str] = {
    ("company", "no"): "it asks alone or with people: not alone is the only no",
    ("turn_readily", "yes"): "it turns the mount: only a plain yes does that",
    ("unseen", "no"): "it asks what is seen instead: nothing is the only no",
}
"""Where fewer than three are natural."""


RULES = sorted({question.expects for question in every_ask()}, key=lambda rule: rule.rule())


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.rule())
def test_natural_ways_to_answer(rule: type[Answers]) -> None:
    """Each meaning is understood in three ways or more; what stands among the reasons isn't. Run with -s for the whole report."""
    live, otherwise = VOCABULARY.active(rule), VOCABULARY.otherwise(rule)
    for meaning, ways in WAYS.items():
        heard = [words for words in ways if live.parse(words) or otherwise.parse(words)]
        reason = WHY_NOT.get(rule.rule(), {}).get(meaning) or WHY_FEWER.get((rule.rule(), meaning))
        print(f"{rule.rule()}: {meaning}: {', '.join(heard) or '-'}{f' ({reason})' if reason else ''}")
        if reason is None:
            assert len(heard) >= LEAST, (rule.rule(), meaning, heard)
        else:
            assert len(heard) < LEAST, f"{rule.rule()} takes {meaning} after all: {heard}"
