"""English for what this machine has and lacks."""

from __future__ import annotations

from companion.languages.phrase import Chapter, Scene
from companion.talk.machine_phrases import (
    BrokeInside,
    CantGoOn,
    CanYouHearMe,
    CanYouHearMeOrPress,
    EveryVoiceMissing,
    ExtraRecogniserDamaged,
    FilesRefused,
    LoudspeakerFound,
    LoudspeakerMissing,
    MicrophoneMissing,
    MicrophoneUseless,
    NobodyAnswered,
    NoEarForTheLanguage,
    NoExtraRecogniser,
    NothingMissing,
    NoWordBack,
    PairFound,
    PressYourKey,
    ProfileUnreadable,
    RecogniserMissing,
    RemediesArePrinted,
    SayYesOnceMore,
    SkyMissing,
    SpareVoiceMissing,
    UsualVoiceMissing,
    WordsMissing,
    YourKeyIsChosen,
)


def cant_go_on(scene: Scene, *, why: str) -> str:
    """Say what ended the evening, in the words of the error."""
    return f"I can't go on. {why[:1].upper()}{why[1:].rstrip('.')}. When that is done, start me again."


MACHINE = Chapter(
    phrases={
        NothingMissing: "Nothing is missing. We can hold an evening by voice.",
        WordsMissing: "I can't read the words I listen for. Install the companion again.",
        SkyMissing: "I can't read my tables of the sky. Install the companion again.",
        RecogniserMissing: "I can't load my own ear. Install the companion again. Until then, type your answers.",
        UsualVoiceMissing: "My usual voice doesn't work. Install the companion again to have it back.",
        SpareVoiceMissing: "My spare voice doesn't work. We can do without it. On Linux, installing espeak N G brings it back.",
        EveryVoiceMissing: "None of my voices works. Install the companion again. Until then I write.",
        LoudspeakerMissing: "No loudspeaker plays what I say, so I write. Plug one in, or a headset, and check again.",
        MicrophoneMissing: "I can't find a microphone. Plug one in, or a headset, and check again. Until then, type your answers.",
        MicrophoneUseless: "The microphone gives no sound. Switch it on, raise its level, or plug in another one. Then check again.",
        NoWordBack: "I heard no yes after the tone. Come closer to the microphone, or raise its level, and check again.",
        NoExtraRecogniser: "I have no extra ear for your language. I use my own, so nothing need be done.",
        NoEarForTheLanguage: "I have no ear for your language yet. Fetch one, as is printed above. Until then, type your answers.",
        ExtraRecogniserDamaged: "The extra ear you fetched is damaged. I use my own instead. Fetch it again to mend it.",
        FilesRefused: "I can't write in my own folder. Free some space on the disk, or give me another folder.",
        CantGoOn: cant_go_on,
        ProfileUnreadable: (
            "I can't read your profile, so I can't begin. Have somebody mend the file profile dot T O M L, or move it away. "
            "Then start me again."
        ),
        BrokeInside: "Something broke inside me. Start me again: your answers are kept, and the evening goes on.",
        RemediesArePrinted: "What to type for each is printed above.",
        CanYouHearMe: "Can you hear me? Say yes after the tone.",
        CanYouHearMeOrPress: "Can you hear me? Say yes after the tone, or press any key.",
        SayYesOnceMore: "Good, you hear me. Now I try to hear you. Say yes after the tone.",
        PairFound: "I hear you. From now on I use this microphone and this loudspeaker.",
        LoudspeakerFound: "I can't hear you yet. Come closer to the microphone, or raise its level.",
        NobodyAnswered: "I heard no answer. I'll go on with what this machine prefers.",
        PressYourKey: "Press the key you want to talk with, on any device.",
        YourKeyIsChosen: "That is your key from now on.",
    },
)
