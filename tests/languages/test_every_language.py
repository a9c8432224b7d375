"""Every language alike: each rule is there, every number, time, date, direction and name can be said, what is offered is understood.

Loading a language finds a sentence without words, loading its grammars a tag that nobody knows. The Korean
numbers and particles are held against what is written of them (values from memory).
"""

from __future__ import annotations

import re
import unicodedata
from datetime import UTC, date, datetime, timedelta
from importlib import import_module, resources
from pathlib import Path
from types import ModuleType

import pytest
from skyfield.api import load_constellation_names

from companion import observing, places, sky
from companion.languages import Language, load_language
from companion.languages.ko.particles import with_particle
from companion.languages.ko.transliteration import LETTERS
from companion.talk import every_rule
from companion.talk.centring_phrases import IsItCentred
from companion.vocabulary import load_vocabulary
from tests.english import VOCABULARY
from tests.evenings.script import Script, scripts

CODES = sorted(
    entry.name for entry in resources.files("companion.languages").iterdir() if entry.is_dir() and (entry / "__init__.py").is_file()
)
SAID = {"en": re.compile(r"[A-Za-zÀ-ž' ,.-]+"), "ko": re.compile(r"[가-힣 ,.]+")}
"""What is left to say when all is put into words: letters of the language, and no figure."""


def module(code: str, name: str) -> ModuleType:
    """Return one of a language's modules; all languages have these alike."""
    return import_module(f"companion.languages.{code}.{name}")


@pytest.fixture(scope="module", params=CODES)
def language(request: pytest.FixtureRequest) -> Language:
    """Return each language in turn, whole."""
    return load_language(request.param)


def test_every_answer_offered_is_understood(language: Language) -> None:
    """Each rule's live set holds together, its examples hold, and what help offers is an answer to it."""
    vocabulary = load_vocabulary(language)
    for grammar in vocabulary.grammars:
        grammar.check_examples()
    for rule in every_rule():
        active = vocabulary.active(rule)
        for words in language.book.sayable.get(rule, ()):
            assert active.parse(words) is not None, (rule.rule(), words)


def test_every_language_has_short_forms_and_other_words_alike(language: Language) -> None:
    """What one language says in few words, to who looks, by touch or in poor sight, every other does; what is short already needn't."""
    for kind in ("terse", "relayed", "by_touch", "where_nobody_sees", "in_poor_sight"):
        wanted = {saying for code in CODES for saying in getattr(load_language(code).book, kind)}
        for saying in wanted - set(getattr(language.book, kind)):
            full = language.book.phrases[saying]
            assert kind == "terse", (kind, saying.__name__)
            assert isinstance(full, str), (kind, saying.__name__)
            assert len(full.split()) <= 3, (kind, saying.__name__)


def test_a_language_is_a_folder(language: Language) -> None:
    """Beside its folders a language that isn't the first is named in two places: where models are fetched, and in the option's help."""
    if language.code == "en":
        return
    named = re.compile(rf"[\"'( ]{language.code}[\"',) ]")
    package = Path(str(resources.files("companion")))
    own = (package / "languages" / language.code, package / "grammars", package / "audio_fixtures")
    elsewhere = {
        file.relative_to(package).as_posix()
        for file in package.rglob("*.py")
        if not any(file.is_relative_to(folder) for folder in own) and named.search(file.read_text("utf-8"))
    }
    assert elsewhere == {"hearing/vosk/fetch.py", "command_table.py"}


def test_figures_can_be_said(language: Language) -> None:
    """Every number 0..359, every bearing, every minute of a day and every day of a leap year has its own words, all in letters."""
    numbers, clock, plain = module(language.code, "number_words"), module(language.code, "clock_words"), SAID[language.code]
    cardinals = [numbers.cardinal(number) for number in range(360)]
    singly = [numbers.digits(number, 3) for number in range(360)]
    minutes = [clock.time_of_day(datetime(2028, 1, 1, tzinfo=UTC) + timedelta(minutes=minute)) for minute in range(24 * 60)]
    days = [clock.calendar_day(date(2028, 1, 1) + timedelta(days=day)) for day in range(366)]
    for said in (cardinals, singly, minutes, days):
        assert len(set(said)) == len(said)
        assert all(plain.fullmatch(words) for words in said)


def test_directions_can_be_said(language: Language) -> None:
    """Every whole degree of azimuth and height has its words, and opposite points never the same."""
    words = module(language.code, "direction_words")
    for azimuth_deg in range(360):
        assert words.compass_point(azimuth_deg) != words.compass_point((azimuth_deg + 180) % 360)
        assert SAID[language.code].fullmatch(words.turn_on_feet(azimuth_deg / 2))
        for altitude_deg in (-5, 3, 20, 30, 45, 60, 85):
            assert SAID[language.code].fullmatch(words.place_in_sky(altitude_deg, azimuth_deg))


def test_a_rehearsal_is_summed_up(language: Language) -> None:
    """All four figures, whether it ended, and no word of another language."""
    told, broken_off = (" ".join(language.rehearsed(finished, (51, 53), (2, 7))) for finished in (True, False))
    assert sorted(re.findall(r"\d+", told)) == ["2", "51", "53", "7"]
    assert told != broken_off
    assert (re.search("[A-Za-z]", told) is None) == (language.code == "ko")


def test_names_can_be_said(language: Language) -> None:
    """Every star a mount may name, every planet and every showpiece is said in the language's own letters, without figures."""
    spoken = module(language.code, "spoken_names").spoken_name
    names = {body.name for body in sky.nameable()} | {showpiece.body.name for showpiece in observing.rated_showpieces()}
    assert len(names) > 400
    for name in names:
        assert SAID[language.code].fullmatch(spoken(name)), (name, spoken(name))
    stars = [spoken(body.name) for body in sky.nameable()]
    assert len(set(stars)) == len(stars)


@pytest.mark.parametrize(
    ("word", "pair", "with_it"),
    [
        ("베가", "은/는", "베가는"),
        ("달", "은/는", "달은"),
        ("목성", "이/가", "목성이"),
        ("하나", "을/를", "하나를"),
        ("북쪽", "으로/로", "북쪽으로"),
        ("대상", "으로/로", "대상으로"),
        ("위", "으로/로", "위로"),
        ("달", "으로/로", "달로"),
        ("메시에 31", "이/가", "메시에 31이"),
        ("NGC 869", "을/를", "NGC 869를"),
        ("7", "으로/로", "7로"),
        ("M", "이/가", "M이"),
        ("오 도.", "이에요/예요", "오 도.예요"),
    ],
)
def test_korean_particles(word: str, pair: str, with_it: str) -> None:
    """The particle goes by the last sound, of figures and letters as they are read (Hangul orthography, rules from memory)."""
    assert with_particle(word, pair) == with_it


def _closing(word: str) -> str:
    """Return the consonant that closes a word of Hangul, as Unicode takes the syllable apart (UAX 15); nothing after a vowel."""
    letter = unicodedata.normalize("NFD", word.rstrip(" .,"))[-1]
    return letter if "\u11a8" <= letter <= "\u11c2" else ""


def test_korean_particles_agree_after_every_name_and_number() -> None:
    """After every name, town, number and amount there is, each pair of particles goes by the last sound (orthography, from memory)."""
    spoken, numbers = module("ko", "spoken_names"), module("ko", "number_words")
    bodies = {body.name for body in (*sky.nameable(), *sky.PLANETS, *sky.deep_sky())}
    said = [spoken.spoken_name(name) for name in bodies | {showpiece.body.name for showpiece in observing.rated_showpieces()}]
    said += [spoken.town_name(town.name) for town in places.towns()]
    said += [spoken.constellation_name(code) for code, _ in load_constellation_names()]
    said += [words(number) for words in (numbers.cardinal, numbers.native, numbers.digits) for number in range(1, 1000)]
    said += [numbers.decimal(number / 10) for number in range(1000)]
    pairs = {"은/는": "은는", "이/가": "이가", "을/를": "을를", "과/와": "과와"}
    for word in dict.fromkeys(said):
        closing = _closing(word)
        for pair, (closed, opened) in pairs.items():
            assert with_particle(word, pair) == word + (closed if closing else opened), word
        assert with_particle(word, "으로/로") == word + ("로" if closing in ("", "\u11af") else "으로"), word
        assert with_particle(word, "이에요/예요") == word + ("이에요" if closing else "예요"), word


def test_korean_figures_and_letters_take_the_particles_of_their_sound() -> None:
    """A figure or a Latin letter is followed by what its Korean name would be followed by."""
    for sign, read in {**LETTERS, **dict(zip("0123456789", "영일이삼사오육칠팔구", strict=True))}.items():
        for pair in ("은/는", "이/가", "을/를", "과/와", "으로/로", "이에요/예요"):
            assert with_particle(sign, pair)[1:] == with_particle(read, pair)[len(read) :], (sign, pair)


PARTICLES = {"를": False, "을": True, "예요": False, "이에요": True, "와": False, "과": True, "는": False, "은": True}
"""Endings that stand only behind a vowel, or only behind a consonant."""
OTHER_WORDS = re.compile("이은|있는|없는|[가-힣]*(마을|가을|노을|효과|결과|사과|다음과)|좋은|같은|작은|높은|낮은|많은|싶은|[가-힣]*은하")


@pytest.mark.slow
def test_korean_evenings_have_the_right_particles() -> None:
    """In every sentence of every written evening the particles go by the sound before them, and the style of speech is one."""
    for path in scripts():
        for line, _ in Script.read(path).played(VOCABULARY, load_language("ko")):
            if not line.startswith("it:"):
                continue
            for word in re.findall("[가-힣]+", line):
                for ending, behind_consonant in PARTICLES.items():
                    if word.endswith(ending) and len(word) > len(ending) and not OTHER_WORDS.fullmatch(word):
                        if ending == "예요" and word.endswith("이예요"):
                            assert _closing(word[:-2]) == "", line
                        assert bool(_closing(word[: -len(ending)])) == behind_consonant, (word, line)
            for sentence in re.split(r"(?<=[.?!])\s+", line.removeprefix("it:").strip()):
                assert not re.search("(습니다|습니까|십시오|한다|이다|해라)[.?!]$", sentence), sentence


@pytest.mark.parametrize(
    ("number", "sino", "counted"),
    [
        (1, "일", "한"),
        (10, "십", "열"),
        (20, "이십", "스무"),
        (21, "이십일", "스물한"),
        (99, "구십구", "아흔아홉"),
        (111, "백십일", "백십일"),
    ],
)
def test_korean_numbers(number: int, sino: str, counted: str) -> None:
    """Both systems, at the places where each is irregular (value from memory)."""
    numbers = module("ko", "number_words")
    assert (numbers.cardinal(number), numbers.native(number)) == (sino, counted)


def test_korean_grammars_of_names_are_made() -> None:
    """The files of names are what their maker writes today."""
    import runpy  # noqa: PLC0415 - only here

    folder = resources.files("companion.grammars")
    made = runpy.run_path(str(folder / "make_korean_names.py"))["texts"]()
    for name, text in made.items():
        assert (folder / "ko" / f"{name}.jsgf").read_text("utf-8") == text, name


def test_korean_is_typed_with_any_spaces() -> None:
    """Where Korean has spaces is left to the writer, and figures stand for their words."""
    active = load_vocabulary(load_language("ko")).active(next(rule for rule in every_rule() if rule.rule() == "coordinate"))
    written = {"북위 삼십칠 도 삼십 분", "북위삼십칠도 삼십분", "북위 37도 30분"}
    meant = {tuple(phrase.slots.items()) for words in written if (phrase := active.parse(words)) is not None}
    assert len(meant) == 1
    assert dict(meant.pop()) == {"side": "N", "whole": "30 7", "minute": "30"}


def test_a_star_is_centred_where_the_last_arrows_are_not_known(language: Language) -> None:
    """Who skipped the question of which keys the mount comes to rest by is still told how to finish."""
    moment = sky.Moment(sky.Site(35.85, 128.72), datetime(2027, 2, 6, 10, tzinfo=UTC))
    for first in (True, False):
        said = language.words(IsItCentred(star="Rigel", first=first, last=()), moment)
        assert SAID[language.code].fullmatch(re.sub("[?:]", "", said))


@pytest.mark.slow
@pytest.mark.parametrize("name", ["any_bright_things", "night_by_hand", "why_latitude"])
def test_an_evening_is_korean_throughout(name: str) -> None:
    """Whatever is answered in a written evening, each sentence has its words, and no foreign letter or figure is left in them."""
    path = next(path for path in scripts() if path.stem == name)
    said = [line.removeprefix("it:  ") for line, _ in Script.read(path).played(VOCABULARY, load_language("ko")) if line.startswith("it:")]
    assert len(said) > 10
    assert not [words for words in said if re.search("[A-Za-z0-9]", words)]
