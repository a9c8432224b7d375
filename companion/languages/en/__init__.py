"""English."""

from __future__ import annotations

import re
from pathlib import Path

from companion.languages.en.book import BOOK
from companion.languages.en.easily_confused import EASILY_CONFUSED
from companion.languages.en.help_topics import TOPICS
from companion.languages.en.sky_words import EnglishSky
from companion.languages.en.written_forms import ENGLISH_WRITING
from companion.languages.language import Language


def _words_in(text: str) -> list[str]:
    return re.findall(r"[a-z]+", text.lower())


LANGUAGE = Language(
    code="en",
    book=BOOK,
    sky=EnglishSky(),
    writing=ENGLISH_WRITING,
    words_in=_words_in,
    empty_words=frozenset(_words_in("um uh er erm hm hmm ah oh so well now then please thanks just actually I think")),
    yes_and_no=frozenset({"yes", "no", "yes please", "yes it is", "no it isn't"}),
    engines=("vosk", "builtin"),
    voices=("hibari", "pyttsx3"),
    easily_confused=EASILY_CONFUSED,
    topics=TOPICS,
    pronunciations=Path(__file__).with_name("pronunciation.csv"),
)
"""English, neutral between its countries where that is possible."""
