"""What is said to observers who tell of their sight, and of who looks for them."""

from __future__ import annotations

from dataclasses import dataclass

from companion.equipment import Looker, SightLeft
from companion.talk.saying import Say


@dataclass(frozen=True)
class SightNoted(Say):
    """Confirm in one sentence what is different from now on."""

    sight: SightLeft | None
    eyes: Looker | None
