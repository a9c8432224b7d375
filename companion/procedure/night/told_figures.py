"""What is told unasked of sky, finder and eyepiece, as figures: the first two hold for this night, and may be kept for the profile."""

from __future__ import annotations

from dataclasses import replace

from companion.observing import SiteSky
from companion.procedure.night.leading import Onward
from companion.procedure.night.state import Night
from companion.procedure.notes import Learned
from companion.procedure.script import Steps
from companion.procedure.spoken_figures import figure_of, sky_mag_of
from companion.talk.answers import ToldFigureAnswer
from companion.talk.night_phrases import EyepieceIsIn, FinderIsSoWide, SkyIsSoDark, Told
from companion.talk.saying import Reply


def take_figure(night: Night, told: Reply[Told]) -> Steps[Onward]:
    """Take a meter's figure for the sky, how wide the finder shows, or which eyepiece is in; return the night then, and what is asked."""
    if told.command is ToldFigureAnswer.SKY_MAG:
        sky_mag = sky_mag_of(told.slots)
        yield Learned.one("observer", "sky_mag_arcsec2", sky_mag)
        return replace(night, site_sky=SiteSky(sky_mag), asked_how_dark=True), SkyIsSoDark(sky_mag)
    if told.command is ToldFigureAnswer.EYEPIECE_IN:
        eyepiece_mm = figure_of(told.slots)
        return replace(night, eyepiece_in_mm=eyepiece_mm), EyepieceIsIn(eyepiece_mm)
    field_deg = figure_of(told.slots)
    yield Learned.one("instrument", "finder_field_deg", field_deg)
    return replace(night, finder_field_deg=field_deg), FinderIsSoWide(field_deg)
