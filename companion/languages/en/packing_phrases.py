"""English for packing up, one thing at a time: the hazard first, where it is."""

from __future__ import annotations

from companion.languages.en.direction_words import sentence
from companion.languages.en.number_words import cardinal, count_of, decimal
from companion.languages.phrase import Chapter, Scene
from companion.talk.answers import PackingAnswer
from companion.talk.packing_phrases import (
    CablesIn,
    CapBeforeItMoves,
    CapEverything,
    CapsOnFirst,
    DryAndChargeAtHome,
    EyepiecesIn,
    MindTheWeightAndGoodNight,
    ParkIt,
    SearchTheGround,
    SwitchItOff,
    TakeItDown,
    WhereThingsHide,
)

_MOST_NAMED = 6
"""More figures than that nobody counts along with; then the number alone is said."""


def eyepieces_in(scene: Scene, *, eyepieces_mm: tuple[float, ...], diagonal: bool) -> str:
    """Count the eyepieces into their box."""
    counted = count_of(len(eyepieces_mm), "eyepiece") if eyepieces_mm else "the eyepieces"
    also = " and the diagonal" if diagonal else ""
    told = [sentence(f"{counted}{also} into the box, dust caps on")]
    if 1 < len(eyepieces_mm) <= _MOST_NAMED:
        *most, last = [decimal(figure_mm) for figure_mm in eyepieces_mm]
        told.append(sentence(f"{', '.join(most)} and {last}"))
    return " ".join((*told, "Are they all there? Say done, or: one is missing."))


def eyepieces_in_tersely(scene: Scene, *, eyepieces_mm: tuple[float, ...], diagonal: bool) -> str:
    """Count the eyepieces in few words."""
    counted = f": {cardinal(len(eyepieces_mm))}" if eyepieces_mm else ""
    also = ", and the diagonal" if diagonal else ""
    return f"{sentence(f'eyepieces in{counted}{also}')} All there?"


PACKING = Chapter(
    phrases={
        ParkIt: "Packing up. Eyes off the eyepiece, hands clear of tube and arms. Park the mount. Say done when it stands still.",
        SwitchItOff: "Switch it off. Then pull the plug, with dry hands. Done?",
        CapEverything: "Put the caps on tube and finder. Dew on the glass: never wipe it. Done?",
        CapBeforeItMoves: "The Sun is up. Before anything moves, cap tube and finder. Done?",
        EyepiecesIn: eyepieces_in,
        CablesIn: "Now the cables, before you carry anything: they trip you. Coil them up. Done?",
        TakeItDown: (
            "Hold the tube before you loosen a clamp. It's heavy. In frost, gloves on: cold metal burns. "
            "Clear your path, then lift with bent knees. Done?"
        ),
        SearchTheGround: "Now a bright torch, and the ground where the tripod stood: caps, screws, eyepieces. Done?",
        WhereThingsHide: "Stand still first. Look in the focuser and your pockets, then by torch around your feet.",
        CapsOnFirst: "The Sun is up: caps on before anything moves.",
        MindTheWeightAndGoodNight: (
            "Hold the tube before you loosen a clamp. It's heavy in the dark: clear your path first, and lift with bent knees. Good night."
        ),
        DryAndChargeAtHome: "At home, caps off in a dry room until the dew has gone. Then charge the batteries. Good night.",
    },
    terse={
        ParkIt: "Keep your hands clear. Park the mount. Is it still now?",
        SwitchItOff: "Switch it off, then unplug with dry hands. Done?",
        CapEverything: "Put both caps on. Done?",
        EyepiecesIn: eyepieces_in_tersely,
        CablesIn: "Cables next, before you carry anything. Done?",
        TakeItDown: "Hold the tube before you loosen a clamp. It's heavy: path clear, bent knees. In frost, wear gloves. Done?",
        SearchTheGround: "Search the ground by torch. Done?",
        DryAndChargeAtHome: "At home: caps off to dry, and recharge. Good night.",
    },
    sayable={PackingAnswer: ("done", "next please", "one is missing", "that's all")},
    step_help={
        ParkIt: "Parked, it rests where it may be switched off. If yours can't park, bring the tube level.",
        SwitchItOff: "Off before unplugged: some lose what they know otherwise. Cold, wet cables stay away from household current.",
        CapEverything: "Capped while still cold, it gathers no dust. It can dry at home.",
        CapBeforeItMoves: "A tube that turns by itself may sweep across the Sun. Caps on first, then we park it.",
        EyepiecesIn: "I count what you told me you own. Say one is missing, and I'll tell you where to look.",
        CablesIn: "From the far end to the mount, so that nothing lies across your way.",
        TakeItDown: "Tube first, then the mount, then the tripod. Two pairs of hands are better than one.",
        SearchTheGround: "Small black caps are found now or never. Walk slowly around the spot.",
    },
)
