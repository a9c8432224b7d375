"""English for the words that work at any time, and for when nothing was understood."""

from __future__ import annotations

from collections.abc import Mapping

from companion import places
from companion.languages.en import clock_words
from companion.languages.en.direction_words import sentence
from companion.languages.en.sight_words import place_of
from companion.languages.en.stage_words import at_stage
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
    "steering": "steering to",
    "slewing": "turning to",
    "looking-for": "looking for",
    "measuring": "measuring the miss of",
    "centring": "centring",
    "waiting": "waiting for",
    "proving": "trying",
    "looking-at": "looking at",
}


def not_now(scene: Scene, *, heard: str) -> str:
    """Say what was heard, and that it is for another time."""
    return f"I heard: {sentence(heard)} That doesn't answer this one."


def go_on_there(_: Scene, *, began: Moment) -> str:
    """Offer to go on with an evening that was broken off."""
    time = places.local_time(began)
    return f"An evening begun at {clock_words.time_of_day(time)}, {clock_words.calendar_day(time)}, was broken off. Shall we go on there?"


def did_you_say(scene: Scene, *, heard: str) -> str:
    """Ask an uncertain answer back."""
    return f"I heard: {sentence(heard)} Is that right?"


def do_you_mean(scene: Scene, *, guess: str) -> str:
    """Ask a guess back."""
    return f"Do you mean: {guess}?"


def go_on_without(scene: Scene, *, not_understood: bool) -> str:
    """Offer to go on without an answer."""
    return "I can't make that out. Shall we go on without an answer?" if not_understood else "Shall we go on without it?"


def which_did_you_say(scene: Scene, *, first: str, second: str) -> str:
    """Offer two phrases that may have been said, to be chosen by words that sound nothing alike."""
    return f"First: {sentence(first)} Second: {sentence(second)} Which was it, the first, the second, or neither?"


def last_heard(scene: Scene, *, heard: str) -> str:
    """Say what was understood last."""
    return f"I heard: {sentence(heard)}"


def where_we_are(scene: Scene, *, stage: str, doing: Doing | None = None, name: str | None = None) -> str:
    """Say which part of the evening this is, and what is being done there, with its name."""
    part = f"We are {at_stage(stage)}"
    if doing == "verdict":
        return f"{part}: all are centred, and the mount works them out."
    if doing is None or name is None:
        return f"{part}."
    what = f"{_DOING[doing]} {place_of(scene, name)}"
    return f"We are {what}." if doing == "looking-at" else f"{part}: {what}."


def the_time(scene: Scene) -> str:
    """Say the time."""
    return f"It's {clock_words.time_of_day(places.local_time(scene))}."


GUIDANCE = Chapter(
    phrases={
        LeaveNow: "Shall we end the evening here?",
        DidNotGetThat: "I didn't get that.",
        AnotherWay: "I can't make that out. Say help, or skip this to go on without an answer.",
        SpellTheName: "Try spelling its beginning: it begins with, and three letters.",
        TypeIt: "You can type it, too: a line, then the enter key.",
        TryTheKey: "Try opening my ear with a key.",
        OtherWords: "Try other words: say help twice, and I name some.",
        LeaveOrGoBack: "Say go back for the question before, or leave this part to go on with the next.",
        WordsThatAlwaysWork: "At any time: repeat that, go back, skip this, wait a moment, I'm lost, good night. For more: help.",
        MoreWordsThatAlwaysWork: (
            "For my voice: speak up, not so loud, speak slowly, talk faster. To silence me: be quiet. "
            "For how much I say: fewer words, tell me everything. "
            "For a whole part: leave this part, begin this part again."
        ),
        Waiting: "I'm waiting. Say carry on when you're ready.",
        Stopped: "Quiet now. Say carry on to go on.",
        HowToHoldTheMount: "Use its own controls, or switch it off. I can't halt the mount.",
        StillHere: "I'm here. Take your time.",
        HeardNothingYet: "Nothing yet.",
        LastHeard: last_heard,
        WhereWeAre: where_we_are,
        TheTime: the_time,
        LikeThis: "I'll speak like this.",
        FewWords: "Few words from now on.",
        EveryWord: "Every step in full from now on.",
        DidYouSay: did_you_say,
        DoYouMean: do_you_mean,
        GoOnWithout: go_on_without,
        WhichDidYouSay: which_did_you_say,
        ThatIsForLater: not_now,
        NothingToGoBackTo: "This is the beginning.",
        PartLeft: "We'll leave that part.",
        GoOnThere: go_on_there,
        JournalTorn: "I was cut off while writing: your last answer may be lost.",
        JournalDamaged: "My notes are damaged part of the way through. I know only what comes before.",
        JournalOtherVersion: "My notes are from another version of me. I'll keep them, and begin anew.",
        JournalTooLong: "My notes are longer than any evening. I'll keep them, and begin anew.",
        GoingOn: "We'll go on from where we were.",
        StageAnew: "I have changed since then, so this part begins anew.",
    },
    sayable={EitherAnswer: ("the first", "the second", "neither"), YesNoAnswer: ("yes", "no"), ReadyAnswer: ("ready", "that's done")},
    step_help={
        GoOnWithout: "Yes leaves this question. No stays with it.",
        WhichDidYouSay: "I wasn't sure which of the two you said. Say the first, the second, or neither.",
        DidYouSay: "I wasn't sure what you said. Yes if that's what you said, no if not.",
        DoYouMean: "Yes if that's what you mean, no if not; then say it in other words.",
        LeaveNow: "Yes ends the evening. No goes on where we were.",
        GoOnThere: "Yes goes on with that evening. No begins a new one.",
    },
)
