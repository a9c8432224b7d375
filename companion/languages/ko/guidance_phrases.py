"""Korean for the words that work at any time, and for when nothing was understood."""

from __future__ import annotations

from collections.abc import Mapping

from companion import places
from companion.languages.ko import clock_words
from companion.languages.ko.sight_words import direct, it_is, place_of, towards
from companion.languages.ko.stage_words import at_stage
from companion.languages.phrase import Chapter, Scene
from companion.sky import Moment
from companion.talk.answers import EitherAnswer, ReadyAnswer, YesNoAnswer
from companion.talk.guidance_phrases import (
    AnotherWay,
    DidNotGetThat,
    DidYouSay,
    Doing,
    DoYouMean,
    EveryWord,
    FewWords,
    GoingOn,
    GoOnThere,
    GoOnWithout,
    HeardNothingYet,
    HowToHoldTheMount,
    JournalDamaged,
    JournalOtherVersion,
    JournalTooLong,
    JournalTorn,
    LastHeard,
    LeaveNow,
    LeaveOrGoBack,
    LikeThis,
    MoreWordsThatAlwaysWork,
    NothingToGoBackTo,
    OtherWords,
    PartLeft,
    SpellTheName,
    StageAnew,
    StillHere,
    Stopped,
    ThatIsForLater,
    TheTime,
    TryTheKey,
    TypeIt,
    Waiting,
    WhereWeAre,
    WhichDidYouSay,
    WordsThatAlwaysWork,
)

_DOING: Mapping[Doing, str] = {
    "steering": "{to} 맞추고 있어요.",
    "slewing": "마운트가 {to} 돌고 있어요.",
    "looking-for": "{it} 찾고 있어요.",
    "measuring": "{it} 얼마나 놓쳤는지 재고 있어요.",
    "centring": "{it} 가운데에 넣고 있어요.",
    "waiting": "{it} 기다리고 있어요.",
    "proving": "{to} 확인하고 있어요.",
    "looking-at": "{it} 보고 있어요.",
}


def not_now(scene: Scene, *, heard: str) -> str:
    """Say what was heard, and that it is for another time."""
    return f"들은 말은 이래요. {heard}. 지금 질문의 답은 아니에요."


def go_on_there(_: Scene, *, began: Moment) -> str:
    """Offer to go on with an evening that was broken off."""
    time = places.local_time(began)
    return f"{clock_words.calendar_day(time)} {clock_words.time_of_day(time)}에 시작한 관측이 끊겼어요. 거기서 이어 갈까요?"


def did_you_say(scene: Scene, *, heard: str) -> str:
    """Ask an uncertain answer back."""
    return f"이렇게 들었어요. {heard}. 맞아요?"


def do_you_mean(scene: Scene, *, guess: str) -> str:
    """Ask a guess back."""
    return f"혹시 이런 뜻이에요? {guess}."


def go_on_without(scene: Scene, *, not_understood: bool) -> str:
    """Offer to go on without an answer."""
    return "그 말은 알아듣지 못했어요. 답 없이 넘어갈까요?" if not_understood else "그럼 답 없이 넘어갈까요?"


def which_did_you_say(scene: Scene, *, first: str, second: str) -> str:
    """Offer two phrases that may have been said, to be chosen by words that sound nothing alike."""
    return f"첫 번째, {first}. 두 번째, {second}. 첫 번째예요, 두 번째예요, 아니면 둘 다 아니에요?"


def last_heard(scene: Scene, *, heard: str) -> str:
    """Say what was understood last."""
    return f"이렇게 들었어요. {heard}."


def where_we_are(scene: Scene, *, stage: str, doing: Doing | None = None, name: str | None = None) -> str:
    """Say which part of the evening this is, and what is being done there, with its name."""
    if doing == "verdict":
        return f"{at_stage(stage)} 별을 모두 맞췄고, 마운트가 계산하고 있어요."
    if doing is None or name is None:
        return at_stage(stage)
    place = place_of(scene, name)
    what = _DOING[doing].format(it=direct(place), to=towards(place))
    return f"지금은 {what}" if doing == "looking-at" else f"{at_stage(stage)} {what}"


def the_time(scene: Scene) -> str:
    """Say the time."""
    return f"지금은 {it_is(clock_words.time_of_day(places.local_time(scene)))}"


GUIDANCE = Chapter(
    phrases={
        LeaveNow: "여기서 관측을 마칠까요?",
        DidNotGetThat: "잘 못 들었어요.",
        AnotherWay: "그 말은 알아듣지 못했어요. 도움말이라고 하거나, 답 없이 넘어가려면 건너뛰기라고 하세요.",
        SpellTheName: "이름의 첫 글자를 하나씩 불러도 돼요. 첫 글자는, 하고 글자 세 개를 말하세요.",
        TypeIt: "글로 써도 돼요. 한 줄을 쓰고 엔터 키를 누르세요.",
        TryTheKey: "키를 눌러 제 귀를 열어 보세요.",
        OtherWords: "다른 말로 해 보세요. 도움말을 두 번 말하면 제가 아는 말을 알려 드려요.",
        LeaveOrGoBack: "앞 질문으로 가려면 앞으로 돌아가기, 다음 부분으로 가려면 이 부분 끝내기라고 하세요.",
        WordsThatAlwaysWork: "언제든지 다시 말해 주세요, 앞으로 돌아가기, 건너뛰기, 잠깐만요, 지금 어느 단계예요, 안녕히 주무세요. 더 알려면 도움말이요.",
        MoreWordsThatAlwaysWork: (
            "목소리는 크게 말해 주세요, 작게 말해 주세요, 천천히 말해 주세요, 빨리 말해 주세요. 말을 멈추려면 조용히 하세요. "
            "말의 양은 짧게 말해 주세요, 자세히 말해 주세요. 부분은 이 부분 끝내기, 이 부분 처음부터."
        ),
        Waiting: "기다릴게요. 준비가 되면 계속해 주세요라고 하세요.",
        Stopped: "말하지 않을게요. 이어 가려면 계속해 주세요라고 하세요.",
        HowToHoldTheMount: "마운트의 조종기를 쓰거나 전원을 끄세요. 저는 마운트를 세울 수 없어요.",
        StillHere: "여기 있어요. 천천히 하세요.",
        HeardNothingYet: "아직 들은 말이 없어요.",
        LastHeard: last_heard,
        WhereWeAre: where_we_are,
        TheTime: the_time,
        LikeThis: "이렇게 말할게요.",
        FewWords: "이제부터 짧게 말할게요.",
        EveryWord: "이제부터 모든 단계를 자세히 말할게요.",
        DidYouSay: did_you_say,
        DoYouMean: do_you_mean,
        GoOnWithout: go_on_without,
        WhichDidYouSay: which_did_you_say,
        ThatIsForLater: not_now,
        NothingToGoBackTo: "여기가 맨 처음이에요.",
        PartLeft: "그 부분은 남겨 둘게요.",
        GoOnThere: go_on_there,
        JournalTorn: "쓰는 도중에 끊겼어요. 마지막 답을 잃었을 수 있어요.",
        JournalDamaged: "제 기록이 중간부터 상했어요. 그 앞부분만 알아요.",
        JournalOtherVersion: "제 기록이 다른 판의 것이에요. 간직해 두고 새로 시작할게요.",
        JournalTooLong: "제 기록이 하룻밤보다 훨씬 길어요. 간직해 두고 새로 시작할게요.",
        GoingOn: "있던 곳에서 이어 갈게요.",
        StageAnew: "그사이에 제가 바뀌어서 이 부분은 새로 시작해요.",
    },
    sayable={
        EitherAnswer: ("첫 번째요", "두 번째요", "둘 다 아니에요"),
        YesNoAnswer: ("네 맞아요", "아니요 괜찮아요"),
        ReadyAnswer: ("준비됐어요", "다 했어요"),
    },
    step_help={
        GoOnWithout: "네라고 하면 이 질문을 넘어가요. 아니요라고 하면 그대로 있어요.",
        WhichDidYouSay: "둘 중 어느 말인지 확실하지 않았어요. 첫 번째, 두 번째, 둘 다 아니에요 가운데 하나로 답하세요.",
        DidYouSay: "무슨 말인지 확실하지 않았어요. 맞으면 네, 틀리면 아니요라고 하세요.",
        DoYouMean: "그런 뜻이면 네, 아니면 아니요라고 하고 다른 말로 해 보세요.",
        LeaveNow: "네라고 하면 관측을 마쳐요. 아니요라고 하면 있던 곳에서 이어 가요.",
        GoOnThere: "네라고 하면 그 관측을 이어 가요. 아니요라고 하면 새로 시작해요.",
    },
)
