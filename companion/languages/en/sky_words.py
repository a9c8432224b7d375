"""Single things of the sky, told in English outside any conversation."""

from __future__ import annotations

from companion.languages.en.cause_words import explain_cause, remedy_in_words, sum_up_cause, what_would_decide
from companion.languages.en.figure_lines import moon_line, night_lines, place_line
from companion.languages.en.look_for import introduce, look_for
from companion.languages.en.reason_words import reasons_in_words, warning_in_words
from companion.languages.en.sight_words import SUN_CAUTION, describe_with_caution
from companion.languages.language import SkyWords

SKY = SkyWords(
    sun_caution=SUN_CAUTION,
    describe=describe_with_caution,
    introduce=introduce,
    look_for=look_for,
    reasons=reasons_in_words,
    warning=warning_in_words,
    explain=explain_cause,
    sum_up=sum_up_cause,
    what_would_decide=what_would_decide,
    remedy=remedy_in_words,
    night_lines=night_lines,
    moon_line=moon_line,
    place_line=place_line,
)
