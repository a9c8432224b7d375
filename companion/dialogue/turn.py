"""What the dialogue answers to one event."""

from __future__ import annotations

from dataclasses import dataclass

from companion.messages import Ask, Say


@dataclass(frozen=True)
class Turn:
    """What to say now, and what is then waited for."""

    sayings: tuple[Say | Ask, ...]
    """In order; may be empty, when a quiet sign is enough."""
    question: Ask | None
    """The question that stands open afterwards; None when the evening is over."""
    stage: str
    """The name of the stage that is running."""

    @property
    def finished(self) -> bool:
        """Whether the evening is over."""
        return self.question is None
