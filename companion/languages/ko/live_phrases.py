"""Korean for what happens to microphone, loudspeaker and voice in the field."""

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
        NoMicrophone: "마이크를 찾을 수 없어요. 답을 한 줄씩 글로 써 주세요.",
        MicrophoneLost: "마이크가 사라졌어요. 돌아올 때까지 답을 글로 써 주세요.",
        MicrophoneBack: "마이크가 돌아왔어요. 듣고 있어요.",
        MicrophoneSilent: "마이크에서 아무 소리도 안 나요. 꺼져 있을지도 몰라요.",
        NoLoudspeaker: "스피커를 찾을 수 없어요. 글로 이어 갈게요.",
        LoudspeakerLost: "스피커가 사라졌어요. 글로 이어 갈게요.",
        LoudspeakerBack: "스피커가 돌아왔어요.",
        VoiceLost: "평소 목소리가 나오지 않아요. 이건 다른 목소리예요.",
        NoVoice: "어떤 목소리도 나오지 않아요. 글로 이어 갈게요.",
        VoiceAtItsLimit: "그쪽으로는 더 바꿀 수 없어요.",
        NoVoiceToChange: "여기서는 글만 써서 바꿀 목소리가 없어요.",
        SoundDropped: "말씀이 조금씩 끊겨요. 이 기기가 너무 바빠요.",
        TooNoisy: "여기는 저한테 너무 시끄러워요. 마이크 가까이에서 말해 주세요.",
        KeepOneEarFree: "다가오는 것을 들을 수 있게 헤드셋은 한쪽 귀에만 쓰세요.",
        KeyNeeded: "사람들이 있을 때는 키를 누를 때만 들어요.",
        HoldTheKey: "말하는 동안 스페이스 키를 누르고 있으세요. 또는 한 번 누르고 신호음 뒤에 말하세요.",
        PressTheKey: "엔터 키를 누르고, 신호음을 기다렸다가 말하세요.",
        JournalRefused: "기록을 쓸 수 없어요. 이어 갈 수는 있지만, 끊기면 오늘 기록을 잃어요.",
        JournalMended: "다시 기록을 쓸 수 있어요. 빠진 것은 없어요.",
        ProfileRefused: "프로필을 쓸 수 없어서 다음에는 기억하지 못해요.",
        OtherRecogniser: "듣는 데 쓰는 모델이 상했어요. 대신 제 것을 쓸게요.",
        LogRefused: "디스크가 받지 않아서 본 것을 적을 수 없어요. 그냥 이어 갈 수는 있어요.",
        ThisIsMyVoice: "이게 제 목소리예요. 신호음 뒤에 네라고 하세요.",
    },
)
