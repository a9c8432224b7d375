"""Sky numbers and decisions into spoken words: numerals, times, directions, hand measures, and the phrase book."""

from companion.wording.causes import cause_in_words, explain_cause, remedy_for
from companion.wording.phrasebook import words_for
from companion.wording.reasons import reasons_in_words, warning_in_words
from companion.wording.sights import describe_with_caution

__all__ = ["cause_in_words", "describe_with_caution", "explain_cause", "reasons_in_words", "remedy_for", "warning_in_words", "words_for"]
