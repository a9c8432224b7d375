"""What a typed line at a target is most likely about, by its words: the phrase that would have said it.

Only for lines that are understood in no other way. What changes anything is asked back, so a wrong guess costs one word.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from companion.languages.en.content_words import asks

_POINT = r"(?P<point>north[ -]?east|north[ -]?west|south[ -]?east|south[ -]?west|north|south|east|west)"
_LONGEST_NAME = 4
_NO_NAME = frozenset(
    re.findall(
        r"\w+",
        "show see look go try do start begin first want wants next find visit point please like can could they she he "
        "we you i me us them the a an at is are was were it that this what where when which how who in on of to for "
        "with and or my our their again now then one some any good north south east west ",
    )
)
"""No name begins or ends with them, save "the"."""
_CHILDREN = r"(kids?|children|child|little ones|daughter|son|boys|girls|beginners)"
_SHORTEST_NAME = 4
_WANTED = re.compile(r"\b(show|see|look|go|try|do|start|begin|first|want|wants|next|find|visit|point|please|like)\b")
_ASKED_OF_A_NAME = (
    (r"\b(rises?|comes? up|rising)\b", "when does {} rise"),
    (r"\b(sets?|goes? down|setting|disappears?|sinks?)\b", "when does {} set"),
    (r"\bhow (high|low)\b", "how high is {}"),
    (r"\bhow (far|distant)\b|\bdistance\b|\blight ?years?\b", "how far is {}"),
    (r"\bhow (big|large|wide)\b|\bsize\b", "how big is {}"),
    (r"\b(up|visible|out)\b", "is {} up"),
    (r"^(what|what's) (kind|sort|is|are|exactly)\b", "what is {}"),
)
"""What is asked of a thing by its name, wherever that stands in the line."""
_ABOUT: tuple[tuple[str, str], ...] = (
    (r"^(how (old|far|big|bright|wide|large|many stars)|can (it|they) be|does it|do they)\b", "tell me more"),
    (r"\bhow many\b.*\b(see|seen|looked|done|had|logged|visited)\b|\b(read|tell|give)\b.*\blist\b", "how many have we seen"),
    (r"\b(log|note|notes|jot|write|record|book|journal|diary|entry|tick)\b", "seen it"),
    (rf"\b(only|just)\b.*\b{_POINT}\b.*\b(clear|free|open)\b", "only the {point} is clear"),
    (r"\b(clear|open|cleared|gone)\b.*\b(again|now|up)\b|\b(clouds?|sky)\b.*\b(gone|away|clear|open|gap)\b", "it's clear again"),
    (r"\b(cloud|clouds|clouded|overcast|covered)\b", "cloud's coming"),
    (r"\b(dew|dewed|fogg?y?|fogged|misted|wet|damp|frost|frosted)\b", "it's dewed up"),
    (r"\b(battery|batteries)\b", "my battery"),
    (r"\b(nudged?|bumped?|knock(ed)?|kick(ed)?|tripped|fell|shoved)\b", "someone kicked it"),
    (r"\b(drift\w*|tracking|wandered|slipped|alignment|pointing)\b", "it's drifting"),
    (r"\b(break|tea|coffee|cocoa|cuppa|snack|cold|freezing|warm|rest|chocolate|drink|sit down)\b", "take a break"),
    (r"\b(bed|bedtime|home|stop|pack|finish|night|enough)\b", "that's all"),
    (r"\bmoonlight\b|\bmoon\b.*\b(bright|drowns?|washes|spoils?|problem|kills)\b", "the Moon is too bright"),
    (r"\b(worth it|how high|how low|higher|lower|climb\w*|placed|setting|sets|sink\w*)\b", "is it well placed"),
    (r"\b(eyepieces?|magnif\w*|power|millimet\w*)\b", "which eyepiece"),
    (r"\b(filters?|u ?h ?c|o (three|3))\b|\b(hurts?|dazzl\w*|blind\w*)\b", "which filter"),
    (
        r"\b(too|less)\b.*\b(hard|faint|difficult|demanding|dim)\b|\bdon't get it\b"
        r"|\b(something|anything|an|one|more|go|show|try)\b.*\b(easier|simpler|easy)\b",
        "something easier",
    ),
    (r"\b(harder|challeng\w*|difficult|fainter|tougher|trickier)\b", "something harder"),
    (r"\b(brighter)\b", "something brighter"),
    (r"\b(split|tight|separat\w*|apart|companion)\b", "tell me more"),
    (
        rf"\b{_CHILDREN}\b.*\b(next|like|show|something|bored|for)\b|\b(for|next|something|show)\b.*\b{_CHILDREN}\b",
        "something for the kids",
    ),
    (r"\bglobulars?\b", "any globulars"),
    (r"\bopen clusters?\b", "open clusters"),
    (r"\bplanetar(y|ies)\b", "planetaries"),
    (r"\bgalax(y|ies)\b", "galaxies"),
    (r"\bnebula[es]?\b", "nebulas"),
    (r"\b(doubles?|pairs?|binary|binaries)\b", "doubles"),
    (r"\b(red|carbon|orange) stars?\b", "carbon stars"),
    (r"\bclusters?\b", "clusters"),
    (r"\b(another|any|some|show|see|next|more)\b.*\bplanets?\b", "planets"),
    (r"\b(colou?r|colou?red|colou?rful|blue|golden)\b", "something colourful"),
    (r"\b(can't|cannot|can not|don't|doesn't|not|no|nothing)\b.*\b(see|find|there|luck|sign|show|spot)\b", "nothing there"),
    (r"\b(describe|look like|supposed|should|details?|moons|rings?|belts?|spot|craters?|bands?|visible)\b", "what should I see"),
    (rf"^(?=.*\b(any\w*|something|what's|whats|good|see|look)\b).*?\b{_POINT}\b", "anything in the {point}"),
    (r"\b(near|nearby|around here|next to|close by|neighbours?)\b", "what else is near here"),
    (
        r"\b(best|recommend|suggest|pleaser|spectacular|finest|showpiece|highlight|famous|special|pretty|overhead|zenith)\b",
        "what's best now",
    ),
    (r"\b(later|midnight|another time|not now|tomorrow)\b", "maybe later"),
    (r"\b(wow|great|loves?|loved|lovely|beautiful|amazing|cool|fantastic|wonderful|stunning|gorgeous|superb|marvellous)\b", "wow"),
    (r"\b(got|found|there|centred|view|have)\b.*\b(it|is)\b|\bin view\b|\bcentred\b", "found it"),
    (r"\b(next|another|more|final|last|move on|one for the road|leave|skip|else)\b", "next target"),
)
_OF_THE_FORM: dict[str, tuple[tuple[str, str], ...]] = {
    "how_it_showed": (
        (r"\b(averted|barely|glimpsed?|hardly|difficult|faint\w*|just)\b", "only just"),
        (r"\b(not|no|nothing|couldn't|didn't)\b.*\b(see|seen|find|show|there)\b", "not at all"),
        (r"\b(think|suspect\w*|maybe|perhaps|possibly)\b", "suspected"),
        (r"\b(clear\w*|eas\w+|trouble|obvious\w*|well|bright\w*|plain\w*|problem)\b", "easily"),
    ),
    "how_it_looked": (
        (r"\b(details?|detailed|belts?|bands?|structure|spots?|rings?|moons?)\b", "some detail"),
        (r"\b(stars|resolved|grainy|sparkl\w*)\b", "single stars"),
        (r"\b(core|centre|center|nucleus|middle)\b", "a bright middle"),
        (r"\b(dark|lane|hole)\b", "a dark patch"),
        (r"\b(mist\w*|fuzz\w*|hazy|cloud\w*|smudge|glow\w*)\b", "misty"),
        (r"\b(done|all|plenty|enough|nothing|more|finished|it)\b", "that's all"),
    ),
}
"""The same at two questions of what is written down."""


def gists(line: str, rule: str) -> Iterator[str]:
    """Yield the phrases that a typed line may stand for where answers of that rule are expected, the likeliest first."""
    bare = " ".join(re.findall(r"[a-z0-9']+", line.lower()))
    yield from (phrase for pattern, phrase in _OF_THE_FORM.get(rule, ()) if re.search(pattern, bare))
    if asks(line):
        ask = next((ask for pattern, ask in _ASKED_OF_A_NAME if re.search(pattern, bare)), "where is {}")
        yield from (ask.format(name) for name in _spans(bare))
    if rule != "target":
        return
    if _WANTED.search(bare):
        yield from (f"show me {name}" for name in _spans(bare))
    if re.search(r"\b(in|next)\b", bare):
        yield from (f"something in {name}" for name in _spans(bare))
    for pattern, phrase in _ABOUT:
        if found := re.search(pattern, bare):
            yield phrase.format(**found.groupdict())


def _spans(bare: str) -> Iterator[str]:
    """Yield what may be a name in it, the longest first."""
    words = bare.split()
    for count in range(min(_LONGEST_NAME, len(words)), 0, -1):
        for first in range(len(words) - count + 1):
            name = words[first : first + count]
            if name[-1] not in _NO_NAME and name[0] not in _NO_NAME and len(" ".join(name)) >= _SHORTEST_NAME:
                yield " ".join(name)
