"""Vosk as a recogniser of closed sets: a dynamic-graph model in a directory, its words matched exactly against our grammar."""

from companion.hearing.vosk.engine import VoskEngine
from companion.hearing.vosk.fetch import found_models, get_model
from companion.hearing.vosk.trial import tried_model

__all__ = ["VoskEngine", "found_models", "get_model", "tried_model"]
