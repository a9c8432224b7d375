"""The profile file: what is read, what is passed over, what is refused, and that what is written is read back."""

from __future__ import annotations

import stat
import string
import tomllib
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from typing import get_args

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from companion import equipment
from companion.documents.profile_tables import Profile, VoicePreference, document_from, profile_from
from companion.documents.site_table import site_with_zone
from companion.equipment import Equipment, Eyepiece, Instrument, Mount, Observer, Obstruction
from companion.errors import BadRequest
from companion.profile import load_profile, write_profile
from companion.sky import Site

FULL = """
engine = "builtin"

[site]
name = "Spruce Ridge clearing"
latitude_deg = 46.31
longitude_deg = -67.52

[instrument]
aperture_mm = 200
focal_length_mm = 1200
eyepieces = [{focal_length_mm = 25, apparent_field_deg = 52}, {focal_length_mm = 9.7}]
has_diagonal = true
finder = "dot"
finder_offset_cm = 12
finder_field_deg = 6.5

[mount]
star_choice = "list"
pose_time = "after-settings"
turns_by_hand = false
confirm_key = "enter"
hours = 12
date_order = "month-day"

[observer]
compass = "card"
fist_deg = 8.5
sees_milky_way = true
in_company = false
limits = ["kneeling", "faint-stars"]
terse = true
sky_mag_arcsec2 = 20.5

[[horizon]]
from_azimuth_deg = 240
to_azimuth_deg = 290
altitude_deg = 30
what = "trees"
"""


def _read(text: str, tmp_path: Path) -> tuple[Profile, list[str]]:
    """Return what a profile says, and what in it was passed over."""
    file = tmp_path / "profile.toml"
    file.write_text(text, "utf-8")
    passed_over: list[str] = []
    return load_profile(str(file), passed_over.append), passed_over


def test_every_key_is_read(tmp_path: Path) -> None:
    """A profile with every key comes to its value, and nothing of it is passed over."""
    found, passed_over = _read(FULL, tmp_path)
    assert not passed_over
    assert found.site == Site(46.31, -67.52, 0.0, "America/Moncton", "Spruce Ridge clearing")
    assert found.engine == "builtin"
    assert found.equipment == Equipment(
        Instrument(200, 1200, (Eyepiece(25, 52), Eyepiece(9.7)), True, "dot", 12, 6.5),
        Mount("list", "after-settings", False, "enter", 12, "month-day"),
        Observer("card", 8.5, True, False, frozenset({"kneeling", "faint-stars"}), True, sky_mag_arcsec2=20.5),
        (Obstruction(240, 290, 30, "trees"),),
    )


def test_an_empty_profile_is_fine(tmp_path: Path) -> None:
    """Every part may be missing."""
    assert _read("", tmp_path) == (Profile(), [])


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ('[instrument]\ncolour = "blue"', "colour"),
        ('[instrument]\nfinder = "my old brass one"', "my old brass one"),
        ('horizon = "woods"', "horizon"),
        ("horizon = true", "horizon"),
        ("[horizon]\nupwards = 3", "upwards"),
        ("horizon = [[0, 10], [90, 5]]", "from_azimuth_deg"),
        ("[[horizon]]\nheight = 3", "height"),
    ],
)
def test_own_forms_of_instrument_and_horizon_are_passed_over(tmp_path: Path, text: str, part: str) -> None:
    """What people wrote down before we read it is no error: it is told to the log and left out."""
    found, passed_over = _read(text, tmp_path)
    assert found == Profile()
    assert passed_over
    assert part in passed_over[0]


def test_what_is_passed_over_is_logged_and_not_printed(
    tmp_path: Path, caplog: pytest.LogCaptureFixture, capsys: pytest.CaptureFixture[str]
) -> None:
    """The log hears of it; standard error stays free for the one line of an error."""
    file = tmp_path / "profile.toml"
    file.write_text('[instrument]\ncolour = "blue"\n')
    load_profile(str(file))
    assert "colour" in caplog.text
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize(
    ("text", "hidden", "clear"),
    [
        ("horizon = 20", [(0, 19), (123.4, 0), (359.9, 19.9)], [(0, 20), (180, 45)]),
        ("[horizon]\nwest = 30", [(270, 29), (226, 1), (314, 1)], [(224, 1), (316, 1), (90, 1)]),
        ("[horizon]\nnorth = 10\nnorth-east = 20", [(0, 9), (350, 9), (30, 19), (60, 19)], [(10, 15), (70, 1), (330, 1)]),
        ("[[horizon]]\nfrom_azimuth_deg = 350\nto_azimuth_deg = 10\naltitude_deg = 15", [(355, 14), (5, 14)], [(11, 1), (349, 1)]),
        ("[[horizon]]\nfrom_azimuth_deg = 0\nto_azimuth_deg = 360\naltitude_deg = 15", [(180, 14)], [(180, 15)]),
    ],
)
def test_forms_of_the_horizon(tmp_path: Path, text: str, hidden: list[tuple[float, float]], clear: list[tuple[float, float]]) -> None:
    """One height all round, heights by compass point (each half way to its neighbours), and tables hide what they should."""
    found = _read(text, tmp_path)[0].equipment
    assert all(found.hides(*place) for place in hidden)
    assert not any(found.hides(*place) for place in clear)


def test_eyepieces_as_bare_numbers(tmp_path: Path) -> None:
    """A list of focal lengths will do; the apparent field is then the usual one."""
    found, _ = _read("[instrument]\neyepieces = [25, 9.7]", tmp_path)
    assert found.equipment.instrument.eyepieces == (Eyepiece(25), Eyepiece(9.7))


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ('[instrument]\nfocal_length_mm = "long"', "focal_length_mm: this must be a number, not a text; give 50 to 50000 millimetres"),
        ("[instrument]\nfocal_length_mm = 0", "50 to 50000"),
        ("[instrument]\naperture_mm = -200", "10 to 5000"),
        ("[instrument]\naperture_mm = nan", "10 to 5000"),
        (f"[instrument]\naperture_mm = 1{'0' * 400}", "10 to 5000"),
        ("[instrument]\nhas_diagonal = 1", "true or false"),
        ('[instrument]\neyepieces = "25 mm"', "list"),
        ("[instrument]\neyepieces = [{apparent_field_deg = 50}]", "focal_length_mm"),
        ("[instrument]\neyepieces = [0]", "1 to 100"),
        ("[instrument]\nfinder = 3", "dot, optical"),
        ("[instrument]\nfinder_field_deg = 0.9", "finder_field_deg: 0.9 is not possible; give 1 to 10 degrees"),
        ("instrument = 3", "table"),
        ("[mount]\ncolour = 3", "known are address, arrow_by_cable, confirm_key"),
        ('[mount]\nstar_choice = "mine"', "names, list, unnamed, one, body"),
        ("[mount]\nhours = 13", "12, 24"),
        ("[observer]\nfist_deg = 14", "6 to 13"),
        ('[observer]\nlimits = "kneeling"', "list"),
        ('[observer]\nlimits = ["flying"]', "faint-stars, kneeling, reaching"),
        ("[[horizon]]\nfrom_azimuth_deg = 0\nto_azimuth_deg = 90\naltitude_deg = 91", "0 to 90"),
        ("horizon = -3", "0 to 90"),
        ("[voice]\nwords_per_minute = nan", "words a minute"),
        ("[site]\nlatitude_deg = 91\nlongitude_deg = 0", "north positive"),
        ('[site]\nlatitude_deg = 1\nlongitude_deg = 0\nname = "two\\nlines"', "one line"),
        ("engine = 3", "engine"),
        (f"engine = 1{'0' * 5000}", "TOML"),
        ("site = " + "[" * 5000, "TOML"),
    ],
)
def test_wrong_values_are_one_line_with_a_remedy(tmp_path: Path, text: str, part: str) -> None:
    """A key we know that holds what it can't is named, with what it can hold."""
    with pytest.raises(BadRequest) as complaint:
        _read(text, tmp_path)
    assert part in str(complaint.value)
    assert str(tmp_path) in str(complaint.value)
    assert "\n" not in str(complaint.value)


def _some(values: st.SearchStrategy[object]) -> st.SearchStrategy[object]:
    return st.none() | values


def _between(lowest: float, highest: float) -> st.SearchStrategy[float]:
    return st.floats(lowest, highest, allow_nan=False)


WORDS = st.text(st.characters(categories=["L", "N", "P", "Zs"], include_characters=string.printable[:95]), min_size=1, max_size=30).filter(
    str.isprintable
)
PROFILES = st.builds(
    Profile,
    site=_some(
        st.builds(
            Site,
            _between(-90, 90),
            _between(-180, 180),
            _between(-500, 9000),
            st.sampled_from(["UTC", "Asia/Kathmandu"]),
            _some(WORDS),
        )
        | st.builds(site_with_zone, st.builds(Site, _between(-90, 90), _between(-180, 180)))
    ),
    equipment=st.builds(
        Equipment,
        st.builds(
            Instrument,
            _some(_between(10, 5000)),
            _some(_between(50, 50_000)),
            st.lists(st.builds(Eyepiece, _between(1, 100), _between(10, 130)), max_size=3).map(tuple),
            _some(st.booleans()),
            _some(st.sampled_from(get_args(equipment.FinderKind))),
            _between(0, 200),
            _some(_between(1, 10)),
        ),
        st.builds(
            Mount,
            _some(st.sampled_from(get_args(equipment.StarChoice))),
            _some(st.sampled_from(get_args(equipment.PoseTime))),
            _some(st.booleans()),
            _some(WORDS),
            st.sampled_from([12, 24]),
            st.sampled_from(["day-month", "month-day", "year-month-day"]),
        ),
        st.builds(
            Observer,
            _some(st.sampled_from(get_args(equipment.CompassKind))),
            _between(6, 13),
            _some(st.booleans()),
            _some(st.booleans()),
            st.frozensets(st.sampled_from(get_args(equipment.Limit))),
            st.booleans(),
        ),
        st.lists(st.builds(Obstruction, _between(0, 360), _between(0, 360), _between(0, 90), WORDS), max_size=3).map(tuple),
    ),
    voice=st.builds(VoicePreference, WORDS, st.integers(1, 1000)),
    engine=WORDS,
)


@given(profile=PROFILES)
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_what_is_written_is_read_back(tmp_path: Path, profile: Profile) -> None:
    """Any profile survives its file, and its plain values alone."""
    file = tmp_path / "deep" / "profile.toml"
    file.unlink(missing_ok=True)
    write_profile(profile, file)
    assert load_profile(str(file)) == profile
    assert profile_from(document_from(profile), "here", pytest.fail) == profile


def test_the_file_is_its_owners_and_written_whole(tmp_path: Path) -> None:
    """Nobody else may read it, and no draft is left beside it."""
    file = tmp_path / "profile.toml"
    file.write_text("engine = 'vosk'\n")
    file.chmod(0o644)
    write_profile(Profile(engine="builtin"), file)
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert [entry.name for entry in tmp_path.iterdir()] == ["profile.toml"]


def test_where_it_cannot_be_written_nothing_changes(tmp_path: Path) -> None:
    """A folder that is a file, or a profile that is a folder, is one line; no draft is left."""
    (tmp_path / "file").write_text("")
    with pytest.raises(BadRequest, match="can't be written"):
        write_profile(Profile(), tmp_path / "file" / "profile.toml")
    (tmp_path / "profile.toml").mkdir()
    with pytest.raises(BadRequest, match="can't be written"):
        write_profile(Profile(), tmp_path / "profile.toml")
    assert sorted(entry.name for entry in tmp_path.iterdir()) == ["file", "profile.toml"]


def test_a_place_moved_by_hand_takes_its_zone_along(tmp_path: Path) -> None:
    """The zone that follows from the place isn't written; one chosen otherwise is."""
    assert "zone" not in document_from(Profile(site_with_zone(Site(46.31, -67.52))))["site"]
    assert document_from(Profile(Site(46.31, -67.52, zone="UTC")))["site"]["zone"] == "UTC"


BY_HAND = """\
# my profile
engine = "builtin"  # whichever
[site]
latitude_deg = 46.31 # the meadow
longitude_deg = -67.52
[instrument]
aperture_mm = 150
colour = "blue"
[[horizon]]
from_azimuth_deg = 240
to_azimuth_deg = 290
altitude_deg = 30
what = "barn" # theirs
"""


def test_what_isnt_changed_stays_as_it_was(tmp_path: Path) -> None:
    """Comments, keys that mean nothing to us, the order and the horizon stay; only what changed is another, in its place."""
    file = tmp_path / "profile.toml"
    file.write_text(BY_HAND)
    known = load_profile(str(file))
    write_profile(
        replace(known, equipment=replace(known.equipment, instrument=replace(known.equipment.instrument, aperture_mm=200))), file, known
    )
    assert file.read_text() == BY_HAND.replace("aperture_mm = 150", "aperture_mm = 200")
    known = load_profile(str(file))
    write_profile(replace(known, engine="auto", site=None, equipment=replace(known.equipment, mount=Mount(hours=12))), file, known)
    text = file.read_text()
    assert tomllib.loads(text)["mount"] == {"hours": 12}
    assert "site" not in tomllib.loads(text)
    assert 'colour = "blue"' in text
    assert 'what = "barn" # theirs' in text
    assert load_profile(str(file)) == replace(known, engine="auto", site=None, equipment=replace(known.equipment, mount=Mount(hours=12)))


def test_a_key_of_its_own_is_added_before_the_tables(tmp_path: Path) -> None:
    """A bare key comes where it counts as one, whatever tables the file ends with."""
    file = tmp_path / "profile.toml"
    file.write_text("[site]\nlatitude_deg = 46.31\nlongitude_deg = -67.52\n")
    known = load_profile(str(file))
    write_profile(replace(known, engine="vosk"), file, known)
    assert load_profile(str(file)).engine == "vosk"


def test_what_others_changed_meanwhile_is_kept(tmp_path: Path) -> None:
    """Two who read the same profile change different keys of one table: both changes are there."""
    file = tmp_path / "profile.toml"
    file.write_text(BY_HAND)
    known = load_profile(str(file))
    for change in ({"aperture_mm": 200}, {"focal_length_mm": 1200}):
        equipment = replace(known.equipment, instrument=replace(known.equipment.instrument, **change))
        write_profile(replace(known, equipment=equipment), file, known)
    found = load_profile(str(file)).equipment.instrument
    assert (found.aperture_mm, found.focal_length_mm) == (200, 1200)


def test_one_writes_at_a_time(tmp_path: Path) -> None:
    """Three writers, each changing its own key over and over, lose nothing of one another's."""
    file = tmp_path / "profile.toml"
    file.write_text("")

    def write(key: str, least: float) -> None:
        for figure in range(1, 11):
            known = load_profile(str(file))
            equipment = replace(known.equipment, instrument=replace(known.equipment.instrument, **{key: least + figure}))
            write_profile(replace(known, equipment=equipment), file, known)

    with ThreadPoolExecutor(3) as writers:
        for done in [writers.submit(write, *key) for key in (("aperture_mm", 100), ("focal_length_mm", 900), ("finder_offset_cm", 0))]:
            done.result()
    found = load_profile(str(file)).equipment.instrument
    assert (found.aperture_mm, found.focal_length_mm, found.finder_offset_cm) == (110, 910, 10)


def test_a_byte_order_mark_is_passed_over(tmp_path: Path) -> None:
    """A file saved with one (EF BB BF, RFC 3629, section 6) is read, and changed with all else in it as it was."""
    file = tmp_path / "profile.toml"
    file.write_bytes(b"\xef\xbb\xbf# mine\r\n[instrument]\r\naperture_mm = 200\r\n")
    known = load_profile(str(file))
    assert known.equipment.instrument.aperture_mm == 200
    write_profile(replace(known, engine="builtin"), file, known)
    assert load_profile(str(file)) == replace(known, engine="builtin")
    assert b"# mine" in file.read_bytes()


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    """A profile that is a link, as those who keep such files elsewhere have it, is written where it leads."""
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "mine.toml").write_text(BY_HAND)
    file = tmp_path / "profile.toml"
    file.symlink_to("elsewhere/mine.toml")
    known = load_profile(str(file))
    write_profile(replace(known, engine="vosk"), file, known)
    assert file.is_symlink()
    assert 'engine = "vosk"  # whichever' in (tmp_path / "elsewhere" / "mine.toml").read_text()
