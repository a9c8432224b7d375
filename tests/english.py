"""English and its words, read once for all tests of a process."""

from companion.languages import load_language
from companion.vocabulary import load_vocabulary

ENGLISH = load_language("en")
VOCABULARY = load_vocabulary(ENGLISH)
