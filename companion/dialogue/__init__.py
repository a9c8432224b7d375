"""Runs the scripts of an evening: turns what was heard into the next thing to say, keeps the universal words working, and the journal."""

from companion.dialogue.conversation import Conversation
from companion.dialogue.journal import Journal, JournalError, Recollection, Record, read_journal
from companion.dialogue.memory import EveningMemory, rebuild
from companion.dialogue.turn import Turn, turns
from companion.dialogue.universal import VOICE_CHANGES

__all__ = [
    "VOICE_CHANGES",
    "Conversation",
    "EveningMemory",
    "Journal",
    "JournalError",
    "Recollection",
    "Record",
    "Turn",
    "read_journal",
    "rebuild",
    "turns",
]
