"""The companion in the field, in real time: with microphone and loudspeaker, or with typed and printed lines."""

from companion.live.evening import Clock, Evening, clock_from, journal_path
from companion.live.key import Key
from companion.live.lines import Lines, Typing, what_is_typed
from companion.live.own_voice import OwnVoice
from companion.live.sound_devices import SoundDevices
from companion.live.spoken import Ear, SpokenEvening
from companion.live.typed import TypedEvening

__all__ = [
    "Clock",
    "Ear",
    "Evening",
    "Key",
    "Lines",
    "OwnVoice",
    "SoundDevices",
    "SpokenEvening",
    "TypedEvening",
    "Typing",
    "clock_from",
    "journal_path",
    "what_is_typed",
]
