"""Questions at any time: each is answered, the open question follows in few words, and nothing of the evening changes."""

from __future__ import annotations

import math
import random
import re
import runpy
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from importlib import resources

import pytest

from companion import sky
from companion.dialogue import Conversation, Record, Turn
from companion.dialogue.questions import is_question, named_in
from companion.equipment import Equipment, Eyepiece, Instrument, Mount
from companion.languages.en.sight_words import SUN_CAUTION
from companion.messages import Heard, NotNow, NotUnderstood
from companion.procedure import EVENING, Stage
from companion.procedure.ask_equipment import ask_about_equipment
from companion.procedure.equipment_told import EquipmentTold
from companion.sky import Moment, Site
from companion.talk import every_rule
from companion.talk.advice import Advice
from companion.talk.equipment_phrases import TownHeard
from companion.talk.guidance_phrases import ThatIsForLater
from companion.talk.night_answers import ShowMeAnswer
from companion.talk.pose_phrases import FaceTrueNorth
from companion.talk.question_answers import QUESTION_RULES
from companion.talk.question_phrases import (
    AskedAgain,
    BrightOne,
    FaintestHere,
    NoOtherWay,
    NothingBrightThere,
    OnlyQuestions,
    StarsLeft,
    WhereItStands,
)
from tests.dialogue.questions_asked import all_asked, asked_at, question_asked
from tests.dialogue.test_walking import KITS, SITES, STARTS, answers_to, check_words
from tests.english import ENGLISH, VOCABULARY

SITE = Site(46.31, -67.52, 180, "America/Moncton", "Spruce Ridge clearing")
EVENING_TIME = datetime(2026, 10, 15, 23, 10, tzinfo=UTC)
NOON = datetime(2026, 10, 15, 16, 0, tzinfo=UTC)
LAST_WORDS_TERSE = 20
LISTS = Equipment(mount=Mount(star_choice="list", last_keys="up-right"))


class Listener:
    """A conversation and all it records."""

    def __init__(self, site: Site | None = SITE, start: datetime = EVENING_TIME) -> None:
        """Begin an evening."""
        self.records: list[Record] = []
        self.conversation = Conversation(EVENING, site, ENGLISH, self.records.append)
        self.now = start
        self.turn = self.conversation.begin(start)

    def says(self, *lines: str) -> str:
        """Type lines, a little apart; return the words of the last reply."""
        for line in lines:
            assert self.turn.question is not None
            self.now += timedelta(seconds=5)
            self.turn = self.conversation.hear(VOCABULARY.understand(line, self.turn.question.expects), self.now)
        return " ".join(self.conversation.words(saying, self.now) for saying in self.turn.sayings)


def check_answered(conversation: Conversation, asked: NotNow, before: Turn, time: datetime, records: list[Record]) -> Turn:
    """Ask, and see that it is answered, the open question stands again in few words, and nothing was recorded."""
    kept, results, equipment = list(records), conversation.results, conversation.equipment
    turn = conversation.hear(asked, time)
    assert before.question is not None
    assert turn.question == before.question, asked
    assert turn.stage == before.stage
    *told, again = turn.sayings
    assert told, asked
    assert again == AskedAgain(before.question)
    assert (records, conversation.results, conversation.equipment) == (kept, results, equipment)
    return turn


@pytest.mark.parametrize("stage", EVENING, ids=lambda stage: stage.name)
def test_every_question_in_every_stage(stage: Stage) -> None:
    """At the questions a stage begins with, every question is answered, and answering afterwards goes as if nobody had asked."""
    records: list[Record] = []
    others: list[Record] = []
    conversation = Conversation([stage], SITE, ENGLISH, records.append)
    unasked = Conversation([stage], SITE, ENGLISH, others.append)
    turn, other = conversation.begin(EVENING_TIME), unasked.begin(EVENING_TIME)
    for step in range(3):
        if turn.question is None:
            return
        time = EVENING_TIME + timedelta(minutes=step + 1)
        for asked in asked_at(turn.question):
            if "object" in asked.slots and ShowMeAnswer in turn.question.also:
                # A bare name is a wish there: it is led to.
                continue
            turn = check_answered(conversation, asked, turn, time, records)
        again = conversation.words(turn.sayings[-1], time)
        assert all(len(sentence.split()) <= LAST_WORDS_TERSE for sentence in re.split(r"(?<=[.?!])\s+", again))
        answer = next(heard for heard in answers_to(turn.question) if isinstance(heard, Heard) and heard.command != "help")
        turn, other = conversation.hear(answer, time), unasked.hear(answer, time)
        assert turn == other
        assert records == others


@pytest.mark.parametrize(("site", "start"), [(SITES[0], STARTS[0]), (SITES[1], STARTS[2]), (SITES[3], STARTS[1]), (SITES[5], STARTS[3])])
def test_answers_can_be_spoken(site: Site, start: datetime) -> None:
    """By day and night, north, south, in the polar summer and at the pole, every answer is short sentences without figures."""
    conversation = Conversation(EVENING, site, ENGLISH)
    conversation.begin(start)
    for asked in all_asked():
        turn = conversation.hear(asked, start)
        check_words(turn, Moment(site, start))
        for saying in turn.sayings:
            assert not re.search(r"\bstop\b|say that again", ENGLISH.words(saying, Moment(site, start)), re.IGNORECASE)


def _mixed(seed: int, turns: int) -> Iterator[None]:
    choose = random.Random(seed)
    while True:
        records: list[Record] = []
        site, time = choose.choice(SITES), choose.choice(STARTS)
        conversation = Conversation(EVENING, site, ENGLISH, records.append, choose.choice(KITS))
        turn = conversation.begin(time)
        while turn.question is not None:
            turns -= 1
            if turns <= 0:
                return
            yield
            time += timedelta(seconds=choose.choice((5, 30, 200)))
            if choose.random() < 0.6:
                turn = check_answered(conversation, choose.choice(asked_at(turn.question)), turn, time, records)
                check_words(turn, conversation.moment(time))
            else:
                turn = conversation.hear(choose.choices((choose.choice(answers_to(turn.question)), NotUnderstood()), (9, 1))[0], time)


@pytest.mark.parametrize("turns", [250, pytest.param(1000, marks=pytest.mark.slow)])
def test_random_turns_with_questions(turns: int) -> None:
    """Questions in the middle of evenings at random: each answered, none recorded, the evening goes on."""
    assert sum(1 for _ in _mixed(11, turns)) == turns - 1


def test_a_town_is_nothing_in_the_sky() -> None:
    """After a town was read back, "which was that" means what was named before it."""
    assert named_in([WhereItStands("Vega"), TownHeard("Springfield", 40.0, -89.6)]) == "Vega"


def test_questions_are_no_answers() -> None:
    """No command of a question is one that any question of ours takes, so that a question is never taken for an answer."""
    answers = {str(answer) for rule in every_rule() if rule is not ShowMeAnswer for answer in rule}
    for rule in QUESTION_RULES:
        assert not answers & set(map(str, rule))


def test_every_kind_of_question_is_tried_here() -> None:
    """The list of questions holds one of every command there is."""
    commands = {str(command) for rule in QUESTION_RULES for command in rule}
    assert commands - {"skip"} <= {asked.command for asked in all_asked()}
    assert all(map(is_question, all_asked()))


def test_what_is_no_question_is_still_for_later() -> None:
    """An answer to another question is told as such, as before."""
    evening = Listener()
    evening.says("dead centre")
    assert isinstance(evening.turn.sayings[0], ThatIsForLater)


def test_a_bare_name_asks_where_it_is_unless_it_answers() -> None:
    """A star's name alone is a question of ours to answer, but at a question for a star it is the answer."""
    evening = Listener()
    evening.says("Vega")
    assert evening.turn.sayings[0] == WhereItStands("Vega")
    question = evening.turn.question
    assert question is not None
    evening.says("Messier thirteen")
    assert evening.turn.sayings[0] == WhereItStands("Hercules Cluster")


def test_it_is_what_was_spoken_of_last() -> None:
    """What "it" is, in "how high is it", follows the thing named last, whoever named it; before any, that is said."""
    evening = Listener()
    assert evening.says("how high is it").startswith("I have named nothing yet.")
    evening.says("where is Saturn")
    assert "Saturn" in evening.says("how high is it")
    evening.says("what's that bright one low in the west")
    assert "Arcturus" in evening.says("how high is it")
    assert "Arcturus" in evening.says("which star was that")


def test_without_a_place_nothing_is_pointed_out() -> None:
    """Where nobody told the place, a question about the sky is answered with that; one about words isn't."""
    evening = Listener(site=None)
    assert evening.says("where is Saturn").startswith("Without a place")
    assert evening.says("what is a fist").startswith("Your closed hand")


def test_the_sun_has_its_caution() -> None:
    """Where and how high the Sun is gets the caution alone; when it rises and sets carries it; a body near it gets it first."""
    evening = Listener(start=NOON)
    for asked in ("where is the Sun", "how high is the Sun", "can I look at the Sun", "is it safe to point it at the Sun"):
        assert evening.says(asked).startswith(SUN_CAUTION)
        assert "fist" not in evening.says(asked)
    for asked in ("when does the Sun set", "when does the Sun rise", "is the Sun up"):
        assert SUN_CAUTION in evening.says(asked)
    near = next(
        name
        for name in ("Mercury", "Venus", "Spica", "Arcturus")
        if sky.separation_deg(*sky.sights((sky.find(name), sky.SUN), Moment(SITE, NOON))) < sky.SUN_BERTH_DEG
        and sky.sight(sky.find(name), Moment(SITE, NOON)).altitude_deg > 0
    )
    assert evening.says(f"where is {near}").startswith(SUN_CAUTION)
    assert evening.says("what's that bright one").startswith("That may be the Sun.")


def test_how_faint_a_star_may_be() -> None:
    """Through a telescope as many magnitudes fainter than by eye as it gathers more light than a pupil of seven millimetres.

    Common practice, no published source: 5 log10 of aperture over pupil, less what glass and one eye lose, more what power darkens.
    """
    listener = Listener()
    listener.conversation = Conversation(EVENING, SITE, ENGLISH, equipment=Equipment(Instrument(150.0, 750.0, (Eyepiece(6.0),))))
    listener.now = EVENING_TIME + timedelta(hours=3)
    listener.turn = listener.conversation.begin(listener.now)
    listener.says("how faint can I see")
    told = next(saying for saying in listener.turn.sayings if isinstance(saying, FaintestHere))
    assert told.eye_mag is not None
    assert told.telescope_mag is not None
    assert 5.0 <= told.eye_mag <= 6.5
    assert abs(told.telescope_mag - told.eye_mag - 5.0 * math.log10(150.0 / 7.0)) < 1.5
    assert "must be dark" in Listener(start=NOON).says("how faint can I see")


def test_a_star_is_not_the_moon() -> None:
    """On 15 October 2026 the Moon, three days from new, stands low in the south-west at dusk (an almanac): no star is meant by it."""
    evening = Listener()
    evening.says("what's that bright one over there")
    assert isinstance(evening.turn.sayings[0], BrightOne)
    assert evening.turn.sayings[0].names[0] == "Moon"
    evening.says("what's that bright star over there")
    assert isinstance(evening.turn.sayings[0], BrightOne)
    assert "Moon" not in evening.turn.sayings[0].names


def test_another_way_is_answered_everywhere() -> None:
    """A bubble has its phone and its dish of water; where there is no other way it is said, with how to go on without."""
    evening = Listener()
    evening.says("yes", "yes", "ready")
    evening.says("is there another way")
    assert evening.turn.sayings[0] == NoOtherWay()
    evening.says("ready")
    assert "phone" in evening.says("another way")


def test_how_exact_is_asked_of_what_is_being_done() -> None:
    """The same words at the bubble and at north."""
    evening = Listener()
    evening.says("yes", "yes", "ready", "ready")
    assert "bubble" in evening.says("how exact must it be")
    evening.says("it's level", *["ready"] * 4, "no", "before switching on", "it's level", "a card")
    assert "arm's length" in evening.says("how exact must it be")


def test_by_day_the_night_and_the_packing_are_told() -> None:
    """Before anything is set up: when it is dark, when to be there, and what to bring; four sentences with the question at most."""
    told = Listener(start=NOON).says("when should we set out")
    assert "fully dark from" in told
    assert "Be there by sunset" in told
    assert len(re.findall(r"[.?!](?:\s|$)", told)) <= 4
    assert "Pack the mount's power cable" in Listener(start=NOON).says("what should I pack")


def test_nothing_bright_there() -> None:
    """Where nothing bright stands it says so, and what moves."""
    evening = Listener()
    words = evening.says("what's the blue one low in the north")
    assert isinstance(evening.turn.sayings[0], NothingBrightThere)
    assert "aircraft or a satellite" in words


def test_the_question_stands_after_many() -> None:
    """Questions never climb the ladder of misses, and a doubtful answer stays open beneath them."""
    evening = Listener()
    before = evening.turn.question
    doubted = evening.conversation.hear(Heard("yes", "time-wrong", confidence=0.5), evening.now).question
    evening.turn = evening.conversation.hear(question_asked("where are we"), evening.now)
    assert evening.turn.question == doubted != before
    assert "I heard: Yes. Is that right?" in evening.says("what next")


def test_how_many_stars_are_left() -> None:
    """Two before the first, one after it is centred, none once both are."""
    stage = next(stage for stage in EVENING if stage.name == "reference-stars")
    conversation = Conversation([stage], SITE, ENGLISH, equipment=Equipment(mount=Mount(last_keys="up-right")))
    conversation.begin(EVENING_TIME)
    left = []
    for command in ("list", "in-finder", "centred", "in-finder", "centred"):
        conversation.hear(Heard(command, command), EVENING_TIME)
        said = conversation.hear(question_asked("how many stars are left"), EVENING_TIME).sayings[0]
        assert isinstance(said, StarsLeft)
        left.append(said.count)
    assert left == [2, 2, 1, 1, 0]


def test_names_are_those_of_the_tables() -> None:
    """The grammar of names is what its maker writes today, and each name in it is a body we find."""
    make = runpy.run_path(str(resources.files("companion.grammars") / "make_question_names.py"))
    text = (resources.files("companion.grammars") / "en" / "question_names.jsgf").read_text("utf-8")
    assert text == make["grammar_text"]()
    found = set(re.findall(r"\) \{([^}]+)\};?$", text.partition("<body> = (")[2], re.MULTILINE))
    assert all(sky.find(name).name == name for name in found)
    assert {body.name for body in (*sky.nameable(), sky.SUN)} <= found


@pytest.mark.parametrize("number", ["Messier one", "Messier one hundred and ten", "Messier one hundred ten", "M 57", "Caldwell fourteen"])
def test_catalogue_numbers(number: str) -> None:
    """Numbers are understood as they are spoken."""
    assert VOCABULARY.everything.parse(f"where is {number}") is not None


def test_the_likeliest_first() -> None:
    """In the middle of October at nightfall the bright one low in the west is Arcturus, that in the east Saturn (a star chart's facts)."""
    evening = Listener()
    evening.says("what's that bright one low in the west")
    first = evening.turn.sayings[0]
    assert isinstance(first, BrightOne)
    assert first.names[0] == "Arcturus"
    evening.says("what's that bright one low in the east")
    second = evening.turn.sayings[0]
    assert isinstance(second, BrightOne)
    assert second.names[0] == "Saturn"


def test_where_nothing_is_set_up_no_time_is_left() -> None:
    """In the interview for the profile there is no first target to wait for, and no star to centre: that is said, not that all is done."""
    conversation = Conversation([Stage("your-equipment", ask_about_equipment, EquipmentTold)], SITE, ENGLISH)
    conversation.begin(EVENING_TIME)
    for words in ("how much longer", "how many stars are left"):
        assert conversation.hear(question_asked(words), EVENING_TIME).sayings[0] == OnlyQuestions()


def test_whoever_is_lost_hears_the_name() -> None:
    """At a star, not only the part but what is being done, with the star's name and where it stands, whatever was asked about meanwhile."""
    conversation = Conversation([stage for stage in EVENING if stage.name == "reference-stars"], SITE, ENGLISH, equipment=LISTS)
    conversation.begin(EVENING_TIME)
    conversation.hear(question_asked("where is Saturn"), EVENING_TIME)
    turn = conversation.hear(Heard("I'm lost", "lost"), EVENING_TIME)
    assert conversation.words(turn.sayings[0], EVENING_TIME).startswith("We are at the alignment stars: steering to Altair, ")
    conversation.hear(Heard("it's in the finder", "in-finder"), EVENING_TIME)
    turn = conversation.hear(question_asked("where was I"), EVENING_TIME)
    assert "centring Altair" in conversation.words(turn.sayings[0], EVENING_TIME)


def test_after_a_wait_only_what_is_open_is_said() -> None:
    """Nothing was missed while we waited, so carry on gives the open question in few words; after silencing us it comes whole."""
    evening = Listener()
    evening.says("yes", "yes", "ready", "ready")
    question = evening.turn.question
    assert question is not None
    evening.says("hang on", "carry on")
    assert evening.turn.sayings == (AskedAgain(question),)
    evening.says("be quiet", "carry on")
    assert evening.turn.sayings == (question,)


def test_of_a_long_speech_the_last_part_comes_first() -> None:
    """Asked for again once, what was said last, a long question in its short form; twice, all of it."""
    conversation = Conversation([stage for stage in EVENING if stage.name == "reference-stars"], SITE, ENGLISH, equipment=LISTS)
    whole = conversation.begin(EVENING_TIME).sayings
    assert len(whole) > 2
    again = Heard("say that again", "say-again")
    assert conversation.hear(again, EVENING_TIME).sayings == whole[-1:]
    assert conversation.hear(again, EVENING_TIME).sayings == whole


def test_a_question_that_is_long_by_itself_is_repeated_in_its_short_form_first() -> None:
    """Four sentences on the compass are one question; asked for again twice, they all come."""
    evening = Listener()
    evening.says("yes", "yes", *["ready"] * 2, "it's level", *["ready"] * 4, "no", "before switching on", "it's level", "a card")
    question = evening.turn.question
    assert isinstance(question, FaceTrueNorth)
    evening.says("say that again")
    assert evening.turn.sayings == (AskedAgain(question),)
    evening.says("say that again")
    assert evening.turn.sayings == (question,)


def test_a_short_speech_is_repeated_whole() -> None:
    """Nobody has to ask twice for two sentences."""
    evening = Listener()
    question = evening.turn.question
    assert question is not None
    evening.says("say that again")
    assert evening.turn.sayings[-1] == question
    assert AskedAgain(question) not in evening.turn.sayings


def test_every_piece_of_advice_that_is_typed_is_known() -> None:
    """A tag belongs to the words just before it: without brackets it would name half a sentence."""
    grammar = next(grammar for grammar in VOCABULARY.grammars if "advice_question_typed" in grammar.public_rules)
    told = {phrase.slots["advice"] for phrase in grammar.phrases(["advice_question_typed"])}
    assert told <= set(map(str, Advice))
