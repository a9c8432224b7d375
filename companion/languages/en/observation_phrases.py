"""English for writing an observation down, and for what stands in the log."""

from __future__ import annotations

from collections.abc import Mapping

from companion import places
from companion.languages.en import clock_words
from companion.languages.en.direction_words import fists, place_in_sky, sentence
from companion.languages.en.number_words import cardinal, decimal
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.observing.observation import Look, Observation, Seen
from companion.sky import Moment
from companion.talk.answers import HowItLookedAnswer, HowItShowedAnswer, OneToFiveAnswer
from companion.talk.observation_phrases import (
    AnotherWordForIt,
    HowClearIsTheAir,
    HowDidItLook,
    HowDidItShow,
    HowSteadyIsTheAir,
    NotedOfIt,
    NothingWrittenDown,
    WasSeen,
    WhichEyepieceWasIn,
    WrittenDown,
    WrittenDownIsGone,
)

_SEEN: Mapping[Seen, str] = {
    "easily": "It showed easily.",
    "just": "It only just showed.",
    "suspected": "It was only suspected.",
    "not at all": "It didn't show.",
}
_LOOKS: Mapping[Look, str] = {
    "round": "round",
    "long": "long",
    "two": "two, seen apart",
    "colour": "coloured",
    "bright": "bright",
    "faint": "faint",
    "misty": "misty",
    "single stars": "single stars in it",
    "bright middle": "a bright middle",
    "sharp edge": "a sharp edge",
    "dark patch": "a dark patch",
    "detail": "detail in it",
}


def was_seen(scene: Scene, *, observation: Observation) -> str:
    """Tell an observation from the log: when, what, and how it showed."""
    site = observation.site
    local = places.local_time(Moment(site, observation.time))
    day = clock_words.calendar_day(local, month_first=places.customs(site).date_order == "month-day")
    name = spoken_name(observation.target)
    if observation.catalogue and observation.catalogue != observation.target:
        name = f"{name}, {spoken_name(observation.catalogue)}"
    where = place_in_sky(observation.altitude_deg, observation.azimuth_deg)
    eyepiece = f", with the {_millimetres(observation.eyepiece_mm)} eyepiece" if observation.eyepiece_mm else ""
    parts = [
        f"{day}, {clock_words.time_of_day(local)}.",
        sentence(name),
        sentence(f"{where}, {fists(observation.altitude_deg, scene.fist_deg)} up{eyepiece}"),
    ]
    return " ".join((*parts, _SEEN[observation.seen] if observation.seen else "", noted_of_it(scene, observation=observation))).strip()


def noted_of_it(scene: Moment, *, observation: Observation) -> str:
    """Tell what was noted beside how well it showed; no words at all where nothing was."""
    parts = []
    if observation.looks:
        parts.append(sentence(", ".join(_LOOKS[look] for look in observation.looks)))
    marks = (("steadiness", observation.steadiness), ("clearness", observation.clearness))
    if air := [f"{what} {cardinal(mark)}" for what, mark in marks if mark is not None]:
        parts.append(f"The air: {', '.join(air)}, out of five.")
    return " ".join(parts)


def _millimetres(figure: float) -> str:
    return f"{decimal(figure)} millimetre"


OBSERVATION = Chapter(
    phrases={
        HowDidItShow: "How well did it show: easily, only just, suspected, or not at all?",
        WhichEyepieceWasIn: "How many millimetres has the eyepiece you used?",
        HowDidItLook: "A word for how it looked, such as round, long, misty or faint. Or say: that's all.",
        AnotherWordForIt: "One more word? Or say: that's all.",
        HowSteadyIsTheAir: "How steady is the air, one to five? Five is perfectly still.",
        HowClearIsTheAir: "How clear is it, one to five? Five is perfectly clear.",
        WrittenDown: "Written down.",
        WasSeen: was_seen,
        NotedOfIt: noted_of_it,
        WrittenDownIsGone: "What was written down is gone.",
        NothingWrittenDown: "Nothing is written down yet. Say: seen it, when you have looked at something.",
    },
    terse={
        HowDidItShow: "Easily, only just, suspected, or not at all?",
        WhichEyepieceWasIn: "Which eyepiece?",
        HowDidItLook: "A word for it? Or: that's all.",
        AnotherWordForIt: "Another word for it?",
        HowSteadyIsTheAir: "Steadiness, one to five?",
        HowClearIsTheAir: "Clearness, one to five?",
        WrittenDown: "Noted.",
    },
    sayable={
        HowItShowedAnswer: ("easily", "only just", "suspected", "not at all"),
        HowItLookedAnswer: ("round", "long", "two", "colour", "bright", "faint", "misty", "single stars", "a bright middle", "that's all"),
        OneToFiveAnswer: ("one", "two", "three", "four", "five"),
    },
    step_help={
        HowDidItShow: "Easily: at the first look. Only just: after some looking. Suspected: you wouldn't swear to it. Or skip this.",
        WhichEyepieceWasIn: "The number is engraved on its rim. Say skip this if you can't read it.",
        HowDidItLook: "One word at a time. More words: bright, colour, single stars, a bright middle, a sharp edge, a dark patch, detail.",
        AnotherWordForIt: "One word at a time. Say: that's all, when there is no more.",
        HowSteadyIsTheAir: "Look at a star at high power. One: it boils. Five: it doesn't stir.",
        HowClearIsTheAir: "Look at the faintest stars. One: cloud or haze. Five: they show as well as they ever do.",
    },
)
