"""English for what happens to microphone, loudspeaker and voice in the field."""

from __future__ import annotations

from companion.languages.phrase import Chapter

LIVE = Chapter(
    phrases={
        "no-microphone": "I can't find a microphone. Type your answers, one a line.",
        "microphone-lost": "The microphone is gone. Type your answers until it is back.",
        "microphone-back": "The microphone is back. I'm listening.",
        "microphone-silent": "The microphone gives no sound at all. Perhaps it is switched off.",
        "no-loudspeaker": "I can't find a loudspeaker. I go on in writing.",
        "loudspeaker-lost": "The loudspeaker is gone. I go on in writing.",
        "loudspeaker-back": "The loudspeaker is back.",
        "voice-lost": "My usual voice doesn't answer. This is another one.",
        "no-voice": "None of my voices answers. I go on in writing.",
        "voice-at-its-limit": "I can't go further that way.",
        "no-voice-to-change": "Here I only write: there is no voice to change.",
        "sound-dropped": "I lose some of what you say. This machine is too busy.",
        "too-noisy": "It's too noisy here for me. Come close to the microphone.",
        "keep-one-ear-free": "Keep one ear free of the headset, to hear what comes.",
        "key-needed": "With people around, I listen only with a key.",
        "hold-the-key": "Hold the space bar while you talk. Or tap it, wait for the tone, then speak.",
        "press-the-key": "Press the enter key, wait for the tone, then speak.",
    },
)
