"""The set-up as plain scripts, one file a stage, in the order of an evening.

A script is a generator: it yields what it wants (``Say``, ``Ask``, ``Note``) and receives the ``Answer`` to each ``Ask``. It has
no clock: time reaches it through its ``Context`` and the answers only, so the same answers always give the same evening.
"""

from companion.procedure.check_in import check_in
from companion.procedure.good_night import good_night
from companion.procedure.mount_settings import key_in_settings
from companion.procedure.reference_stars import centre_reference_stars
from companion.procedure.script import Context, Result, Script, Stage
from companion.procedure.starting_pose import take_starting_pose
from companion.procedure.targets import visit_targets

EVENING: tuple[Stage, ...] = (
    Stage("check-in", check_in),
    Stage("starting-pose", take_starting_pose),
    Stage("settings", key_in_settings),
    Stage("reference-stars", centre_reference_stars),
    Stage("targets", visit_targets),
    Stage("good-night", good_night),
)

__all__ = ["EVENING", "Context", "Result", "Script", "Stage"]
