"""English."""

from __future__ import annotations

import re
from pathlib import Path

from companion.languages.en.book import BOOK
from companion.languages.en.content_words import TELLING
from companion.languages.en.easily_confused import EASILY_CONFUSED
from companion.languages.en.figure_lines import rehearsed
from companion.languages.en.gists import gists
from companion.languages.en.help_topics import TOPICS
from companion.languages.en.sky_words import SKY
from companion.languages.en.typed_forms import CONTRARY_WORDS, town_in, typed_forms
from companion.languages.en.written_forms import ENGLISH_WRITING
from companion.languages.language import Language
from companion.languages.typing_habits import TypingHabits


def _words_in(text: str) -> list[str]:
    return re.findall(r"[a-z]+", text.lower())


_EMPTY_WORDS = (
    "um uh er err erm eh uhm hm hmm ah oh hey so and well now then please thank you thanks just actually I think guess "
    "here today exactly really definitely probably"
)

LANGUAGE = Language(
    code="en",
    book=BOOK,
    sky=SKY,
    writing=ENGLISH_WRITING,
    words_in=_words_in,
    typing=TypingHabits(
        empty_words=frozenset(_words_in(_EMPTY_WORDS)),
        openings=frozenset(_words_in("yes yeah yep yup nope nah okay ok sure wait done")),
        contrary_words=CONTRARY_WORDS,
        other_forms=typed_forms,
        any_name="Saturn",
        gists=gists,
        telling=TELLING,
        town_in=town_in,
    ),
    yes_and_no=frozenset({"yes", "no", "yes please", "yes it is", "no it isn't", "okay", "sure", "yeah", "all right", "go on", "continue"}),
    engines=("vosk", "builtin"),
    voices=("hibari", "pyttsx3"),
    easily_confused=EASILY_CONFUSED,
    rehearsed=rehearsed,
    topics=TOPICS,
    pronunciations=Path(__file__).with_name("pronunciation.csv"),
)
"""English, neutral between its countries where that is possible."""
