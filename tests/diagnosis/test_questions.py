"""What is asked about a miss, what an answer makes of it, and what is to be done again then."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from companion.diagnosis import Answer, Belief, Question, Suspect, advised, after_mending, next_question, settle, weigh_clue
from companion.diagnosis.cures import cures_of
from companion.diagnosis.questions import MOST_QUESTIONS, expected_bits, likelihood, right_answer

SAVING = Suspect("hour", "daylight_saving")
ZONE = Suspect("hour", "time_zone")
NORTH = Suspect("start_azimuth", "")
REVERSED = Suspect("reversed", "", faced="south")
BASE = Suspect("base_tilt", "")
SITE = Suspect("site", "")
ALTAIR = Suspect("wrong_star", "", star="Altair", instead="Deneb")
VEGA = Suspect("wrong_star", "", star="Vega", instead="Deneb")
FAR = Suspect("hour", "time_zone", steered_far="Altair")
DOWN = Suspect("latitude", "sign", believes_down=True)
SLIPPED = Suspect("slipped", "")
EVERY = (SAVING, ZONE, NORTH, REVERSED, BASE, SITE, ALTAIR, VEGA, DOWN, SLIPPED)


def belief(**shares: float) -> Belief:
    """Return a belief in some of the suspects above, by their names in small letters."""
    total = sum(shares.values())
    return Belief(tuple(globals()[name.upper()] for name in shares), tuple(share / total for share in shares.values()))


def test_the_question_is_the_one_that_tells_most() -> None:
    """Between daylight saving and a tube turned a little, the setting is asked for; between two ways the tube faced, the tube."""
    assert next_question(belief(saving=5, north=4)) == Question("daylight_saving")
    assert next_question(belief(reversed=5, down=4)) in (Question("facing"), Question("place"), Question("below_horizon", None))


def test_the_base_is_asked_about_whenever_it_leads() -> None:
    """Sure of the base or not, its bubble is looked at before anything is done, but once."""
    sure = belief(base=99, north=1)
    assert next_question(sure) == Question("bubble")
    assert next_question(settle(sure, Question("bubble"), "no"), [(Question("bubble"), "no")]) is None


@given(
    some.lists(some.floats(0.01, 1.0), min_size=len(EVERY), max_size=len(EVERY)), some.lists(some.integers(0, 9), min_size=9, max_size=9)
)
@settings(max_examples=30, deadline=None)
def test_few_questions_and_none_twice(shares: list[float], choices: list[int]) -> None:
    """Whatever is believed and answered: four at most, none twice, and always something to be done in the end."""
    held = Belief(EVERY, tuple(share / sum(shares) for share in shares))
    answered: list[tuple[Question, Answer]] = []
    while (question := next_question(held, answered)) is not None:
        possible: tuple[Answer, ...] = ("north", "south", "cant_tell") if question.about == "facing" else ("yes", "no", "cant_tell")
        answer = possible[choices[len(answered)] % 3]
        held = settle(held, question, answer)
        answered.append((question, answer))
    assert len(answered) <= MOST_QUESTIONS
    assert len({question for question, _ in answered}) == len(answered)
    advice = advised(held, answered)
    assert advice.cures
    assert 0.0 <= advice.probability <= 1.0 + 1e-9


@pytest.mark.parametrize("question", [Question("place"), Question("facing"), Question("double", "Altair", "Deneb")])
def test_information_is_never_negative_nor_more_than_the_answers_hold(question: Question) -> None:
    """An answer of n kinds tells between nought and log n bits."""
    held = Belief(EVERY, (1.0 / len(EVERY),) * len(EVERY))
    assert 0.0 <= expected_bits(held, question) <= math.log2(5 if question.about == "facing" else 3)


def test_answers_are_a_distribution() -> None:
    """Under every suspect the answers' probabilities sum to one, and the right one is the likeliest: Bayes' rule needs no more."""
    for suspect in EVERY:
        sides: tuple[Answer, ...] = ("north", "east", "south", "west", "cant_tell")
        assert sum(likelihood(Question("facing"), answer, suspect) for answer in sides) == pytest.approx(1.0)
        assert likelihood(Question("facing"), right_answer(Question("facing"), suspect), suspect) > 0.5


def test_how_far_the_first_star_lay_tells_a_setting_from_another_star() -> None:
    """Who steered far to the first star had a wrong setting, or north wrong; who found it near centred another, or a clutch slipped."""
    held, asked = belief(far=1, vega=1), Question("first_far", "Altair")
    assert expected_bits(held, asked) > 0.1
    assert settle(held, asked, "yes").leading == "hour"
    assert settle(held, asked, "no").leading == "wrong_star"
    assert asked not in [next_question(belief(saving=1, vega=1))]  # its miss was told


def test_a_second_look_at_north_finds_large_errors_only() -> None:
    """A compass held by hand shows three degrees as little as none."""
    off: dict[str, Suspect] = {size: Suspect("start_azimuth", "", north_off=size) for size in ("", "a_little", "far")}  # type: ignore[arg-type]
    told = [likelihood(Question("heading"), "no", off[size]) for size in ("", "a_little", "far")]
    assert told == sorted(told)
    assert told[0] < 0.2
    assert told[2] > 0.7


def test_the_base_is_looked_at_on_soft_ground_and_after_a_knock() -> None:
    """Whatever leads: who stands on grass, or kicked it, looks at the bubble next, and but once. Common practice, no published source."""
    held = belief(saving=9, base=1)
    for about in ("soft_ground", "knocked"):
        answered: list[tuple[Question, Answer]] = [(Question(about), "yes")]
        assert next_question(held, answered) == Question("bubble")
        assert next_question(held, [(Question(about), "no")]) != Question("bubble")
        assert next_question(held, [*answered, (Question("bubble"), "cant_tell")]) != Question("bubble")


def test_the_ground_is_asked_about_where_it_tells_most() -> None:
    """Where bubble, spirit level and clamps told nothing, a knock tells a base or a clamp from a neighbouring star, then the ground."""
    looked: list[tuple[Question, Answer]] = [(Question(about), "cant_tell") for about in ("bubble", "base_level", "clamps", "tube_gives")]
    of_stars: list[tuple[Question, Answer]] = [
        (Question("star", "Altair"), "cant_tell"),
        (Question("double", "Altair", "Deneb"), "cant_tell"),
    ]
    held = belief(base=5, altair=4)
    assert next_question(held, (), [*looked, *of_stars]) == Question("knocked")
    assert next_question(held, (), [*looked, *of_stars, (Question("knocked"), "no")]) == Question("soft_ground")


def test_soft_ground_alone_proves_nothing() -> None:
    """By hand: yes is said by 0.8 * 0.8 + 0.2 * 0.1 = 0.66 beside a leaning base, by 0.4 * 0.8 + 0.6 * 0.1 = 0.38 beside all else."""
    held = settle(belief(base=1, north=1), Question("soft_ground"), "yes")
    assert held.causes["base_tilt"] == pytest.approx(0.66 / (0.66 + 0.38))
    assert advised(held, [(Question("soft_ground"), "yes")]).cures == advised(held, []).cures


def test_an_answer_is_weighed_by_bayes_rule() -> None:
    """Even odds of daylight saving and north; "no" is eight times as likely under the first: 0.8 of 0.9."""
    held = settle(belief(saving=1, north=1), Question("daylight_saving"), "no")
    assert held.causes["hour"] == pytest.approx(0.8 / 0.9)
    assert settle(held, Question("time"), "cant_tell").causes["hour"] == pytest.approx(0.8 / 0.9)


def test_a_figure_read_out_tells_more_than_a_no() -> None:
    """Who reads out a wrong time hardly makes it up."""
    clock = Belief((Suspect("hour", "am_pm"), NORTH), (0.2, 0.8))
    said, read = (settle(clock, Question("time"), "no", read_out=so).causes["hour"] for so in (False, True))
    assert read > said
    assert read > 0.9


def test_nobody_is_sent_for_what_they_found_right() -> None:
    """After "yes, it is on" the advice is the next best; where all was found right, the start position anew."""
    held, yes = belief(saving=8, zone=1, north=2), (Question("daylight_saving"), "yes")
    assert advised(held, [yes]).cures == ("north",)
    settings_right: list[tuple[Question, Answer]] = [(Question("daylight_saving"), "yes"), (Question("time_zone"), "yes")]
    assert advised(belief(saving=1, zone=1), settings_right).cures == ("bubble", "north", "tube_level")
    assert advised(held, [], settings_right).cures == ("north",)


def test_an_answer_is_overruled_where_nothing_else_fits() -> None:
    """Who found north right is sent there all the same where all else is less likely than one in four; not to a setting read out."""
    north_right: list[tuple[Question, Answer]] = [(Question("heading"), "yes")]
    overruled = advised(belief(north=8, saving=2), north_right)
    assert overruled.cures == ("north",)
    assert overruled.against_an_answer
    believed = advised(belief(north=7, saving=3), north_right)
    assert believed.cures == ("daylight_saving",)
    assert not believed.against_an_answer
    assert advised(belief(saving=99, north=1), [(Question("daylight_saving"), "yes")]).cures == ("north",)


def test_what_was_found_wrong_is_mended_whatever_else_fits() -> None:
    """Daylight saving is off: it is set, and the base, likelier still, levelled."""
    assert advised(belief(base=9, saving=1), [(Question("daylight_saving"), "no")]).cures == ("bubble", "daylight_saving")


def test_sure_of_one_star_is_not_sure_of_the_other() -> None:
    """Vega surely was Vega: it is the other that is doubted."""
    assert advised(belief(altair=1, vega=5, north=2), [(Question("star", "Vega"), "yes")]).cures == ("north",)
    assert advised(belief(altair=4, vega=5, north=2), [(Question("star", "Vega"), "yes")]).cures == ("star",)


def test_the_base_comes_first_and_a_place_is_two_figures() -> None:
    """The base is levelled before the tube is set; latitude and longitude make a place."""
    assert advised(belief(north=1, base=1), []).cures == ("bubble", "north")
    assert cures_of(SITE) == ("latitude", "longitude")
    assert advised(belief(site=1, down=1), []).cures == ("latitude", "longitude")


def test_a_place_is_keyed_whole_but_for_what_is_right() -> None:
    """Who found the latitude wrong keys the longitude, too, on the same screen; not so who found it right."""
    wrong: tuple[Question, Answer] = (Question("latitude"), "no")
    assert advised(belief(down=9, north=1), [wrong]).cures == ("latitude", "longitude")
    assert advised(belief(down=9, north=1), [wrong, (Question("longitude"), "yes")]).cures == ("latitude",)


def test_after_a_cure_in_vain_the_next_is_broad() -> None:
    """All of the hand control in one go, what was found right before the vain cure too; and what is found right since is left alone."""
    held = belief(saving=3, zone=2, site=3, north=2)
    before: list[tuple[Question, Answer]] = [(Question("daylight_saving"), "yes")]
    everything = ("daylight_saving", "time_zone", "latitude", "longitude")
    assert advised(held, [], before, again=True).cures == everything
    assert advised(held, [], before).cures == ("latitude", "longitude")
    assert advised(held, [(Question("daylight_saving"), "yes")], again=True).cures == everything[1:]
    assert advised(belief(altair=3, slipped=2, north=2), [], again=True).cures == ("star", "clamps")


def test_what_was_mended_is_suspected_less() -> None:
    """Mended in vain, one time in ten: odds of nine to one become nine to ten."""
    assert after_mending(belief(saving=9, north=1), ["daylight_saving"]).causes["hour"] == pytest.approx(0.9 / 1.9)


def test_clues_without_degrees() -> None:
    """Worse far away speaks against a turn about the vertical; a kick for the base."""
    held = belief(north=1, saving=1, base=1)
    assert weigh_clue(held, "good_near_first_star_worse_far_away").causes["start_azimuth"] < 0.1
    assert weigh_clue(held, "kicked").leading == "base_tilt"
