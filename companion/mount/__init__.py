"""A mount on the line: what it tells, what it is told, how it is stopped. Knows nothing of words or sound. This is the front door.

The libraries that speak the standards are an optional extra and are loaded by ``open_line`` and ``discover`` alone.
"""

from companion.mount.address import FoundMount, MountAddress, mount_address
from companion.mount.commands import (
    Command,
    Effect,
    EffectLog,
    Nudge,
    Park,
    SetPlace,
    SetTime,
    Slew,
    Sync,
    Track,
    effect_document,
    effect_from,
)
from companion.mount.line import Done, Line, LineEvent, Lost, Opened
from companion.mount.opening import discover, open_line
from companion.mount.pending import Pending
from companion.mount.values import (
    CAPABILITIES,
    Capability,
    Direction,
    Epoch,
    Equatorial,
    Failed,
    Horizontal,
    Identity,
    Reading,
    Settings,
    State,
    Stopped,
)

__all__ = [
    "CAPABILITIES",
    "Capability",
    "Command",
    "Direction",
    "Done",
    "Effect",
    "EffectLog",
    "Epoch",
    "Equatorial",
    "Failed",
    "FoundMount",
    "Horizontal",
    "Identity",
    "Line",
    "LineEvent",
    "Lost",
    "MountAddress",
    "Nudge",
    "Opened",
    "Park",
    "Pending",
    "Reading",
    "SetPlace",
    "SetTime",
    "Settings",
    "Slew",
    "State",
    "Stopped",
    "Sync",
    "Track",
    "discover",
    "effect_document",
    "effect_from",
    "mount_address",
    "open_line",
]
