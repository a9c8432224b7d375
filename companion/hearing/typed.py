"""Typed words instead of spoken ones: everything above the recogniser can be driven, and tested, without a microphone."""

from __future__ import annotations

from companion.hearing.active import ActiveSet
from companion.messages import Heard, Hearing, NotNow, NotUnderstood, Silence


def understand(text: str, active: ActiveSet, everything: ActiveSet | None = None) -> Hearing:
    """Tell what a typed line says, exactly as a recogniser would of a spoken one."""
    if not text.strip():
        return Silence()
    if (phrase := active.parse(text)) is not None:
        return Heard(phrase.words, phrase.command, phrase.slots, spelling=phrase.written)
    if everything is not None and (phrase := everything.parse(text)) is not None:
        return NotNow(phrase.words, phrase.command, phrase.slots, spelling=phrase.written)
    return NotUnderstood()
