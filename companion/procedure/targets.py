"""Visit three of tonight's targets."""

from __future__ import annotations

from companion import sky
from companion.events import Ask, Say
from companion.procedure.script import Context, Script

TARGET_COUNT = 3


def visit_targets(context: Context) -> Script:
    """Introduce the best targets that are up, one after another."""
    chosen = sky.targets(context.moment(context.started), count=TARGET_COUNT)
    if not chosen:
        yield Say("no-targets")
        return {"visited": []}
    visited = []
    for number, ranked in enumerate(chosen):
        name = ranked.sight.body.name
        yield Say("first-target" if number == 0 else "next-target")
        answer = yield Ask("introduce-target", expects="target", facts={"target": name, "kind": ranked.sight.body.kind})
        while answer.command == "which-one":
            answer = yield Ask("find-target", expects="target", facts={"target": name})
        if answer.command == "next":
            visited.append(name)
    return {"visited": visited}
