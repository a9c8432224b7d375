"""The companion in the field, in real time: with microphone and loudspeaker, or with typed and printed lines."""

from companion.live.assembly import Ear, spoken_session
from companion.live.mount_link import MountLink
from companion.live.own_clock import Clock, clock_from
from companion.live.playback_reference import PlaybackReference
from companion.live.push_to_talk import Key
from companion.live.session import Session, journal_path
from companion.live.sound_devices import SoundDevices
from companion.live.terminal import Lines, Typing, open_terminal
from companion.live.typed_session import hold_typed, lines_and_mount

__all__ = [
    "Clock",
    "Ear",
    "Key",
    "Lines",
    "MountLink",
    "PlaybackReference",
    "Session",
    "SoundDevices",
    "Typing",
    "clock_from",
    "hold_typed",
    "journal_path",
    "lines_and_mount",
    "open_terminal",
    "spoken_session",
]
