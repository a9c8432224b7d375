"""What can be answered about telescope, mount, horizon and observer."""

from __future__ import annotations

from companion.talk.saying import Answers


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


class LastKeysAnswer(Answers):
    """Answers of the rule ``last_keys``."""

    CANT_TELL = "cant-tell"
    DOWN_LEFT = "down-left"
    DOWN_RIGHT = "down-right"
    UP_LEFT = "up-left"
    UP_RIGHT = "up-right"
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


class FinderWidthAnswer(Answers):
    """Answers of the rule ``finder_width``."""

    FINDER_WIDTH = "finder_width"
    SKIP = "skip"


class ToldFigureAnswer(Answers):
    """Answers of the rule ``told_figure``: a figure told unasked, in slots ``mag`` and ``decimals``, ``wide`` or ``few``."""

    EYEPIECE_IN = "eyepiece-in"
    FINDER_FIELD = "finder-field"
    SKY_MAG = "sky-mag"
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
