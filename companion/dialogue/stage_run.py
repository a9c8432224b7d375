"""One stage in progress: its script, the answers it got, and what it said last. Going back is replaying with one answer fewer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from companion.messages import Answer
from companion.procedure import Context, Result, Stage
from companion.talk.saying import Answers, Ask, Call, Note, Receipt, Say, Saying, is_of_a_device


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
    call: Call | None = field(default=None, init=False)
    """What a device is asked and has not answered yet; whoever drives the script sees to it before anything else."""
    decisions: list[Ask[Answers] | Note | Call] = field(default_factory=list, init=False)
    """Every question, note and call yielded so far, in order."""
    was_left: bool = False
    """Whether the observer left it at an open question; its result is then what stands for a part left out."""
    aside_at: int | None = field(default=None, init=False)
    """As in ``Visit``."""
    begun_at: int | None = field(default=None, init=False)
    """As in ``Visit``."""

    def __post_init__(self) -> None:
        """Run the script up to its open question, through whatever answers it is given."""
        if self.result is None:
            self._replay()

    @property
    def name(self) -> str:
        """The stage's name."""
        return self.stage.name

    @property
    def question(self) -> Ask[Answers] | None:
        """The open question, or None when the script has ended."""
        last = self.sayings[-1] if self.sayings and self.call is None else None
        return last if isinstance(last, Ask) and self.result is None else None

    @property
    def replies(self) -> list[Answer]:
        """The observer's own answers, without those of devices."""
        return [answer for answer in self.answers if not is_of_a_device(answer)]

    def answer(self, answer: Answer) -> Sequence[Ask[Answers] | Note | Call]:
        """Give the open question, or call, its answer, run on to the next one, and return what was decided on the way."""
        decided = len(self.decisions)
        self.answers.append(answer)
        self._advance(answer)
        return self.decisions[decided:]

    def leave(self) -> Result:
        """Leave it at its open question, and return what stands for it from now on."""
        self.was_left, self.result = True, self.stage.when_left
        return self.result

    def take_back(self) -> bool:
        """Stand again where it was left, else at the question answered last; False when there is neither.

        What a device answered after that is forgotten with it.
        """
        if self.was_left:
            self.was_left = False
        elif self.replies:
            while is_of_a_device(self.answers.pop()):
                pass
        else:
            return False
        self._replay()
        self.sayings = tuple(saying for saying in self.sayings if not isinstance(saying, Receipt))
        return True

    def _replay(self) -> None:
        self._script = self.stage.script(self.context)
        self.result = None
        self.decisions = []
        self._advance(None)
        for answer in self.answers:
            self._advance(answer)

    def _advance(self, answer: Answer | None) -> None:
        after_a_call = answer is not None and is_of_a_device(answer)
        sayings: list[Saying] = list(self.sayings) if after_a_call else []
        self.call = None
        try:
            wanted = next(self._script) if answer is None else self._script.send(answer)
            while True:
                match wanted:
                    case Ask():
                        self.decisions.append(wanted)
                        sayings.append(wanted)
                        break
                    case Call():
                        self.decisions.append(wanted)
                        self.call = wanted
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
