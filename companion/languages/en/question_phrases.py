"""English for what is answered to questions at any time, and for the open question put again in few words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta

from companion import places
from companion.equipment import Equipment
from companion.languages.en.clock_words import calendar_day, duration
from companion.languages.en.direction_words import degrees, sentence
from companion.languages.en.fact_words import (
    how_big,
    how_bright,
    how_far,
    how_old,
    its_colour,
    its_constellation,
    light_age,
    what_it_is,
    why_this_one,
)
from companion.languages.en.guidance_phrases import where_we_are
from companion.languages.en.number_words import cardinal, count_of, decimal
from companion.languages.en.sight_words import SUN_CAUTION, place_of
from companion.languages.en.sky_answers import (
    bright_one,
    bright_pair,
    how_high_it_stands,
    is_it_up,
    planets_up,
    the_moon_now,
    until_light,
    when_it_rises,
    when_it_sets,
    where_it_stands,
    where_on_earth,
    which_way_it_is,
)
from companion.languages.en.stage_words import STAGES
from companion.languages.en.story import story
from companion.languages.en.trade_word_phrases import FORMS, TASKS, WORDS, first_trade_word
from companion.languages.phrase import Chapter, Scene
from companion.talk.check_in_phrases import IsTheClockRight, IsThePlaceRight, TellMeTheDate
from companion.talk.cloud_phrases import WaitForTheSky
from companion.talk.equipment_phrases import (
    AnythingElseInTheWay,
    EyepieceHeard,
    FistHeard,
    FocalLength,
    FromTownHeard,
    InTheWayHeard,
    TelescopeHeard,
    TownHeard,
    WhichEyepiece,
    WhoChoosesTheStars,
    YourPlaceHeard,
)
from companion.talk.ground_phrases import CapsAndCooling, PickAFarMark, PickAMarkAfterDark, TakeAFartherMark
from companion.talk.guidance_phrases import DidYouSay
from companion.talk.kinds import AT_A_TARGET
from companion.talk.mistakes_phrases import CheckThis, IsItsTimeRight, WhichWayAndHowFar
from companion.talk.pose_phrases import NorthByAMark, NorthByLandmark, NorthByThePole, NorthByTheShadow, NorthByTheSunset
from companion.talk.question_phrases import (
    BrightOne,
    BrightPair,
    FaintestHere,
    HowBigItIs,
    HowBrightItIs,
    HowFarItIs,
    HowFarTheCompassIsOff,
    HowHighItStands,
    HowLongOut,
    HowMuchLonger,
    HowOldItIs,
    HowOldItsLightIs,
    HowToDo,
    IsItUp,
    NamedNothingYet,
    NextTargetOrPacking,
    NoCometsKnown,
    NoOtherWay,
    NothingBrightThere,
    NothingPassingKnown,
    NoWeatherKnown,
    OnlyQuestions,
    PlanetsUp,
    StarsLeft,
    TellItsStory,
    ThatIsTheSun,
    TheDate,
    TheMoonNow,
    UntilLight,
    WhatColourItIs,
    WhatComesNext,
    WhatItIs,
    WhatYouTold,
    WhenItRises,
    WhenItSets,
    WhereItStands,
    WhereOnEarth,
    WhereWeWere,
    WhichConstellation,
    WhichWayItIs,
    WhyThisOne,
    WordMeans,
)
from companion.talk.saying import Answers, Ask
from companion.talk.stars_phrases import NoMoreStars, WhichStarDoesItName
from companion.talk.trade_words import Task, TradeWord

_CHOICES = {
    "names": "Your mount names its stars.",
    "list": "You choose the stars from the mount's list.",
    "unnamed": "Your mount takes any bright things.",
    "one": "Your mount wants a single star.",
    "body": "Your mount takes the Moon or a planet.",
}
_POSES = {
    "before-power": "It takes its start position before power.",
    "after-settings": "It takes its start position after the settings.",
    "by-itself": "It finds its start position by itself.",
}
_COMPASSES = {
    "needle": "Your compass has a loose needle.",
    "card": "Your compass is a card or a phone.",
    "true": "Your compass shows true north.",
    "none": "You have no compass.",
}
_FINDERS = {"dot": "Your finder is a red dot.", "optical": "Your finder is a small telescope."}
AGAIN: Mapping[type[Ask[Answers]], str] = {
    IsTheClockRight: "Are my time and date correct?",
    IsThePlaceRight: "Is the place correct?",
    TellMeTheDate: "What day is it?",
    AnythingElseInTheWay: "What else hides the sky?",
    CapsAndCooling: "Caps as I said, and the dew shield on. Ready?",
    PickAFarMark: "Got one, far off?",
    PickAMarkAfterDark: "Got it, and sharp?",
    TakeAFartherMark: "Got one farther off?",
    WaitForTheSky: "Say ready when it clears.",
    NoMoreStars: "Say ready when another star shows.",
    WhichStarDoesItName: "What star does it name?",
    WhichWayAndHowFar: "How far left or right was it, and how far up or down?",
    WhoChoosesTheStars: "Does it name a star, or ask you for one?",
    FocalLength: "The focal length?",
    WhichEyepiece: "An eyepiece, in millimetres?",
    NorthByThePole: "Say facing north when it does.",
    NorthByTheShadow: "Say facing north when it does.",
    NorthByTheSunset: "Say facing north when it does.",
    NorthByAMark: "Say facing north when it does.",
    NorthByLandmark: "Say facing north when it does.",
    **dict.fromkeys(AT_A_TARGET, "Say next target when you like."),
}
"""Where neither the short words nor the last sentence of the full ones do."""
WHOLE: frozenset[type[Ask[Answers]]] = frozenset(
    {DidYouSay, TownHeard, FromTownHeard, YourPlaceHeard, TelescopeHeard, EyepieceHeard}
    | {InTheWayHeard, FistHeard, CheckThis, IsItsTimeRight}
)
"""Of these the last sentence alone says nothing: they read something back."""


def where_we_were(scene: Scene, *, stage: str, name: str | None) -> str:
    """Say which part of the evening this is, with the name of the thing it is about."""
    part = where_we_are(scene, stage=stage)
    return part if name is None else f"{part} {sentence(f'spoken of last: {place_of(scene, name)}')}"


def what_you_told(scene: Scene, *, equipment: Equipment) -> str:
    """Say what is known of the equipment."""
    known = list(_known(equipment))
    return " ".join(known) or "Nothing about your telescope yet. Say ask about my telescope, at the beginning."


def _known(equipment: Equipment) -> Iterator[str]:
    instrument, mount, observer = equipment.instrument, equipment.mount, equipment.observer
    if instrument.aperture_mm:
        yield f"The telescope is {cardinal(round(instrument.aperture_mm))} millimetres wide."
    if instrument.focal_length_mm:
        yield f"Its focal length is {cardinal(round(instrument.focal_length_mm))}."
    if instrument.eyepieces:
        yield f"I know {count_of(len(instrument.eyepieces), 'eyepiece')}."
    if instrument.finder:
        yield _FINDERS[instrument.finder]
    if mount.star_choice:
        yield _CHOICES[mount.star_choice]
    if mount.pose_time:
        yield _POSES[mount.pose_time]
    if observer.compass:
        yield _COMPASSES[observer.compass]


def how_much_longer(scene: Scene, *, minutes: int | None) -> str:
    """Say how long until the first target."""
    if minutes is None:
        return "The set-up is done: as long as you like."
    return f"About {duration(timedelta(minutes=minutes))} until the first target, if nothing goes wrong."


def what_comes_next(scene: Scene, *, stage: str | None) -> str:
    """Say which part follows."""
    return "Nothing after this: then we are done." if stage is None else f"After this part: {STAGES[stage]}."


def stars_left(scene: Scene, *, count: int) -> str:
    """Say how many reference stars are still to be centred."""
    return f"{sentence(count_of(count, 'alignment star'))[:-1]} to go." if count else "No more alignment stars, unless the mount wants one."


def word_means(scene: Scene, *, word: TradeWord) -> str:
    """Explain a word of the trade."""
    return WORDS[word]


def how_to_do(scene: Scene, *, task: Task) -> str:
    """Say how something is done by hand."""
    return TASKS[task]


def how_long_out(scene: Scene, *, since: datetime) -> str:
    """Say how long ago the evening began."""
    return sentence(duration(scene.time - since))


def the_date(scene: Scene) -> str:
    """Say the day."""
    return sentence(f"it's {calendar_day(places.local_time(scene), month_first=places.customs(scene.site).date_order == 'month-day')}")


def how_far_the_compass_is_off(scene: Scene) -> str:
    """Say by how much, and to which side, a compass points past true north here."""
    declination_deg = places.declination(scene).declination_deg
    if declination_deg is None:
        return "I don't know it for that date."
    if round(declination_deg) == 0:
        return "Here a compass needs no correction."
    side, point = ("right", "east") if declination_deg > 0 else ("left", "west")
    return f"Here a magnet points {degrees(abs(declination_deg))} to the {side} of true north: {point}."


def faintest_here(scene: Scene, *, aperture_mm: float, telescope_mag: float | None, eye_mag: float | None) -> str:
    """Say how faint a star shows overhead, by eye and through the telescope."""
    if telescope_mag is None or eye_mag is None:
        return "It must be dark for that. Ask me again under the stars."
    return (
        f"Overhead now, stars to about magnitude {decimal(telescope_mag)} through {cardinal(round(aperture_mm))} millimetres of aperture, "
        f"to {decimal(eye_mag)} by eye. What is spread out shows less far."
    )


def explained(words: str) -> str | None:
    """Explain the first word of the trade among some words; None where there is none."""
    word = first_trade_word(words)
    return None if word is None else f"{sentence(FORMS[word][0])} {WORDS[word]}"


ANSWERS = Chapter(
    {
        HowOldItIs: how_old,
        WhatColourItIs: its_colour,
        WhichConstellation: its_constellation,
        WhyThisOne: why_this_one,
        TheDate: the_date,
        HowFarTheCompassIsOff: how_far_the_compass_is_off,
        WhatItIs: what_it_is,
        HowFarItIs: how_far,
        HowOldItsLightIs: light_age,
        TellItsStory: story,
        HowBigItIs: how_big,
        HowBrightItIs: how_bright,
        HowLongOut: how_long_out,
        PlanetsUp: planets_up,
        FaintestHere: faintest_here,
        NoCometsKnown: "I can't say: comets come and go, and I look nothing up.",
        NothingPassingKnown: "I can't say when meteors or satellites pass: I look nothing up. Watch the darkest part of the sky.",
        NoWeatherKnown: "I can't know: nothing here reaches the network. Look up now and then, and tell me when a cloud comes.",
        BrightOne: bright_one,
        BrightPair: bright_pair,
        NoOtherWay: "I know no other way for this one. If it can't be done, say skip this, or leave this part.",
        NothingBrightThere: (
            "Nothing bright stands there now. If it moves or blinks, it's an aircraft or a satellite: watch it for a minute."
        ),
        ThatIsTheSun: f"That may be the Sun. {SUN_CAUTION}",
        WhereItStands: where_it_stands,
        IsItUp: is_it_up,
        WhenItRises: when_it_rises,
        WhenItSets: when_it_sets,
        HowHighItStands: how_high_it_stands,
        NamedNothingYet: "I have named nothing yet. Ask by its name: where is Vega, or where is the Moon.",
        TheMoonNow: the_moon_now,
        UntilLight: until_light,
        WhereOnEarth: where_on_earth,
        WhereWeWere: where_we_were,
        WhatYouTold: what_you_told,
        WhichWayItIs: which_way_it_is,
        HowMuchLonger: how_much_longer,
        NextTargetOrPacking: "Next target goes on. That's all leads to packing up.",
        WhatComesNext: what_comes_next,
        StarsLeft: stars_left,
        OnlyQuestions: "No stars and no set-up now: only questions about your place and telescope, five minutes in all.",
        WordMeans: word_means,
        HowToDo: how_to_do,
    }
)
