"""What can be answered while targets are visited: see ``answers`` for what these enums are."""

from __future__ import annotations

from companion.talk.saying import Answers


class TargetAnswer(Answers):
    """Answers of the rule ``target``, the same at every question of the night."""

    BATTERY = "battery"
    BLURRED = "blurred"
    BREAK = "break"
    BRIGHTER = "brighter"
    CARRY_ON = "carry-on"
    """As the universal word; after a break it means that the observer is back."""
    CLEAR_AGAIN = "clear-again"
    CLOUD = "cloud"
    CLUSTERS = "clusters"
    DAZZLED = "dazzled"
    DEW = "dew"
    DOUBLES = "doubles"
    EASIER = "easier"
    FILTER = "filter"
    FOR_CHILDREN = "for-children"
    FOUND = "found"
    GALAXIES = "galaxies"
    GOOD_NIGHT = "good-night"
    """As the universal word: packing up comes before the end."""
    GLOBULARS = "globulars"
    HARDER = "harder"
    HIDDEN = "hidden"
    """Trees or a roof stand before it."""
    HOW_MANY = "how-many"
    IN_CONSTELLATION = "in-constellation"
    """Something of one constellation, once: slot ``constellation``, its three letters."""
    IN_DIRECTION = "in-direction"
    """Something on one side of the sky, once: slot ``point``."""
    KICKED = "kicked"
    LATER = "later"
    MEASURE_FIST = "measure-fist"
    MOON_COMING = "moon-coming"
    NEAR_HERE = "near-here"
    NEBULAE = "nebulae"
    NEVER = "never"
    NEXT = "next"
    NOT_THERE = "not-there"
    ONLY_CLEAR = "only-clear"
    """Only one side of the sky is clear: slot ``point``."""
    OPEN_CLUSTERS = "open-clusters"
    OWN_LIST = "own-list"
    """Something of the observer's own."""
    PLANETARIES = "planetaries"
    PLANETS = "planets"
    PREVIOUS = "previous"
    RED_STARS = "red-stars"
    RESTARTED = "restarted"
    SEEN = "seen"
    SHAKING = "shaking"
    SLEWING = "slewing"
    TELL_MORE = "tell-more"
    UPSIDE_DOWN = "upside-down"
    WAS_FINE = "was-fine"
    WELL_PLACED = "well-placed"
    WHAT_TO_SEE = "what-to-see"
    WHATS_BEST = "whats-best"
    """No kind in particular any more."""
    WHATS_TO_COME = "whats-to-come"
    WHICH_EYEPIECE = "which-eyepiece"
    WHICH_ONE = "which-one"
    WOW = "wow"
    """It is looked at with pleasure."""
    SKIP = "skip"

    @classmethod
    def said_otherwise(cls) -> frozenset[str]:
        """All but the commonest: few live words are heard better."""
        wishes = {cls.PLANETS, cls.DOUBLES, cls.CLUSTERS, cls.GALAXIES, cls.NEBULAE, cls.FOR_CHILDREN, cls.WHATS_BEST, cls.NEAR_HERE}
        wishes |= {cls.GLOBULARS, cls.OPEN_CLUSTERS, cls.PLANETARIES, cls.RED_STARS, cls.OWN_LIST, cls.IN_DIRECTION}
        sky = {cls.MOON_COMING, cls.CLOUD, cls.ONLY_CLEAR, cls.CLEAR_AGAIN, cls.DEW}
        return frozenset(
            {
                *wishes,
                *sky,
                cls.BATTERY,
                cls.CARRY_ON,
                cls.HIDDEN,
                cls.HOW_MANY,
                cls.MEASURE_FIST,
                cls.PREVIOUS,
                cls.RESTARTED,
                cls.WELL_PLACED,
            }
            | {cls.BLURRED, cls.DAZZLED, cls.FILTER, cls.IN_CONSTELLATION, cls.SHAKING, cls.UPSIDE_DOWN, cls.WOW}
        )


class ShowMeAnswer(Answers):
    """The answer of the rule ``show_me``: something by its name, in slot ``name``. Where it is no answer, it asks where that is."""

    SHOW_ME = "show-me"


class MilkyWayAnswer(Answers):
    """Answers of the rule ``milky_way``."""

    DONT_KNOW = "dont-know"
    EASILY = "easily"
    FAINTLY = "faintly"
    JUST = "just"
    NOT_AT_ALL = "not-at-all"
    SKIP = "skip"

    @classmethod
    def said_otherwise(cls) -> frozenset[str]:
        """Return what is said seldom."""
        return frozenset({cls.DONT_KNOW})


class StarCountAnswer(Answers):
    """Answers of the rule ``star_count``: how many stars, in slot ``number``."""

    DONT_KNOW = "dont-know"
    NONE = "none"
    STAR_COUNT = "star_count"
    SKIP = "skip"

    @classmethod
    def said_otherwise(cls) -> frozenset[str]:
        """Return what is said seldom."""
        return frozenset({cls.DONT_KNOW})


ASKED_AT_A_TARGET: frozenset[Answers] = frozenset(
    {TargetAnswer.BATTERY, TargetAnswer.DEW, TargetAnswer.HOW_MANY, TargetAnswer.MOON_COMING, TargetAnswer.TELL_MORE}
    | {TargetAnswer.WELL_PLACED, TargetAnswer.WHAT_TO_SEE, TargetAnswer.WHATS_TO_COME, TargetAnswer.WHICH_EYEPIECE}
    | {TargetAnswer.WHICH_ONE, TargetAnswer.BLURRED, TargetAnswer.DAZZLED, TargetAnswer.FILTER, TargetAnswer.SHAKING}
    | {TargetAnswer.UPSIDE_DOWN}
)
"""Those that only ask something, and change nothing."""
