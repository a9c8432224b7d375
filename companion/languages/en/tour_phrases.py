"""English for the spoken tour. The words that repeat or silence us are taught in their other form: ours must never be taken for yours."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.phrase import Chapter, Scene
from companion.talk.tour_phrases import ThatWorked, TourAnswer, TourLeft, TourOffered, TourOver, Tried, TryIt, WhatWeDo

TO_TRY: Mapping[Tried, str] = {
    Tried.REPEAT: "Missed something? Try it now: say, repeat that.",
    Tried.WAIT: "When your hands are busy, have me wait. Try it: say, hang on.",
    Tried.BACK: "When you answered wrongly, take it back. Try it: say, go back.",
    Tried.WHERE: "When you've lost the thread, ask me. Try it: say, where are we.",
    Tried.QUIET: "When I talk too long, silence me. Try it: say, be quiet.",
}
WORKED: Mapping[Tried, str] = {
    Tried.REPEAT: "That brings my last words once more.",
    Tried.WAIT: "I then wait until you say: carry on.",
    Tried.BACK: "That takes one answer back, and I ask again.",
    Tried.WHERE: "I then name the part we are in, and what's open.",
    Tried.QUIET: "I then fall silent at once; a mount that turns is halted by its own keys, or its switch.",
}


def try_it(scene: Scene, *, phrase: Tried) -> str:
    """Have a phrase tried out."""
    return TO_TRY[phrase]


def that_worked(scene: Scene, *, phrase: Tried) -> str:
    """Confirm it."""
    return f"Good. {WORKED[phrase]}"


TOUR = Chapter(
    phrases={
        TourOffered: "For a tour say: teach me.",
        WhatWeDo: (
            "I lead you through set-up, alignment and things to see: one thing at a time, and I wait for you. "
            "Five phrases always work; to end this early, say: leave the tour."
        ),
        TryIt: try_it,
        ThatWorked: that_worked,
        TourOver: ("That's all: for anything else say help, or ask me, like: where is Vega."),
        TourLeft: "The tour is over. Say teach me whenever you want it.",
    },
    terse={WhatWeDo: "Five phrases always work. To end this early, say: leave the tour."},
    sayable={TourAnswer: ("next step", "leave the tour")},
    step_help={TryIt: "Say the phrase I named, only to try it: nothing happens. Or say next step, or leave the tour."},
)
