"""What the single commands say of the sky where they find nothing."""

from __future__ import annotations

from companion.talk.saying import Say


class NothingBrightThere(Say): ...


class NoReferenceStarNow(Say): ...


class NothingWellPlaced(Say): ...
