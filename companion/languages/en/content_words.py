"""What carries the meaning of a typed line: its words less their endings, those of one meaning as one, and the small ones left out."""

from __future__ import annotations

import re

from companion.orthography import Content, Telling


def _words(line: str) -> list[str]:
    return line.split()


_SMALL = frozenset(
    _words(
        "a an the this that these those it its it's that's there there's here i i'm i've i'd i'll me my mine we we're we've we'd us our "
        "you you're your he she him her they they're them his their some any all both each of to for with from by at as into onto than "
        "and or so just only very really quite rather pretty well then now already still yet again please thanks um er oh okay ok hmm "
        "is be been being am are was were s t re ve ll d m do does did doing have has had having got get gets getting gotten "
        "will would could can may might must should shall ought need needs let let's lets going go goes went gone want wants like "
        "supposed seem seems think guess suppose mean but because while over about around way bit thing "
        "things stuff ones kind sort sure say says said tell asking asks ask look looks looking come comes came keep keeps make makes made "
        "put see something anything everything earth world hell heck somebody someone everybody else much many too also even tonight "
        "what whats what's whether simply really sitting sits standing part use using used know knows idea remind told "
        "own upon per via within until till ever yours give gives take takes let's trying try tried first back away else whole little "
        "hi hello able demand demands demanding request requests requesting prompt prompts prompting insists expects",
    )
)
"""They tell too little: nearly every line has some of them."""
_NOT = frozenset(
    _words(
        "not no never none nothing neither nor nope without cannot dont cant wont isnt doesnt didnt havent hasnt couldnt "
        "if unless except although"
    )
)
_DECISIVE = frozenset(_words("left down north south east west"))
"""Not "right" and "up", which mean much else."""
_OPPOSITES = {
    one: other
    for pair in ("on off", "in out", "up down", "left right", "higher lower", "more less")
    for one, other in (_words(pair), _words(pair)[::-1])
}
_SLIGHT = frozenset(_words("which where how why who when on off in out up right"))
_ONE_MEANING = (
    "handset control controller paddle keypad remote",
    "phone mobile cellphone smartphone app",
    "tree trees branch branches twig twigs bush hedge leaves roof house building wall chimney",
    "cloud clouds cloudy overcast grey gray murk mist",
    "accept accepts accepted success successful succeeded happy content worked works",
    "refuse refused refuses fail failed fails rejected rejects error unhappy bad",
    "vanish vanished disappeared lost gone",
    "kick kicked bump bumped knock knocked nudged shoved leaned leant jogged tripped banged hit",
    "middle centre center centred centered central crosshair crosshairs",
    "flat horizontal level levelling leveling levelled leveled",
    "exact exactly precise precisely precision accurate accurately perfect perfectly picky fussy close careful",
    "tight tighten tightened locked lock secure secured",
    "tip tips tipping fall falls falling topple topples",
    "wobble wobbles wobbly shaky shakes shaking wobbling",
    "cold freezing frozen chilly numb",
    "cool cools cooling",
    "rain raining drizzle drizzling",
    "soft squishy muddy mud",
    "spin spinning spins swing swings swinging wander wanders jumps settle",
    "begin start started starting crack commence",
    "bright brighter brightest",
    "dim faint fainter dimmer",
    "dark blackness black",
    "blur blurred blurry fuzzy sharp focus focused doughnut",
    "sign minus negative plus positive",
    "elevation metres meters",
    "city town cities towns",
    "key keys button buttons arrow arrows",
    "turning turns turn slewing slew slews motors motor moving moves move movement",
    "drift drifts drifting slides sliding slips",
    "wrong incorrect mistake mistyped typo",
    "backwards direction",
    "fit fits fitted attach attached",
    "heavy lift",
    "big biggest largest large longest",
    "wait moment",
    "another different other",
    "edge side",
    "dead blank",
    "easy easier simpler",
    "name names",
    "list menu",
    "beep beeps beeped beeping",
    "screen display",
    "explain describe",
    "afterwards after",
    "worse farther",
    "miss misses missed",
    "distant distance far",
    "telescope scope kit gear equipment rig",
    "star stars",
    "quiet silent",
    "check checked",
    "broken broke bust busted faulty damaged kaput duff",
    "cap caps cover covers lid lids",
    "cable cables cord cords wire wires lead leads",
    "eyepiece eyepieces ocular oculars",
    "finder finderscope viewfinder",
    "tube barrel",
    "stuck jammed stalled crashed hung unresponsive",
    "fast ahead",
    "blocked hidden hiding hid obscured obstructed",
    "battery batteries",
    "children child kids kid youngsters",
    "bored boring dull",
    "sink sinks sinking sank sunk",
    "swap swapped change changed changes",
    "repeat repeated",
    "pointing points point pointed aimed aiming aims",
    "colour colours color colors coloured",
)
_SAME = {word: group.split()[0] for group in _ONE_MEANING for word in group.split()}
_ENDINGS = ("'s", "ings", "ing", "ed", "ies", "es", "s", "ly")
_SHORTEST_STEM = 4
_PUT_OTHERWISE = (
    (r"\bsummer ?time\b", "daylight saving"),
    (r"\bhand (control|controller|box|set)\b", "handset"),
    (r"\bpole star\b|\bpolaris\b", "polestar"),
    (r"\bspirit level\b", "bubble"),
    (r"^(can|could|wo|do|is|should|are)n't (?=(we|you|it|i|there|that|this)\b)", ""),
    (r"\bfar too\b", "too"),
    (r"\btimezone\b", "time zone"),
    (r"\bcarry on\b", "continue"),
    (r"\b(break|breaking|broke) (it|something|anything|this)\b", "damage"),
    (r"\bblack holes?\b", "blackhole"),
    (r"\b(stopped|finished|done|quit) (moving|turning|slewing|going)\b", "stopped"),
    (r"\b(locked|seized|frozen|froze) (up|solid)\b", "stuck"),
    (r"\bflat batter(y|ies)\b", "battery flat dead"),
    (r"\bnext to\b", "beside"),
    (r"\bred (light|dot|spot)\b", "dot"),
    (r"\b(a|hang on a|just a) (minute|second|sec|moment|mo)\b|\b(hang|hold) on\b", "wait"),
    (r"\bgood enough\b|\bclose enough\b", "exact"),
    (r"\bwrong (direction|way)\b", "backwards"),
    (r"\babove (the )?sea( level)?\b", "elevation"),
    (r"\bo'?clock\b", "hour"),
    (r"\bas far as (i|we) (can )?\w+\b", ""),
)
"""Several words of one meaning."""
_ASKED = re.compile(
    r"\?|^(?:(?:and|but|so|hmm|um|er|well|okay|ok|please|right|hey|now|then)\W+)*"
    r"(?:(?:what|which|where|how|why|who|when|is|are|am|was|do|does|did|shall|any)(?:'s|s|n't)?\b"
    r"|(?:can|could|should|will|would|must|may)(?:n't)?\b(?! (?:only|just|not|see|hardly|barely|still|be|have)\b))"
    r"|\b(?:explain|wonder\w*|remind me|tell me|know|idea)\b.*\b(?:what|which|where|how|why|who|when|if)\b"
)
_GOING = re.compile(
    r"\b(?:go|going|back|jump|skip|start|begin|again|redo|repeat|restart|move|switch|return|onto|straight|let's|lets|shall we|want|like to"
    r"|on to|over to|pack|finish|do (?:the|my|our|it)|anew|re-?(?:do|start|align|level|enter|centre))\b"
)
_FIGURES = frozenset(
    _words(
        "two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen "
        "twenty thirty forty fifty sixty seventy eighty ninety hundred thousand zero half quarter",
    ),
)
_NEGATED, _FIGURE = "not", "#"
_COMMANDING = frozenset({"skip"})


def _stem(word: str) -> str:
    if word in _SAME:
        return _SAME[word]
    for ending in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= _SHORTEST_STEM:
            word = word.removesuffix(ending)
            break
    if word in _SAME:
        return _SAME[word]
    return word.removesuffix("e") if len(word) > _SHORTEST_STEM else word


def of_word(word: str) -> Content | None:
    """Return what a word carries; None for a figure."""
    bare = word.lower().strip(".,;:!?'\"")
    if bare in _FIGURES:
        return None
    if bare in _NOT or bare.endswith("n't"):
        return frozenset({_NEGATED})
    asking = bare.removesuffix("'s")
    if asking in _SLIGHT:
        return frozenset({asking})
    return frozenset() if bare in _SMALL or bare == "one" else frozenset({_stem(bare)})


def of_line(line: str) -> Content:
    """Return what a line carries."""
    bare = line.lower().replace("’", "'")
    for pattern, other in _PUT_OTHERWISE:
        bare = re.sub(pattern, other, bare)
    words = re.findall(r"[a-z0-9']+", bare)
    figures = {_FIGURE for word in words if word.isdigit() or word in _FIGURES}
    return frozenset(figures).union(*(of_word(word) or frozenset() for word in words if not word.isdigit()))


def asks(line: str) -> bool:
    """Say whether a line asks something."""
    return _ASKED.search(line.lower().replace("’", "'")) is not None


def goes(line: str) -> bool:
    """Say whether a line wants to go somewhere, or to begin something again."""
    return _GOING.search(line.lower()) is not None


TELLING = Telling(of_word, of_line, asks, goes, _DECISIVE, _NEGATED, _COMMANDING, _FIGURE, _SLIGHT, _OPPOSITES)
"""English, as it is typed."""
