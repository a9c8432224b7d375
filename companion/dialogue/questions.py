"""What is answered to a question that may be asked at any time. Nothing of the stage changes: no answer, no note, no event."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from companion import observing, sky
from companion.dialogue.stage_run import StageRun
from companion.dialogue.whereabouts import where_we_are
from companion.equipment import Equipment
from companion.messages import NotNow, Slots
from companion.observing.night_ahead import night_ahead
from companion.procedure.alignment_state import STAR_COUNTS
from companion.procedure.mount_calls import MountTold
from companion.procedure.prepare import best_of, the_night, to_pack
from companion.procedure.reference_stars import USUAL_CHOICE
from companion.procedure.targets import Visited
from companion.sky import ColourTold, HeightTold, Moment, Told
from companion.sky.bands import CompassPoint
from companion.talk.advice import LEAVE_IT, Advice
from companion.talk.answers import (
    EyepieceAnswer,
    FinderAnswer,
    FinderCheckAnswer,
    LevelAnswer,
    MarkAnswer,
    NorthAnswer,
    OutcomeAnswer,
    SettingAnswer,
    StarNameAnswer,
    TownAnswer,
    TubeAnswer,
)
from companion.talk.check_in_phrases import HowDarkItIs, NoSkyWithoutAPlace
from companion.talk.equipment_phrases import FromTownHeard, SayOrSpellTheTown, TownHeard
from companion.talk.guidance_phrases import TheTime, Waiting, WhereWeAre
from companion.talk.help_phrases import HelpWithStep
from companion.talk.mistakes_phrases import KeyOurTimeAgain, MendThese
from companion.talk.mount_phrases import NobodyTellsWhereItPoints, WhereItPoints
from companion.talk.night_answers import ShowMeAnswer, TargetAnswer
from companion.talk.prepare_phrases import ChargeAndPack, MoonOfTheNight, NotToMiss
from companion.talk.question_answers import QUESTION_RULES, AdviceQuestionAnswer, ItQuestionAnswer, QuestionAnswer, WordQuestionAnswer
from companion.talk.question_phrases import (
    Advised,
    AskedAgain,
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
    WhatIsMeant,
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
from companion.talk.saying import Answers, Ask, Say, Saying
from companion.talk.stars_phrases import ItFailed, WhatDoesTheMountSay
from companion.talk.trade_words import Task, TradeWord

_NAMES_OFFERED = 2
"""More than the likeliest and one other nobody keeps in mind."""
_NAMED_AT_ONCE = 3
_FACTS_THAT_NAME = ("name", "star", "target")
_OF_TOWNS = (TownHeard, FromTownHeard)
"""What these name stands on the Earth."""
_OF_A_THING: Mapping[str, Callable[[str], Say]] = {
    ItQuestionAnswer.WHERE: WhereItStands,
    ShowMeAnswer.SHOW_ME: WhereItStands,
    ItQuestionAnswer.UP: IsItUp,
    ItQuestionAnswer.RISES: WhenItRises,
    ItQuestionAnswer.SETS: WhenItSets,
    ItQuestionAnswer.HEIGHT: HowHighItStands,
    ItQuestionAnswer.KIND: WhatItIs,
    ItQuestionAnswer.DISTANCE: HowFarItIs,
    ItQuestionAnswer.LIGHT_AGE: HowOldItsLightIs,
    ItQuestionAnswer.SIZE: HowBigItIs,
    ItQuestionAnswer.STORY: TellItsStory,
    ItQuestionAnswer.BRIGHTNESS: HowBrightItIs,
    ItQuestionAnswer.AGE: HowOldItIs,
    ItQuestionAnswer.COLOUR: WhatColourItIs,
    ItQuestionAnswer.CONSTELLATION: WhichConstellation,
    ItQuestionAnswer.WHY: WhyThisOne,
}
_MEANT_AT: Mapping[tuple[type[Answers], Advice], Advice] = {
    (NorthAnswer, Advice.HOW_LEVEL): Advice.HOW_NORTH,
    (NorthAnswer, Advice.WOBBLES): Advice.COMPASS_WANDERS,
    (EyepieceAnswer, Advice.HOW_LEVEL): Advice.HOW_CENTRED,
    (FinderAnswer, Advice.HOW_LEVEL): Advice.HOW_CENTRED,
    (MarkAnswer, Advice.HOW_LEVEL): Advice.HOW_CENTRED,
    (FinderCheckAnswer, Advice.HOW_LEVEL): Advice.HOW_CENTRED,
    (SettingAnswer, Advice.VERDICT): Advice.MENU,
}
"""What words that are said of several things are about at a question."""
_OTHER_WAYS: Mapping[type[Answers], Say] = {
    LevelAnswer: Advised(Advice.NO_BUBBLE),
    TubeAnswer: Advised(Advice.NO_BUBBLE),
    MarkAnswer: Advised(Advice.NO_MARK),
    TownAnswer: SayOrSpellTheTown(),
    FinderAnswer: Advised(Advice.MANY_STARS),
    SettingAnswer: Advised(Advice.MENU),
}
"""The other way there is at a question; north has ways of its own."""
_MINUTES = {
    "check-in": 2,
    "ground": 8,
    "finder": 8,
    "starting-pose": 6,
    "power": 2,
    "settings": 5,
    "late-finder": 8,
    "late-pose": 6,
    "reference-stars": 8,
    "proof": 3,
}
"""How long each part takes somebody who isn't in a hurry: judgement."""
_INTERVIEW = "your-equipment"
"""The stage that asks for place and equipment alone, and sets nothing up."""
_BEGINS_AGAIN = (MendThese, KeyOurTimeAgain, ItFailed)
"""After these the stars are gone through from the first."""
_NEEDS_A_PLACE = {
    *_OF_A_THING,
    StarNameAnswer.STAR_NAME,
    QuestionAnswer.WHAT_IS_BRIGHT,
    QuestionAnswer.MOON_NOW,
    QuestionAnswer.UNTIL_DARK,
    QuestionAnswer.UNTIL_LIGHT,
    QuestionAnswer.WHICH_WAY_IS,
    QuestionAnswer.WHICH_WAS_THAT,
    QuestionAnswer.WHERE_ARE_WE,
    QuestionAnswer.DECLINATION,
    QuestionAnswer.WORTH_SEEING,
    QuestionAnswer.PLANETS_UP,
    QuestionAnswer.HOW_FAINT,
    QuestionAnswer.ABOUT_TONIGHT,
}


@dataclass(frozen=True)
class Standing:
    """Where the evening stands when a question is asked."""

    question: Ask[Answers]
    """The open question."""
    moment: Moment
    place_is_known: bool
    equipment: Equipment
    run: StageRun
    """The stage under way."""
    to_come: tuple[str, ...]
    """The names of the stages after it, in order, without those that this mount passes over."""
    began: datetime
    """When the first stage was begun."""
    named_last: str | None
    """The thing in the sky that was spoken of last."""
    read_mount: Callable[[], MountTold | None] | None
    """Asks the mount on the line; None where there is none."""


def is_question(heard: NotNow) -> bool:
    """Say whether something that is no answer now asks something of us; a bare name asks where that is."""
    return heard.command in _COMMANDS or (heard.command == StarNameAnswer.STAR_NAME and "star" in heard.slots)


_COMMANDS = frozenset(str(command) for rule in QUESTION_RULES for command in rule)


def answered(asked: NotNow, standing: Standing) -> tuple[Saying, ...]:
    """Return the answer to a question, and the open question again in few words."""
    if asked.command in _NEEDS_A_PLACE and not standing.place_is_known:
        told: tuple[Say, ...] = (NoSkyWithoutAPlace(),)
    elif asked.command == StarNameAnswer.STAR_NAME:
        told = (WhereItStands(asked.slots["star"]),)
    elif asked.command == WordQuestionAnswer.WHAT_IS:
        told = (WordMeans(TradeWord(asked.slots["word"])),)
    elif asked.command == AdviceQuestionAnswer.ADVISE:
        advice = _advice_at(standing.question, Advice(asked.slots["advice"]))
        if advice in LEAVE_IT:
            return (Advised(advice), Waiting())
        told = (Advised(advice),)
    elif asked.command in _OF_A_THING:
        name = asked.slots.get("name") or asked.slots.get("object") or standing.named_last
        told = (_OF_A_THING[asked.command](name) if name else NamedNothingYet(),)
    else:
        told = _TOLD[QuestionAnswer(asked.command)](asked.slots, standing)
    return (*told, AskedAgain(standing.question))


def _advice_at(question: Ask[Answers], asked: Advice) -> Advice:
    """Return what helps at a question: "how exact?" is asked of whatever is being done, and at north it is the needle that wobbles."""
    return _MEANT_AT.get((question.expects, asked), asked)


def _where_it_points(standing: Standing) -> Say:
    if standing.read_mount is None:
        return NobodyTellsWhereItPoints()
    told = standing.read_mount()
    return WhereItPoints(None, None) if told is None else WhereItPoints(told.altitude_deg, told.azimuth_deg, turns=told.slewing is True)


def _another_way(standing: Standing) -> tuple[Say, ...]:
    """Give the other way there is to do what is open; where there is none, say so."""
    return (_OTHER_WAYS.get(standing.question.expects, NoOtherWay()),)


def named_in(sayings: Iterable[Saying]) -> str | None:
    """Return the thing in the sky that was named last among sayings; None where there is none."""
    named: str | None = None
    for saying in sayings:
        if isinstance(saying, _OF_TOWNS):
            continue
        facts = saying.facts
        if isinstance(saying, BrightOne | BrightPair):
            named = saying.names[0]
        for fact in _FACTS_THAT_NAME:
            if isinstance(name := facts.get(fact), str):
                named = name
    return named


def _point(spoken: str) -> CompassPoint:
    return CompassPoint[spoken.upper().replace("-", "_")]


def _bright(slots: Slots, moment: Moment) -> Say:
    """Name what is meant, or two of them, or say that nothing is there; a thing in the Sun's place gets its warning."""
    told = Told(
        _point(slots["point"]) if "point" in slots else None,
        HeightTold(slots["height"]) if "height" in slots else None,
        ColourTold(slots["colour"]) if "colour" in slots else None,
        is_star="a_star" in slots,
    )
    if "which" in slots:
        pair = sky.pair_meant(told, moment)
        return BrightPair((pair[0].body.name, pair[1].body.name)) if pair else NothingBrightThere()
    found = sky.meant(told, moment) or sky.meant(replace(told, is_star=False), moment)
    names = tuple(sight.body.name for sight in found[:_NAMES_OFFERED])
    if names:
        return BrightOne(names)
    return ThatIsTheSun() if sky.sun_state(moment).is_up else NothingBrightThere()


def _what_next(standing: Standing) -> Say:
    """Say which part follows; at a target, how to go on, and while the alignment is mended between targets, that these go on."""
    if standing.run.stage.result is Visited:
        return NextTargetOrPacking() if standing.question.expects is TargetAnswer else WhatComesNext(standing.run.name)
    return WhatComesNext(standing.to_come[0] if standing.to_come else None)


def _how_much_longer(standing: Standing) -> Say:
    """Say how long it is until the first target, if this leads to one."""
    if standing.run.name == _INTERVIEW:
        return OnlyQuestions()
    stages = (standing.run.name, *standing.to_come)
    return HowMuchLonger(sum(_MINUTES.get(stage, 0) for stage in stages) if "targets" in standing.to_come else None)


def _worth_seeing(standing: Standing) -> Say:
    """Name what is best tonight."""
    best = best_of(night_ahead(standing.moment), standing.equipment)
    return NotToMiss(tuple(target.sight.body.name for target in best[:_NAMED_AT_ONCE]))


def _about_tonight(standing: Standing) -> tuple[Say, ...]:
    """Say when it is dark, and when to be there; of the Moon there is a question of its own, and more nobody keeps in mind."""
    return tuple(saying for saying in the_night(night_ahead(standing.moment)) if not isinstance(saying, MoonOfTheNight))


def _faintest(standing: Standing) -> Say:
    """Say how faint a star shows overhead now."""
    outfit = observing.outfit_of(standing.equipment.instrument)
    aperture_mm = outfit.telescope.aperture_mm
    if sky.sun_state(standing.moment).is_up:
        return FaintestHere(aperture_mm, None, None)
    site = observing.site_sky_of(standing.equipment.observer)
    overhead = float(observing.sky_brightness(site, observing.lamps(standing.moment), 90.0, 0.0))
    through = observing.star_limits_mag(overhead, outfit.telescope, outfit.eyepieces, outfit.eye)
    by_eye = observing.naked_eye_limit_mag(overhead, outfit.eye)
    return FaintestHere(aperture_mm, _to_the_half(float(through.max())), _to_the_half(float(by_eye)))


def _to_the_half(magnitude: float) -> float:
    return round(2.0 * magnitude) / 2.0


def _where_we_were(standing: Standing) -> Say:
    """Say what is being done, with its name; where nothing is that has a name, what was spoken of last."""
    here = where_we_are(standing.run)
    named = standing.named_last if standing.place_is_known else None
    return here if here != WhereWeAre(standing.run.name) else WhereWeWere(standing.run.name, named)


def _stars_left(standing: Standing) -> Say:
    """Say how many reference stars are still to be centred, if any are to be at all."""
    return OnlyQuestions() if standing.run.name == _INTERVIEW else StarsLeft(_count_of_stars_left(standing))


def _count_of_stars_left(standing: Standing) -> int:
    wanted = STAR_COUNTS[standing.equipment.mount.star_choice or USUAL_CHOICE]
    if standing.run.stage.name != "reference-stars":
        return wanted if "reference-stars" in standing.to_come else 0
    asks = [decision for decision in standing.run.decisions if isinstance(decision, Ask)]
    return max(0, wanted - _centred(asks, [answer.command for answer in standing.run.replies]))


def _centred(asks: Sequence[Ask[Answers]], commands: Sequence[str]) -> int:
    """Return how many stars were centred since the stars were last begun; one more that the mount wants counts against them."""
    centred = 0
    for question, command in zip(asks, commands, strict=False):
        if isinstance(question, _BEGINS_AGAIN):
            centred = 0
        elif question.expects is EyepieceAnswer and command == EyepieceAnswer.CENTRED:
            centred += 1
        elif isinstance(question, WhatDoesTheMountSay) and command == OutcomeAnswer.WANTS_ANOTHER:
            centred -= 1
    return centred


_TOLD: Mapping[QuestionAnswer, Callable[[Slots, Standing], tuple[Say, ...]]] = {
    QuestionAnswer.WHAT_IS_BRIGHT: lambda slots, here: (_bright(slots, here.moment),),
    QuestionAnswer.MOON_NOW: lambda _, here: (TheMoonNow(),),
    QuestionAnswer.TIME_NOW: lambda _, here: (TheTime(),),
    QuestionAnswer.UNTIL_DARK: lambda _, here: (HowDarkItIs(),),
    QuestionAnswer.UNTIL_LIGHT: lambda _, here: (UntilLight(),),
    QuestionAnswer.WHERE_ARE_WE: lambda _, here: (WhereOnEarth(), where_we_are(here.run)),
    QuestionAnswer.WHERE_IT_POINTS: lambda _, here: (_where_it_points(here),),
    QuestionAnswer.WHERE_WAS_I: lambda _, here: (_where_we_were(here),),
    QuestionAnswer.WHAT_I_TOLD: lambda _, here: (WhatYouTold(here.equipment),),
    QuestionAnswer.WHICH_WAS_THAT: lambda _, here: (WhereItStands(here.named_last) if here.named_last else NamedNothingYet(),),
    QuestionAnswer.WHICH_WAY_IS: lambda slots, here: (WhichWayItIs(_point(slots["point"])),),
    QuestionAnswer.HOW_MUCH_LONGER: lambda _, here: (_how_much_longer(here),),
    QuestionAnswer.WHAT_NEXT: lambda _, here: (_what_next(here),),
    QuestionAnswer.HOW_LONG_OUT: lambda _, here: (HowLongOut(here.began),),
    QuestionAnswer.DATE_NOW: lambda _, here: (TheDate(),),
    QuestionAnswer.DECLINATION: lambda _, here: (HowFarTheCompassIsOff(),),
    QuestionAnswer.WORTH_SEEING: lambda _, here: (_worth_seeing(here),),
    QuestionAnswer.ABOUT_TONIGHT: lambda _, here: _about_tonight(here),
    QuestionAnswer.WHAT_TO_PACK: lambda _, here: (ChargeAndPack(to_pack(here.equipment)),),
    QuestionAnswer.PLANETS_UP: lambda _, here: (PlanetsUp(),),
    QuestionAnswer.HOW_FAINT: lambda _, here: (_faintest(here),),
    QuestionAnswer.COMETS: lambda _, here: (NoCometsKnown(),),
    QuestionAnswer.PASSING: lambda _, here: (NothingPassingKnown(),),
    QuestionAnswer.WEATHER: lambda _, here: (NoWeatherKnown(),),
    QuestionAnswer.ANOTHER_WAY: lambda _, here: _another_way(here),
    QuestionAnswer.STARS_LEFT: lambda _, here: (_stars_left(here),),
    QuestionAnswer.WHY_THAT: lambda _, here: (HelpWithStep(type(here.question)),),
    QuestionAnswer.WHAT_YOU_MEAN: lambda _, here: (WhatIsMeant(here.question),),
    QuestionAnswer.HOW_DO_I: lambda slots, here: (HowToDo(Task(slots["task"])),),
}
