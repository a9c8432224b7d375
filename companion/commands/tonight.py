"""What is worth seeing now, in the telescope named or the profile's."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from companion import observing, sky
from companion.commands.options import language_of, moment_of, profile_of
from companion.commands.sky_answers import place_of, print_list
from companion.equipment import (
    APERTURE_MM,
    APPARENT_FIELD_DEG,
    EYEPIECE_MM,
    FOCAL_LENGTH_MM,
    SKY_MAG_ARCSEC2,
    Equipment,
    Eyepiece,
    Instrument,
)
from companion.errors import BadRequest
from companion.languages import SkyWords
from companion.observing import RankedTarget, SiteSky
from companion.printing import Printer, site_time
from companion.sky import Moment
from companion.talk.sky_phrases import BetterLater, NothingWellPlaced, OutfitGuessed, SunIsUpNow
from companion.user_files import home

_BETTER_LATER = 2
TARGET_COUNT = 10
"""How many targets are listed unless another number is asked for."""


def show(options: argparse.Namespace) -> int:
    """List tonight's targets, best first, and why."""
    moment, language, equipment = moment_of(options), language_of(options), _equipment(options)
    outfit, hard = observing.outfit_of(equipment.instrument), equipment.observer.hard
    ranked = observing.targets(
        moment,
        options.count or TARGET_COUNT,
        lambda seen: equipment.hides(seen.azimuth_deg, seen.altitude_deg),
        outfit=outfit,
        sky=_site_sky(options, equipment),
        hard=hard,
        own=observing.own_objects(home()),
    )
    printer = Printer(options.json)
    if outfit.guessed:
        guess = OutfitGuessed(
            aperture_mm=outfit.telescope.aperture_mm if "aperture" in outfit.guessed else None,
            focal_length_mm=outfit.telescope.focal_length_mm if "focal length" in outfit.guessed else None,
            eyepieces_mm=tuple(piece.focal_length_mm for piece in outfit.eyepieces) if "eyepieces" in outfit.guessed else (),
        )
        printer.progress(language.words(guess, moment))
    if not ranked and sky.sun_state(moment).is_up:
        printer.lines(language.words(SunIsUpNow(), moment))
    printed = print_list(options, [entry(target, moment, language.sky) for target in ranked], nothing=NothingWellPlaced())
    if ranked and not options.json:
        listed = {target.sight.body.name for target in ranked}
        printer.lines(*(language.words(one, moment) for one in _better_later(moment, equipment) if one.target not in listed))
    return printed


def _better_later(moment: Moment, equipment: Equipment) -> Iterator[BetterLater]:
    """Yield what stands at the top of the sky, and is to be seen when it has left it: no more than two."""
    finest = observing.finest_overhead(moment)[:_BETTER_LATER]
    for body, since in ((one.body, observing.leaves_the_top(one.body, moment)) for one in finest):
        if since is not None:
            then = sky.sight(body, Moment(moment.site, since))
            if not equipment.hides(then.azimuth_deg, then.altitude_deg):
                yield BetterLater(body.name, since)


def entry(target: RankedTarget, moment: Moment, words: SkyWords) -> dict[str, Any]:
    """Return what the document says of a target."""
    return {
        **place_of(target.sight),
        "catalogue": target.catalogue,
        "kind": target.sight.body.kind,
        "best_time": site_time(target.best_time, moment.site),
        "sets_at": site_time(target.sets_at, moment.site),
        "score": target.score,
        "rating": target.rating,
        "margin_mag": target.margin_mag,
        "eyepiece_mm": target.eyepiece.focal_length_mm,
        "look_for": words.look_for(target.sight.body, moment),
        "reasons": words.reasons(target.reasons),
        "spoken": words.introduce(target, moment),
    }


def _equipment(options: argparse.Namespace) -> Equipment:
    """Return the profile's equipment with what the options replace in it."""
    equipment = profile_of(options).equipment
    instrument: Instrument = equipment.instrument
    for name, figure, bounds in (
        ("--aperture", options.aperture, APERTURE_MM),
        ("--focal-length", options.focal_length, FOCAL_LENGTH_MM),
        ("--sky", options.sky, SKY_MAG_ARCSEC2),
    ):
        if figure is not None and figure not in bounds:
            raise BadRequest(f"{name} {bounds.complaint(figure)}")
    if options.aperture is not None:
        instrument = replace(instrument, aperture_mm=options.aperture)
    if options.focal_length is not None:
        instrument = replace(instrument, focal_length_mm=options.focal_length)
    if options.eyepieces is not None:
        instrument = replace(instrument, eyepieces=_eyepieces(options.eyepieces))
    return replace(equipment, instrument=instrument)


def _eyepieces(text: str) -> tuple[Eyepiece, ...]:
    """Return the eyepieces of ``25:60,10:50``."""
    found = []
    for part in text.split(","):
        focal_length_mm, _, field_deg = part.partition(":")
        try:
            eyepiece = Eyepiece(float(focal_length_mm), float(field_deg))
        except ValueError:
            raise BadRequest(f"--eyepieces {part!r} is no eyepiece; write millimetres:degrees, such as 25:60,10:50") from None
        for figure, bounds in ((eyepiece.focal_length_mm, EYEPIECE_MM), (eyepiece.apparent_field_deg, APPARENT_FIELD_DEG)):
            if figure not in bounds:
                raise BadRequest(f"--eyepieces {bounds.complaint(figure)}")
        found.append(eyepiece)
    return tuple(found)


def _site_sky(options: argparse.Namespace, equipment: Equipment) -> SiteSky:
    """Return how dark the sky is: as told, else as the profile's observer sees it."""
    return SiteSky(options.sky) if options.sky is not None else observing.site_sky_of(equipment.observer)
