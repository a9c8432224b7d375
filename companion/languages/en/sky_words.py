"""Single things of the sky, told in English outside any conversation."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from companion.diagnosis import Cause, CauseFound
from companion.languages.en import figure_lines
from companion.languages.en.cause_words import explain_cause, remedy_in_words, sum_up_cause, what_would_decide
from companion.languages.en.look_for import introduce, look_for
from companion.languages.en.reason_words import reasons_in_words, warning_in_words
from companion.languages.en.sight_words import SUN_CAUTION, describe_with_caution
from companion.observing import RankedTarget
from companion.sky import Body, Moment, Sight


class EnglishSky:
    """What ``SkyWords`` asks for."""

    sun_caution = SUN_CAUTION

    def describe(self, sight: Sight, moment: Moment) -> str:
        """Say where a body is and how bright it looks, the caution first."""
        return describe_with_caution(sight, moment)

    def introduce(self, target: RankedTarget, moment: Moment) -> str:
        """Introduce a target as in an evening; the caution first while the Sun is up."""
        return introduce(target, moment)

    def look_for(self, body: Body, moment: Moment) -> str | None:
        """Return what a person sees of a target at that moment, None where we don't know."""
        return look_for(body, moment)

    def reasons(self, codes: tuple[str, ...]) -> list[str]:
        """Return each reason as a short phrase."""
        return reasons_in_words(codes)

    def warning(self, code: str | None) -> str | None:
        """Return what a warning about the declination means, or None."""
        return warning_in_words(code)

    def explain(self, found: CauseFound) -> str:
        """Say what a likely cause of a miss means here."""
        return explain_cause(found)

    def sum_up(self, found: CauseFound) -> str:
        """Say what a likely cause of a miss means here, in one sentence."""
        return sum_up_cause(found)

    def what_would_decide(self, causes: Sequence[CauseFound]) -> str | None:
        """Say what tells a few causes from one another; None where there is but one."""
        return what_would_decide(causes)

    def remedy(self, cause: Cause) -> str:
        """Say the least that must be done again for a cause."""
        return remedy_in_words(cause)

    def night_lines(self, times: Mapping[str, datetime | None], zone: str) -> list[str]:
        """Return whose clock it is, and a line for each event of the night; None is one there is not."""
        return figure_lines.night_lines(times, zone)

    def moon_line(self, lit: float, rises: datetime | None, sets: datetime | None) -> str:
        """Return the share of the Moon that is lit, 0..1, and its next rise and set."""
        return figure_lines.moon_line(lit, rises, sets)

    def place_line(self, altitude_deg: float, azimuth_deg: float, constellation: str) -> str:
        """Return where something is; ``constellation``: its three letters."""
        return figure_lines.place_line(altitude_deg, azimuth_deg, constellation)
