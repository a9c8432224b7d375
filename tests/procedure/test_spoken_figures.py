"""Figures, fists, coordinates, towns and obstructions as they are spoken: what they mean, and that they are read back."""

from __future__ import annotations

import runpy
from datetime import UTC, datetime
from importlib import resources

import pytest

from companion import alignment, places
from companion.equipment import Obstruction
from companion.hearing import understand
from companion.messages import Heard
from companion.procedure import Context, ask_horizon, ask_instrument, ask_observer, ask_place
from companion.procedure.ask_place import Coordinate, ask_coordinate, ask_coordinates
from companion.procedure.equipment_told import InstrumentTold
from companion.procedure.spoken_figures import figure_of, fists_of
from companion.sky import Moment
from companion.talk.answers import FewMillimetresAnswer, FistsAnswer, MillimetresAnswer, TownAnswer, TownLettersAnswer
from companion.talk.equipment_phrases import FigureLeft, NoPairForTheFist, UnlikelyFigure
from companion.talk.saying import Answers, UnexpectedAnswer
from tests.english import VOCABULARY
from tests.interview import SITE, TIME, hold, live, typed, words_of

CONTEXT = Context(SITE, TIME, {})


def test_a_figure_heard_wrong_is_asked_again() -> None:
    """A no to the read-back asks again; after three tries it is left."""
    answers = {"focal-length": ["one two zero zero", "one four zero zero"], "telescope-heard": ["no", "yes"]}
    told, said = hold(ask_instrument.ask_instrument(), typed(answers))
    assert told == InstrumentTold(focal_length_mm=1400)
    assert "Focal length one four zero zero millimetres. Is that right?" in [words for saying in said for words in words_of(saying)]
    told, said = hold(ask_instrument.ask_instrument(), typed({"focal-length": ["one two zero zero"] * 9, "telescope-heard": ["no"] * 9}))
    assert told == InstrumentTold()
    assert [saying.code() for saying in said].count("focal-length") == 3
    assert FigureLeft() in said


def test_figures_that_belong_together_are_read_back_once() -> None:
    """Aperture and focal length in one sentence, each eyepiece with its field in another."""
    answers = {"aperture": "eight inches", "focal-length": "twelve hundred", "which-eyepiece": "two five", "apparent-field": "fifty"}
    _, said = hold(ask_instrument.ask_instrument(), typed(answers))
    heard = [words_of(saying)[0] for saying in said if saying.code().endswith("-heard")]
    assert heard == [
        "Width two zero three point two millimetres, focal length one two zero zero millimetres. Is that right?",
        "An eyepiece of two five millimetres, showing five zero degrees. Is that right?",
    ]


def test_an_unlikely_figure_is_not_believed() -> None:
    """Eleven millimetres are no focal length of a telescope."""
    told, said = hold(ask_instrument.ask_instrument(), typed({"focal-length": ["eleven millimetres", "nine hundred"]}))
    assert told == InstrumentTold(focal_length_mm=900)
    assert UnlikelyFigure(11) in said


@pytest.mark.parametrize(
    ("expects", "words", "figure"),
    [
        (MillimetresAnswer, "one two zero zero", 1200),
        (MillimetresAnswer, "twelve hundred", 1200),
        (MillimetresAnswer, "twelve hundred and fifty millimetres", 1250),
        (MillimetresAnswer, "a thousand", 1000),
        (MillimetresAnswer, "two thousand and thirty two", 2032),
        (MillimetresAnswer, "one thousand two hundred and five", 1205),
        (MillimetresAnswer, "one hundred and fourteen", 114),
        (FewMillimetresAnswer, "two five", 25),
        (FewMillimetresAnswer, "twenty five", 25),
        (FewMillimetresAnswer, "nine point seven millimetres", 9.7),
        (FewMillimetresAnswer, "thirty two point five", 32.5),
    ],
)
def test_figures(expects: type[Answers], words: str, figure: float) -> None:
    """Singly, in hundreds, in thousands, with tenths."""
    heard = understand(words, live(expects))
    assert isinstance(heard, Heard)
    assert figure_of(heard.slots) == pytest.approx(figure)


@pytest.mark.parametrize(
    ("words", "fists"),
    [
        ("half a fist", 0.5),
        ("a fist", 1),
        ("a fist and a half", 1.5),
        ("three and a half", 3.5),
        ("two and a half fists", 2.5),
        ("four", 4),
    ],
)
def test_fists(words: str, fists: float) -> None:
    """With halves, with and without the word."""
    heard = understand(words, live(FistsAnswer))
    assert isinstance(heard, Heard)
    assert fists_of(heard.slots) == fists


def test_an_answer_without_its_number_is_not_made_nought() -> None:
    """Where the number should be and isn't, the answer is refused, not taken for zero."""
    for number_of in (figure_of, fists_of):
        with pytest.raises(UnexpectedAnswer):
            number_of({"side": "N"})


def test_heights_are_in_the_observers_own_fists() -> None:
    """Three fists of a small hand are fewer degrees."""
    parts, _ = hold(ask_horizon.ask_horizon(8.0), typed({"what-is-in-the-way": "hills in the south up to three fists"}))
    assert parts == (Obstruction(157.5, 202.5, 24.0, "hills"),)


def test_an_obstruction_heard_wrong_is_left_out() -> None:
    """A no to the read-back drops that part only."""
    answers = {
        "what-is-in-the-way": ["trees in the north up to a fist"] * 2,
        "in-the-way-heard": ["no", "yes"],
        "anything-else-in-the-way": "that's all",
    }
    parts, said = hold(ask_horizon.ask_horizon(), typed(answers))
    assert len(parts) == 1
    assert "Trees in the north, up to a fist. Is that right?" in [words for saying in said for words in words_of(saying)]


@pytest.mark.parametrize(
    ("latitude", "longitude", "place", "read_back"),
    [
        (
            "forty six degrees eighteen minutes north",
            "sixty seven point five two degrees west",
            (46.3, -67.52),
            "Latitude four six degrees one eight minutes north. Longitude six seven degrees three one minutes west. Is that right?",
        ),
        (
            "thirty three degrees south",
            "one hundred and forty nine degrees thirty minutes east",
            (-33, 149.5),
            "Latitude three three degrees zero zero minutes south. Longitude one four nine degrees three zero minutes east. Is that right?",
        ),
        (
            "forty six point three north",
            "sixty seven degrees west",
            (46.3, -67),
            "Latitude four six degrees one eight minutes north. Longitude six seven degrees zero zero minutes west. Is that right?",
        ),
    ],
)
def test_coordinates(latitude: str, longitude: str, place: tuple[float, float], read_back: str) -> None:
    """Heard in degrees and minutes, read back once, singly; a no asks for both again."""
    answers = {"your-latitude": [latitude] * 2, "your-longitude": [longitude] * 2, "your-place-heard": ["no", "yes"]}
    site, said = hold(ask_coordinates(), typed(answers))
    assert (site.latitude_deg, site.longitude_deg) == pytest.approx(place)
    assert [saying.code() for saying in said] == ["your-latitude", "your-longitude", "your-place-heard"] * 2
    assert read_back in [words for saying in said for words in words_of(saying)]


@pytest.mark.parametrize(("which", "words"), [("latitude", "ninety one degrees north"), ("latitude", "sixty seven degrees west")])
def test_no_such_coordinate(which: Coordinate, words: str) -> None:
    """What can't be one is said, and asked again; then left."""
    value, said = hold(ask_coordinate(which), typed({f"your-{which}": [words] * 9}))
    assert value is None
    assert [saying.code() for saying in said].count("no-such-coordinate") == 3


def test_near_a_town() -> None:
    """A town is read back with where it is, and gives the site in its own zone; a wrong one is asked again."""
    answers = {"where-are-you": ["near Nairobi", "near Lagos"], "town-heard": ["no", "yes"], "how-far-from-town": "in the town"}
    place, said = hold(ask_place.ask_place(), typed(answers))
    assert place == places.find_town("Lagos").site
    # Nairobi lies at 1.3 S, 36.8 E (GeoNames).
    assert "Near Nairobi, latitude one south, longitude three seven east. Is that right?" in [w for s in said for w in words_of(s)]


@pytest.mark.parametrize(("town", "unit"), [("Lagos", "kilometres"), ("London", "miles")])
def test_how_far_is_asked_as_one_counts_there(town: str, unit: str) -> None:
    """The example that the question gives is in the unit of the town's roads (common knowledge)."""
    answers = {"where-are-you": f"near {town}", "town-heard": "yes", "how-far-from-town": "in the town"}
    _, said = hold(ask_place.ask_place(), typed(answers))
    assert f"Say it like: ten {unit} north-west." in " ".join(words for saying in said for words in words_of(saying))


def test_some_way_from_a_town() -> None:
    """What is said of distance and direction is read back, asked again where it is wrong, and moves the site; the zone follows."""
    answers = {
        "where-are-you": "near Lagos",
        "town-heard": "yes",
        "how-far-from-town": ["fifty kilometres north west", "about fifteen miles north west"],
        "from-town-heard": ["no", "yes"],
    }
    site, said = hold(ask_place.ask_place(), typed(answers))
    town = places.find_town("Lagos")
    # 15 international miles are 24.14 km; north-west is 45 degrees from north, to the west.
    assert town.distance_km(site.latitude_deg, site.longitude_deg) == pytest.approx(24.14, abs=0.01)
    assert site.latitude_deg - town.latitude_deg == pytest.approx(24.14 / 111.2 * 0.7071, abs=0.001)
    assert site.longitude_deg < town.longitude_deg
    assert "One five miles north-west of Lagos. Is that right?" in [w for s in said for w in words_of(s)]


@pytest.mark.parametrize("letters", ["B R I S", "bravo romeo india sierra"])
def test_a_town_that_no_ear_knows_is_spelt(letters: str) -> None:
    """Of the towns that begin so the larger comes first; Bristol lies at 51.5 N, 2.6 W (GeoNames), and is none that is listened for."""
    answers = {
        "where-are-you": "let me spell it",
        "spell-the-town": letters,
        "town-heard": ["no", "yes"],
        "how-far-from-town": "in the town",
    }
    place, said = hold(ask_place.ask_place(), typed(answers))
    assert place == places.find_town("Bristol").site
    heard = [words_of(saying)[0] for saying in said if saying.code() == "town-heard"]
    assert [words.split(",")[0] for words in heard] == ["Near Brisbane", "Near Bristol"]
    assert not live(TownAnswer).parse("near Bristol")


def test_letters_heard_wrong_are_told_and_spelt_again() -> None:
    """Where no town offered is the one, the letters are said; what is skipped asks for the place again."""
    answers = {
        "where-are-you": ["let me spell it", "near Lagos"],
        "spell-the-town": ["L E E D", "skip this"],
        "town-heard": ["no", "yes"],
        "how-far-from-town": "in the town",
    }
    place, said = hold(ask_place.ask_place(), typed(answers))
    assert place == places.find_town("Lagos").site
    assert "I know no other town that begins with L, E, E, D." in [words for saying in said for words in words_of(saying)]


def test_every_town_can_be_spelt() -> None:
    """However a town is called, its beginning can be said; names as a recogniser of letters would write them, too."""
    begins = {phrase.slots["letters"] for phrase in live(TownLettersAnswer).phrases() if "letters" in phrase.slots}
    assert {places.beginning_of(town.name) for town in places.towns()} <= begins
    assert all(places.towns_beginning(letters) for letters in begins)
    for line in ("Bristol", "near Bristol", "bris", "BRIS", "b r i s"):
        heard = VOCABULARY.understand(line, TownLettersAnswer)
        assert isinstance(heard, Heard)
        assert heard.slots["letters"] == "BRIS"


def test_town_names_are_those_of_the_table() -> None:
    """The grammars of towns are what their maker writes today, and each name in them is found."""
    folder = resources.files("companion.grammars")
    make = runpy.run_path(str(folder / "make_towns.py"))
    assert (folder / "en" / "towns.jsgf").read_text("utf-8") == make["grammar_text"]()
    assert (folder / "en" / "town_letters.jsgf").read_text("utf-8") == make["letters_text"]()
    names = [phrase.slots["town_name"] for phrase in live(TownAnswer).phrases() if "town_name" in phrase.slots]
    assert len(names) > 500
    assert [places.find_town(name).name for name in names] == names


def test_a_fist_is_measured_on_two_stars() -> None:
    """Degrees between the stars by fists counted; the stars named are up, and the read-back says what came out."""
    pair = alignment.fist_pair(Moment(SITE, TIME))
    assert pair is not None
    one, other, apart_deg = pair
    fists = round(apart_deg / 9)
    words = ["a fist", "a fist", "two", "three", "four"][fists]
    fist_deg, said = hold(ask_observer.measure_fist(CONTEXT, TIME), typed({"how-many-fists": words}))
    assert fist_deg == pytest.approx(apart_deg / fists)
    asked = words_of(said[0])[0]
    assert one.body.name in asked
    assert other.body.name in asked


def test_a_miscounted_fist_is_left() -> None:
    """Half a fist between stars far apart is no fist; after two tries it is left at ten degrees. Skipped, nothing is said."""
    fist_deg, said = hold(ask_observer.measure_fist(CONTEXT, TIME), typed({"how-many-fists": ["half a fist"] * 9}))
    assert fist_deg is None
    assert [saying.code() for saying in said] == ["how-many-fists", "unlikely-fist"] * 2 + ["fist-left"]
    assert hold(ask_observer.measure_fist(CONTEXT, TIME), typed({}))[0] is None


def test_no_stars_to_measure_a_fist_on() -> None:
    """At noon there are none, and it says so."""
    noon = datetime(2026, 10, 15, 16, 0, tzinfo=UTC)
    fist_deg, said = hold(ask_observer.measure_fist(CONTEXT, noon), typed({}))
    assert fist_deg is None
    assert said == [NoPairForTheFist()]
