"""What can be answered about clock, date and place."""

from __future__ import annotations

from companion.talk.saying import Answers


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
    YEAR_WRONG = "year-wrong"
    YES = "yes"
    ZONE_WRONG = "zone-wrong"
    SKIP = "skip"

    @classmethod
    def said_otherwise(cls) -> frozenset[str]:
        """Return what is hardly ever said, and sounds like the hour."""
        return frozenset({cls.YEAR_WRONG})


class YearAnswer(Answers):
    """Answers of the rule ``year``."""

    YEAR = "year"
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


class TownAnswer(Answers):
    """Answers of the rule ``town``."""

    FIGURES = "figures"
    SPELL = "spell"
    TOWN = "town"
    UNKNOWN = "unknown"
    SKIP = "skip"

    @classmethod
    def said_otherwise(cls) -> frozenset[str]:
        """Return what is found out where a town was typed that nobody has."""
        return frozenset({cls.UNKNOWN})


class TownLettersAnswer(Answers):
    """Answers of the rule ``town_letters``."""

    LETTERS = "letters"
    SKIP = "skip"


class FromTownAnswer(Answers):
    """Answers of the rule ``from_town``."""

    FROM_TOWN = "from-town"
    IN_TOWN = "in-town"
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
