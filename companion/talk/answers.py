"""What can be answered: an enum for each grammar rule that a question may expect, compared with the grammar when it is loaded.

The values are the grammar's tags: neutral codes, never spoken. "Skip this" may be answered to any question, so every enum has it.
"""

from __future__ import annotations

from companion.talk.night_answers import ASKED_AT_A_TARGET
from companion.talk.saying import Answers


class YesNoAnswer(Answers):
    """Answers of the rule ``yes_no``."""

    NO = "no"
    YES = "yes"
    SKIP = "skip"


class EitherAnswer(Answers):
    """Answers of the rule ``either``."""

    FIRST = "first"
    NEITHER = "neither"
    SECOND = "second"
    SKIP = "skip"


class ReadyAnswer(Answers):
    """Answers of the rule ``ready``."""

    READY = "ready"
    SKIP = "skip"


class StartAnswer(Answers):
    """Answers of the rule ``start``."""

    ASK_ME = "ask-me"
    READY = "ready"
    SKIP = "skip"


class ClockCheckAnswer(Answers):
    """Answers of the rule ``clock_check``."""

    DATE_WRONG = "date-wrong"
    NO = "no"
    TIME_WRONG = "time-wrong"
    YES = "yes"
    ZONE_WRONG = "zone-wrong"
    SKIP = "skip"


class YearAnswer(Answers):
    """Answers of the rule ``year``."""

    YEAR = "year"
    SKIP = "skip"


class FinderKindAnswer(Answers):
    """Answers of the rule ``finder_kind``."""

    DOT = "dot"
    NO_FINDER = "no-finder"
    OPTICAL = "optical"
    SKIP = "skip"


class CompassKindAnswer(Answers):
    """Answers of the rule ``compass_kind``."""

    CARD = "card"
    NEEDLE = "needle"
    NONE = "none"
    PHONE = "phone"
    TRUE = "true"
    SKIP = "skip"


class PhoneNorthAnswer(Answers):
    """Answers of the rule ``phone_north``."""

    MAGNETIC = "magnetic"
    TRUE = "true"
    SKIP = "skip"


class StarChoiceAnswer(Answers):
    """Answers of the rule ``star_choice``."""

    BODY = "body"
    LIST = "list"
    NAMES = "names"
    NEITHER = "neither"
    ONE = "one"
    UNNAMED = "unnamed"
    SKIP = "skip"


class StarChoiceElseAnswer(Answers):
    """Answers of the rule ``star_choice_else``."""

    BODY = "body"
    ONE = "one"
    UNNAMED = "unnamed"
    SKIP = "skip"


class PoseTimeAnswer(Answers):
    """Answers of the rule ``pose_time``."""

    AFTER_SETTINGS = "after-settings"
    BEFORE_POWER = "before-power"
    BY_ITSELF = "by-itself"
    SKIP = "skip"


class ConfirmKeyAnswer(Answers):
    """Answers of the rule ``confirm_key``."""

    CONFIRM = "confirm"
    ENTER = "enter"
    OKAY = "okay"
    OTHER = "other"
    SELECT = "select"
    SKIP = "skip"


class CompanyAnswer(Answers):
    """Answers of the rule ``company``."""

    ALONE = "alone"
    COMPANY = "company"
    SKIP = "skip"


class LimitsAnswer(Answers):
    """Answers of the rule ``limits``."""

    DONE = "done"
    FAINT_STARS = "faint-stars"
    KNEELING = "kneeling"
    REACHING = "reaching"
    SKIP = "skip"


class FullnessAnswer(Answers):
    """Answers of the rule ``fullness``."""

    FULL = "full"
    TERSE = "terse"
    SKIP = "skip"


class MillimetresAnswer(Answers):
    """Answers of the rule ``millimetres``."""

    MILLIMETRES = "millimetres"
    SKIP = "skip"


class FewMillimetresAnswer(Answers):
    """Answers of the rule ``few_millimetres``."""

    FEW_MILLIMETRES = "few_millimetres"
    SKIP = "skip"


class FieldWidthAnswer(Answers):
    """Answers of the rule ``field_width``."""

    FIELD_WIDTH = "field_width"
    SKIP = "skip"


class HorizonAnswer(Answers):
    """Answers of the rule ``horizon``."""

    DONE = "done"
    OBSTRUCTION = "obstruction"
    SKIP = "skip"


class FistsAnswer(Answers):
    """Answers of the rule ``fists``."""

    FISTS = "fists"
    SKIP = "skip"


class MarkAnswer(Answers):
    """Answers of the rule ``mark``."""

    NO_FOCUS = "no-focus"
    READY = "ready"
    SKIP = "skip"


class FinderCheckAnswer(Answers):
    """Answers of the rule ``finder_check``."""

    AGREES = "agrees"
    MOVED = "moved"
    SKIP = "skip"


class MissAnswer(Answers):
    """Answers of the rule ``miss``."""

    BEHIND = "behind"
    JUST_OUTSIDE = "just-outside"
    MISS = "miss"
    NOWHERE = "nowhere"
    SAME = "same"
    TURN = "turn"
    SKIP = "skip"


class CheckAnswer(Answers):
    """Answers of the rule ``check``."""

    CANT_TELL = "cant-tell"
    NO = "no"
    YES = "yes"
    SKIP = "skip"


class FacingAnswer(Answers):
    """Answers of the rule ``facing``."""

    CANT_TELL = "cant-tell"
    EAST = "east"
    NORTH = "north"
    SOUTH = "south"
    WEST = "west"
    SKIP = "skip"


class SettingAnswer(Answers):
    """Answers of the rule ``setting``."""

    ALL_IN = "all-in"
    CITY = "city"
    DATE = "date"
    DAY_FIRST = "day-first"
    DAYLIGHT_SAVING = "daylight-saving"
    ELEVATION = "elevation"
    LATITUDE = "latitude"
    LONGITUDE = "longitude"
    MONTH_FIRST = "month-first"
    NEXT = "next"
    NO_SECONDS = "no-seconds"
    TIME = "time"
    TRUE_OR_COMPASS = "true-or-compass"
    TWELVE_HOURS = "twelve-hours"
    TWENTY_FOUR_HOURS = "twenty-four-hours"
    WHICH_SIDE = "which-side"
    YEAR_FIRST = "year-first"
    ZONE = "zone"
    SKIP = "skip"


class BearingAnswer(Answers):
    """Answers of the rule ``bearing``."""

    BEARING = "bearing"
    SKIP = "skip"


class ClockTimeAnswer(Answers):
    """Answers of the rule ``clock_time``."""

    PAST = "past"
    TO = "to"
    SKIP = "skip"


class CalendarDateAnswer(Answers):
    """Answers of the rule ``calendar_date``."""

    DATE = "date"
    SKIP = "skip"


class CoordinateAnswer(Answers):
    """Answers of the rule ``coordinate``."""

    COORDINATE = "coordinate"
    SKIP = "skip"


class FromTownAnswer(Answers):
    """Answers of the rule ``from_town``."""

    FROM_TOWN = "from-town"
    IN_TOWN = "in-town"
    SKIP = "skip"


class FinderAnswer(Answers):
    """Answers of the rule ``finder``."""

    ANOTHER = "another"
    CANNOT_SEE = "cannot-see"
    CLOUD = "cloud"
    COLOUR = "colour"
    HOW_HIGH = "how-high"
    IN_EYEPIECE = "in-eyepiece"
    IN_FINDER = "in-finder"
    MOON_SIDE = "moon-side"
    NAMES_ANOTHER = "names-another"
    NOT_SURE = "not-sure"
    OVERCAST = "overcast"
    SLEWING = "slewing"
    STOPPED = "stopped"
    TREE = "tree"
    TWO_THERE = "two-there"
    WAY_OFF = "way-off"
    WHICH_ONE = "which-one"
    SKIP = "skip"

    @classmethod
    def said_otherwise(cls) -> frozenset[str]:
        """Return what nobody is asked about, but some say."""
        return frozenset({cls.OVERCAST})


class WaitingAnswer(Answers):
    """Answers of the rule ``waiting``."""

    MEASURE_FIST = "measure-fist"
    READY = "ready"
    SKIP = "skip"


class SlewingAnswer(Answers):
    """Answers of the rule ``slewing``."""

    IN_FINDER = "in-finder"
    STOPPED = "stopped"
    SKIP = "skip"


class UnseenAnswer(Answers):
    """Answers of the rule ``unseen``."""

    ANOTHER = "another"
    BLURRED = "blurred"
    BRIGHT_SKY = "bright-sky"
    CLOUD = "cloud"
    DARK = "dark"
    NO_DOT = "no-dot"
    NOT_SURE = "not-sure"
    OVERCAST = "overcast"
    OTHER_STARS = "other-stars"
    TREE = "tree"
    SKIP = "skip"

    @classmethod
    def said_otherwise(cls) -> frozenset[str]:
        """Return what nobody is asked about, but some say."""
        return frozenset({cls.OVERCAST})


class EyepieceAnswer(Answers):
    """Answers of the rule ``eyepiece``."""

    BLURRED = "blurred"
    CENTRED = "centred"
    DRIFTS = "drifts"
    GONE = "gone"
    JUST_OFF = "just-off"
    TWO_THERE = "two-there"
    WHICH_ARROW = "which-arrow"
    SKIP = "skip"


class ViewAnswer(Answers):
    """Answers of the rule ``view``."""

    GONE = "gone"
    STILL = "still"
    VIEW = "view"
    SKIP = "skip"


class OutcomeAnswer(Answers):
    """Answers of the rule ``outcome``."""

    FAILED = "failed"
    MOON_OFF = "moon-off"
    SUCCESS = "success"
    SUCCESS_BUT_OFF = "success-but-off"
    WANTS_ANOTHER = "wants-another"
    WORSE_FAR_AWAY = "worse-far-away"
    SKIP = "skip"


class StarNameAnswer(Answers):
    """Answers of the rule ``star_name``."""

    STAR_LETTERS = "star-letters"
    STAR_NAME = "star-name"
    SKIP = "skip"


class LevelAnswer(Answers):
    """Answers of the rule ``level``."""

    READY = "ready"
    SKIP = "skip"


class NorthAnswer(Answers):
    """Answers of the rule ``north``."""

    READS = "reads"
    READY = "ready"
    WHICH_WAY = "which-way"
    SKIP = "skip"


class TubeAnswer(Answers):
    """Answers of the rule ``tube``."""

    READY = "ready"
    SKIP = "skip"


class PowerAnswer(Answers):
    """Answers of the rule ``power``."""

    DEAD = "dead"
    READY = "ready"
    RESTARTED = "restarted"
    SKIP = "skip"


class ProofAnswer(Answers):
    """Answers of the rule ``proof``."""

    ANOTHER = "another"
    CANNOT_SEE = "cannot-see"
    HOW_HIGH = "how-high"
    IN_EYEPIECE = "in-eyepiece"
    IN_FINDER = "in-finder"
    KICKED = "kicked"
    OVERCAST = "overcast"
    SLEWING = "slewing"
    WAS_FINE = "was-fine"
    WAY_OFF = "way-off"
    WHICH_ONE = "which-one"
    SKIP = "skip"

    @classmethod
    def said_otherwise(cls) -> frozenset[str]:
        """Return what nobody is asked about, but some say."""
        return frozenset({cls.OVERCAST})


class HowItShowedAnswer(Answers):
    """Answers of the rule ``how_it_showed``."""

    EASILY = "easily"
    JUST = "just"
    NOT_AT_ALL = "not-at-all"
    SUSPECTED = "suspected"
    SKIP = "skip"


class HowItLookedAnswer(Answers):
    """Answers of the rule ``how_it_looked``."""

    BRIGHT = "bright"
    BRIGHT_MIDDLE = "bright-middle"
    COLOUR = "colour"
    DARK_PATCH = "dark-patch"
    DETAIL = "detail"
    DONE = "done"
    FAINT = "faint"
    LONG = "long"
    MISTY = "misty"
    ROUND = "round"
    SHARP_EDGE = "sharp-edge"
    SINGLE_STARS = "single-stars"
    TWO = "two"
    SKIP = "skip"


class OneToFiveAnswer(Answers):
    """Answers of the rule ``one_to_five``: five is best."""

    FIVE = "five"
    FOUR = "four"
    ONE = "one"
    THREE = "three"
    TWO = "two"
    SKIP = "skip"


class KitAnswer(Answers):
    """Answers of the rule ``kit``."""

    CHAIR = "chair"
    DEW_STRIP = "dew-strip"
    DONE = "done"
    GLOVES = "gloves"
    HOT_DRINK = "hot-drink"
    RED_LIGHT = "red-light"
    SPARE_BATTERIES = "spare-batteries"
    SKIP = "skip"


class ClearSkyAnswer(Answers):
    """Answers of the rule ``clear_sky``."""

    CLEAR_PART = "clear-part"
    NONE_CLEAR = "none-clear"
    YES = "yes"
    SKIP = "skip"


class RecentreAnswer(Answers):
    """Answers of the rule ``recentre``."""

    ANOTHER = "another"
    CANNOT_SEE = "cannot-see"
    NO_SYNC = "no-sync"
    READY = "ready"
    SKIP = "skip"


class PackingAnswer(Answers):
    """Answers of the rule ``packing``."""

    DONE = "done"
    ENOUGH = "enough"
    MISSING = "missing"
    SKIP = "skip"


class TownAnswer(Answers):
    """Answers of the rule ``town``."""

    FIGURES = "figures"
    TOWN = "town"
    SKIP = "skip"


class UniversalAnswer(Answers):
    """The words that work at any time."""

    BEGIN_PART_AGAIN = "begin-part-again"
    BRIEFLY = "briefly"
    CARRY_ON = "carry-on"
    FASTER = "faster"
    GO_BACK = "go-back"
    GOOD_NIGHT = "good-night"
    HELP = "help"
    IN_FULL = "in-full"
    LEAVE_PART = "leave-part"
    LOST = "lost"
    LOUDER = "louder"
    SAY_AGAIN = "say-again"
    SKIP = "skip"
    SLOWER = "slower"
    SOFTER = "softer"
    STOP = "stop"
    THERE = "there"
    WAIT = "wait"
    WHAT_HEARD = "what-heard"
    WHAT_TIME = "what-time"
    WHY = "why"
    WORDS = "words"


ONLY_ASK: frozenset[Answers] = frozenset(
    {FinderAnswer.WHICH_ONE, FinderAnswer.HOW_HIGH, NorthAnswer.WHICH_WAY, ProofAnswer.WHICH_ONE, ProofAnswer.HOW_HIGH} | ASKED_AT_A_TARGET
)
"""Answers that only ask something, and change nothing."""
