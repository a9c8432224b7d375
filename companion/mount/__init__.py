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
from companion.mount.line import Finished, Line, LineEvent, Lost, Opened
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
    MountReading,
    MountState,
    Settings,
    Standstill,
)

__all__ = [
    "CAPABILITIES",
    "Capability",
    "Command",
    "Direction",
    "Effect",
    "EffectLog",
    "Epoch",
    "Equatorial",
    "Failed",
    "Finished",
    "FoundMount",
    "Horizontal",
    "Identity",
    "Line",
    "LineEvent",
    "Lost",
    "MountAddress",
    "MountReading",
    "MountState",
    "Nudge",
    "Opened",
    "Park",
    "Pending",
    "SetPlace",
    "SetTime",
    "Settings",
    "Slew",
    "Standstill",
    "Sync",
    "Track",
    "discover",
    "effect_document",
    "effect_from",
    "mount_address",
    "open_line",
]
