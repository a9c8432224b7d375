"""Visit three of tonight's targets; whatever knocks the mount out of its knowledge meanwhile is mended here."""

from __future__ import annotations

from companion import observing, sky
from companion.messages import Answer, Ask, Say
from companion.procedure.ask_equipment import measure_fist
from companion.procedure.recover import TOLD, bring_it_back
from companion.procedure.script import Context, Script, Steps
from companion.procedure.verify import prove

TARGET_COUNT = 3
_KNOWS_THE_SKY = ("success", "skip")


def visit_targets(context: Context) -> Script:
    """Introduce the best targets that are up, one after another; none while the Sun is up."""
    moment = context.moment(context.started)
    if sky.sun_state(moment).is_up:
        yield Say("sun-still-up")
        return {"visited": []}
    chosen = observing.targets(moment, count=TARGET_COUNT, hidden=context.hides)
    if not chosen:
        yield Say("no-targets")
        return {"visited": []}
    if context.results.get("reference-stars", {}).get("outcome", "skip") not in _KNOWS_THE_SKY:
        yield Say("steer-by-hand")
    yield Say("warm-clothes")
    visited = []
    for number, ranked in enumerate(chosen):
        if number:
            yield Say("next-target")
        answer = yield from _visit(context, ranked.sight.body)
        if answer.command == "next":
            visited.append(ranked.sight.body.name)
    return {"visited": visited}


def _visit(context: Context, body: sky.Body) -> Steps:
    """Introduce a target and help with it; return the answer that leaves it."""
    facts = {"target": body.name, "kind": body.kind}
    answer: Answer = yield Ask("introduce-target", expects="target", facts=facts)
    while answer.command not in ("next", "skip"):
        match answer.command:
            case "how-high":
                yield Say("how-high", {"star": body.name})
                answer = yield Ask("say-next-target", expects="target", facts=facts)
            case "slewing":
                yield Ask("while-it-slews", expects="slewing", facts={"slewing": True})
                answer = yield Ask("say-next-target", expects="target", facts=facts)
            case "measure-fist":
                yield from measure_fist(context, answer.time)
                answer = yield Ask("introduce-target", expects="target", facts=facts)
            case command if command in TOLD:
                mended = yield from bring_it_back(context, answer)
                if mended.aligned is not None and mended.aligned.outcome == "success":
                    yield from prove(context, mended.time, mended.aligned.stars, mended.aligned.left)
                answer = yield Ask("introduce-target", expects="target", facts=facts)
            case _:
                answer = yield Ask("find-target", expects="target", facts=facts)
    return answer
