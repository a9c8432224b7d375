"""What can be answered from the finder to the settings of the mount."""

from __future__ import annotations

from companion.talk.saying import Answers


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
