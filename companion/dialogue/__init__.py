"""Runs the scripts of an evening: turns what was heard into the next thing to say, and keeps the universal words working everywhere."""

from companion.dialogue.conversation import Conversation
from companion.dialogue.turn import Turn

__all__ = ["Conversation", "Turn"]
