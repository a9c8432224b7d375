"""A way of its own for words that need no pause after them: they are looked for as soon as the voice falls quiet for a moment."""

from __future__ import annotations

from companion.hearing import Engine, listen
from companion.hearing.stream import Segment
from companion.live.turn_policy import Action, TurnPolicy, Utterance


class StopWordWatcher:
    """A segment that may still go on in; an utterance out where it is an urgent word, and surely."""

    def __init__(self, engine: Engine, policy: TurnPolicy) -> None:
        """Take the recogniser, and who knows which words can't wait."""
        self._engine = engine
        self._policy = policy

    def watch(self, segment: Segment) -> Utterance | None:
        """Return the utterance that ends here at once, None where nothing urgent is said, or not surely."""
        ruling = self._policy.urgent(segment)
        if ruling is None:
            return None
        utterance = Utterance(segment, ruling, listen(self._engine, segment.sound, ruling.scope))
        return utterance if utterance.action is Action.BARGE_IN else None
