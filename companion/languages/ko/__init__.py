"""Korean. No native speaker has reviewed it yet."""

from __future__ import annotations

import re

from companion.languages.ko.book import BOOK
from companion.languages.ko.content_words import TELLING
from companion.languages.ko.error_words import error_words
from companion.languages.ko.figure_lines import rehearsed
from companion.languages.ko.gists import gists
from companion.languages.ko.heard_numbers import is_number_word, number_in_words
from companion.languages.ko.help_topics import TOPICS
from companion.languages.ko.sky_words import SKY
from companion.languages.ko.spoken_names import body_called, town_called
from companion.languages.ko.typed_forms import typed_forms
from companion.languages.language import Language
from companion.languages.typing_habits import TypingHabits
from companion.orthography import Orthography
from companion.talk.answers import BearingAnswer, CalendarDateAnswer, ClockTimeAnswer, ToldFigureAnswer, YearAnswer


def _words_in(text: str) -> list[str]:
    return re.findall(r"[가-힣]+", re.sub(r"(?<=요)(?:이?라고|처럼|하고|도|는|를)\b", r" \g<0>", text))


LANGUAGE = Language(
    code="ko",
    book=BOOK,
    sky=SKY,
    writing=Orthography(cardinal=number_in_words, point="점", is_number_word=is_number_word, negations=("안", "못", "아니", "없")),
    words_in=_words_in,
    typing=TypingHabits(
        empty_words=frozenset(_words_in("음 어 아 저 그 자 좀 그럼 이제 글쎄")),
        openings=frozenset({"네", "예", "응"}),
        contrary_words=frozenset({"그런데", "하지만", "근데"}),
        other_forms=typed_forms,
        any_name="토성",
        gists=gists,
        telling=TELLING,
    ),
    easily_confused=frozenset(
        {ClockTimeAnswer.PAST, ClockTimeAnswer.TO, CalendarDateAnswer.DATE, YearAnswer.YEAR, BearingAnswer.BEARING}
        | {ToldFigureAnswer.SKY_MAG, ToldFigureAnswer.FINDER_FIELD, ToldFigureAnswer.EYEPIECE_IN}
    ),
    yes_and_no=frozenset({"네", "예", "아니요", "네 맞아요"}),
    engines=("vosk",),
    voices=("pyttsx3",),
    rehearsed=rehearsed,
    topics=TOPICS,
    body_called=body_called,
    town_called=town_called,
    error_words=error_words,
    pronunciations=None,
    rehearsal="ko_winter_evening",
    reviewed=False,
)
"""Korean in the polite style of speech (해요체) throughout."""
