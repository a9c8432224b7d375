"""The observer's own objects: a table they write, ``objects.csv`` in the companion's home, as bodies of kind ``user``."""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from companion.errors import BadRequest
from companion.files import LARGEST_DOCUMENT_BYTES, read_file
from companion.sky import Body, find
from companion.sky.designations import plain
from companion.sky.types import Place

FILE_NAME = "objects.csv"
COLUMNS = ("name", "ra", "dec", "magnitude", "size")
MOST_OBJECTS = 2000
LONGEST_NAME = 60

_SEXAGESIMAL = re.compile(r"([+-]?)(\d+)[h°d:\s]\s*(\d+(?:\.\d+)?)(?:[m'′:\s]\s*(\d+(?:\.\d+)?)?)?\s*[s\"″m'′]?")


def own_objects(home: Path) -> tuple[Body, ...]:
    """Return the objects of the file in that folder, none where there is no file. BadRequest where it can't be understood."""
    path = home / FILE_NAME
    try:
        text = read_file(path, LARGEST_DOCUMENT_BYTES).decode("utf-8-sig")
    except (FileNotFoundError, NotADirectoryError):  # a home that is no folder is said where it is written
        return ()
    except UnicodeDecodeError:
        raise BadRequest(f"{path}: this isn't text in UTF-8; save it as CSV in UTF-8") from None
    except OSError as cause:
        raise BadRequest(f"{path}: this can't be read ({cause.strerror}); make it a file of yours") from None
    return read_own_objects(text, str(path))


def found_among(own: Sequence[Body], name: str) -> Body:
    """Return the body of a name as it stands in ``Body.name``: one of the observer's own, else the sky's. BadRequest for neither's."""
    return next((body for body in own if body.name == name), None) or find(name)


def read_own_objects(text: str, where: str) -> tuple[Body, ...]:
    """Return the objects of a table with the columns name, ra, dec, magnitude and size; the last two may be blank or left out.

    Right ascension in hours (``5 35 17``, ``5:35.3``, ``5h35m17s``) or, as one number, in degrees; declination in degrees (``-5 23``,
    ``-5.39``); J2000. Size in arcminutes. Blank lines and lines that begin with ``#`` are passed over. The first thing wrong is a
    ``BadRequest`` of one line that names the row, the column and the remedy.
    """
    lines = [(number, line) for number, line in enumerate(text.splitlines(), start=1) if line.strip() and not line.lstrip().startswith("#")]
    if not lines:
        return ()
    header = [name.strip().casefold() for name in _cells(lines[0][1], where, lines[0][0])]
    missing = [name for name in COLUMNS[:3] if name not in header]
    if missing or len(set(header)) < len(header) or not set(header) <= set(COLUMNS):
        raise BadRequest(f"{where}: row {lines[0][0]}: the first row must name the columns; write {','.join(COLUMNS)}")
    if len(lines) - 1 > MOST_OBJECTS:
        raise BadRequest(f"{where}: there are {len(lines) - 1} objects; keep {MOST_OBJECTS} at most")
    bodies: dict[str, Body] = {}
    for number, line in lines[1:]:
        at = f"{where}: row {number}"
        cells = _cells(line, where, number)
        if len(cells) != len(header):
            raise BadRequest(f"{at}: this has {len(cells)} columns where the first row has {len(header)}; put a comma between each")
        body = _body(dict(zip(header, map(str.strip, cells), strict=True)), at)
        if plain(body.name) in bodies:
            raise BadRequest(f"{at}, column name: {body.name!r} is there already; give each its own name")
        bodies[plain(body.name)] = body
    return tuple(bodies.values())


def _cells(line: str, where: str, number: int) -> list[str]:
    """Return the cells of one line of the table."""
    try:
        return next(csv.reader(io.StringIO(line), strict=True))
    except (csv.Error, StopIteration):
        raise BadRequest(f"{where}: row {number}: a quotation mark is open; close it, or leave it out") from None


def _body(row: dict[str, str], at: str) -> Body:
    """Return the object of one row."""
    name = row["name"]
    if not plain(name) or len(name) > LONGEST_NAME or not name.isprintable():
        raise BadRequest(f"{at}, column name: this must be a name of 1 to {LONGEST_NAME} letters; write one")
    ra_deg, dec_deg = (_READERS[column].read(row[column], f"{at}, column {column}") for column in ("ra", "dec"))
    magnitude, size_arcmin = (
        _READERS[column].read(row[column], f"{at}, column {column}") if row.get(column) else None for column in ("magnitude", "size")
    )
    return Body(name, "user", magnitude, place=Place(ra_deg % 360.0, dec_deg), size_arcmin=size_arcmin or None)


@dataclass(frozen=True)
class _Reader:
    """Knows what a column's cells may hold."""

    meaning: Callable[[str], float]
    """Raises ValueError where there is none."""
    lowest: float
    highest: float
    remedy: str

    def read(self, text: str, at: str) -> float:
        """Return what a cell means; BadRequest with the remedy otherwise."""
        try:
            value = self.meaning(text)
        except ValueError:
            value = math.nan
        if not self.lowest <= value <= self.highest:
            shown = "".join(letter if letter.isprintable() else " " for letter in text)[:40]
            raise BadRequest(f"{at}: {shown!r} can't be understood; write {self.remedy}")
        return value


def _right_ascension(text: str) -> float:
    """Return degrees: of hours and minutes fifteen-fold, of a single number as it is. ValueError for what is neither."""
    hours = _sexagesimal(text)
    if hours is None:
        return float(text)
    return 15.0 * hours if 0.0 <= hours < 24.0 else math.nan


def _declination(text: str) -> float:
    """Return degrees of degrees and minutes, or of a single number. ValueError for what is neither."""
    degrees = _sexagesimal(text)
    return float(text) if degrees is None else degrees


def _sexagesimal(text: str) -> float | None:
    """Return units of a figure with minutes, and perhaps seconds, None for anything else; minutes and seconds below 60, else ValueError."""
    match = _SEXAGESIMAL.fullmatch(text.replace("−", "-"))
    if match is None:
        return None
    minutes, seconds = float(match[3]), float(match[4] or 0.0)
    if minutes >= 60.0 or seconds >= 60.0:
        raise ValueError(text)
    value = float(match[2]) + minutes / 60.0 + seconds / 3600.0
    return -value if match[1] == "-" else value


_READERS = {
    "ra": _Reader(_right_ascension, 0.0, 360.0, "hours such as 5 35 17, or degrees below 360 such as 83.82"),
    "dec": _Reader(_declination, -90.0, 90.0, "degrees from -90 to 90 such as -5 23 28 or -5.39"),
    "magnitude": _Reader(float, -5.0, 25.0, "a number from -5 to 25, or leave it blank"),
    "size": _Reader(float, 0.0, 1200.0, "arcminutes from 0 to 1200, or leave it blank"),
}
