"""English for the words of the trade, told by what each feels like and where it sits, and for how things are done by hand.

At most two sentences each.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from companion.talk.trade_words import Task, TradeWord

WORDS: Mapping[TradeWord, str] = {
    TradeWord.ALIGNMENT: (
        "Teaching the mount how the sky lies, by centring stars whose names it knows. After that it finds things by itself."
    ),
    TradeWord.ALTITUDE_SCALE: "A ring with degrees on it, at the side where the tube tips. Zero means that the tube lies level.",
    TradeWord.APERTURE: "How wide the telescope's front lens or main mirror is. Lay a ruler across the open end.",
    TradeWord.APPARENT_FIELD: (
        "How wide the round window looks when your eye is at the eyepiece. Fifty degrees looks like a dinner plate at arm's length."
    ),
    TradeWord.ARROW_KEYS: (
        "The four keys in a ring on the handset, often with raised edges. Each turns the tube one way for as long as you hold it."
    ),
    TradeWord.AVERTED_VISION: "Looking a little to one side of a faint thing. The edge of your eye sees better in the dark.",
    TradeWord.AXIS: "What a thing turns about, like the pin of a hinge. Your mount has two: one upright, one across.",
    TradeWord.AZIMUTH: (
        "How far round from north something stands, to the right: north is zero, east ninety degrees. "
        "Turn the mount on its foot and you change it."
    ),
    TradeWord.BALANCE: "Let go of the tube with its clamp loose: it should stay where it is. If it tips, slide it along until it doesn't.",
    TradeWord.BARLOW: "A lens in a short tube that goes in before the eyepiece. It doubles the power, mostly, and dims the view.",
    TradeWord.BASE: "The lowest part of the mount, which sits on the tripod and doesn't turn. The round bubble is often on it.",
    TradeWord.BUBBLE: (
        "A small round window with liquid and an air bubble, on the base or the tripod's top. Level is when the bubble rests in its ring."
    ),
    TradeWord.CAP: "The lid over the front of the tube, and a small one on the finder. Feel for a rim as wide as the tube.",
    TradeWord.CLAMP: "A knob or lever on the mount's arm that you tighten to keep the tube from tipping. Hold the tube when you loosen it.",
    TradeWord.COMPASS_NEEDLE: "The thin swinging pointer in a compass. It follows magnetic north, which is rarely the true one.",
    TradeWord.CONFIRM: "Telling the mount that the star is centred now. It is a key on the handset, often under your thumb.",
    TradeWord.CROSS: (
        "Four bright stars close together, low or high in the south. The longer line through them points to the pole of the sky."
    ),
    TradeWord.DAYLIGHT_SAVING: (
        "The hour that clocks are put forward in summer. A switch in the mount's menu: wrong, and every star is more than a fist off."
    ),
    TradeWord.DEW: "Water that settles on cold glass like breath on a window. It makes every star a pale blot.",
    TradeWord.DEW_SHIELD: "A short sleeve that makes the front of the tube longer. It slides or clips on round the lens and keeps it dry.",
    TradeWord.DIAGONAL: "The bent piece between tube and eyepiece, like an elbow. A mirror in it lets you look down instead of up.",
    TradeWord.DOUBLE_STAR: "Two stars so close together that the eye sees one. A telescope parts them, often in two colours.",
    TradeWord.DRIFT: "The Earth turns, so a star slides slowly out of the view. Nothing is loose: bring it back.",
    TradeWord.EXIT_PUPIL: (
        "The small bright disc you see in the eyepiece from an arm's length. Wider than your eye's own pupil, some light is lost."
    ),
    TradeWord.EYEPIECE: "The little lens, thumb-sized, that you look into; it lifts out of the focuser. A screw at the side keeps it in.",
    TradeWord.FILTER: "A coloured glass that screws into an eyepiece. It only takes light away, so few things gain by it.",
    TradeWord.FINDER: "The small sight on the side of the tube, as long as a finger or a hand. It shows a wider piece of sky.",
    TradeWord.FINDER_SCREWS: "Two or three small screws around the finder, or wheels under it. Turning one tips the finder a little.",
    TradeWord.FIST: "Your closed hand at arm's length, one eye shut: about ten degrees of sky. Stack them from the horizon up.",
    TradeWord.FOCAL_LENGTH: (
        "How long the light's way is inside the telescope, in millimetres. It is printed near the front or the focuser, with an F."
    ),
    TradeWord.FOCUSER: "The knob that moves the eyepiece in and out. It sits beside the eyepiece, or at the back of the tube.",
    TradeWord.FORK: "The arm or two arms that hold the tube. Keep fingers out: it pinches when it turns.",
    TradeWord.GALAXY: "A far island of stars: a pale oval smudge, no more. Look a little to one side of it.",
    TradeWord.GLOBULAR_CLUSTER: "A ball of very many old stars. It looks like a round fuzzy patch, grainy at its edge.",
    TradeWord.HAND_CONTROL: "The thing like a telephone at the end of the curly cable, with keys and a small display.",
    TradeWord.LANDMARK: "Something far off that never moves: a mast, a church tower, the corner of a roof.",
    TradeWord.LATITUDE: "How far north or south on the Earth we are, in degrees. Once I have a town near us, ask where we are.",
    TradeWord.LEG_LOCK: "The lever or knob half way down each leg of the tripod. Tight, the leg can't slide in when you lean on it.",
    TradeWord.LONGITUDE: "How far east or west of Greenwich we are, in degrees. Once I have a town near us, ask where we are.",
    TradeWord.LOW_POWER: "The eyepiece with the largest number on it, usually the longest or fattest one. It shows the most sky.",
    TradeWord.MAGNITUDE: "How bright a thing is: the larger the number, the fainter. Six is the faintest star for the eye.",
    TradeWord.MILKY_WAY: "The pale band of countless stars across a dark sky. If you see it, your place is good.",
    TradeWord.MOUNT: "The part with the motors, between tripod and tube. It turns the tube.",
    TradeWord.NEBULA: "A cloud of gas that shines. It looks like a breath of grey, best with your eye a little to one side.",
    TradeWord.OPEN_CLUSTER: "A loose family of stars, like a handful of sugar. Low power shows all of it.",
    TradeWord.PARK: "Sending the tube back to where it rests: level, as it began. There is often a menu entry for it.",
    TradeWord.PLANETARY_NEBULA: (
        "The shell of a dying star: a tiny round disc or ring, grey or greenish. It has nothing to do with planets."
    ),
    TradeWord.POLE_STAR: "The star that stands over true north all night. It is only fairly bright.",
    TradeWord.POWER: "How many times larger things look. The smaller the number on the eyepiece, the higher its power.",
    TradeWord.PROOF: "Sending the mount to a star it hasn't been shown. If that star is in the eyepiece, it knows the sky.",
    TradeWord.RED_DOT: "A little window with a red dot in it, seen with both eyes open. Where the dot lies, the tube points.",
    TradeWord.REFERENCE_STAR: "A bright star that you centre so that the mount learns where it is. Two are usual.",
    TradeWord.SLACK: (
        "The play in the gears: for a moment a key is pressed and nothing moves. Ending with the same keys each time takes it out."
    ),
    TradeWord.SLEW: "When the mount turns by itself, fast, with a whirr. Stand back, and any arrow key holds it.",
    TradeWord.SLOW_KEYS: "The arrow keys, set to a slower speed: on most controls a key for the rate, then a low number. Stars then creep.",
    TradeWord.SPIRIT_LEVEL: "A short bar with a bubble in a tube. Lay it along a thing: in the middle means level.",
    TradeWord.STARTING_POSE: "How the mount stands before it knows anything: base level, facing true north, tube level.",
    TradeWord.SYNC: "Telling the mount: you point exactly at this now. It is an entry in the handset's menu.",
    TradeWord.TARGET: "Something worth looking at tonight: a cluster, a galaxy, a planet. I pick those that stand well.",
    TradeWord.TRIPOD: "The three legs that everything stands on, with a plate in the middle.",
    TradeWord.TRUE_NORTH: "The way to the Earth's pole, where the sky turns about. A compass misses it by a few degrees.",
    TradeWord.TUBE: "The telescope itself, the long or stubby barrel with the glass in it.",
    TradeWord.TWILIGHT: "The light that stays in the sky after sunset and before sunrise. Faint things wait until it is gone.",
    TradeWord.UNIVERSAL_TIME: (
        "One clock for the whole Earth, that of Greenwich without summer time. Your own time is so many hours from it."
    ),
    TradeWord.ZONE: "How many hours your clock is ahead of Universal Time or behind it, in winter. It is one line in the mount's settings.",
}

TASKS: Mapping[Task, str] = {
    Task.AVERT: "Let your eye rest on the dark beside it, a finger's width away in the view. Wait, and it comes out.",
    Task.BALANCE: "Hold the tube, loosen its clamp, and see which way it tips. Slide it the other way until it stays, then clamp it.",
    Task.CENTRE: "Slow keys, short presses, eye at the eyepiece. Bring the star to the middle, and end with the usual keys.",
    Task.CONFIRM: "When the star is in the middle, press the key that confirms on the handset. It says on its display which one.",
    Task.EYEPIECE_IN: "Loosen the small screw at the focuser, slide the eyepiece in, and nip the screw. Begin with the largest number.",
    Task.FACE_NORTH: "Turn the whole mount on its foot until the tube's front looks to true north. Ask which way north is, and I show you.",
    Task.FINDER: (
        "Put something far off in the middle of the eyepiece. Then turn the finder's screws until its mark sits on that same spot."
    ),
    Task.FOCUS: "Turn the focuser slowly on a star until it is the smallest point. Past that it swells again: go back a little.",
    Task.LEVEL: "The bubble runs to the high side: make that leg a little shorter. Small steps, and lock each leg again.",
    Task.LOCK_LEGS: "Pull the leg out as far as you want, then turn or press its lever until it is tight. Lean on it once.",
    Task.MEASURE: "Stretch your arm, close one eye, make a fist. Its width is a fist; stack one on another.",
    Task.MOUNT_ON: "Lift it with your legs and set it on the tripod's plate. Turn the big screw below until it is tight.",
    Task.SYNC: "Centre the star, find sync in the handset's menu, and press the key that confirms.",
    Task.TUBE_LEVEL: "Hold the tube, loosen its clamp, and lay a spirit level along it. When the bubble is in the middle, clamp it.",
    Task.TUBE_ON: "Slide its rail into the groove on the mount and tighten the knob there. Don't let go until you have shaken it gently.",
}

FORMS: Mapping[TradeWord, tuple[str, ...]] = {
    TradeWord.ALIGNMENT: ("alignment",),
    TradeWord.ALTITUDE_SCALE: ("altitude scale",),
    TradeWord.APERTURE: ("aperture",),
    TradeWord.APPARENT_FIELD: ("apparent field",),
    TradeWord.ARROW_KEYS: ("arrow keys", "arrow key"),
    TradeWord.AVERTED_VISION: ("averted vision",),
    TradeWord.AXIS: ("axis",),
    TradeWord.AZIMUTH: ("azimuth",),
    TradeWord.BALANCE: ("balance",),
    TradeWord.BARLOW: ("Barlow", "Barlow lens"),
    TradeWord.BASE: ("base",),
    TradeWord.BUBBLE: ("bubble",),
    TradeWord.CAP: ("cap", "caps"),
    TradeWord.CLAMP: ("clamp", "clamps"),
    TradeWord.COMPASS_NEEDLE: ("compass needle", "needle"),
    TradeWord.CONFIRM: ("confirm",),
    TradeWord.CROSS: ("cross", "Southern Cross"),
    TradeWord.DAYLIGHT_SAVING: ("daylight saving",),
    TradeWord.DEW: ("dew",),
    TradeWord.DEW_SHIELD: ("dew shield",),
    TradeWord.DIAGONAL: ("diagonal",),
    TradeWord.DOUBLE_STAR: ("double star",),
    TradeWord.DRIFT: ("drift", "drifts"),
    TradeWord.EXIT_PUPIL: ("exit pupil",),
    TradeWord.EYEPIECE: ("eyepiece", "eyepieces"),
    TradeWord.FILTER: ("filter", "filters"),
    TradeWord.FINDER: ("finder",),
    TradeWord.FINDER_SCREWS: ("finder screws", "finder's screws"),
    TradeWord.FIST: ("fist", "fists"),
    TradeWord.FOCAL_LENGTH: ("focal length",),
    TradeWord.FOCUSER: ("focuser",),
    TradeWord.FORK: ("fork",),
    TradeWord.GALAXY: ("galaxy",),
    TradeWord.GLOBULAR_CLUSTER: ("globular cluster", "globular star cluster"),
    TradeWord.HAND_CONTROL: ("hand control", "handset"),
    TradeWord.LANDMARK: ("landmark",),
    TradeWord.LATITUDE: ("latitude",),
    TradeWord.LEG_LOCK: ("leg lock", "leg locks"),
    TradeWord.LONGITUDE: ("longitude",),
    TradeWord.LOW_POWER: ("low power eyepiece", "low power", "lowest power"),
    TradeWord.MAGNITUDE: ("magnitude",),
    TradeWord.MILKY_WAY: ("Milky Way",),
    TradeWord.MOUNT: ("mount",),
    TradeWord.NEBULA: ("nebula",),
    TradeWord.OPEN_CLUSTER: ("open cluster", "open star cluster"),
    TradeWord.PARK: ("park",),
    TradeWord.PLANETARY_NEBULA: ("planetary nebula",),
    TradeWord.POLE_STAR: ("pole star",),
    TradeWord.POWER: ("higher power", "power"),
    TradeWord.PROOF: ("proof",),
    TradeWord.RED_DOT: ("red dot",),
    TradeWord.REFERENCE_STAR: ("alignment star", "alignment stars", "reference star", "reference stars"),
    TradeWord.SLACK: ("slack",),
    TradeWord.SLEW: ("slew", "slewing"),
    TradeWord.SLOW_KEYS: ("slow keys",),
    TradeWord.SPIRIT_LEVEL: ("spirit level",),
    TradeWord.STARTING_POSE: ("starting pose",),
    TradeWord.SYNC: ("sync",),
    TradeWord.TARGET: ("target", "targets"),
    TradeWord.TRIPOD: ("tripod",),
    TradeWord.TRUE_NORTH: ("true north",),
    TradeWord.TUBE: ("tube",),
    TradeWord.TWILIGHT: ("twilight",),
    TradeWord.UNIVERSAL_TIME: ("Universal Time",),
    TradeWord.ZONE: ("zone",),
}
"""How each is said, in the singular first. The grammar file has the same."""


def first_trade_word(words: str) -> TradeWord | None:
    """Return the word of the trade that is said first; of two in the same place the longer one. None where there is none."""
    found = ((_place(form, words), -len(form), word) for word, forms in FORMS.items() for form in forms)
    return min(((place, length, word) for place, length, word in found if place >= 0), default=(0, 0, None))[2]


def _place(form: str, words: str) -> int:
    """Return where a form stands in some words, as words of its own; -1 where it doesn't."""
    match = re.search(rf"\b{form.replace(' ', '[ -]')}\b", words, re.IGNORECASE)
    return match.start() if match else -1
