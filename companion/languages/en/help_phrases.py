"""English for what can be said to the open question."""

from __future__ import annotations


def offered(words: tuple[str, ...]) -> str:
    """Name the words that are understood."""
    listed = words[0] if len(words) == 1 else f"{', '.join(words[:-1])}, or {words[-1]}"
    return f"You can say: {listed}."
