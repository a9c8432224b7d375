"""Korean for writing an observation down, and for what stands in the log."""

from __future__ import annotations

from collections.abc import Mapping

from companion import places
from companion.languages.ko import clock_words
from companion.languages.ko.direction_words import fists, place_in_sky
from companion.languages.ko.look_for import millimetres
from companion.languages.ko.number_words import cardinal
from companion.languages.ko.sight_words import it_is
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.observing.observation import Look, Observation, Seen
from companion.sky import Moment
from companion.talk import observation_phrases as say
from companion.talk.answers import HowItLookedAnswer, HowItShowedAnswer, OneToFiveAnswer

_SEEN: Mapping[Seen, str] = {
    "easily": "잘 보였어요.",
    "just": "겨우 보였어요.",
    "suspected": "보인 듯했어요.",
    "not at all": "안 보였어요.",
}
_LOOKS: Mapping[Look, str] = {
    "round": "둥근 모양",
    "long": "길쭉한 모양",
    "two": "둘로 갈라짐",
    "colour": "색이 있음",
    "bright": "밝음",
    "faint": "어두움",
    "misty": "뿌연 모습",
    "single stars": "낱별이 보임",
    "bright middle": "밝은 가운데",
    "sharp edge": "또렷한 가장자리",
    "dark patch": "어두운 부분",
    "detail": "자세한 무늬",
}


def was_seen(scene: Scene, *, observation: Observation) -> str:
    """Tell an observation from the log: when, what, and how it showed."""
    site = observation.site
    local = places.local_time(Moment(site, observation.time))
    name = spoken_name(observation.target)
    if observation.catalogue and observation.catalogue != observation.target:
        name = f"{name}, {spoken_name(observation.catalogue)}"
    where = f"{place_in_sky(observation.altitude_deg, observation.azimuth_deg)}, {fists(observation.altitude_deg, scene.fist_deg)} 높이"
    eyepiece = f", {millimetres(observation.eyepiece_mm)} 접안렌즈" if observation.eyepiece_mm else ""
    parts = [f"{clock_words.calendar_day(local)} {clock_words.time_of_day(local)}.", it_is(name), it_is(where + eyepiece)]
    return " ".join((*parts, _SEEN[observation.seen] if observation.seen else "", noted_of_it(scene, observation=observation))).strip()


def noted_of_it(scene: Moment, *, observation: Observation) -> str:
    """Tell what was noted beside how well it showed; no words at all where nothing was."""
    parts = []
    if observation.looks:
        parts.append(f"{', '.join(_LOOKS[look] for look in observation.looks)}.")
    marks = (("안정도", observation.steadiness), ("맑기", observation.clearness))
    if air := [f"{what} {cardinal(mark)}" for what, mark in marks if mark is not None]:
        parts.append(f"공기는 오 점 만점에 {it_is(', '.join(air))}")
    return " ".join(parts)


OBSERVATION = Chapter(
    phrases={
        say.HowDidItShow: "얼마나 잘 보였어요? 잘 보였어요, 겨우 보였어요, 보인 듯해요, 아니면 전혀 안 보였어요?",
        say.WhichEyepieceWasIn: "쓰신 접안렌즈가 몇 밀리미터예요?",
        say.HowDidItLook: "어떻게 보였는지 한마디로 말하세요. 둥글어요, 길쭉해요, 뿌예요처럼요. 아니면 그게 다예요라고 하세요.",
        say.AnotherWordForIt: "한마디 더 있어요? 없으면 그게 다예요라고 하세요.",
        say.HowSteadyIsTheAir: "공기가 얼마나 잔잔해요? 일에서 오까지, 오가 가장 잔잔해요.",
        say.HowClearIsTheAir: "하늘이 얼마나 맑아요? 일에서 오까지, 오가 가장 맑아요.",
        say.WrittenDown: "적었어요.",
        say.WasSeen: was_seen,
        say.NotedOfIt: noted_of_it,
        say.WrittenDownIsGone: "적어 둔 것을 모두 지웠어요.",
        say.NothingWrittenDown: "아직 적은 것이 없어요. 무언가 보고 나면 봤어요라고 하세요.",
    },
    terse={
        say.HowDidItShow: "잘 보였어요, 겨우 보였어요, 보인 듯해요, 아니면 전혀 안 보였어요?",
        say.WhichEyepieceWasIn: "접안렌즈가 몇 밀리미터예요?",
        say.HowDidItLook: "한마디로 어땠어요? 아니면 그게 다예요라고 하세요.",
        say.AnotherWordForIt: "한마디 더 있어요?",
        say.HowSteadyIsTheAir: "안정도는 일에서 오까지 몇이에요?",
        say.HowClearIsTheAir: "맑기는 일에서 오까지 몇이에요?",
    },
    sayable={
        HowItShowedAnswer: ("잘 보였어요", "겨우 보였어요", "보인 듯해요", "전혀 안 보였어요"),
        HowItLookedAnswer: ("둥글어요", "길쭉해요", "둘이에요", "색이 있어요", "뿌예요", "그게 다예요"),
        OneToFiveAnswer: ("일", "이", "삼", "사", "오"),
    },
    step_help={
        say.HowDidItShow: "첫눈에 보이면 잘 보였어요, 한참 뒤에 보이면 겨우 보였어요, 자신이 없으면 보인 듯해요예요.",
        say.WhichEyepieceWasIn: "숫자는 테두리에 새겨져 있어요. 읽을 수 없으면 건너뛰기라고 하세요.",
        say.HowDidItLook: "한 번에 한마디씩이요. 밝아요, 어두워요, 낱별이 보여요, 가운데가 밝아요, 무늬가 있어요도 돼요.",
        say.AnotherWordForIt: "한 번에 한마디씩이요. 더 없으면 그게 다예요라고 하세요.",
        say.HowSteadyIsTheAir: "고배율로 별을 보세요. 일은 끓듯이 흔들리고, 오는 꼼짝 안 해요.",
        say.HowClearIsTheAir: "가장 어두운 별들을 보세요. 일은 구름이나 안개, 오는 가장 잘 보일 때예요.",
    },
)
