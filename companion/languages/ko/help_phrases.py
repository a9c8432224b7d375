"""Korean for what can be said to the open question."""

from __future__ import annotations


def offered(words: tuple[str, ...]) -> str:
    """Name the words that are understood."""
    return f"이렇게 말할 수 있어요. {', 또는 '.join(words)}."
