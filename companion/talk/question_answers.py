"""What the observer may ask at any time, and where they may ask to go: the commands of rules that are never live beside a question.

What isn't understood in the small live set is looked up among all that is known; there these are found.
"""

from __future__ import annotations

from companion.talk.answers.on_the_line import HaltAnswer, HandsAnswer
from companion.talk.night_answers import ShowMeAnswer
from companion.talk.saying import Answers
from companion.talk.tour_phrases import TourWishAnswer


class QuestionAnswer(Answers):
    """Commands of the rule ``question``."""

    ANOTHER_WAY = "another-way"
    ABOUT_TONIGHT = "about-tonight"
    COMETS = "comets"
    DATE_NOW = "date-now"
    DECLINATION = "declination"
    HOW_DO_I = "how-do-i"
    HOW_FAINT = "how-faint"
    HOW_LONG_OUT = "how-long-out"
    HOW_MUCH_LONGER = "how-much-longer"
    MOON_NOW = "moon-now"
    PASSING = "passing"
    PLANETS_UP = "planets-up"
    STARS_LEFT = "stars-left"
    TIME_NOW = "time-now"
    UNTIL_DARK = "until-dark"
    UNTIL_LIGHT = "until-light"
    WHAT_I_TOLD = "what-i-told"
    WHAT_IS_BRIGHT = "what-is-bright"
    WHAT_NEXT = "what-next"
    WHAT_TO_PACK = "what-to-pack"
    WHAT_YOU_MEAN = "what-you-mean"
    WEATHER = "weather"
    WHERE_ARE_WE = "where-are-we"
    WHERE_IT_POINTS = "where-it-points"
    WHERE_WAS_I = "where-was-i"
    WHICH_WAS_THAT = "which-was-that"
    WHICH_WAY_IS = "which-way-is"
    WHY_THAT = "why-that"
    WORTH_SEEING = "worth-seeing"


class ItQuestionAnswer(Answers):
    """Commands of the rule ``it_question``: of the thing spoken of last."""

    AGE = "how-old"
    BRIGHTNESS = "how-bright"
    COLOUR = "its-colour"
    CONSTELLATION = "its-constellation"
    DISTANCE = "how-far"
    HEIGHT = "height-of"
    KIND = "what-kind"
    LIGHT_AGE = "light-age"
    RISES = "rises-when"
    SETS = "sets-when"
    SIZE = "how-big"
    STORY = "tell-story"
    UP = "up-now"
    WHERE = "where-now"
    WHY = "why-it"


class SkyQuestionAnswer(Answers):
    """Commands of the rule ``sky_question``: the same of a thing by its name, in slot ``name``."""

    DISTANCE = "how-far"
    HEIGHT = "height-of"
    KIND = "what-kind"
    RISES = "rises-when"
    SETS = "sets-when"
    SIZE = "how-big"
    STORY = "tell-story"
    UP = "up-now"
    WHERE = "where-now"
    WHY = "why-it"


class WordQuestionAnswer(Answers):
    """Commands of the rule ``word_question``."""

    WHAT_IS = "what-is"


class AdviceQuestionAnswer(Answers):
    """Commands of the rule ``advice_question``: what somebody runs into, in slot ``advice``."""

    ADVISE = "advise"


class OneselfAnswer(Answers):
    """Commands of the rule ``oneself``: what observers tell of their sight, of who looks, of what talks or is felt, of what is hard."""

    ALONE = "nobody-looks"
    BLIND = "blind"
    CHILD = "child-looks"
    HELPER = "helper-looks"
    LITTLE = "sees-little"
    NO_KNEELING = "cant-kneel"
    NO_REACHING = "cant-reach-up"
    RAISED_MARK = "has-raised-mark"
    SIGHTED = "sees-well"
    TALKING_COMPASS = "has-talking-compass"
    TALKING_LEVEL = "has-talking-level"


class GearAnswer(Answers):
    """Commands of the rule ``gear``: what is told of the telescope before anybody asks. Only typed: no ear listens for so many figures."""

    APERTURE = "has-aperture"
    FINDER = "has-finder"
    FOCAL_LENGTH = "has-focal-length"
    FOCAL_RATIO = "has-focal-ratio"
    KIND = "has-telescope"


class JumpAnswer(Answers):
    """Commands of the rule ``jump``: to go to a part of the evening, in slot ``part``, or to begin it again."""

    GO_TO = "go-to"
    PACK_UP = "pack-up"
    START_FROM = "start-from"


QUESTION_RULES: tuple[type[Answers], ...] = (
    QuestionAnswer,
    ItQuestionAnswer,
    SkyQuestionAnswer,
    ShowMeAnswer,
    WordQuestionAnswer,
    AdviceQuestionAnswer,
)
"""All that only ask."""
NEVER_LIVE: tuple[type[Answers], ...] = (*QUESTION_RULES, JumpAnswer, HaltAnswer, HandsAnswer, OneselfAnswer, GearAnswer, TourWishAnswer)
"""All that may be said at any time, and is looked up where nothing live fits."""
