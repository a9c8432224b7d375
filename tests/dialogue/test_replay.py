"""Going back and going on after a crash run a script again with the answers it had: checked, not agreed on, that it then does the same."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from companion.dialogue.memory import decision_record, plain
from companion.dialogue.stage_run import StageRun
from companion.equipment import Equipment, Instrument, Mount, Observer
from companion.messages import Answer
from companion.procedure import EVENING, Context, Done, Result, Script, Stage, ask
from companion.procedure.align_mount import Aligned
from companion.procedure.finder import FinderLined
from companion.sky import Site
from companion.talk.answers import YesNoAnswer
from companion.talk.saying import Answers, Ask, Note, Receipt, Say
from tests.any_phrase import any_phrase
from tests.english import VOCABULARY

TOP = Path(__file__).parents[2]
PLACES = (
    (Site(46.31, -67.52, zone="America/Moncton", name="Spruce Ridge clearing"), datetime(2026, 10, 15, 23, 0, tzinfo=UTC)),
    (Site(-33.4, 149.6, zone="Australia/Sydney"), datetime(2027, 1, 20, 11, 0, tzinfo=UTC)),
    (Site(69.7, 19.0, zone="Europe/Oslo"), datetime(2027, 1, 20, 17, 0, tzinfo=UTC)),
)
ALIGNED_ON = (("Vega", "Altair"), ("Sirius", "Canopus"), ("Capella", "Vega"))
"""Well up at each of them."""
KITS = (
    Equipment(),
    Equipment(mount=Mount("list", "after-settings", False), observer=Observer(limits=frozenset({"faint-stars", "kneeling"}))),
    Equipment(Instrument(200, 1200), Mount("names", "before-power", True, "enter"), Observer("needle", sees_milky_way=True)),
    Equipment(mount=Mount("unnamed", "by-itself", False), observer=Observer("card", in_company=True, terse=True)),
    Equipment(mount=Mount("one", "before-power"), observer=Observer("none", limits=frozenset({"reaching"}))),
    Equipment(mount=Mount("body", "after-settings", turns_by_hand=False)),
)
MOST_ANSWERS = 8
BY_DAY = {"tonight": timedelta(hours=-8)}
"""Stages that ask something only while the Sun is up: how much sooner they begin."""
SLOW_STAGES = ("check-in", "tonight", "reference-stars", "proof", "targets")
"""They look at the whole sky each time they are run again."""


def _any_answer(question: Ask[Answers], now: datetime, choose: random.Random) -> Answer:
    """Return something that may be answered: a skip now and then, else a phrase of one of the rules that are taken."""
    if choose.random() < 0.1:
        return Answer("skip", now)
    rule = choose.choices((question.expects, *question.also), weights=(5, *(1 for _ in question.also)))[0].rule()
    grammar = next(grammar for grammar in VOCABULARY.grammars if rule in grammar.public_rules)
    phrase = grammar.parse(any_phrase(grammar, rule, choose), [rule])
    assert phrase is not None
    return Answer(phrase.command, now, phrase.slots)


def _later(now: datetime, choose: random.Random) -> datetime:
    return now + timedelta(seconds=choose.choice((5, 40, 200)))


def _context(stage: Stage, number: int) -> Context:
    """Return what a stage may begin with: a kit, a place and a night of ours, everything before it done or left out."""
    (site, start), stars = PLACES[number % len(PLACES)], ALIGNED_ON[number % len(PLACES)]
    results = {"finder": FinderLined(lined_up=number % 2 == 0), "reference-stars": Aligned(stars, (), "success")}
    start += BY_DAY.get(stage.name, timedelta(0))
    return Context(site, start, results, KITS[number], site_is_known=number % 3 != 2, something_learned=True)


def _played(stage: Stage, context: Context, choose: random.Random) -> StageRun:
    """Return a stage given answers at random, to its end or to the most we give."""
    run, now = StageRun(stage, context), context.started
    while run.question is not None and len(run.answers) < MOST_ANSWERS:
        now = _later(now, choose)
        run.answer(_any_answer(run.question, now, choose))
    return run


def _state(run: StageRun) -> tuple[object, ...]:
    """Return all that anybody can see of a stage in progress, but for what confirms an answer: gone back to, a question stands alone."""
    sayings = tuple(saying for saying in run.sayings if not isinstance(saying, Receipt))
    return tuple(run.decisions), sayings, run.question, run.result


def check_replay(stage: Stage, context: Context, choose: random.Random) -> StageRun:
    """Give a stage answers at random, and see after each that a second run is as far, and that going back undoes just that answer."""
    run, other = StageRun(stage, context), StageRun(stage, context)
    assert _state(other) == _state(run), "it begins otherwise the second time"
    now = context.started
    while run.question is not None and len(run.answers) < MOST_ANSWERS:
        before, now = _state(run), _later(now, choose)
        answer = _any_answer(run.question, now, choose)
        run.answer(answer)
        other.answer(answer)
        after = _state(run)
        assert _state(other) == after, "the same answers led elsewhere"
        assert run.take_back()
        assert _state(run) == before, "going back did not lead back"
        run.answer(answer)
        assert _state(run) == after, "the same answer again led elsewhere"
    assert _state(StageRun(stage, context, list(run.answers))) == _state(run), "all answers at once led elsewhere"
    return run


@pytest.mark.parametrize(
    ("stage", "number"),
    [
        pytest.param(stage, number, marks=[pytest.mark.slow] if stage.name in SLOW_STAGES and number > 1 else [])
        for stage in EVENING
        for number in range(len(KITS))
    ],
    ids=lambda value: value.name if isinstance(value, Stage) else str(value),
)
def test_the_same_answers_lead_to_the_same(stage: Stage, number: int) -> None:
    """Every stage, over kits, sites and dates: decisions, sayings and result follow from the answers alone, and going back undoes one."""
    check_replay(stage, _context(stage, number), random.Random(number))


def test_those_answers_reach_into_every_stage() -> None:
    """No stage is passed over in that check: each is asked something and answered with some kit."""
    for stage in EVENING:
        assert any(_played(stage, _context(stage, number), random.Random(number)).answers for number in (0, 1)), stage.name


class First(Ask[YesNoAnswer]): ...


class Second(Ask[YesNoAnswer]): ...


class Hello(Say): ...


@dataclass(frozen=True)
class Noticed(Note):
    """Something that came from elsewhere than the answers."""

    what: float | str


CALLED: list[str] = []


def _reads_a_clock(context: Context) -> Script:
    yield from ask(First())
    yield Noticed(time.perf_counter())
    return Done()


def _throws_dice(context: Context) -> Script:
    yield from ask(First())
    # The global generator is meant: what a script must not draw from.
    yield from ask(Second() if random.random() < 0.5 else First())
    yield from ask(Second() if random.random() < 0.5 else First())
    return Done()


def _remembers(context: Context) -> Script:
    yield from ask(First())
    CALLED.append("once more")
    yield Noticed(len(CALLED))
    return Done()


def _greets_at_random(context: Context) -> Script:
    yield from ask(First())
    for _ in range(random.randrange(1000)):
        yield Hello()
    yield from ask(Second())
    return Done()


@dataclass(frozen=True)
class Timed(Result):
    """A result that no answer led to."""

    took_seconds: float


def _ends_with_a_clock(context: Context) -> Script:
    yield from ask(First())
    return Timed(time.perf_counter())


@pytest.mark.parametrize("script", [_reads_a_clock, _throws_dice, _remembers, _greets_at_random, _ends_with_a_clock])
def test_a_script_with_another_source_is_caught(script: Callable[[Context], Script]) -> None:
    """A clock, dice or a memory of its own, in what is noted, asked, said or returned, all fail that check."""
    random.seed(1)
    with pytest.raises(AssertionError, match=r"led elsewhere|lead back"):
        check_replay(Stage("bad", script), _context(EVENING[0], 0), random.Random(0))


def _by_hash(context: Context) -> Script:
    # As many words as this never come in one order twice: strings are hashed anew in each process.
    for word in {f"word {number}" for number in range(50)}:
        yield Noticed(word)
    yield from ask(First())
    return Done()


BAD = Stage("bad", _by_hash)


def told() -> Iterator[tuple[str, object]]:
    """Yield what a journal keeps of each stage of two evenings, the bad stage last."""
    for number in (0, 1):
        for stage in (*EVENING, BAD):
            run = _played(stage, _context(stage, number), random.Random(number))
            yield stage.name, [[decision_record(decision) for decision in run.decisions], plain(run.result)]


def _told_elsewhere(hash_seed: int) -> list[tuple[str, object]]:
    """Return the same as another process tells it."""
    program = "import json; from tests.dialogue.test_replay import told; print(json.dumps(list(told())))"
    environment = {**os.environ, "PYTHONHASHSEED": str(hash_seed)}
    return json.loads(subprocess.run([sys.executable, "-c", program], cwd=TOP, env=environment, check=True, capture_output=True).stdout)


def test_another_process_comes_to_the_same() -> None:
    """After a crash another process runs the answers again: no stage hangs on the order of a set, which differs there; the bad one does."""
    here, there = _told_elsewhere(1), _told_elsewhere(2)
    assert len(here) == len(there) == 2 * (len(EVENING) + 1)
    assert {name for (name, one), (_, other) in zip(here, there, strict=True) if one != other} == {"bad"}
