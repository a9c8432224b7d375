"""The observer's own objects: what may be written, and one line of help for everything else."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.errors import BadRequest
from companion.observing import own_objects, read_own_objects
from companion.sky import Body

HEADER = "name,ra,dec,magnitude,size\n"
ORION = (83.8221, -5.3911)  # the Orion Nebula at J2000: 5h35m17.3s, -5 23 28 (as everywhere printed)


def only(rows: str) -> Body:
    """Return the one object of a table."""
    (body,) = read_own_objects(HEADER + rows, "objects.csv")
    return body


@pytest.mark.parametrize(
    ("ra", "dec"),
    [
        ("5 35 17.3", "-5 23 28"), ("5:35:17.3", "-5:23:28"), ("5h35m17.3s", "-5°23'28\""), ("05h 35m 17.3s", "-05d 23m 28s"),
        ("5 35.288", "-5 23.467"), ("83.8221", "-5.3911"), ("5h35.288m", "−5°23.467′"),
    ],
)  # fmt: skip
def test_every_way_to_write_a_place(ra: str, dec: str) -> None:
    """Hours with minutes and seconds or degrees as one number, with any of the usual signs between."""
    place = only(f'Mine,{ra},"{dec.replace(chr(34), chr(34) * 2)}",4,60').place
    assert place is not None
    assert (place.ra_deg, place.dec_deg) == pytest.approx(ORION, abs=0.0005)


def test_a_whole_table() -> None:
    """Comments, blank lines, columns in any order and any case, blanks for what isn't known; a mark of the file's order at its start."""
    text = '# my list\n\nDec, Name ,RA,Size,Magnitude\n-0 30,"Comet, the new one",0 0 30,,9.5\n+89.5,Far north,359.9,12,\n'
    first, second = read_own_objects(text, "objects.csv")
    assert (first.name, first.kind, first.magnitude, first.size_arcmin) == ("Comet, the new one", "user", 9.5, None)
    assert first.place is not None
    assert (first.place.ra_deg, first.place.dec_deg) == pytest.approx((0.125, -0.5))
    assert (second.magnitude, second.size_arcmin) == (None, 12.0)
    assert read_own_objects("name,ra,dec\nHere,1 0,0\n", "objects.csv")[0].magnitude is None
    assert read_own_objects("", "objects.csv") == ()
    assert read_own_objects(HEADER, "objects.csv") == ()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Mine,5 35 17,-5 23,4,60\n", "row 1: the first row must name the columns; write name,ra,dec,magnitude,size"),
        ("name,ra,dec,dec\n", "row 1: the first row must name the columns"),
        ("name;ra;dec\nMine;5 35;-5 23\n", "row 1: the first row must name the columns"),
        (HEADER + "Mine,5 35 17,-5 23,4\n", "row 2: this has 4 columns where the first row has 5; put a comma between each"),
        (HEADER + "A,5 35,-5,4,1\n\n,5 35,-5,4,1\n", "row 4, column name: this must be a name"),
        (HEADER + "Mine,25 0 0,-5,4,1\n", "row 2, column ra: '25 0 0' can't be understood; write hours such as 5 35 17, or degrees"),
        (HEADER + "Mine,5 61 0,-5,4,1\n", "row 2, column ra: '5 61 0' can't be understood"),
        (HEADER + "Mine,-5 35,-5,4,1\n", "row 2, column ra: '-5 35' can't be understood"),
        (HEADER + f"Mine,{'9' * 400} 35,-5,4,1\n", "row 2, column ra: '9999"),
        (HEADER + "Mine,370,-5,4,1\n", "row 2, column ra: '370' can't be understood"),
        (HEADER + "Mine,nan,-5,4,1\n", "row 2, column ra: 'nan' can't be understood"),
        (HEADER + "Mine,,-5,4,1\n", "row 2, column ra: '' can't be understood"),
        (HEADER + "Mine,5 35,-91,4,1\n", "row 2, column dec: '-91' can't be understood; write degrees from -90 to 90 such as"),
        (HEADER + "Mine,5 35,south,4,1\n", "row 2, column dec: 'south' can't be understood"),
        (HEADER + "Mine,5 35,-5,bright,1\n", "row 2, column magnitude: 'bright' can't be understood; write a number from -5 to 25, or"),
        (
            HEADER + "Mine,5 35,-5,4,-1\n",
            "row 2, column size: '-1' can't be understood; write arcminutes from 0 to 1200, or leave it blank",
        ),
        (HEADER + "Mine,5 35,-5,4,1\nmine,5 35,-5,4,1\n", "row 3, column name: 'mine' is there already; give each its own name"),
        (HEADER + '"Mine,5 35,-5,4,1\n', "row 2: a quotation mark is open; close it, or leave it out"),
        (HEADER + "".join(f"N{n},1 0,0,,\n" for n in range(2001)), "there are 2001 objects; keep 2000 at most"),
    ],
    ids=lambda value: str(value)[:40],
)
def test_one_line_for_what_is_wrong(text: str, said: str) -> None:
    """Each slip is answered with one line that names the file, the row, the column and the remedy."""
    with pytest.raises(BadRequest) as told:
        read_own_objects(text, "objects.csv")
    assert str(told.value).startswith(f"objects.csv: {said}")
    assert "\n" not in str(told.value)


@given(st.text(max_size=200))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Whatever the file holds gives objects with places on the sky, or one printable line."""
    try:
        bodies = read_own_objects(HEADER + text, "objects.csv")
    except BadRequest as told:
        bodies, line = (), str(told)
    else:
        line = ""
    assert line == "" or line.isprintable()
    for body in bodies:
        assert body.place is not None
        assert 0.0 <= body.place.ra_deg < 360.0
        assert -90.0 <= body.place.dec_deg <= 90.0


def test_the_file_in_the_home(tmp_path: Path) -> None:
    """No file means no objects; a file with a byte order mark is read; one that is no text is refused with the remedy."""
    assert own_objects(tmp_path) == ()
    (tmp_path / "objects.csv").write_text("\ufeff" + HEADER + "Mine,5 35 17.3,-5 23 28,4,60\n", encoding="utf-8")
    assert [body.name for body in own_objects(tmp_path)] == ["Mine"]
    (tmp_path / "objects.csv").write_bytes(b"\xff\xfe\x00n")
    with pytest.raises(BadRequest, match="save it as CSV in UTF-8"):
        own_objects(tmp_path)
    (tmp_path / "objects.csv").unlink()
    (tmp_path / "objects.csv").mkdir()
    with pytest.raises(BadRequest, match="can't be read"):
        own_objects(tmp_path)
