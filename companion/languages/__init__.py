"""Sky numbers and decisions into spoken words: one folder a language, and the one value that holds all of it."""

from companion.languages.language import Language, SkyWords, load_language
from companion.languages.phrase import Chapter, Scene

__all__ = ["Chapter", "Language", "Scene", "SkyWords", "load_language"]
