"""One stage in progress: its script, the answers it got, and what it said last. Going back is replaying with one answer fewer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from companion.messages import Answer
from companion.procedure import Context, Result, Stage
from companion.talk.saying import Answers, Ask, Note, Say, Saying


@dataclass
class StageRun:
    """A script driven by answers. Scripts are deterministic, so the list of answers is all the state there is."""

    stage: Stage
    context: Context
    answers: list[Answer] = field(default_factory=list)
    result: Result | None = None
    """What the script returned; None while it runs. One that is given is believed, and the script left alone unless it is gone back to."""
    sayings: tuple[Saying, ...] = field(default=(), init=False)
    """What was said since the last answer, the open question last."""
    decisions: list[Ask[Answers] | Note] = field(default_factory=list, init=False)
    """Every question and note yielded so far, in order."""

    def __post_init__(self) -> None:
        """Run the script up to its open question, through whatever answers it is given."""
        if self.result is None:
            self._replay()

    @property
    def question(self) -> Ask[Answers] | None:
        """The open question, or None when the script has ended."""
        last = self.sayings[-1] if self.sayings else None
        return last if isinstance(last, Ask) and self.result is None else None

    def answer(self, answer: Answer) -> Sequence[Ask[Answers] | Note]:
        """Give the open question its answer, run on to the next one, and return what was decided on the way."""
        decided = len(self.decisions)
        self.answers.append(answer)
        self._advance(answer)
        return self.decisions[decided:]

    def take_back(self) -> bool:
        """Forget the last answer and stand at the question it was given to; False when there is none."""
        if not self.answers:
            return False
        self.answers.pop()
        self._replay()
        return True

    def _replay(self) -> None:
        self._script = self.stage.script(self.context)
        self.result = None
        self.decisions = []
        self._advance(None)
        for answer in self.answers:
            self._advance(answer)

    def _advance(self, answer: Answer | None) -> None:
        sayings: list[Saying] = []
        try:
            wanted = next(self._script) if answer is None else self._script.send(answer)
            while True:
                match wanted:
                    case Ask():
                        self.decisions.append(wanted)
                        sayings.append(wanted)
                        break
                    case Note():
                        self.decisions.append(wanted)
                    case Say():
                        sayings.append(wanted)
                    case _:
                        raise TypeError(f"a script can't yield {wanted!r}")
                wanted = next(self._script)
        except StopIteration as ended:
            self.result = ended.value
        self.sayings = tuple(sayings)
