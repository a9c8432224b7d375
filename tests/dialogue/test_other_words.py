"""Answers as people give them: in words that are not live, with empty words around them, and after a pause."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from companion.dialogue import Conversation
from companion.errors import GrammarError
from companion.hearing import parse_grammar
from companion.languages import load_language
from companion.messages import Heard, NotNow
from companion.procedure import EVENING
from companion.procedure.misses import told_miss
from companion.procedure.spoken_figures import figure_of
from companion.sky import Site
from companion.talk import answers as rules
from companion.talk.answers import MissAnswer, UniversalAnswer, YesNoAnswer
from companion.talk.guidance_phrases import Waiting
from companion.talk.night_answers import TargetAnswer
from companion.talk.saying import Answers, Reply
from companion.vocabulary import load_vocabulary
from companion.vocabulary.loading import _check_other_words
from tests.english import ENGLISH, VOCABULARY

TIME = datetime(2026, 10, 15, 23, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("rule", "command", "words"),
    [
        (rules.YesNoAnswer, "yes", ["yes it is", "okay", "sure", "um, yes please", "well, I think yes", "yes now", "I think so"]),
        (rules.YesNoAnswer, "no", ["no it isn't", "nope", "that's wrong", "well, no"]),
        (rules.YesNoAnswer, "wait", ["not yet", "just a minute"]),
        (rules.YesNoAnswer, "dont-know", ["I don't know", "no idea"]),
        (rules.YesNoAnswer, "say-again", ["pardon", "what?", "repeat"]),
        (rules.ReadyAnswer, "ready", ["done", "got it", "okay", "yes it is", "go on", "ready now"]),
        (rules.ReadyAnswer, "wait", ["no", "not yet", "not quite"]),
        (rules.ClockCheckAnswer, "time-wrong", ["wrong time"]),
        (rules.ClockCheckAnswer, "zone-wrong", ["daylight saving is wrong"]),
        (rules.ClockTimeAnswer, "past", ["ten after eight", "eight p m", "8 pm"]),
        (rules.SettingAnswer, "city", ["it wants the country", "it's asking for a city"]),
        (rules.SettingAnswer, "date", ["it's asking for the date"]),
        (rules.SettingAnswer, "twenty-four-hours", ["twenty four hours", "24 hours"]),
        (rules.SettingAnswer, "no-seconds", ["it has no seconds"]),
        (rules.SettingAnswer, "zone", ["time zone"]),
        (rules.SettingAnswer, "elevation", ["elevation"]),
        (rules.OutcomeAnswer, "wants-another", ["another star", "it wants a second star"]),
        (rules.OutcomeAnswer, "success", ["it worked", "yes it did"]),
        (rules.OutcomeAnswer, "failed", ["it didn't", "no"]),
        (rules.FinderAnswer, "in-finder", ["in the finder", "yes it is", "it's there", "there it is"]),
        (rules.FinderAnswer, "wait", ["it's still turning"]),
        (rules.CompassKindAnswer, "none", ["I have no compass", "I don't have a compass", "I've got no compass", "I have none"]),
        (rules.FinderAnswer, "cloud", ["behind a cloud"]),
        (rules.FinderAnswer, "overcast", ["it's clouded over", "everything's cloudy"]),
        (rules.UnseenAnswer, "overcast", ["it's all cloudy"]),
        (rules.ClearSkyAnswer, "clear-part", ["in the west", "low in the north east", "overhead"]),
        (rules.ClearSkyAnswer, "none-clear", ["no", "nothing", "not at all"]),
        (rules.RecentreAnswer, "no-sync", ["it can't sync", "there's no sync", "can't sync"]),
        (rules.FinderAnswer, "in-eyepiece", ["it's in the eyepiece"]),
        (rules.ViewAnswer, "view", ["to the left", "up", "three o'clock", "at the top"]),
        (rules.ViewAnswer, "gone", ["out of view"]),
        (rules.UnseenAnswer, "dark", ["nothing"]),
        (rules.UnseenAnswer, "tree", ["a roof"]),
        (rules.UnseenAnswer, "cloud", ["clouds"]),
        (TargetAnswer, "next", ["next one", "next", "something else", "go on"]),
        (TargetAnswer, "found", ["I see it", "there it is", "yes", "got it"]),
        (TargetAnswer, "not-there", ["I can't find it", "nothing", "no"]),
        (TargetAnswer, "planets", ["planets", "some planets", "more planets"]),
        (TargetAnswer, "nebulae", ["nebulas", "a nebula"]),
        (TargetAnswer, "for-children", ["something for the kids", "for the kids"]),
        (TargetAnswer, "later", ["later", "not now"]),
        (TargetAnswer, "never", ["never that one", "not that one"]),
        (TargetAnswer, "previous", ["back to the last one"]),
        (TargetAnswer, "near-here", ["what else is near here"]),
        (TargetAnswer, "how-many", ["how many have we seen"]),
        (TargetAnswer, "whats-to-come", ["what's left"]),
        (TargetAnswer, "moon-coming", ["the Moon's coming up"]),
        (TargetAnswer, "cloud", ["cloud's coming", "it's clouding over"]),
        (TargetAnswer, "only-clear", ["only the south is clear"]),
        (TargetAnswer, "dew", ["it's dewed up"]),
        (TargetAnswer, "battery", ["my battery"]),
        (TargetAnswer, "was-fine", ["it's drifting", "it's off"]),
        (TargetAnswer, "break", ["I need a break"]),
        (TargetAnswer, "carry-on", ["I'm back", "carry on"]),
        (TargetAnswer, "good-night", ["that's all", "good night", "that's enough"]),
        (rules.ReadyAnswer, "ready", ["all the legs are out", "the tripod's up", "we've turned the screws", "cables fine", "balanced"]),
        (rules.ReadyAnswer, "wait", ["I'm still doing it", "not finished"]),
        (rules.LevelAnswer, "ready", ["dead level", "the bubble's in the circle"]),
        (rules.NorthAnswer, "ready", ["I have pointed it north", "we're pointing north", "on Polaris"]),
        (rules.PowerAnswer, "ready", ["the lights are on", "it's booted"]),
        (rules.PowerAnswer, "wait", ["it's booting"]),
        (rules.SettingAnswer, "next", ["it has GPS", "I've typed that in", "entered"]),
        (rules.SettingAnswer, "twenty-four-hours", ["it's a twenty four hour clock"]),
        (rules.SettingAnswer, "all-in", ["all of it's in already", "that's all of them"]),
        (rules.FinderAnswer, "which-one", ["which star", "is it the bright one", "where do we look"]),
        (rules.FinderAnswer, "another", ["something bright", "something in the south", "a different star"]),
        (rules.FinderAnswer, "cannot-see", ["no, I can't see it", "there's nothing there"]),
        (rules.FinderAnswer, "tree", ["it's hiding behind the house"]),
        (rules.TubeRoseAnswer, "cant-tell", ["I forgot to look"]),
        (rules.EyepieceAnswer, "just-off", ["left edge", "it's a bit to the left"]),
        (rules.EyepieceAnswer, "drifts", ["it keeps running away"]),
        (rules.OutcomeAnswer, "success", ["aligned", "it says well done"]),
        (rules.ProofAnswer, "in-finder", ["slightly off", "off by half a degree"]),
        (TargetAnswer, "brighter", ["something bright", "nothing fainter"]),
        (TargetAnswer, "only-clear", ["something nice in the south"]),
        (rules.PackingAnswer, "enough", ["everything's packed"]),
        (rules.FewMillimetresAnswer, "skip", ["no more", "done", "none"]),
        (rules.YesNoAnswer, "no", ["no need", "did that this afternoon"]),
        (rules.FromTownAnswer, "from-town", ["a hundred and twenty kilometres east"]),
        (rules.CoordinateAnswer, "coordinate", ["one degree thirty minutes west"]),
        (rules.HorizonAnswer, "obstruction", ["a house to the west up to one fist"]),
        (rules.HorizonAnswer, "done", ["nothing else", "no"]),
        (rules.LimitsAnswer, "done", ["no", "nothing"]),
        (rules.TubeAnswer, "ready", ["it's level"]),
        (rules.PoseTimeAnswer, "before-power", ["before I switch on"]),
    ],
)
def test_natural_answers_are_taken(rule: type[Answers], command: str, words: list[str]) -> None:
    """What observers said to each question and were once refused (kept from trial evenings) is the answer they meant."""
    for said in words:
        heard = VOCABULARY.understand(said, rule)
        assert isinstance(heard, Heard), said
        assert heard.command == command, said


IN_THE_MIDDLE = {
    rules.FinderAnswer: "in-finder",
    rules.EyepieceAnswer: "centred",
    rules.ViewAnswer: "still",
    rules.UnseenAnswer: "in-finder",
    rules.ProofAnswer: "in-eyepiece",
    rules.RecentreAnswer: "ready",
    rules.FinderCheckAnswer: "agrees",
    rules.LevelAnswer: "ready",
    rules.ReadyAnswer: "ready",
    TargetAnswer: "found",
}


@pytest.mark.parametrize("rule", IN_THE_MIDDLE, ids=lambda rule: rule.rule())
def test_in_the_middle_is_understood_wherever_something_is_centred(rule: type[Answers]) -> None:
    """Whoever looks says so in their own words, at the finder as at the eyepiece."""
    for said in ("it's in the middle", "dead centre", "it's dead centre", "right in the middle", "bang on", "it's right in the centre"):
        heard = VOCABULARY.understand(said, rule)
        assert isinstance(heard, Heard), said
        assert (heard.command, heard.is_guess) == (IN_THE_MIDDLE[rule], False), said


@pytest.mark.parametrize(
    ("said", "right_deg", "up_deg"),
    [
        ("one and a half fists left", -15, 0),
        ("two fists to the right", 20, 0),
        ("a fist to the left", -10, 0),
        ("thirty degrees right", 30, 0),
        ("twenty five degrees left", -25, 0),
        ("up and to the right, about a fist", 7.1, 7.1),
        ("about two fists down", 0, -20),
        ("nearly a fist right and four fingers up", 8, 6.7),
    ],
)
def test_a_miss_in_any_order(said: str, right_deg: float, up_deg: float) -> None:
    """Ten degrees a fist; a slanting miss has its share of both sides, by Pythagoras: worked out by hand."""
    heard = VOCABULARY.understand(said, MissAnswer)
    assert isinstance(heard, Heard), said
    miss = told_miss("Vega", Reply(MissAnswer(heard.command), TIME, heard.slots), (), synced=False)
    assert miss is not None
    assert (miss.right_deg, miss.up_deg) == (pytest.approx(right_deg, abs=0.05), pytest.approx(up_deg, abs=0.05))


def test_not_in_the_middle_is_no_yes() -> None:
    """Nor is its contrary, at the questions where a yes goes on."""
    for rule in (rules.FinderAnswer, rules.EyepieceAnswer):
        for said in ("it's not in the middle", "not dead centre", "it isn't in the middle"):
            heard = VOCABULARY.understand(said, rule)
            assert not isinstance(heard, Heard) or heard.is_guess or heard.command != IN_THE_MIDDLE[rule], (said, rule)


def test_korean_says_in_the_middle_too() -> None:
    """In Korean at finder and eyepiece."""
    korean = load_vocabulary(load_language("ko"))
    for rule in (rules.FinderAnswer, rules.EyepieceAnswer, rules.ViewAnswer, rules.UnseenAnswer, rules.ProofAnswer):
        for said in ("가운데에 있어요", "정확히 가운데예요"):
            heard = korean.understand(said, rule)
            assert isinstance(heard, Heard), (said, rule)
            assert heard.command == IN_THE_MIDDLE[rule]


def test_inches_are_millimetres() -> None:
    """Eight inches are 203.2 mm: the international inch of 1959 is 25.4 mm."""
    heard = VOCABULARY.understand("eight inches", rules.MillimetresAnswer)
    assert isinstance(heard, Heard)
    assert figure_of(heard.slots) == pytest.approx(203.2)


def test_what_the_second_search_finds_is_an_answer_here_or_none() -> None:
    """A phrase known elsewhere is taken where the open question has it in other words, and left as it is where not."""
    elsewhere = NotNow("in the finder", "in-finder", {}, 0.9)
    here = VOCABULARY.settled(elsewhere, rules.FinderAnswer)
    assert isinstance(here, Heard)
    assert here.confidence == 0.9
    assert VOCABULARY.settled(elsewhere, rules.SettingAnswer) is elsewhere


def test_empty_words_alone_are_no_answer() -> None:
    """Nothing is heard in hesitations alone."""
    assert not isinstance(VOCABULARY.understand("um well", YesNoAnswer), Heard)


@pytest.mark.parametrize("words", ["yes", "no"])
def test_after_a_pause_a_bare_yes_or_no_has_the_question_asked_again(words: str) -> None:
    """A yes or no never answers a question that wasn't the last thing said; any plain answer does."""
    conversation = Conversation(EVENING, Site(46.31, -67.52, zone="America/Moncton"), ENGLISH)
    question = conversation.begin(TIME).question
    assert conversation.hear(Heard("wait a moment", UniversalAnswer.WAIT), TIME).sayings == (Waiting(),)
    assert conversation.hear(Heard(words, words), TIME).sayings == (question,)
    assert conversation.hear(Heard("that's right", "yes"), TIME).question != question


def test_other_words_must_be_an_answer_of_their_rule() -> None:
    """A tag that the rule doesn't have is found when the grammars are loaded."""
    grammar = parse_grammar("#JSGF V1.0;\ngrammar odd;\npublic <yes_no_otherwise> = perhaps {perhaps};", "odd.jsgf")
    with pytest.raises(GrammarError, match=r"\{perhaps\} is no answer of <yes_no>"):
        _check_other_words([grammar])
