"""The evening as a conversation: stages one after another, universal words at any time, and help when nothing is understood."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from companion.dialogue.stage_run import StageRun
from companion.dialogue.turn import Turn
from companion.events import Answer, Ask, Heard, Hearing, NotNow, NotUnderstood, Say, Silence
from companion.procedure import Context, Stage
from companion.sky import Site

UNIVERSAL_RULE = "universal"
_LEAVE = Ask("leave-now", expects="yes_no")


class Conversation:
    """Holds one evening. Every call says what was heard and when, and answers with a ``Turn``; there is no clock and no sound here."""

    def __init__(self, stages: Sequence[Stage], site: Site) -> None:
        """Take the stages in order and the site they happen at."""
        self._stages = tuple(stages)
        self._site = site
        self._runs: list[StageRun] = []
        self._misses = 0
        self._silences = 0
        self._helped = 0
        self._leaving = False
        self._left = False

    def begin(self, time: datetime) -> Turn:
        """Open the evening."""
        return self._turn(self._open_next_stage(time))

    def hear(self, hearing: Hearing, time: datetime) -> Turn:
        """Take what was heard and answer it."""
        match hearing:
            case Heard():
                self._misses = self._silences = 0
                self._helped = self._helped + 1 if hearing.command == "help" else 0
                sayings = self._heard(hearing, time)
            case NotNow():
                sayings = (Say("not-now", {"heard": hearing.phrase}), self._open_question())
            case NotUnderstood():
                self._misses += 1
                sayings = self._not_understood()
            case Silence():
                self._silences += 1
                sayings = (Say("still-here"),) if self._silences == 1 else ()
        return self._turn(sayings)

    # --- what was heard ----------------------------------------------------------------------------------------------

    def _heard(self, heard: Heard, time: datetime) -> tuple[Say | Ask, ...]:
        """Answer a word that works anywhere here; any other word goes to the script."""
        sayings: tuple[Say | Ask, ...]
        match heard.command:
            case "say-again" | "carry-on":
                sayings = (_LEAVE,) if self._leaving else self._current.sayings
            case "help":
                sayings = self._help()
            case "wait":
                sayings = (Say("waiting"),)
            case "stop":
                sayings = (Say("stopped"),)
            case "good-night":
                self._leaving = True
                sayings = (_LEAVE,)
            case "go-back":
                sayings = self._current.sayings if self._leaving else self._go_back()
                self._leaving = False
            case command if self._leaving:
                self._leaving, self._left = False, command == "yes"
                sayings = (Say("good-night"),) if self._left else self._current.sayings
            case command:
                sayings = self._answer(Answer(command, time, heard.slots))
        return sayings

    def _answer(self, answer: Answer) -> tuple[Say | Ask, ...]:
        self._current.answer(answer)
        if self._current.result is None:
            return self._current.sayings
        return self._current.sayings + self._open_next_stage(answer.time)

    def _open_next_stage(self, time: datetime) -> tuple[Say | Ask, ...]:
        """Begin the next stage; a stage that asks nothing is passed through at once."""
        said: tuple[Say | Ask, ...] = ()
        while len(self._runs) < len(self._stages):
            results = {run.stage.name: run.result for run in self._runs if run.result is not None}
            self._runs.append(StageRun(self._stages[len(self._runs)], Context(self._site, time, results)))
            said += self._current.sayings
            if self._current.result is None:
                break
        return said

    def _go_back(self) -> tuple[Say | Ask, ...]:
        """Stand again at the question answered last, in this stage or the one before."""
        for kept in range(len(self._runs), 0, -1):
            if self._runs[kept - 1].take_back():
                del self._runs[kept:]
                return self._current.sayings
        return (Say("nothing-to-go-back-to"), *self._current.sayings)

    def _not_understood(self) -> tuple[Say | Ask, ...]:
        """Never ask for the same word a third time: name the words, then offer another way, then only a quiet sign."""
        question = self._open_question()
        match self._misses:
            case 1:
                return (Say("not-understood"),)
            case 2:
                return (Say("you-can-say", {"rule": question.expects}),)
            case 3:
                return (Say("another-way"),)
        return ()

    def _help(self) -> tuple[Say | Ask, ...]:
        """First what this step wants, then the words that work here, then the words that work anywhere."""
        question = self._open_question()
        match self._helped:
            case 1:
                return (Say("help-with-step", {"question": question.phrase}),)
            case 2:
                return (Say("you-can-say", {"rule": question.expects}),)
        return (Say("words-that-always-work"),)

    # --- where we stand ----------------------------------------------------------------------------------------------

    @property
    def _current(self) -> StageRun:
        return self._runs[-1]

    def _open_question(self) -> Ask:
        question = _LEAVE if self._leaving else self._current.question
        if question is None:
            raise RuntimeError("the evening is over; nothing more can be heard")
        return question

    def _turn(self, sayings: tuple[Say | Ask, ...]) -> Turn:
        over = self._left or (self._current.result is not None and len(self._runs) == len(self._stages))
        return Turn(sayings, None if over else self._open_question(), self._current.stage.name)
