"""English for what happens to microphone, loudspeaker and voice in the field."""

from __future__ import annotations

from companion.languages.phrase import Chapter
from companion.talk.live_phrases import (
    HoldTheKey,
    JournalMended,
    JournalRefused,
    KeepOneEarFree,
    KeyNeeded,
    LogRefused,
    LoudspeakerBack,
    LoudspeakerLost,
    MicrophoneBack,
    MicrophoneLost,
    MicrophoneSilent,
    NoLoudspeaker,
    NoMicrophone,
    NoVoice,
    NoVoiceToChange,
    OtherRecogniser,
    PressTheKey,
    ProfileRefused,
    SoundDropped,
    ThisIsMyVoice,
    TooNoisy,
    VoiceAtItsLimit,
    VoiceLost,
)

LIVE = Chapter(
    phrases={
        NoMicrophone: "I can't find a microphone. Type your answers, one a line.",
        MicrophoneLost: "The microphone is gone. Type your answers until it is back.",
        MicrophoneBack: "The microphone is back. I'm listening.",
        MicrophoneSilent: "The microphone gives no sound at all. Perhaps it is switched off.",
        NoLoudspeaker: "I can't find a loudspeaker. I'll go on in writing.",
        LoudspeakerLost: "The loudspeaker is gone. I'll go on in writing.",
        LoudspeakerBack: "The loudspeaker is back.",
        VoiceLost: "My usual voice doesn't answer. This is another one.",
        NoVoice: "None of my voices answers. I'll go on in writing.",
        VoiceAtItsLimit: "I can't go further that way.",
        NoVoiceToChange: "Here I only write: there is no voice to change.",
        SoundDropped: "I'm losing some of what you say. This machine is too busy.",
        TooNoisy: "It's too noisy here for me. Come close to the microphone.",
        KeepOneEarFree: "Keep one ear free of the headset, to hear what comes.",
        KeyNeeded: "With people around, I listen only with a key.",
        HoldTheKey: "Hold the space bar while you talk. Or tap it, wait for the tone, then speak.",
        PressTheKey: "Press the enter key, wait for the tone, then speak.",
        JournalRefused: "I can't write my journal. We can go on, but if I am cut off, this evening is lost.",
        JournalMended: "I can write my journal again. Nothing in it is missing.",
        ProfileRefused: "I can't write your profile, so I won't remember this next time.",
        OtherRecogniser: "The model I listen with is damaged. I'm using my own instead.",
        LogRefused: "I can't write down what you saw: the disk refuses. We can go on without.",
        ThisIsMyVoice: "This is my voice. After the tone, say yes.",
    },
)
