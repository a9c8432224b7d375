"""The set-up as plain scripts, one file a stage, in the order of an evening; the other files are pieces that stages share.

A script is a generator: it yields what it wants (``Say``, ``Ask``, ``Note``) and receives the answer to each ``Ask``. It has
no clock: time reaches it through its ``Context`` and the answers only, so the same answers always give the same evening.
"""

from companion.procedure.align_mount import Aligned
from companion.procedure.check_in import check_in
from companion.procedure.finder import FinderLined, finder_by_hand, finder_by_keys
from companion.procedure.good_night import good_night
from companion.procedure.mount_settings import key_in_settings
from companion.procedure.power import switch_on
from companion.procedure.prepare import tell_about_tonight
from companion.procedure.reference_stars import centre_reference_stars
from companion.procedure.script import Context, Done, Result, Script, Skipped, Stage, ask
from companion.procedure.starting_pose import after_settings, before_power
from companion.procedure.targets import Visited, visit_targets
from companion.procedure.tripod import StoodFirm, stand_firm
from companion.procedure.verify import Proven, prove_it
from companion.talk.targets_phrases import GoodNight

EVENING: tuple[Stage, ...] = (
    Stage("check-in", check_in),
    Stage("tonight", tell_about_tonight),
    Stage("ground", stand_firm, StoodFirm),
    Stage("finder", finder_by_hand, FinderLined),
    Stage("starting-pose", before_power),
    Stage("power", switch_on, mount_may_move=True),
    Stage("settings", key_in_settings),
    Stage("late-finder", finder_by_keys, FinderLined),
    Stage("late-pose", after_settings, mount_may_move=True),
    Stage("reference-stars", centre_reference_stars, Aligned, mount_may_move=True, when_left=Aligned((), (), "incomplete")),
    Stage("proof", prove_it, Proven, mount_may_move=True),
    Stage("targets", visit_targets, Visited, mount_may_move=True),
    Stage("good-night", good_night, mount_may_move=True, said_when_left=GoodNight()),
)

__all__ = ["EVENING", "Context", "Done", "Result", "Script", "Skipped", "Stage", "ask"]
