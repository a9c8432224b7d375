"""The built-in engine: Whisper tiny.en, in numpy alone, as a scorer of closed sets."""

from companion.hearing.whisper.engine import WhisperEngine

__all__ = ["WhisperEngine"]
