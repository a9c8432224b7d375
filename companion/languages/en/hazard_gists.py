"""Danger in a typed line: what helps comes before whatever else the line may be about, and is told without asking back."""

from __future__ import annotations

import re

_TO_LOOK = (
    r"(look|see|watch|view|observe|point|aim|turn|slew|use|line|find|start|align|filter|through"
    r"|finder|scope|telescope|eyepiece|mark|safe)\w*"
)
_OF_POWER = r"(power|supply|battery|plug|socket|cable|adapter)"
_HELD = r"(stuck|caught|trapped|jammed|pinched)"
_STANDS = r"(tripod|mount|telescope|scope|everything|whole thing|it's)"
_HURT = r"(fell|fallen|hurt|injured|twisted|sprained|broke|broken|cut|bleeding)"
_WHAT_HURTS = r"(myself|(my|the) (leg|ankle|back|head|hand|finger|thumb|foot|toe|arm|wrist|knee|shoulder|neck|face))"
_HAZARDS: tuple[tuple[str, str], ...] = (
    (r"\b(sun|solar)\b.*\b(filters?|film|foil|glasses)\b", "I have a solar filter"),
    (r"\b(turns?|turning|slews?|slewing|moves?|moving|goes|going|swings?|swinging)\b.*\bsun\b", "it won't stop turning"),
    (r"\b(looked|looking|saw|stared|peeked)\b.*\bsun\b|\bsun\b.*\bin(to)? (my|his|her|the) eyes?\b", "I looked at the sun"),
    (r"\b(burn(t|ed)?|hurt|injured|blinded|damaged)\b.*\b(eyes?|retina)\b", "I've hurt my eye"),
    (rf"\bsun\b.*\b{_TO_LOOK}\b|\b{_TO_LOOK}\b.*\bsun\b|\bsunspots?\b|\bsolar eclipse\b", "can I look at the sun"),
    (r"\b(point|aim|turn|look)\w* (it |the \w+ )?(at|to|towards) the sun(set|rise)\b", "can I look at the sun"),
    (r"\b(lightning|thunder\w*)\b", "there's lightning"),
    (r"\b(smok(e|es|ing)|burning smell|smells? (of|like) \w*\s?burn\w*|sparking|on fire|flames|electric shock)\b", "it smells of smoke"),
    (rf"\b{_OF_POWER}\b.*\b(wet|soaked|hot|burnt|burned|melt\w*|swollen|leak\w*|water)\b", "the battery is wet"),
    (r"\bgot (a|an electric) shock\b", "I got a shock"),
    (rf"\b(hands?|fingers?|sleeve|scarf|hair)\b.*\b{_HELD}\b", "my hand is stuck"),
    (
        r"\b(mount|telescope|scope|tube|motors?|it) (won't|doesn't|can't|cannot|will not) (stop|halt)( (turning|moving|slewing|going))?$"
        r"|\bout of control\b",
        "it won't stop turning",
    ),
    (rf"\b{_STANDS}\b.*\b(tipping|tipped|toppl\w+|fell|falling|about to fall|going to fall)\b", "the tripod is tipping over"),
    (r"\btube\b.*\b(slip\w*|sliding|slides|drop\w*|sinking|sinks|falling|swinging)\b", "the tube drops"),
    (rf"\bi('ve| have)?\b.*\b{_HURT}\b.*\b{_WHAT_HURTS}\b|\bi('ve| have)? (just )?(fell|fallen)\b(?! (asleep|behind))", "I'm hurt"),
    (r"\b(i'm|am) (bleeding|hurt|injured)\b", "I'm hurt"),
    (r"\b(dizzy|faint|nauseous|unwell|light headed|chest (hurts|pain)|can't breathe)\b", "I feel dizzy"),
    (r"\b(can't|cannot|don't) feel (my|the) \w+|\bnumb\b|\bfrostbit\w*", "my fingers are numb"),
    (r"\b(tripped|trip|stumbled?)\b.*\b(over|on)\b", "is it dangerous"),
    (r"\blasers?\b", "can I use a laser"),
    (r"\b(am i|are we|is (it|this)) (even )?(allowed|permitted|legal|trespassing)\b", "am I allowed here"),
    (r"\bprivate (land|property)\b|\btrespass\w*", "am I allowed here"),
    (r"\b(scared|frightened|afraid|uneasy|stranger|intruder|suspicious)\b", "I'm scared"),
    (r"\b(somebody|someone)('s| is| are)? \w*\s?(coming|watching|following|out there)", "I'm scared"),
    (r"\b(dogs?|bull|cows?|boars?)\b.*\b(here|coming|loose|growl\w*|bark\w*)\b", "I'm scared"),
)


def hazard(bare: str) -> str | None:
    """Return the phrase whose answer helps in the danger that a line tells of, in small letters; None where it tells of none."""
    return next((phrase for pattern, phrase in _HAZARDS if re.search(pattern, bare)), None)
