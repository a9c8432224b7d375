"""Text to sound: voices, the sentences already spoken, three small sounds, and the player. Knows nothing of telescopes."""

from companion.speaking.cache import CachedVoice
from companion.speaking.earcons import HEARD, LISTENING, NOT_UNDERSTOOD
from companion.speaking.player import Outcome, Player
from companion.speaking.pronunciation import Pronunciations, read_pronunciations
from companion.speaking.voices import Voice, open_voice

__all__ = [
    "HEARD",
    "LISTENING",
    "NOT_UNDERSTOOD",
    "CachedVoice",
    "Outcome",
    "Player",
    "Pronunciations",
    "Voice",
    "open_voice",
    "read_pronunciations",
]
