"""JSON fields that several commands share."""

from __future__ import annotations

from typing import Any

from companion.messages import Heard, Hearing, NotNow, NotUnderstood


def hearing_fields(hearing: Hearing | None) -> dict[str, Any]:
    """Return what was heard, with the fields the turns of an evening and the lines of ``hear`` share."""
    heard = hearing if isinstance(hearing, Heard | NotNow) else None
    confidence = hearing.confidence if isinstance(hearing, Heard | NotNow | NotUnderstood) else 0.0
    return {
        "heard": heard.phrase if heard else None,
        "command": heard.command if heard else None,
        "slots": dict(heard.slots) if heard else {},
        "confidence": round(confidence, 4),
    }
