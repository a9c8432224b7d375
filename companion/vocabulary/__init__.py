"""The words we listen for: the grammar files of a language, which of their rules are live at a question, and what a typed line says."""

from companion.vocabulary.loading import load_vocabulary
from companion.vocabulary.vocabulary import Vocabulary

__all__ = ["Vocabulary", "load_vocabulary"]
