"""Vosk as a recogniser of closed sets: a dynamic-graph model in a directory, its words matched exactly against our grammar."""

from companion.hearing.vosk.engine import VoskEngine
from companion.hearing.vosk.fetch import get_model, installed_model

__all__ = ["VoskEngine", "get_model", "installed_model"]
