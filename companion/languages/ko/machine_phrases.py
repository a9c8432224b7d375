"""Korean for what this machine has and lacks."""

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
    """Say what ended the evening, in the words for the error."""
    return f"계속할 수 없어요. {why} 고친 다음 다시 시작해 주세요."


MACHINE = Chapter(
    phrases={
        NothingMissing: "빠진 것이 없어요. 목소리로 저녁 관측을 할 수 있어요.",
        WordsMissing: "제가 들어야 할 말을 읽을 수 없어요. 프로그램을 다시 설치해 주세요.",
        SkyMissing: "하늘 자료를 읽을 수 없어요. 프로그램을 다시 설치해 주세요.",
        RecogniserMissing: "제 귀를 불러올 수 없어요. 프로그램을 다시 설치해 주세요. 그때까지는 답을 글로 써 주세요.",
        UsualVoiceMissing: "평소 목소리가 나오지 않아요. 되찾으려면 프로그램을 다시 설치해 주세요.",
        SpareVoiceMissing: "예비 목소리가 나오지 않아요. 없어도 괜찮아요. 리눅스에서는 이스피크 엔지를 설치하면 돌아와요.",
        EveryVoiceMissing: "어떤 목소리도 나오지 않아요. 프로그램을 다시 설치해 주세요. 그때까지는 글로 쓸게요.",
        LoudspeakerMissing: "제 말을 들려줄 스피커가 없어서 글로 쓸게요. 스피커나 헤드셋을 연결하고 다시 확인해 주세요.",
        MicrophoneMissing: "마이크를 찾을 수 없어요. 마이크나 헤드셋을 연결하고 다시 확인해 주세요. 그때까지는 답을 글로 써 주세요.",
        MicrophoneUseless: "마이크에서 소리가 나지 않아요. 켜거나, 음량을 올리거나, 다른 것을 연결해 주세요. 그리고 다시 확인해 주세요.",
        NoWordBack: "신호음 뒤에 네라는 말을 듣지 못했어요. 마이크에 더 가까이 오거나 음량을 올리고 다시 확인해 주세요.",
        NoExtraRecogniser: "이 언어를 위한 귀가 따로 없어요. 제 것이 들으니 아무것도 안 하셔도 돼요.",
        NoEarForTheLanguage: "아직 이 언어를 듣는 귀가 없어요. 위에 적힌 대로 받아 주세요. 그때까지는 답을 글로 써 주세요.",
        ExtraRecogniserDamaged: "따로 받은 귀가 상했어요. 대신 제 것이 들어요. 고치려면 다시 받아 주세요.",
        FilesRefused: "제 폴더에 쓸 수 없어요. 디스크를 비우거나 다른 폴더를 주세요.",
        CantGoOn: cant_go_on,
        ProfileUnreadable: "프로필을 읽을 수 없어 시작하지 못해요. 프로필 파일을 고치거나 다른 곳으로 옮긴 다음 다시 시작해 주세요.",
        BrokeInside: "제 안에서 문제가 생겼어요. 다시 시작해 주세요. 답은 남아 있어서 이어서 할 수 있어요.",
        RemediesArePrinted: "각각 무엇을 입력할지는 위에 적혀 있어요.",
        CanYouHearMe: "제 말이 들리세요? 신호음 뒤에 네라고 하세요.",
        CanYouHearMeOrPress: "제 말이 들리세요? 신호음 뒤에 네라고 하거나 아무 키나 누르세요.",
        SayYesOnceMore: "좋아요, 제 말이 들리시는군요. 이제 제가 들어 볼게요. 신호음 뒤에 네라고 하세요.",
        PairFound: "들려요. 이제부터 이 마이크와 이 스피커를 쓸게요.",
        LoudspeakerFound: "아직 들리지 않아요. 마이크에 더 가까이 오거나 음량을 올려 주세요.",
        NobodyAnswered: "대답을 듣지 못했어요. 이 기기가 고르는 것으로 이어 갈게요.",
        PressYourKey: "말할 때 쓰실 키를 아무 기기에서나 눌러 주세요.",
        YourKeyIsChosen: "이제부터 그 키를 쓸게요.",
    },
)
