"""English for ``companion help``: what a person wants to know before, and beside, an evening. Read on paper and heard alike."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.en.sight_words import SUN_CAUTION
from companion.languages.en.tour_phrases import TO_TRY, TOUR, WORKED
from companion.talk.tour_phrases import TourOver, Tried, WhatWeDo


def _the_tour() -> str:
    """Return the spoken tour as one text, each phrase followed by what it does."""
    tried = " ".join(f"{TO_TRY[phrase]} {WORKED[phrase]}" for phrase in Tried)
    return f"{TOUR.phrases[WhatWeDo]} {tried} {TOUR.phrases[TourOver]}"


TOPICS: Mapping[str, str] = {
    "tour": _the_tour(),
    "asking": (
        "At any time say: repeat that, help, I don't know, why is that, I'm lost, go back, or skip this. "
        "To pause say: wait a moment, and when you are ready: carry on. "
        "For the voice say: speak up, not so loud, speak slowly, talk faster, or fewer words. "
        "In every part you may ask: where is Vega, is Saturn up, how long until dark, what is a fist. "
        "It answers, and comes back to its own question. "
        "Any part is gone to by its name: back to the alignment, or go to the targets. What that costs is said first. "
        "At the targets say: next, something easier, planets, show me Albireo, seen it, or that's all. "
        "Good night ends it anywhere."
    ),
    "equipment": (
        "It suits a computerised telescope on an alt-azimuth mount, with a handset or an app. "
        "A telescope that is moved by hand will do for the targets: it leads you there from star to star. "
        "For the ears any loudspeaker and microphone; in wind a headset is best. "
        "Have a compass, a spirit level and a red lamp with you. Without sight a talking phone is both compass and level."
    ),
    "gloves": (
        "Nothing has to be touched but the telescope: every answer is spoken. "
        "Keep gloves on until a key or a screw needs a bare finger, and in frost touch no bare metal. "
        "With a key to talk, any large key will do: hold the space bar, or tap it for one answer."
    ),
    "wind": (
        "Turn your back to the wind, with the microphone in front of you. "
        "Say one short phrase and wait for the soft sound that tells you it was heard. "
        "If little gets through, start it with the key to talk, or put a piece of foam over the microphone."
    ),
    "headset": (
        "With a headset start it with the option headset: then you may talk while it speaks. "
        "Leave one ear free, to hear the mount, people and traffic."
    ),
    "sight": (
        "Say at any time: I'm blind, or my sight is poor. It then goes by touch and ear, and by the brightest stars. "
        "It asks once what tells you level and north: a talking phone, a talking compass, a raised mark, or nothing. "
        "Say my child looks for me, or someone looks for me: each question becomes one that they can answer. "
        "Say I'm alone again when they leave; at the end it offers to remember that. "
        "Alone without sight a star can't be centred. Set-up by touch, times, directions and the story of every target remain."
    ),
    "children": (
        "Tell it that you are with people: it then listens only while you hold a key. "
        "A child stands beside the tripod, never under the tube, and looks only when all stands still. "
        "By day nobody looks through anything until you have said so: the Sun blinds at once. "
        "Say for the children, and it chooses what is easy to see."
    ),
    "hearing": (
        "Everything it says is printed, too. "
        "Started with the option text it needs no sound at all, and a screen reader reads it line by line. "
        "To hear it better say: speak up, speak slowly, fewer words, or repeat that. "
        "It never repeats a question more than twice in the same words."
    ),
    "board": (
        "It can begin by itself when a small Linux board is switched on, with no screen and nobody logged in. "
        "Install it once, by a remote login or with somebody's eyes, and plug a headset in. "
        "The command check, with the option aloud, chooses ear and voice with you. "
        "The command profile near, with a large town, keeps your place. "
        "The command autostart on writes what begins it, and says what must be done besides. "
        "From then on it waits for sound after the power comes on, and says good evening. "
        "No network is needed, and where there is no clock chip the time is asked first. "
        "After a power cut it offers to go on; good night ends it until the power comes on again."
    ),
    "safety": (
        f"{SUN_CAUTION} "
        "Cables and tripod legs trip people in the dark: lay them out of your path before it gets dark. "
        "Tube and mount are heavy: lift with bent knees. A mount may move when it is switched on: hands and eyes away until it stands. "
        "Dress for standing still, and tell somebody where you are. "
        "Tell me of thunder, a fall, smoke or a caught hand: I say what helps, and wait for you."
    ),
    "privacy": (
        "It works without a network, and sends nothing but to a mount that you name. "
        "What the microphone hears is understood and dropped; no sound is ever kept. "
        "Your answers, and what you saw, lie in one folder on this device, and the command log forget removes them."
    ),
    "limits": (
        "It can't see your field, your telescope or the weather, and knows no comets. "
        "In noise it refuses more: say it again, come closer, or take a key to talk. "
        "Asked why a star was missed it may name the wrong cause: then it asks on. "
        "It has turned only simulated mounts so far, and has heard only synthesised voices, none of people in wind. "
        "Never count on your voice alone to halt a mount: a key is surer. "
        "Alone without sight a star can't be centred."
    ),
}
