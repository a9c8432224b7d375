"""What can be answered while alignment stars are found and centred, and the alignment is proved."""

from __future__ import annotations

from companion.talk.saying import Answers


class FinderAnswer(Answers):
    """Answers of the rule ``finder``."""

    ANOTHER = "another"
    AT_SIDE = "at-side"
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
        return frozenset({cls.AT_SIDE, cls.OVERCAST, cls.STOPPED})


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
    CANNOT_SEE = "cannot-see"
    CLOUD = "cloud"
    DARK = "dark"
    IN_FINDER = "in-finder"
    NO_DOT = "no-dot"
    NOT_SURE = "not-sure"
    OVERCAST = "overcast"
    OTHER_STARS = "other-stars"
    TREE = "tree"
    SKIP = "skip"

    @classmethod
    def said_otherwise(cls) -> frozenset[str]:
        """Return what nobody is asked about, but some say."""
        return frozenset({cls.OVERCAST, cls.CANNOT_SEE, cls.IN_FINDER})


class ClearSkyAnswer(Answers):
    """Answers of the rule ``clear_sky``."""

    CLEAR_PART = "clear-part"
    NONE_CLEAR = "none-clear"
    YES = "yes"
    SKIP = "skip"


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


class TubeRoseAnswer(Answers):
    """Answers of the rule ``tube_rose``."""

    CANT_TELL = "cant-tell"
    DOWN = "down"
    UP = "up"
    SKIP = "skip"


class TubeTurnedAnswer(Answers):
    """Answers of the rule ``tube_turned``."""

    CANT_TELL = "cant-tell"
    LEFT = "left"
    RIGHT = "right"
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


class RecentreAnswer(Answers):
    """Answers of the rule ``recentre``."""

    ANOTHER = "another"
    CANNOT_SEE = "cannot-see"
    NO_SYNC = "no-sync"
    READY = "ready"
    SKIP = "skip"
