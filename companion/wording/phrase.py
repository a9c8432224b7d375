"""What an entry of the phrase book is."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

Phrase: TypeAlias = str | Callable[..., str]
"""Fixed words, or a function ``(moment, **facts) -> words`` for what depends on the sky or on the facts."""
