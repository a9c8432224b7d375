"""English for what follows the alignment: the proof, tonight's targets, what was fine and now isn't, and good night."""

from __future__ import annotations

from companion import sky
from companion.languages.en.sight_words import describe, where_to_look
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.talk.answers import ProofAnswer, RecentreAnswer
from companion.talk.targets_phrases import (
    AnybodyHurt,
    GoodNight,
    IsItGoodAgain,
    IsTheBubbleCentred,
    IsTheProofInView,
    ItForgotEverything,
    LookLowerPower,
    NearlyProven,
    NothingToProveItOn,
    ProofLeft,
    ProofStar,
    ReCentreAndSync,
    SendItTo,
    ShallIRemember,
    SteerByHand,
    SunStillUp,
    SweepForThat,
    SweepRound,
    TheAlignmentHolds,
    ThenAlignAgain,
    ThenLevelAgain,
    WarmClothes,
    WhereTheProofIs,
)


def proof_star(scene: Scene, *, star: str) -> str:
    """Send the mount to a third star."""
    return f"Now let's prove it. Have the mount go to {describe(sky.sight(sky.find(star), scene), scene.fist_deg)}"


def proof_star_tersely(scene: Scene, *, star: str) -> str:
    """Send the mount to a third star in few words."""
    return f"Now prove it on {spoken_name(star)}."


def where_the_proof_is(scene: Scene, *, star: str) -> str:
    """Say again where that star is."""
    return where_to_look(sky.sight(sky.find(star), scene), scene.fist_deg)


def nearly_proven(scene: Scene, *, star: str) -> str:
    """Say what to do when the third star is close but not in the eyepiece."""
    return f"Close. Centre {spoken_name(star)} and sync on it, if your control can: then that side is good. Say ready."


def send_it_to(scene: Scene, *, star: str) -> str:
    """Send the mount to a star."""
    return f"Send it to {describe(sky.sight(sky.find(star), scene), scene.fist_deg)}"


def the_alignment_holds(scene: Scene, *, near: str | None = None) -> str:
    """Say that the alignment is proven, and where."""
    if near is None:
        return "Good: the alignment holds."
    return f"Good: near {spoken_name(near)} it holds. Begin there, and go outwards."


def sun_still_up(scene: Scene) -> str:
    """Say that there is nothing to look at by day, which lasts all night near the poles in summer."""
    until = " before it sets" if sky.night_around(scene).sunset is not None else " while it stays up"
    return f"The Sun is up: keep both caps on. There is nothing to look at{until}."


TARGETS = Chapter(
    phrases={
        ProofStar: proof_star,
        IsTheProofInView: "Is it in the eyepiece?",
        WhereTheProofIs: where_the_proof_is,
        LookLowerPower: "Look in the finder first, then with the low-power eyepiece.",
        TheAlignmentHolds: the_alignment_holds,
        NearlyProven: nearly_proven,
        NothingToProveItOn: "There is no third star to prove it on just now.",
        SweepRound: "Go round where it should be in a growing square, one view at a time.",
        ProofLeft: "Then we'll do without the proof.",
        AnybodyHurt: "If anyone is hurt, see to them first. Then keep one hand on the tube, and feel each leg. Ready?",
        IsTheBubbleCentred: "Now the bubble of the base. Is it still in its middle?",
        SweepForThat: "Go round in a growing square with the low-power eyepiece. Say ready when it's centred, or give me another.",
        SendItTo: send_it_to,
        ReCentreAndSync: "Centre it, and sync on it: that tells the mount where it really points. Say ready, or: it can't sync.",
        IsItGoodAgain: "Try the thing you were looking at. Is it in the eyepiece again?",
        ThenAlignAgain: "Then we'll do the stars again. Level and north can stay as they are.",
        ThenLevelAgain: "Then it stands differently from before: level and north once more.",
        ItForgotEverything: "It has forgotten everything, so we set it up again.",
        SunStillUp: sun_still_up,
        SteerByHand: "The mount doesn't know the sky tonight: steer by the arrows.",
        WarmClothes: "Now for the pleasure: put on something warm before you feel cold.",
        ShallIRemember: "Shall I remember what you told me, for the next evening?",
        GoodNight: (
            "Hands clear while it parks. Switch off, cap tube and finder. Hold the tube before you loosen a clamp. "
            "It's heavy in the dark: clear your path first, and lift with bent knees. Good night."
        ),
    },
    terse={
        ProofStar: proof_star_tersely,
        WarmClothes: "Now the targets.",
    },
    sayable={
        ProofAnswer: ("in the eyepiece", "only in the finder", "it's way off", "give me another"),
        RecentreAnswer: ("ready", "can't see it", "give me another", "it can't sync"),
    },
    step_help={
        IsTheProofInView: "In the eyepiece: the mount knows the sky. Only in the finder: we can still mend it.",
        ReCentreAndSync: "Sync tells the mount that it points exactly there. Its handset or app has it in a menu.",
        IsItGoodAgain: "Yes if it is in the eyepiece, no if we must do more.",
        ShallIRemember: "Yes keeps your place and your telescope in my profile on this device. No forgets them.",
        IsTheBubbleCentred: "Yes leaves level and north as they are. No means the base leans, and we set it again.",
        SweepForThat: "One view's width at a time, slowly. If it doesn't come in, say give me another.",
        AnybodyHurt: "A leg that has sunk or slipped is the usual damage. Say ready when it stands firm.",
        NearlyProven: "Sync tells the mount that it points exactly there. Its handset or app has it in a menu.",
    },
)
