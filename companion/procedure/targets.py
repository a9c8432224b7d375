"""Visit three of tonight's targets; whatever knocks the mount out of its knowledge meanwhile is mended here."""

from __future__ import annotations

from companion import sky
from companion.events import Answer, Ask, Say
from companion.procedure.script import Context, Script
from companion.procedure.was_fine import TOLD, bring_it_back
from companion.procedure.your_equipment import measure_fist

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
        facts = {"target": name, "kind": ranked.sight.body.kind}
        answer: Answer = yield Ask("introduce-target", expects="target", facts=facts)
        while answer.command in ("which-one", "measure-fist", *TOLD):
            if answer.command == "which-one":
                answer = yield Ask("find-target", expects="target", facts={"target": name})
                continue
            if answer.command == "measure-fist":
                yield from measure_fist(context, answer.time)
            else:
                yield from bring_it_back(context, answer)
            answer = yield Ask("introduce-target", expects="target", facts=facts)
        if answer.command == "next":
            visited.append(name)
    return {"visited": visited}
