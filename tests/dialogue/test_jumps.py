"""Going to a part of the evening by its name: what it costs is said first, what waits is taken up again, and going back undoes it."""

from __future__ import annotations

import random
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta

import pytest

from companion.dialogue import Conversation, Record, Turn, rebuild
from companion.equipment import Equipment, Mount, Observer
from companion.messages import Heard, NotNow
from companion.procedure import EVENING
from companion.procedure.align_mount import Aligned
from companion.sky import Site
from companion.talk.guidance_phrases import DidYouSay
from companion.talk.jump_phrases import (
    AlignAnew,
    GoingThere,
    LeavesUndone,
    MustBeDoneAgain,
    NothingToProve,
    OnlyByHand,
    PackUpNow,
    Part,
    WeAreThere,
)
from companion.talk.packing_phrases import ParkIt
from companion.talk.question_phrases import AskedAgain
from companion.talk.targets_phrases import GoodNight, SteerByHand, SunStillUp
from tests.dialogue.questions_asked import all_asked
from tests.dialogue.test_walking import KITS, SITES, STARTS, WHOLE, answers_to, check_words
from tests.english import ENGLISH, VOCABULARY

SITE = Site(46.31, -67.52, 180, "America/Moncton", "Spruce Ridge clearing")
NIGHT = datetime(2026, 10, 15, 23, 30, tzinfo=UTC)
KIT = Equipment(mount=Mount(star_choice="list", pose_time="before-power", last_keys="up-right"), observer=Observer("card"))
TO_STAGE = {
    "ground": ["yes", "yes", "ready"],
    "finder": ["ready", "it's level", *["ready"] * 4],
    "starting-pose": ["no"],
    "power": ["it's level", "facing north", "the tube is level"],
    "settings": ["it's on"],
    "reference-stars": ["everything's in"],
    "proof": ["it's in the finder", "dead centre", "it's in the finder", "dead centre", "it says success"],
    "targets": ["in the eyepiece"],
}
"""What is said to reach each stage from the one before, nothing being wrong."""
JUMPS = (
    "go to the targets",
    "back to the alignment",
    "let's do the finder",
    "start again from level",
    "skip to the stars",
    "pack up",
    "go to the tripod",
    "take me to the settings",
    "go back to the power",
    "go to the proof",
    "begin again with the alignment",
    "go to north",
)


class Evening:
    """A conversation that is typed to, with its records."""

    def __init__(self, upto: str = "check-in", start: datetime = NIGHT, kit: Equipment = KIT) -> None:
        """Hold it up to a stage."""
        self.records: list[Record] = []
        self.conversation = Conversation(EVENING, SITE, ENGLISH, self.records.append, kit)
        self.now = start
        self.turn = self.conversation.begin(start)
        for stage, lines in TO_STAGE.items():
            if self.turn.stage == upto:
                break
            self.says(*lines)
            assert self.turn.stage == stage, (stage, self.turn)

    def says(self, *lines: str) -> Turn:
        """Type lines, half a minute apart."""
        for line in lines:
            assert self.turn.question is not None
            self.now += timedelta(seconds=30)
            self.turn = self.conversation.hear(VOCABULARY.understand(line, self.turn.question.expects), self.now)
        return self.turn

    def resumed(self) -> Conversation:
        """Return the same evening as it is after a crash."""
        again = Conversation(EVENING, SITE, ENGLISH, [].append, KIT)
        again.resume(rebuild(self.records), self.now)
        return again


def _jump(words: str) -> NotNow:
    phrase = VOCABULARY.everything.parse(words)
    assert phrase is not None, words
    return NotNow(phrase.words, phrase.command, phrase.slots)


@pytest.mark.parametrize(
    ("said", "part"),
    [
        *[
            (words, Part.TARGETS)
            for words in ("go to the targets", "let's go on to the targets", "skip to the targets", "on to the targets")
        ],
        *[
            (words, Part.STARS)
            for words in ("back to the alignment", "let's do the stars", "skip to the stars", "start over with the stars")
        ],
        *[(words, Part.POSE) for words in ("start again from level", "begin again from level and north", "go back to north")],
        *[(words, Part.FINDER) for words in ("let's do the finder", "do the finder again", "can we do the finder")],
        *[(words, Part.TRIPOD) for words in ("back to the tripod", "I want to go back to the legs")],
        *[(words, Part.POWER) for words in ("go to the power", "take me back to switching on")],
        *[(words, Part.SETTINGS) for words in ("go to the settings", "um, let's do the settings please")],
        *[(words, Part.PROOF) for words in ("go to the proof", "let's do the proof")],
        *[(words, Part.PACKING) for words in ("go to packing up",)],
    ],
)
def test_every_part_has_its_names(said: str, part: Part) -> None:
    """Parts are found by the words people use for them, in whatever stage they are said."""
    for question in (Evening().turn.question, Evening("settings").turn.question):
        assert question is not None
        heard = VOCABULARY.understand(said, question.expects)
        assert isinstance(heard, NotNow), said
        assert heard.slots["part"] == part


def test_targets_before_the_alignment_are_asked_about() -> None:
    """The mount doesn't know the sky yet: a yes goes there and says to steer by hand, a no changes nothing."""
    evening = Evening("settings")
    before = evening.turn.question
    assert evening.says("go to the targets").sayings == (OnlyByHand(),)
    assert evening.says("no").question == before
    went = evening.says("go to the targets", "yes")
    assert went.stage == "targets"
    assert SteerByHand() in went.sayings
    assert evening.says("go back").question == before


def test_leaving_the_stars_leads_to_targets_by_hand() -> None:
    """A part left out isn't done: no alignment, so nothing to prove, and the targets are steered to by hand."""
    evening = Evening("reference-stars")
    turn = evening.says("leave this part")
    assert turn.stage == "targets"
    assert SteerByHand() in turn.sayings
    assert any(isinstance(result, Aligned) and result.outcome == "incomplete" for result in evening.conversation.results)
    assert evening.says("go back").stage == "reference-stars"


def test_back_to_level_costs_the_alignment() -> None:
    """From the targets: asked first; then level and north, the stars and the proof again, nothing else, and the targets go on."""
    evening = Evening("targets")
    target = evening.turn.question
    assert evening.says("start again from level").sayings == (MustBeDoneAgain(Part.POSE, (Part.STARS,)),)
    assert evening.says("yes").stage == "starting-pose"
    assert evening.says("it's level", "facing north", "the tube is level").stage == "reference-stars"
    assert evening.says(*TO_STAGE["proof"]).stage == "proof"
    turn = evening.says(*TO_STAGE["targets"])
    assert (turn.stage, turn.question) == ("targets", target)


def test_back_to_the_finder_costs_nothing() -> None:
    """In the middle of the stars: no question; afterwards the star under way is gone on with."""
    evening = Evening("reference-stars")
    star = evening.says("it's in the finder").question
    turn = evening.says("let's do the finder")
    assert turn.sayings[0] == GoingThere(Part.FINDER, Part.STARS)
    assert turn.stage == "finder"
    assert evening.says("go back").question == star
    back = evening.says("let's do the finder", "no")
    assert (back.stage, back.question) == ("reference-stars", star)
    assert evening.says("let's do the finder", "back to the alignment").question == star


def test_the_alignment_again_is_asked_about() -> None:
    """An alignment that is done isn't thrown away by a word."""
    evening = Evening("targets")
    assert evening.says("back to the alignment").sayings == (AlignAnew(),)
    assert evening.says("yes").stage == "reference-stars"


def test_onwards_without_level_or_settings_is_asked_about() -> None:
    """What the stars are found by is named; what doesn't matter isn't."""
    assert Evening("ground").says("skip to the stars").sayings == (LeavesUndone(Part.STARS, (Part.POSE, Part.SETTINGS)),)
    went = Evening("ground").says("go to the settings")
    assert (went.sayings[0], went.stage) == (GoingThere(Part.SETTINGS, None), "settings")


def test_where_nobody_can_go() -> None:
    """No proof before an alignment, no targets by day, and no way to where we are; the question is put again."""
    evening = Evening("settings")
    assert evening.says("go to the proof").sayings == (NothingToProve(), AskedAgain(evening.turn.question))
    assert evening.says("go to the settings").sayings[0] == WeAreThere()
    day = Evening(start=datetime(2026, 10, 15, 20, 0, tzinfo=UTC))
    assert day.says("go to the targets").sayings[0] == SunStillUp()


def test_packing_up_is_asked_about() -> None:
    """It ends the evening, so it is asked; a yes says how to pack up."""
    evening = Evening("settings")
    assert evening.says("pack up").sayings == (PackUpNow(),)
    assert evening.says("yes").sayings == (ParkIt(),)
    left = evening.says("leave this part")
    assert (left.sayings, left.finished) == ((GoodNight(),), True), "who packs up alone still hears its cautions"


def test_a_doubtful_wish_is_asked_back() -> None:
    """Heard less than surely, a wish that is otherwise not asked about is read back first."""
    evening = Evening("ground")
    turn = evening.conversation.hear(NotNow("go to the settings", "go-to", {"part": "settings"}, 0.65), evening.now)
    assert turn.sayings == (DidYouSay("go to the settings"),)
    assert evening.conversation.hear(Heard("yes", "yes"), evening.now).stage == "settings"


@pytest.mark.parametrize(
    "stage", [pytest.param(stage, marks=[] if stage in ("finder", "settings") else [pytest.mark.slow]) for stage in TO_STAGE]
)
def test_every_wish_in_every_stage_leads_on(stage: str) -> None:
    """Wherever we are, every wish is answered in words, agreed to or not, and a crash after it changes nothing."""
    for words in JUMPS:
        evening = Evening(stage)
        for answer in ("no", "yes"):
            turn = evening.conversation.hear(_jump(words), evening.now)
            check_words(turn, evening.conversation.moment(evening.now))
            if turn.question is not None and turn.question.expects.rule() == "yes_no" and turn.question.code() != "shall-we-do-the-finder":
                turn = evening.conversation.hear(Heard(answer, answer), evening.now)
                check_words(turn, evening.conversation.moment(evening.now))
            if turn.finished:
                break
            _check_resumes(evening.conversation, evening.records, evening.now)


def _check_resumes(conversation: Conversation, records: Sequence[Record], now: datetime, site: Site = SITE, kit: Equipment = KIT) -> None:
    """Resumed from its records, the evening stands at the same question with the same knowledge, and goes back the same way."""
    again = Conversation(EVENING, site, ENGLISH, [].append, kit)
    turn = again.resume(rebuild(records), now)
    open_now = conversation._course.current.question
    assert (turn.stage, turn.question) == (conversation._course.current.name, open_now)
    assert again.results == conversation.results
    assert again.equipment == conversation.equipment
    assert again.moment(now) == conversation.moment(now)
    assert again._course.progress.to_come == conversation._course.progress.to_come


def _walk(seed: int, turns: int) -> None:
    choose = random.Random(seed)
    while turns > 0:
        records: list[Record] = []
        (site, time), kit = (choose.choice(SITES), choose.choice(STARTS)), choose.choice(KITS)
        conversation = Conversation(EVENING, site, ENGLISH, records.append, kit)
        turn = conversation.begin(time)
        while turn.question is not None and turns > 0:
            turns -= 1
            time += timedelta(seconds=choose.choice((5, 30, 200)))
            throw = choose.random()
            if throw < 0.2:
                turn = conversation.hear(choose.choice(all_asked()), time)
            elif throw < 0.4:
                turn = conversation.hear(_jump(choose.choice(JUMPS)), time)
            elif throw < 0.5:
                turn = conversation.hear(Heard("go back", "go-back"), time)
            else:
                turn = conversation.hear(choose.choice(answers_to(turn.question)), time)
            check_words(turn, conversation.moment(time))
            if turn.question is not None and choose.random() < 0.1:
                _check_resumes(conversation, records, time, site, kit)


def test_random_evenings_with_questions_and_jumps() -> None:
    """Answers, questions, wishes to go elsewhere and going back at random: words for all of it, and every tenth time a crash."""
    _walk(17, 40)


@pytest.mark.slow
def test_ten_thousand_random_turns_with_questions_and_jumps() -> None:
    """The same, three thousand turns long, or ten thousand with COMPANION_FULL_SWEEP=1."""
    _walk(23, 10_000 if WHOLE else 3_000)


def test_what_was_told_of_the_telescope_holds_where_one_goes_elsewhere_before_the_end() -> None:
    """Whoever breaks off the questions about their kit is not asked again what they have answered."""
    evening = Evening(kit=Equipment())
    evening.says("yes", "yes", "ask about my telescope", "two hundred millimetres", "yes", "one two zero zero", "yes")
    evening.says("twenty five millimetres", "fifty two degrees", "yes", "no", "no", "a red dot", "no compass")
    evening.says("I choose from its list", "before switching on", "go to the targets", "yes")
    assert evening.turn.stage == "targets"
    told = evening.conversation.equipment
    assert (told.instrument.aperture_mm, told.instrument.focal_length_mm, told.instrument.finder) == (200, 1200, "dot")
    assert [one.focal_length_mm for one in told.instrument.eyepieces] == [25]
    assert (told.observer.compass, told.mount.star_choice, told.mount.pose_time) == ("none", "list", "before-power")
    assert evening.resumed().equipment.mount.star_choice == "list"


@pytest.mark.parametrize(("upto", "is_told"), [("check-in", False), ("settings", True)])
def test_the_way_from_level_and_north_is_told_only_where_the_tube_was_put_so(upto: str, is_told: bool) -> None:
    """Whoever goes to the stars without level and north may have it pointing anywhere."""
    evening = Evening(upto)
    evening.says("skip to the stars", "yes")
    assert evening.turn.stage == "reference-stars"
    words = " ".join(evening.conversation.words(saying, evening.now) for saying in evening.turn.sayings)
    assert ("From where the tube points" in words) is is_told
