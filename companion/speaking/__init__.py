"""Text to sound: voices, the sentences already spoken, three small sounds, and the player. Knows nothing of telescopes."""

from companion.speaking.cache import CachedVoice
from companion.speaking.earcons import HEARD, LISTENING, NOT_UNDERSTOOD
from companion.speaking.player import Outcome, Playback, Player
from companion.speaking.pronunciation import Pronunciations, read_pronunciations
from companion.speaking.rate import FASTEST_RATE_WPM, SLOWEST_RATE_WPM, USUAL_RATE_WPM
from companion.speaking.voices import Voice, open_voice

__all__ = [
    "FASTEST_RATE_WPM",
    "HEARD",
    "LISTENING",
    "NOT_UNDERSTOOD",
    "SLOWEST_RATE_WPM",
    "USUAL_RATE_WPM",
    "CachedVoice",
    "Outcome",
    "Playback",
    "Player",
    "Pronunciations",
    "Voice",
    "open_voice",
    "read_pronunciations",
]
