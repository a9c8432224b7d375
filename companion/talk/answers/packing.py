"""What can be answered while things are packed up."""

from __future__ import annotations

from companion.talk.saying import Answers


class PackingAnswer(Answers):
    """Answers of the rule ``packing``."""

    DONE = "done"
    ENOUGH = "enough"
    MISSING = "missing"
    SKIP = "skip"
