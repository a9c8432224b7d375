"""The same by the rule of the open question: of the set-up, and of what is written down."""

from __future__ import annotations

FORM: dict[str, tuple[tuple[str, str], ...]] = {
    "how_it_showed": (
        (r"\b(averted|barely|glimpsed?|hardly|difficult|faint\w*|just)\b", "only just"),
        (r"\b(not|no|nothing|couldn't|didn't)\b.*\b(see|seen|find|show|there)\b", "not at all"),
        (r"\b(think|suspect\w*|maybe|perhaps|possibly|certain|sure|sort of|kind of)\b", "suspected"),
        (r"\b(clear\w*|eas\w+|trouble|obvious\w*|well|bright\w*|plain\w*|problem)\b", "easily"),
    ),
    "how_it_looked": (
        (r"\b(two|pair|both)\b", "two"),
        (r"\b(round|ring|circular|ball|disc)\b", "round"),
        (r"\b(details?|detailed|belts?|bands?|structure|spots?|moons?)\b", "some detail"),
        (r"\b(stars|resolved|grainy|sparkl\w*)\b", "single stars"),
        (r"\b(core|centre|center|nucleus|middle)\b", "a bright middle"),
        (r"\b(dark|lane|hole)\b", "a dark patch"),
        (r"\b(mist\w*|fuzz\w*|hazy|cloud\w*|smudge|glow\w*)\b", "misty"),
        (r"\b(done|all|plenty|enough|nothing|more|finished|it)\b", "that's all"),
    ),
    "one_to_five": (
        (r"\b(?P<mark>one|two|three|four|five|[1-5])\b", "{mark}"),
        (r"\b(perfect\w*|superb|excellent|crystal|rock|dead|flawless|best)\b", "five"),
        (r"\b(terrible|awful|dreadful|hopeless|useless|worst)\b", "one"),
        (
            r"\b(not|wobbl\w*|boil\w*|shak\w*|swim\w*|poor\w*|bad\w*|haz\w*|mist\w*|milky|murky|twinkl\w*|jump\w*"
            r"|mov\w*|cloud\w*|turbulent)\b",
            "two",
        ),
        (r"\b(ok|okay|average|middling|so so|fair\w*|usual|normal|acceptable)\b", "three"),
        (r"\b(steady|still|calm|clear|good|nice|fine|transparent|well)\b", "four"),
    ),
    "milky_way": (
        (r"\b(can't|cannot|not|no|none|nothing|don't|never)\b", "not at all"),
        (r"\b(hardly|barely|just|glimpse\w*|maybe|scarcely)\b", "only just"),
        (r"\b(faint\w*|hint|washed|weak\w*|bit|slightly|pale|grey|dim\w*|half)\b", "faintly"),
        (r"\b(clear\w*|eas\w+|plain\w*|bright\w*|obvious\w*|well|horizon|structure|whole|see)\b", "easily"),
    ),
    "star_count": (
        (r"^(?!.*\bmeter\b).*\b(?P<count>[1-9]|[12]\d|3[0-9])\b", "{count} stars"),
        (r"\b(can't|none|not|no|nothing|don't)\b", "none at all"),
    ),
    "north": ((r"\b(needle|compass|magnet\w*)\b.*\bnorth\b", "it points to magnetic north"),),
    "power": ((r"\b(nothing|no|blank|dark)\b.*\b(display|screen|lights?|leds?|happens)\b|\b(volts?|voltage|amps?)\b", "it stays dark"),),
    "setting": ((r"\b(24|twenty four)\b.*\b(hours?|clock|time)\b", "twenty four hours"),),
    "finder": ((r"\blist\b.*\b(hasn't|doesn't|without|lacks|no)\b|\b(isn't|not|no) \w*\s?(in|on) (the|its|my) list\b", "give me another"),),
    "miss": ((r"\b(didn't|did not|haven't|never) (check|look|see|notice|measure|watch)\w*|\balready moved\b|\bforgot\b", "I don't know"),),
    "check": (
        (r"\b(could|might|may|must)('ve| have) been\b", "no"),
        (r"\b(pretty|fairly|quite|almost|nearly|reasonably) (sure|certain|confident)\b", "yes"),
    ),
    "yes_no": (
        (r"\b(still|isn't|not|no longer)\b.*\b(off|out|wrong|missing|there|back|right|good|in)\b", "no"),
        (
            r"\b(good|fine|right|there|back|works?|working|centred|perfect|better) (again|now)\b|\bback in\b|^(it's|it is|that's) back\b",
            "yes",
        ),
    ),
}
