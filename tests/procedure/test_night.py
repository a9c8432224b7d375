"""The night at the telescope: what is offered and what isn't, what each answer leads to, and that a night of hours has no dead end."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import pairwise
from typing import Any

import pytest

from companion import observing, sky
from companion.dialogue import Conversation, rebuild
from companion.equipment import Equipment, Eyepiece, Instrument, Obstruction
from companion.messages import Heard, Hearing, Silence
from companion.observing import RankedTarget
from companion.procedure import EVENING, Stage
from companion.procedure.night import offer
from companion.procedure.night.state import Night, Obstacle
from companion.procedure.notes import Observed
from companion.procedure.targets import Visited
from companion.sky import Moment, Site
from companion.talk import night_phrases as say
from companion.talk.by_hand_phrases import BackToTheStarBefore, StartByHand, StepByEye, StepByFinder
from companion.talk.night_answers import TargetAnswer
from companion.talk.night_phrases import IntroduceTarget
from companion.talk.saying import Answers, Ask
from companion.talk.targets_phrases import IsItGoodAgain, ReCentreAndSync
from tests.english import ENGLISH, VOCABULARY

TARGETS = [stage for stage in EVENING if stage.name == "targets"]
SITE = Site(46.31, -67.52, 180, "America/Moncton", "Spruce Ridge clearing")
START = datetime(2026, 10, 15, 23, 30, tzinfo=UTC)
KIT = Equipment(
    Instrument(80, 480, (Eyepiece(25.0), Eyepiece(10.0))), horizon=(Obstruction(200.0, 300.0, 35.0, "trees"), Obstruction(0.0, 360.0, 12.0))
)
MOST_SENTENCES = 4
REAL_TARGETS = observing.targets


@cache
def _understood(line: str, expects: type[Answers], instead: tuple[type[Answers], ...]) -> Hearing:
    """Return what a typed line means there: the same few lines over and over."""
    return VOCABULARY.understand(line, expects, instead)


class Evening:
    """A night that is typed to."""

    def __init__(self, start: datetime = START, site: Site = SITE, kit: Equipment = KIT, stages: Sequence[Stage] = TARGETS) -> None:
        """Begin with the first target."""
        self.records: list[Any] = []
        self.conversation = Conversation(stages, site, ENGLISH, self.records.append, kit)
        self.now = start
        self.turn = self.conversation.begin(start)

    def says(self, line: str, after: timedelta = timedelta(minutes=2)) -> str:
        """Type a line; return the words of the reply."""
        self.hears(line, after)
        return self.words

    def hears(self, line: str, after: timedelta) -> None:
        """Take a typed line."""
        assert self.turn.question is not None, line
        self.now += after
        self.turn = self.conversation.hear(_understood(line, self.turn.question.expects, self.conversation.instead), self.now)

    def waits(self, minutes: int) -> str:
        """Say nothing for so long; return what is said then."""
        self.now += timedelta(minutes=minutes)
        self.turn = self.conversation.hear(Silence(), self.now)
        return self.words

    @property
    def words(self) -> str:
        """What was said last."""
        return " ".join(self.conversation.words(saying, self.now) for saying in self.turn.sayings)

    @property
    def target(self) -> str | None:
        """The target introduced last."""
        asked = [record["facts"]["target"] for record in self.records if record.get("phrase") == IntroduceTarget.code()]
        return asked[-1] if asked else None


def test_name_and_number_are_said() -> None:
    """What is keyed into a hand control comes with the name."""
    assert "Wild Duck Cluster, Messier eleven: an open star cluster" in Evening(kit=Equipment()).says("show me Messier eleven")


def test_nothing_seen_comes_again_and_later_does() -> None:
    """What was put off comes again after an hour; what was shown, or is never wanted, doesn't."""
    night = Night().at("M 13").saw().at("M 57").later(START).at("M 11").not_again()
    assert night.passed_over(START - timedelta(minutes=1)) == {"M 13", "M 57", "M 11"}
    assert night.passed_over(START) == {"M 13", "M 11"}
    assert night.at("M 57").passed_over(START) == {"M 13", "M 57", "M 11"}


def test_wishes_are_granted() -> None:
    """A kind is kept to until another is wished for; easier, harder and near here are for the next one only."""
    evening = Evening()
    for words, kinds in (
        ("planets", {"planet"}),
        ("doubles", {"double star"}),
        ("galaxies", {"galaxy"}),
        ("nebulas", {"nebula", "planetary nebula"}),
    ):
        evening.says(words)
        assert evening.target is not None
        assert offer.body_of(evening.target, Night()).kind in kinds
    evening.says("show me Albireo")
    before = sky.sight(sky.find("Albireo"), Moment(SITE, evening.now))
    evening.says("what else is near here")
    assert evening.target is not None
    assert sky.separation_deg(before, sky.sight(sky.find(evening.target), Moment(SITE, evening.now))) < 21.0


def test_a_harder_one_is_harder() -> None:
    """By how much it is above what the eye can see with this telescope."""
    evening = Evening()
    evening.says("show me Messier thirteen")
    first = offer.margin_mag(Moment(SITE, evening.now), KIT, Night(now="Hercules Cluster"))
    evening.says("something harder")
    assert evening.target is not None
    second = offer.margin_mag(Moment(SITE, evening.now), KIT, Night(now=evening.target))
    assert first is not None
    assert second is not None
    assert second < first


def test_clouds_and_a_clear_side_are_kept_to() -> None:
    """After "cloud's coming" nothing near is offered for an hour; after "only the south is clear" nothing elsewhere."""
    evening = Evening()
    clouded = sky.sight(sky.find(evening.target or ""), Moment(SITE, evening.now))
    evening.says("cloud's coming")
    for _ in range(2):
        assert sky.separation_deg(clouded, sky.sight(sky.find(evening.target or ""), Moment(SITE, evening.now))) > 30.0
        evening.says("next target")
    evening.says("only the south is clear")
    for _ in range(2):
        assert 115.0 < sky.sight(sky.find(evening.target or ""), Moment(SITE, evening.now)).azimuth_deg < 245.0
        evening.says("next target")
    assert evening.says("it's clear again").startswith("Good: the whole sky")


def test_behind_a_house_nothing_as_low_is_offered_there() -> None:
    """Where a target stands behind something, nothing near it that is no higher is offered; what it is comes again where it has risen."""
    evening = Evening(kit=Equipment())
    evening.says("show me Albireo")
    behind = sky.sight(sky.find("Albireo"), Moment(SITE, evening.now))
    assert evening.says("it's behind the house").startswith("Then nothing so low in the")
    for words in ("next target", "doubles", "next target", "clusters"):
        there = sky.sight(sky.find(evening.target or ""), Moment(SITE, evening.now))
        aside_deg = abs((there.azimuth_deg - behind.azimuth_deg + 180.0) % 360.0 - 180.0)
        assert aside_deg >= 10.0 or there.altitude_deg > behind.altitude_deg
        evening.says(words)
    hidden = Night(obstacles=(Obstacle(350.0, 30.0),))
    assert [hidden.hides(replace(behind, azimuth_deg=az, altitude_deg=up)) for az, up in ((5.0, 20.0), (359.0, 30.0), (0.5, 20.0))] == [
        False,
        True,
        False,
    ]
    assert not hidden.hides(replace(behind, azimuth_deg=350.0, altitude_deg=35.0))


def test_the_finder_need_not_be_known_for_a_wish() -> None:
    """Asked how wide the finder shows, who wants something else is led there; a width is kept, and the first target follows."""
    kit = Equipment(Instrument(150, 750, (Eyepiece(25.0),), finder="optical"))
    stages = [stage for stage in EVENING if stage.name in ("reference-stars", "targets")]
    for line, led_to in (("show me the Pleiades", "Pleiades"), ("planets", "Saturn"), ("five degrees", "")):
        evening = Evening(kit=kit, stages=stages)
        evening.says("leave this part")
        assert isinstance(evening.turn.question, say.HowWideForTheWay)
        evening.says(line)
        assert isinstance(evening.turn.question, say.IntroduceTarget)
        assert evening.turn.question.target == led_to or not led_to
        assert evening.conversation.equipment.instrument.finder_field_deg == (None if led_to else 5.0)


def test_nothing_there_leads_on_a_step_at_a_time() -> None:
    """Finder, power, averted vision, what to expect, sweeping, by hand from two stars, then leave it; found, what to look for."""
    evening = Evening(kit=Equipment())
    evening.says("show me the Andromeda Galaxy")
    asked = []
    for _ in range(8):
        evening.says("nothing there")
        asked.append(type(evening.turn.question))
    steps: list[type[Ask[Any]]] = [say.CheckTheFinder, say.LowestPower, say.LookBeside, say.HowItLooks, say.SweepForIt, StartByHand]
    assert asked == [*steps, StartByHand, say.LeaveItForLater]
    evening.says("found it")
    assert isinstance(evening.turn.question, say.LookAtIt)
    assert evening.says("how many have we seen").startswith("One.")


def test_by_hand_each_step_leads_to_the_next() -> None:
    """From the bright star on, "there it is" goes a step further, and at the end says what to look for."""
    evening = Evening(kit=Equipment())
    evening.says("show me the Andromeda Galaxy")
    for _ in range(6):
        evening.says("nothing there")
    asked = [type(evening.turn.question)]
    while len(asked) < 9 and not isinstance(evening.turn.question, say.LookAtIt):
        evening.says("there it is")
        asked.append(type(evening.turn.question))
    assert asked[0] is StartByHand
    assert asked[-1] is say.LookAtIt
    assert set(asked[1:-1]) <= {StepByEye, StepByFinder}
    assert len(asked) > 2


def _by_hand() -> Evening:
    """Return an evening whose mount knows nothing, on the second step of a way."""
    evening = Evening(kit=Equipment(), stages=[stage for stage in EVENING if stage.name in ("reference-stars", "targets")])
    evening.says("leave this part")
    evening.says("show me the Andromeda Galaxy")
    evening.says("nothing there")
    evening.says("there it is")
    return evening


def test_a_lost_step_by_hand_is_gone_again() -> None:
    """From the star before, once; lost again it leads to the remedies of "nothing there", all of them, and only then to leave it."""
    evening = _by_hand()
    lost = evening.turn.question
    assert isinstance(lost, StepByEye | StepByFinder)
    evening.says("can't see it")
    assert isinstance(evening.turn.question, BackToTheStarBefore)
    evening.says("there it is")
    assert evening.turn.question == lost
    asked = []
    for _ in range(6):
        evening.says("can't see it")
        asked.append(type(evening.turn.question))
    assert asked == [say.CheckTheFinder, say.LowestPower, say.LookBeside, say.HowItLooks, say.SweepForIt, say.LeaveItForLater]
    evening.says("found it")
    assert isinstance(evening.turn.question, say.LookAtIt)


def test_a_way_by_hand_that_is_lost_begins_anew() -> None:
    """Where the star before is lost as well, at its first star; where that can't be seen, at another one."""
    evening = _by_hand()
    evening.says("can't see it")
    evening.says("can't see it")
    first = evening.turn.question
    assert isinstance(first, StartByHand)
    evening.says("can't see it")
    assert isinstance(evening.turn.question, StartByHand)
    assert evening.turn.question.star != first.star


def test_children_get_what_shows_at_once() -> None:
    """Saturn is up in October and comes first, then bright stars; never a distant planet's dot, nor a ball of faint stars before them."""
    evening, kinds = Evening(kit=Equipment()), []
    for _ in range(4):
        evening.says("something for the kids")
        assert evening.target is not None
        kinds.append(offer.body_of(evening.target, Night()).kind)
        evening.says("found it")
    assert kinds[0] == "planet"
    assert set(kinds[1:]) <= {"double star", "open cluster"}


def test_going_back_does_not_write_down_again() -> None:
    """What was written down is said once, not again by who goes back to behind it."""
    evening = Evening(kit=Equipment())
    evening.says("seen it")
    while "ritten down" not in evening.says("skip this"):
        assert evening.turn.question is not None
    evening.says("next target")
    assert "ritten down" not in evening.says("go back")
    assert isinstance(evening.turn.question, say.SayNextTarget)


def test_the_form_may_be_left_in_its_midst() -> None:
    """Who wants something else while writing down gets that: what was told until then is written down, and no more is asked."""
    evening = Evening(kit=Equipment())
    for line in ("seen it", "very easily"):
        evening.says(line)
    assert evening.says("show me Saturn").startswith("Written down. Saturn")
    assert isinstance(evening.turn.question, IntroduceTarget)
    assert evening.says("how many have we seen").startswith("One.")
    noted = [one.observation for one in evening.conversation.notes() if isinstance(one, Observed)]
    assert [(one.seen, one.looks, one.steadiness) for one in noted] == [(None, (), None), ("easily", (), None)]


def test_the_eyepiece_told_is_written_down() -> None:
    """Who tells which eyepiece is in isn't asked for it in the form; at the next target another may be."""
    evening = Evening()
    assert evening.says("I've put the ten in").startswith("The ten millimetre")
    evening.says("seen it")
    assert "A word for how it looked" in evening.says("easily")
    evening.says("next target")
    evening.says("seen it")
    assert "How many millimetres" in evening.says("easily")
    noted = [one.observation for one in evening.conversation.notes() if isinstance(one, Observed)]
    assert [one.eyepiece_mm for one in noted if one.seen] == [10.0, None]


def test_the_eyepiece_for_it_is_one_there_is() -> None:
    """Who has one is told no other; where the one it is found with shows it best, it is that; where nobody told, it is by its kind."""
    only = Equipment(Instrument(80, 480, (Eyepiece(20.0),)))
    for kit, words in (
        (only, "The twenty millimetre, the only one"),
        (KIT, "The twenty-five millimetre, to find it"),
        (Equipment(), "The low-power"),
    ):
        evening = Evening(kit=kit)
        evening.says("show me the Double Cluster")
        assert evening.says("which eyepiece").startswith(words)


def test_one_side_and_one_kind_are_led_to_once_and_for_a_while() -> None:
    """Something in the west stands there; globulars are kept to until another kind is wished for."""
    evening = Evening(kit=Equipment())
    evening.says("anything in the west")
    assert 210.0 < sky.sight(sky.find(evening.target or ""), Moment(SITE, evening.now)).azimuth_deg < 330.0
    for words in ("any globulars", "next target"):
        evening.says(words)
        assert evening.target is not None
        assert offer.body_of(evening.target, Night()).kind == "globular cluster"


def test_another_wish_while_it_is_brought_back() -> None:
    """In the midst of a sync a wish is granted, and a break is one; the target is come back to."""
    evening = Evening(kit=Equipment())
    evening.says("it drifted out")
    assert isinstance(evening.turn.question, ReCentreAndSync)
    evening.says("my feet are freezing")
    assert isinstance(evening.turn.question, say.OnABreak)
    evening.says("we're back")
    assert isinstance(evening.turn.question, say.FindTarget)


def test_what_sets_is_told_to_be_looked_at() -> None:
    """Half an hour before it sets nothing has its best time: that it sets is said; high up, past its best, it is as it was."""
    evening = Evening(kit=Equipment())
    evening.says("show me Arcturus", timedelta(minutes=20))
    assert "It sets in" in evening.says("is it well placed")
    assert "best time" not in evening.words
    evening.says("show me the Andromeda Galaxy")
    assert "It's best at" in evening.says("is it well placed")


def test_while_it_is_brought_back() -> None:
    """In the midst of a sync "what next" is the targets, "that's all" asks whether to pack up, and "found it" is an answer."""
    for words, found in (("what next", "After this part: tonight's targets"), ("that's all", "pack up"), ("found it", "good again")):
        evening = Evening(kit=Equipment(), stages=[stage for stage in EVENING if stage.name in ("targets", "good-night")])
        evening.says("it's drifting")
        assert isinstance(evening.turn.question, ReCentreAndSync)
        said = evening.says(words)
        assert found in said or isinstance(evening.turn.question, IsItGoodAgain), said
    evening.says("found it")
    assert isinstance(evening.turn.question, say.FindTarget)


def test_a_comet_is_owned_to() -> None:
    """Nothing is known of comets without a network: one line says so, whichever way one is asked for."""
    for words in ("show me a comet", "where is the comet", "any comets", "is there a comet tonight"):
        assert "comets come and go" in Evening(kit=Equipment()).says(words)


def test_only_what_was_found_counts_as_seen() -> None:
    """What "next target" leaves without a word is passed by; what was put off, or is looked at now, is neither."""
    evening = Evening()
    evening.says("nothing there")
    evening.says("next target")
    assert evening.says("how many have we seen") == "None so far. One passed by."
    evening.says("found it")
    evening.says("next target")
    evening.says("maybe later")
    assert evening.says("how many have we seen").startswith("One. ")
    assert evening.words.endswith("One passed by.")


def test_back_to_the_last_one() -> None:
    """The one before, with its way again; at the first there is none."""
    evening = Evening()
    first = evening.target
    assert evening.says("back to the last one") == "This is the first one."
    evening.says("next target")
    evening.says("back to the last one")
    assert evening.target == first


def test_a_target_gone_back_to_may_be_gone() -> None:
    """One that has sunk behind the trees since isn't offered again: that is said, and the next one is introduced."""
    evening = Evening()
    evening.says("show me Altair")
    evening.says("next target")
    words = evening.says("go back", timedelta(hours=4))
    assert words.startswith("Altair is too low or hidden by now.")
    assert isinstance(evening.turn.question, IntroduceTarget)
    assert evening.turn.question.target != "Altair"
    resumed = Conversation(TARGETS, SITE, ENGLISH, equipment=KIT).resume(rebuild(evening.records), evening.now)
    assert resumed.question == evening.turn.question


def test_from_what_took_the_place_of_a_sunken_one_it_goes_farther_back() -> None:
    """Back from the replacement of a target that is gone stands the one before that, not the replacement again."""
    evening = Evening()
    first = evening.target
    evening.says("show me Altair")
    evening.says("next target")
    evening.says("go back", timedelta(hours=4))
    words = evening.says("go back")
    assert words.startswith("Altair is too low or hidden by now.")
    assert isinstance(evening.turn.question, IntroduceTarget)
    assert evening.turn.question.target == first or first in words


def test_what_cannot_be_pointed_at_is_not() -> None:
    """The Sun, what is down, and what stands behind the trees."""
    evening = Evening()
    assert evening.says("show me the Sun").startswith("Never look at the Sun")
    assert "is down now" in evening.says("show me Sirius")
    assert "behind what you told me of" in evening.says("show me Arcturus")


def test_the_sun_ends_the_night() -> None:
    """Whatever is said after sunrise, the caps come first and nothing more is shown."""
    evening = Evening()
    assert "The Sun is up: caps on" in evening.says("next target", timedelta(hours=12))
    assert evening.turn.finished


def test_that_is_all_asks_back() -> None:
    """No goes on, yes ends; so does good night."""
    evening = Evening()
    assert evening.says("that's all") == "Shall we pack up?"
    assert "next target" in evening.says("no")
    assert evening.says("good night") == "Shall we pack up?"
    evening.says("yes")
    assert evening.turn.finished
    assert isinstance(evening.conversation.results[-1], Visited)


def test_a_break_is_reminded_of_once() -> None:
    """Not before ten minutes, then once; "I'm back" comes back to the target."""
    evening = Evening()
    assert "Ten minutes" in evening.says("take a break")
    assert evening.waits(5) == ""
    assert "over" in evening.waits(5)
    assert evening.waits(5) == ""
    evening.says("I'm back")
    assert isinstance(evening.turn.question, say.FindTarget)


def test_at_most_a_remark_an_hour() -> None:
    """Over hours of pauses: no two remarks within an hour, none twice; at midnight that it is midnight."""
    evening = Evening(datetime(2026, 10, 16, 1, 30, tzinfo=UTC))
    told: list[tuple[datetime, str]] = []
    for _ in range(20):
        if words := evening.waits(8):
            told.append((evening.now, words))
    assert told
    assert all(later - earlier >= timedelta(hours=1) for (earlier, _), (later, _) in pairwise(told))
    assert len({words for _, words in told}) == len(told)
    assert Evening(datetime(2026, 10, 16, 2, 51, tzinfo=UTC)).waits(10) == "It's midnight."


def test_a_crash_keeps_what_was_seen() -> None:
    """Resumed from its records, the night goes on at the same target and has seen the same."""
    evening = Evening()
    for line in ("found it", "next target", "maybe later", "planets", "found it", "never that one"):
        evening.says(line)
    resumed = Conversation(TARGETS, SITE, ENGLISH, equipment=KIT)
    offer.offers.cache_clear()
    turn = resumed.resume(rebuild(evening.records), evening.now)
    assert turn.question == evening.turn.question
    heard = Heard("how many have we seen", TargetAnswer.HOW_MANY)
    assert resumed.hear(heard, evening.now).question == evening.conversation.hear(heard, evening.now).question


# --- a night of six hours --------------------------------------------------------------------------------------------

SAID = (
    *("next target",) * 6,
    *("found it",) * 4,
    *("nothing there", "still nothing") * 2,
    *("maybe later", "never that one", "planets", "doubles", "clusters", "galaxies", "nebulas", "for the kids", "what's best now"),
    *("something brighter", "something easier", "something harder", "what else is near here", "back to the last one", "tell me more"),
    *("what should I see", "which eyepiece", "is it well placed", "how long till it sets", "how many have we seen", "what's left"),
    *("the Moon's coming up", "cloud's coming", "only the south is clear", "it's clear again", "it's dewed up", "my battery"),
    *("it's behind the house", "I've put the ten in", "how faint can I see", "seen it", "easily"),
    *("take a break", "I'm back", "where is it", "show me Saturn", "show me the Andromeda Galaxy", "skip this", "go back", "help"),
)
REPEATED_WHEN_ASKED = {"I'm back", "back to the last one", "show me Saturn", "show me the Andromeda Galaxy", "go back", "help", "skip this"}


@cache
def _ranking(site: Site, hour: int) -> tuple[RankedTarget, ...]:
    """Return the whole ranking of one hour of the night: what the walk cuts its offers from, since ranking takes a quarter of a second."""
    return tuple(REAL_TARGETS(Moment(site, START + timedelta(hours=hour)), 40, outfit=observing.outfit_of(KIT.instrument)))


def quick_targets(
    moment: Moment, count: int, hidden: Any, *, unless: Sequence[str], kinds: Sequence[str] | None, **_: Any
) -> list[RankedTarget]:
    """Offer what the real ranking offers on the hour, where it stands now; the filters are the night's own."""
    ranking = _ranking(moment.site, int((moment.time - START) / timedelta(hours=1)))
    wanted = [one for one in ranking if one.sight.body.name not in unless and (kinds is None or one.sight.body.kind in kinds)]
    standing = sky.sights([one.sight.body for one in wanted], moment)
    return [one for one, now in zip(wanted, standing, strict=True) if now.altitude_deg > 10.0 and not hidden(now)][:count]


def walk(seed: int, hours: int) -> Iterator[tuple[Evening, str]]:
    """Hold a night at random; yield it after each line."""
    choose = random.Random(seed)
    evening = Evening()
    while evening.now < START + timedelta(hours=hours):
        assert evening.turn.question is not None, "the night is never over by itself"
        line = choose.choice(SAID)
        evening.hears(line, timedelta(seconds=choose.choice((120, 600, 1800, 2400))))
        yield evening, line


def check_night(seed: int, hours: int) -> int:
    """Walk through a night and check each turn; return how many lines it had."""
    lines = 0
    shown: list[str] = []
    for evening, line in walk(seed, hours):
        lines += 1
        moment = evening.conversation.moment(evening.now)
        told = [evening.conversation.words(saying, evening.now) for saying in evening.turn.sayings]
        assert any(told), line
        sentences = [part for words in told for part in re.split(r"(?<=[.?!])\s+", words)]
        question = evening.turn.question
        # What was asked meanwhile is answered, and then how dark it is asked again.
        most = MOST_SENTENCES + isinstance(question, say.HowDoesTheMilkyWayShow)
        assert len(sentences) <= most or line in ("help", "how long till it sets"), (line, sentences)
        if not isinstance(question, IntroduceTarget) or question not in evening.turn.sayings:
            continue
        sight = sky.sight(sky.find(question.target), moment)
        assert sight.altitude_deg > 5.0, (line, question.target)
        assert not KIT.hides(sight.azimuth_deg, sight.altitude_deg), (line, question.target)
        assert question.target != "Sun"
        if line not in REPEATED_WHEN_ASKED:
            assert question.target not in shown or _was_asked_for(evening), (line, question.target)
        shown.append(question.target)
    return lines


def _was_asked_for(evening: Evening) -> bool:
    """Say whether anything was to come again: put off, by the observer, a cloud or a roof, or gone back over."""
    commands = {record.get("command") for record in evening.records}
    puts_off = {TargetAnswer.LATER, TargetAnswer.CLOUD, TargetAnswer.HIDDEN}
    return bool(puts_off & commands) or any(record["kind"] == "back" for record in evening.records)


@pytest.mark.parametrize("seed", [1])
def test_an_hour_of_a_night(seed: int, rank_by: Callable[[Any], None]) -> None:
    """Some dozens of lines at random: always a way on, nothing behind trees, nothing again unasked, four sentences at most."""
    rank_by(quick_targets)
    assert check_night(seed, 1) > 2


@pytest.mark.slow
def test_fifty_nights_of_six_hours(rank_by: Callable[[Any], None]) -> None:
    """The same, fifty nights of six hours each, over the ranking of each hour."""
    [_ranking(SITE, hour) for hour in range(7)]
    rank_by(quick_targets)
    assert sum(check_night(seed, 6) for seed in range(50)) > 700


@pytest.mark.slow
def test_a_night_over_the_real_ranking() -> None:
    """One night of six hours, each offer ranked as in earnest."""
    assert check_night(77, 6) > 10


def test_what_stands_at_the_top_of_the_sky_is_promised_and_comes() -> None:
    """Where the mount can't follow it waits; when it has left the top of the sky it is next, and said only once."""
    evening = Evening(datetime(2027, 8, 31, 18, 0, tzinfo=UTC), Site(-25.0, 28.0, 1200, "Africa/Johannesburg"), replace(KIT, horizon=()))
    said = evening.says("next target")
    assert "Messier twenty-two stands overhead" in said
    assert "we'll go there in" in said
    assert "Messier twenty-two stands" not in evening.says("next target")
    evening.says("next target", timedelta(minutes=65))  # how dark it is, asked once
    assert "Messier twenty-two: a globular star cluster." in evening.says("easily")
