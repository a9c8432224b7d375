"""What is in the sky: the named and bright stars, the Sun's family, deep-sky objects, fine doubles and variables, found by name."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from functools import lru_cache
from typing import cast

from companion.errors import NameUnknown
from companion.sky.designations import bayer_name, number_form, plain, with_abbreviation
from companion.sky.fine_stars import fine_doubles, fine_variables
from companion.sky.table_rows import place, rows
from companion.sky.types import Body, Kind, Place

SUN = Body("Sun", "sun")
MOON = Body("Moon", "moon")
NAKED_EYE_PLANETS = tuple(Body(name, "planet") for name in ("Mercury", "Venus", "Mars", "Jupiter", "Saturn"))
"""Those seen without a telescope."""
PLANETS = (*NAKED_EYE_PLANETS, Body("Uranus", "planet"), Body("Neptune", "planet"))


def find(name: str) -> Body:
    """Return the body of that name or catalogue number; case, accents, hyphens and spaces don't matter.

    A name nobody has raises ``NameUnknown`` with the nearest spellings.
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
    return tuple(_deep_sky_body(row) for row in rows("deep_sky.csv"))


@lru_cache(maxsize=1)
def showpieces() -> tuple[Body, ...]:
    """Return the deep-sky objects an observer looks for: Messier, Caldwell and those with a common name."""
    return tuple(_deep_sky_body(row) for row in rows("deep_sky.csv") if row["showpiece"] == "1")


@lru_cache(maxsize=1)
def star_clouds() -> tuple[Body, ...]:
    """Return the bright clouds of the Milky Way that have a name and no catalogue number."""
    return tuple(
        Body(
            name=row["name"],
            kind="star cloud",
            magnitude=float(row["vmag"]),
            place=Place(float(row["ra_deg"]), float(row["dec_deg"])),
            size_arcmin=float(row["length_arcmin"]),
            width_arcmin=float(row["width_arcmin"]),
        )
        for row in rows("star_clouds.csv")
    )


def double_stars() -> tuple[Body, ...]:
    """Return the fine double stars, as bodies of that kind under the name we speak; ``size_arcmin`` is the separation."""
    return tuple(double.body for double in fine_doubles())


@lru_cache(maxsize=1)
def _stars() -> tuple[Body, ...]:
    """Return the whole star table, brightest first."""
    stars = []
    seen: set[str] = set()
    for row in sorted(rows("stars.csv"), key=lambda row: float(row["vmag"])):
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
                place=place(row),
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
        width_arcmin=float(row["width_arcmin"]) if row["width_arcmin"] else None,
    )


@lru_cache(maxsize=1)
def _index() -> dict[str, Body]:
    """Return every body by every plain spelling; where two share one, the earlier kind and the brighter star keep it."""
    index: dict[str, Body] = {}
    for spelling, body in (*_family(), *_named_stars(), *_deep_sky_names(), *_star_numbers()):
        index.setdefault(plain(spelling), body)
    for names, body in _fine_names():
        known = index.get(plain(names[0]), body)  # a star of the table above stays that star under any of its names
        for name in names:
            for spelling in with_abbreviation(name):
                index.setdefault(plain(spelling), known)
    return index


def _family() -> Iterator[tuple[str, Body]]:
    """Yield the Sun's family by name."""
    yield from ((body.name, body) for body in (SUN, MOON, *PLANETS))


def _named_stars() -> Iterator[tuple[str, Body]]:
    """Yield the stars of the star table by the names they have and had."""
    stars = {star.name: star for star in _stars()}
    yield from stars.items()
    yield from ((row["alias"], stars[row["name"]]) for row in rows("star_aliases.csv"))


def _deep_sky_names() -> Iterator[tuple[str, Body]]:
    """Yield the deep-sky objects by their names and numbers, then the star clouds."""
    for body, row in zip(deep_sky(), rows("deep_sky.csv"), strict=True):
        yield from ((name, body) for name in (*row["names"].split(";"), *row["designations"].split(";")) if name)
        if body.designation == "M 101":
            yield "M 102", body  # a double entry of the eighteenth century, by the reading OpenNGC follows
    for cloud, row in zip(star_clouds(), rows("star_clouds.csv"), strict=True):
        yield from ((name, cloud) for name in (row["name"], *row["aliases"].split(";")) if name)


def _star_numbers() -> Iterator[tuple[str, Body]]:
    """Yield the stars of the star table by Hipparcos number and Bayer letter."""
    stars = {star.name: star for star in _stars()}
    for row in sorted(rows("stars.csv"), key=lambda row: float(row["vmag"])):
        star = stars[row["name"]]
        yield f"HIP {row['hip']}", star
        if row["bayer"]:
            letter, constellation = row["bayer"], row["constellation"]
            for spelling in (letter, letter.rstrip("012345")):
                yield from ((name, star) for name in with_abbreviation(bayer_name(spelling, constellation)))
                yield spelling + constellation, star


def _fine_names() -> Iterator[tuple[tuple[str, ...], Body]]:
    """Yield the double and variable stars with all that each is called."""
    yield from ((fine.names, fine.body) for fine in fine_doubles())
    yield from ((fine.names, fine.body) for fine in fine_variables())


def _unknown(name: str, number: str | None) -> NameUnknown:
    """Return the complaint about a name that is in no table, with the spellings nearest to it."""
    shown = "".join(letter if letter.isprintable() else " " for letter in name)
    shown = " ".join(shown.split())[:40]
    said = f"I don't know a star, planet or deep-sky object called {shown!r}"
    if number:
        return NameUnknown(
            f"{said}; I have all of Messier and Caldwell and what is brighter than magnitude 11: check the number", name=shown
        )
    index = _index()
    close = difflib.get_close_matches(plain(name), index, n=6, cutoff=0.6)
    # A star known only by its number is no help to someone who misspelt a name.
    near = [name for name in dict.fromkeys(index[spelling].name for spelling in close) if not name.startswith("HIP ")][:3]
    if not near:
        return NameUnknown(f"{said}; check the spelling", name=shown)
    return NameUnknown(f"{said}; did you mean {' or '.join(filter(None, (', '.join(near[:-1]), near[-1])))}?", name=shown)
