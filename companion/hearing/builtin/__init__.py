"""The built-in engine: Whisper tiny.en, in numpy alone, as a scorer of closed sets."""

from companion.hearing.builtin.engine import BuiltinEngine

__all__ = ["BuiltinEngine"]
