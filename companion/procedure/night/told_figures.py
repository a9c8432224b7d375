"""What is told unasked of sky and finder, as figures: it holds for this night, and may be kept for the profile."""

from __future__ import annotations

from dataclasses import replace

from companion.observing import SiteSky
from companion.procedure.night.leading import Onward
from companion.procedure.night.state import Night
from companion.procedure.notes import Learned
from companion.procedure.script import Steps
from companion.procedure.spoken_figures import figure_of, sky_mag_of
from companion.talk.answers import ToldFigureAnswer
from companion.talk.night_phrases import FinderIsSoWide, SkyIsSoDark, Told
from companion.talk.saying import Reply


def take_figure(night: Night, told: Reply[Told]) -> Steps[Onward]:
    """Take a meter's figure for the sky, or how wide the finder shows; return the night as it is then, and what is asked."""
    if told.command is ToldFigureAnswer.SKY_MAG:
        sky_mag = sky_mag_of(told.slots)
        yield Learned.one("observer", "sky_mag_arcsec2", sky_mag)
        return replace(night, site_sky=SiteSky(sky_mag), asked_how_dark=True), SkyIsSoDark(sky_mag)
    field_deg = figure_of(told.slots)
    yield Learned.one("instrument", "finder_field_deg", field_deg)
    return replace(night, finder_field_deg=field_deg), FinderIsSoWide(field_deg)
