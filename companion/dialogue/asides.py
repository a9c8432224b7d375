"""Questions of our own that stand before the script's: whether we heard right, which of two was said, whether it is really wanted."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import TypeAlias

from companion.talk.answers import EitherAnswer, YesNoAnswer
from companion.talk.guidance_phrases import DidYouSay, DoYouMean, GoOnWithout, WhichDidYouSay
from companion.talk.jump_phrases import PackUpNow
from companion.talk.saying import Answers, Ask, Saying

Then: TypeAlias = Callable[[datetime], tuple[Saying, ...]]
"""What is done from then on; returns what is said."""


@dataclass(frozen=True)
class Aside:
    """One of them."""

    question: Ask[YesNoAnswer] | Ask[EitherAnswer] | PackUpNow
    leads_to: Mapping[str, Then]
    """What plain answers lead to; all else leaves things as they were."""
    asks_back: bool = False
    """Whether it asks an uncertain answer back; then a plain answer to the question below may be given instead."""

    @property
    def may_be_passed_by(self) -> bool:
        """Whether an answer to the question below is a no to this one: what isn't to be done costs nothing then."""
        return self.asks_back or isinstance(self.question, PackUpNow)


class Asides:
    """Those that stand open, the last one asked on top."""

    def __init__(self) -> None:
        """Begin with none."""
        self._open: list[Aside] = []

    def __bool__(self) -> bool:
        """Say whether one stands open."""
        return bool(self._open)

    @property
    def question(self) -> Ask[Answers] | None:
        """The one on top; None where there is none."""
        return self._open[-1].question if self._open else None

    @property
    def may_be_passed_by(self) -> bool:
        """Whether the question below all of them may be answered instead; so it may where there is none."""
        return all(aside.may_be_passed_by for aside in self._open)

    def ask_back(self, phrase: str, on_yes: Then) -> None:
        """Ask whether that was said."""
        self._open.append(Aside(DidYouSay(phrase), {YesNoAnswer.YES: on_yes}, asks_back=True))

    def ask_meant(self, guess: str, on_yes: Then, on_no: Then) -> None:
        """Ask whether that was meant."""
        self._open.append(Aside(DoYouMean(guess), {YesNoAnswer.YES: on_yes, YesNoAnswer.NO: on_no}, asks_back=True))

    def offer_to_go_on(self, on_yes: Then, *, not_understood: bool) -> None:
        """Ask whether to go on without an answer; whoever gives one after all is heard."""
        self._open.append(Aside(GoOnWithout(not_understood), {YesNoAnswer.YES: on_yes}, asks_back=True))

    def ask_which(self, first: str, second: str, on_first: Then, on_second: Then, on_neither: Then | None = None) -> None:
        """Ask which of two was said, or meant."""
        leads_to: dict[str, Then] = {EitherAnswer.FIRST: on_first, EitherAnswer.SECOND: on_second}
        if on_neither is not None:
            leads_to |= {EitherAnswer.NEITHER: on_neither, YesNoAnswer.NO: on_neither}
        self._open.append(Aside(WhichDidYouSay(first, second), leads_to, asks_back=True))

    def ask_first(self, question: Ask[YesNoAnswer] | PackUpNow, on_yes: Then) -> None:
        """Ask whether something is to be done that can't be taken back easily."""
        self._open.append(Aside(question, {YesNoAnswer.YES: on_yes}))

    def drop_guess(self) -> None:
        """Take a guess of ours away, or the offer to go on, where what is said next doesn't speak to it."""
        if self._open and isinstance(self._open[-1].question, DoYouMean | GoOnWithout):
            self._open.pop()

    def take_doubt(self) -> Aside | None:
        """Take away the one on top where it asks back: it is asked once."""
        return self._open.pop() if self._open and self._open[-1].asks_back else None

    def close(self) -> Mapping[str, Then]:
        """Take all away, and return what plain answers to the one on top lead to."""
        leads_to = self._open[-1].leads_to if self._open else {}
        self._open.clear()
        return leads_to
