"""Sky numbers and decisions into spoken words: numerals, times, directions, hand measures, and the phrase book."""

from companion.languages.en.cause_words import cause_in_words, explain_cause, remedy_for
from companion.languages.en.reason_words import reasons_in_words, warning_in_words
from companion.languages.en.sight_words import describe_with_caution
from companion.languages.phrasebook import words_for

__all__ = ["cause_in_words", "describe_with_caution", "explain_cause", "reasons_in_words", "remedy_for", "warning_in_words", "words_for"]
