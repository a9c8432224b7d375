"""One stage in progress: its script, the answers it got, and what it said last. Going back is replaying with one answer fewer."""

from __future__ import annotations

from dataclasses import dataclass, field

from companion.events import Answer, Ask, Note, Say
from companion.procedure import Context, Result, Stage


@dataclass
class StageRun:
    """A script driven by answers. Scripts are deterministic, so the list of answers is all the state there is."""

    stage: Stage
    context: Context
    answers: list[Answer] = field(default_factory=list)
    sayings: tuple[Say | Ask, ...] = ()
    """What was said since the last answer, the open question last."""
    result: Result | None = None
    """What the script returned; None while it runs."""

    def __post_init__(self) -> None:
        """Run the script up to its first question, through whatever answers it is given."""
        self._replay()

    @property
    def question(self) -> Ask | None:
        """The open question, or None when the script has ended."""
        last = self.sayings[-1] if self.sayings else None
        return last if isinstance(last, Ask) and self.result is None else None

    def answer(self, answer: Answer) -> None:
        """Give the open question its answer and run on to the next one."""
        self.answers.append(answer)
        self._advance(answer)

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
        self._advance(None)
        for answer in self.answers:
            self._advance(answer)

    def _advance(self, answer: Answer | None) -> None:
        sayings: list[Say | Ask] = []
        try:
            wanted = next(self._script) if answer is None else self._script.send(answer)
            while not isinstance(wanted, Ask):
                if not isinstance(wanted, Note):
                    sayings.append(wanted)
                wanted = next(self._script)
            sayings.append(wanted)
        except StopIteration as ended:
            self.result = ended.value
        self.sayings = tuple(sayings)
