"""The set-up as plain scripts, one file a stage, in the order of an evening; the other files are pieces that stages share.

A script is a generator: it yields what it wants (``Say``, ``Ask``, ``Note``) and receives the ``Answer`` to each ``Ask``. It has
no clock: time reaches it through its ``Context`` and the answers only, so the same answers always give the same evening.
"""

from companion.procedure.check_in import check_in
from companion.procedure.finder import line_up_the_finder
from companion.procedure.good_night import good_night
from companion.procedure.ground import stand_firm
from companion.procedure.mount_settings import key_in_settings
from companion.procedure.power import switch_on
from companion.procedure.proof import prove_it
from companion.procedure.reference_stars import centre_reference_stars
from companion.procedure.script import SKIPPED, Context, Result, Script, Stage
from companion.procedure.starting_pose import after_settings, before_power
from companion.procedure.targets import visit_targets

EVENING: tuple[Stage, ...] = (
    Stage("check-in", check_in),
    Stage("ground", stand_firm),
    Stage("finder", line_up_the_finder),
    Stage("starting-pose", before_power),
    Stage("power", switch_on),
    Stage("settings", key_in_settings),
    Stage("late-pose", after_settings),
    Stage("reference-stars", centre_reference_stars),
    Stage("proof", prove_it),
    Stage("targets", visit_targets),
    Stage("good-night", good_night),
)

__all__ = ["EVENING", "SKIPPED", "Context", "Result", "Script", "Stage"]
