"""Sound to meaning: grammar files, recognisers behind one small protocol, and the ends of utterances. Knows nothing of its subject."""

from companion.hearing.active import ActiveSet
from companion.hearing.engine import Engine, Scope, glance, listen
from companion.hearing.grammar import Grammar, Phrase, load_grammar, parse_grammar
from companion.hearing.typed import understand
from companion.hearing.whisper import WhisperEngine

__all__ = [
    "ActiveSet",
    "Engine",
    "Grammar",
    "Phrase",
    "Scope",
    "WhisperEngine",
    "glance",
    "listen",
    "load_grammar",
    "parse_grammar",
    "understand",
]
