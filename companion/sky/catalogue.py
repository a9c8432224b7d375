"""What is in the sky: the named and bright stars, the Sun's family, deep-sky objects and fine doubles, and finding them by name."""

from __future__ import annotations

import csv
import difflib
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from importlib.resources import files
from typing import cast

from companion.errors import BadRequest
from companion.sky.designations import bayer_name, number_form, plain
from companion.sky.types import Body, Kind, Place

SUN = Body("Sun", "sun")
MOON = Body("Moon", "moon")
PLANETS = tuple(Body(name, "planet") for name in ("Mercury", "Venus", "Mars", "Jupiter", "Saturn", "Uranus", "Neptune"))


def find(name: str) -> Body:
    """Return the body of that name or catalogue number; case, accents, hyphens and spaces don't matter.

    A name nobody has raises ``BadRequest`` with the nearest spellings.
    """
    index = _index()
    number = number_form(name)
    body = index.get(number or plain(name)) or index.get(plain(name).removeprefix("the"))
    if body is None:
        raise _unknown(name, number)
    return body


@lru_cache(maxsize=32)
def bright_stars(faintest: float = 3.0) -> tuple[Body, ...]:
    """Return every star at least as bright as that V magnitude, brightest first.

    Those without an IAU name are there too, as ``HIP n``; the list is complete to about V 3.2.
    """
    return tuple(star for star in _stars() if star.magnitude is not None and star.magnitude <= faintest)


@lru_cache(maxsize=32)
def named_stars(faintest: float = 4.5) -> tuple[Body, ...]:
    """Return the stars with an IAU name at least as bright as that V magnitude, brightest first."""
    return tuple(star for star in bright_stars(faintest) if not star.name.startswith("HIP "))


def nameable() -> tuple[Body, ...]:
    """Return what a mount may name for its alignment, brightest stars first: no display offers stars fainter than V 3 by name."""
    return (*named_stars(3.0), *PLANETS, MOON)


def nameable_from(letters: str) -> tuple[Body, ...]:
    """Return those of them whose names begin with these letters, case and spaces apart."""
    return tuple(body for body in nameable() if body.name.replace(" ", "").casefold().startswith(letters.casefold()))


@lru_cache(maxsize=1)
def deep_sky() -> tuple[Body, ...]:
    """Return every deep-sky object we know: all of Messier and Caldwell and what is brighter than about V 11."""
    return tuple(_deep_sky_body(row) for row in _rows("deep_sky.csv"))


@lru_cache(maxsize=1)
def showpieces() -> tuple[Body, ...]:
    """Return the deep-sky objects an observer looks for: Messier, Caldwell and those with a common name."""
    return tuple(_deep_sky_body(row) for row in _rows("deep_sky.csv") if row["showpiece"] == "1")


@lru_cache(maxsize=1)
def double_stars() -> tuple[Body, ...]:
    """Return the fine double stars, as bodies of that kind under their star's name; ``size_arcmin`` is the separation."""
    stars = {star.name: star for star in _stars()}
    return tuple(
        replace(stars[row["name"]], kind="double star", size_arcmin=float(row["separation_arcsec"]) / 60.0)
        for row in _rows("double_stars.csv")
    )


def _rows(file: str) -> Iterator[dict[str, str]]:
    """Yield the rows of one of our tables."""
    yield from csv.DictReader((files("companion.sky.data") / file).read_text(encoding="utf-8").splitlines())


@lru_cache(maxsize=1)
def _stars() -> tuple[Body, ...]:
    """Return the whole star table, brightest first."""
    stars = []
    seen: set[str] = set()
    for row in sorted(_rows("stars.csv"), key=lambda row: float(row["vmag"])):
        designation = bayer_name(row["bayer"], row["constellation"]) if row["bayer"] else None
        if designation and (short := bayer_name(row["bayer"].rstrip("012345"), row["constellation"])) not in seen:
            designation = short  # the brightest of Gamma1 and Gamma2 is simply called Gamma
            seen.add(short)
        stars.append(
            Body(
                name=row["name"],
                kind="star",
                magnitude=float(row["vmag"]),
                designation=designation,
                place=Place(
                    ra_deg=float(row["ra_deg"]),
                    dec_deg=float(row["dec_deg"]),
                    pm_ra_mas=float(row["pm_ra_mas"]),
                    pm_dec_mas=float(row["pm_dec_mas"]),
                    parallax_mas=float(row["parallax_mas"]),
                ),
                color_index=float(row["b_v"]),
            )
        )
    return tuple(stars)


def _deep_sky_body(row: dict[str, str]) -> Body:
    """Return the body of one row of the deep-sky table; its objects are too far to move."""
    number = row["designations"].split(";")[0]
    return Body(
        name=row["names"].split(";")[0] or number,
        kind=cast(Kind, row["kind"]),
        magnitude=float(row["vmag"]) if row["vmag"] else None,
        designation=number,
        place=Place(float(row["ra_deg"]), float(row["dec_deg"])),
        size_arcmin=float(row["size_arcmin"]) if row["size_arcmin"] else None,
    )


@lru_cache(maxsize=1)
def _index() -> dict[str, Body]:
    """Return every body by every plain spelling; where two share one, the earlier kind and the brighter star keep it."""
    index: dict[str, Body] = {}
    for body in (SUN, MOON, *PLANETS):
        index.setdefault(plain(body.name), body)
    stars = {star.name: star for star in _stars()}
    for star in stars.values():
        index.setdefault(plain(star.name), star)
    for row in _rows("star_aliases.csv"):
        index.setdefault(plain(row["alias"]), stars[row["name"]])
    for body, row in zip(deep_sky(), _rows("deep_sky.csv"), strict=True):
        for name in (*row["names"].split(";"), *row["designations"].split(";")):
            if name:
                index.setdefault(plain(name), body)
    index["m102"] = index["m101"]  # a double entry of the eighteenth century, by the reading OpenNGC follows
    for row in sorted(_rows("stars.csv"), key=lambda row: float(row["vmag"])):
        star = stars[row["name"]]
        index.setdefault(f"hip{row['hip']}", star)
        if row["bayer"]:
            letter, constellation = row["bayer"], row["constellation"]
            for spelling in (letter, letter.rstrip("012345")):
                index.setdefault(plain(bayer_name(spelling, constellation)), star)
                index.setdefault(plain(spelling + constellation), star)
                index.setdefault(plain(bayer_name(spelling, constellation).split()[0] + constellation), star)
    return index


def _unknown(name: str, number: str | None) -> BadRequest:
    """Return the complaint about a name that is in no table, with the spellings nearest to it."""
    shown = "".join(letter if letter.isprintable() else " " for letter in name)
    said = f"I don't know a star, planet or deep-sky object called {' '.join(shown.split())[:40]!r}"
    if number:
        return BadRequest(f"{said}; I have all of Messier and Caldwell and what is brighter than magnitude 11: check the number")
    index = _index()
    close = difflib.get_close_matches(plain(name), index, n=6, cutoff=0.6)
    near = list(dict.fromkeys(index[spelling].name for spelling in close))[:3]
    if not near:
        return BadRequest(f"{said}; check the spelling")
    return BadRequest(f"{said}; did you mean {' or '.join(filter(None, (', '.join(near[:-1]), near[-1])))}?")
