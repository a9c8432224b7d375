"""English for the words that work at any time, and for when nothing was understood."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from companion import sky
from companion.sky import Moment
from companion.wording import clock
from companion.wording.phrase import Phrase

# What can be said to each rule of the grammar; a test holds every entry against the grammar files.
SAYABLE: Mapping[str, tuple[str, ...]] = {
    "yes_no": ("yes", "no"),
    "ready": ("ready", "that's done"),
    "level": ("it's level", "ready"),
    "north": ("facing north", "which way is north"),
    "tube": ("the tube is level", "ready"),
    "power": ("it's on", "it won't turn on"),
    "line": ("next line", "that's in"),
    "finder": ("it's in the finder", "it's way off", "which one is it", "can't see it"),
    "miss": ("a fist left and two fingers up", "nowhere near", "it's behind me", "same as last time"),
    "eyepiece": ("dead centre", "I lost it"),
    "outcome": ("it says success", "it says failed"),
    "star_name": ("it says Vega", "Vega"),
    "target": ("next target", "where is it", "can't see it"),
}

# The first help at each question: what this step is for and how to do it.
_STEP_HELP: Mapping[str, str] = {
    "did-you-say": "I wasn't sure what you said. Yes if I heard right, no if not.",
    "leave-now": "Yes ends the evening. No goes on where we were.",
    "is-the-clock-right": "Every direction hangs on the time. Compare it with a watch you trust, then say yes or no.",
    "mend-the-clock": "One hour wrong puts every star more than a fist out of place. Set this device's clock, then say ready.",
    "is-the-place-right": "A hundred kilometres are about one degree of sky. Say yes if it is near enough.",
    "mend-the-place": "The place comes from the settings I was started with. It cannot be changed by voice yet.",
    "shall-we-start": "Next we set the mount level and turn it to true north.",
    "level-the-base": "Use the bubble on the base, or a small spirit level laid two ways. A finger's tilt is a finger's error.",
    "face-true-north": "North means the pole of the sky, not the magnetic one. Ask which way is north, and I tell you what to turn to.",
    "level-the-tube": "Lay the spirit level along the tube, or use the mark on the altitude scale.",
    "switch-on": "Plug in, press the switch, and wait for the hand control to light up.",
    "key-the-date": "Some controls want the month first. I give day, month and year by name.",
    "key-the-time": "It is the local time on your watch. Key the next full minute and press on the minute.",
    "key-daylight-saving": "Whether clocks are put forward for summer. A wrong answer here is one hour wrong.",
    "key-the-zone": "The standard zone, without daylight saving. Some controls show it as a number of hours, others as a list.",
    "key-the-latitude": "Degrees, minutes, seconds. Mind the key for north or south.",
    "key-the-longitude": "Degrees, minutes, seconds. Mind the key for east or west.",
    "is-it-in-the-finder": "Move the tube with the arrow keys until the star meets the mark in the finder.",
    "find-star": "Look over the tube with both eyes open, then through the finder.",
    "is-it-centred": "Use the slow keys, and bring the star to the middle of the low-power eyepiece.",
    "back-to-the-finder": "Centre the star in the finder again. If it is not in the eyepiece then, the finder has moved.",
    "which-way-and-how-far": "Stretch your arm out. A fist spans ten degrees, three fingers five. Say right or left, then up or down.",
    "where-was-the-last-star": "Stretch your arm out. A fist spans ten degrees, three fingers five. Skip this if you don't remember.",
    "which-star-does-it-name": "Read me the name on the hand control, any spelling. Skip this to go on with mine.",
    "steer-it-there": "A few degrees are normal before the first star. The arrow keys bring it in.",
    "read-it-back": "Call up that setting in the hand control. Yes if it shows what I say, no if not.",
    "mend-it": "Only that needs doing again. Say ready when it is done.",
    "what-does-the-mount-say": "The hand control shows a message after the second star. Read me what it means.",
    "it-failed": "Most failures are one hour, a wrong star, or a sloppy start to the north.",
    "introduce-target": "Choose it on the hand control and let the mount slew there. I tell you where to look.",
    "find-target": "Let the mount go there, then sweep slowly with the low-power eyepiece.",
}


def you_can_say(moment: Moment, *, rule: str) -> str:
    """Name the words that are understood here."""
    return f"You can say: {_listed(SAYABLE[rule])}."


def help_with_step(moment: Moment, *, question: str) -> str:
    """Explain the open question."""
    return _STEP_HELP[question]


def not_now(moment: Moment, *, heard: str) -> str:
    """Say what was heard, and that it is for another time."""
    return f"I heard: {heard}. That comes later, or was before."


def go_on_there(moment: Moment, *, started: str) -> str:
    """Offer to go on with an evening that was broken off."""
    began = sky.local_time(Moment(moment.site, datetime.fromisoformat(started)))
    return f"An evening begun at {clock.time_of_day(began)}, {clock.calendar_day(began)}, was broken off. Shall we go on there?"


def did_you_say(moment: Moment, *, heard: str) -> str:
    """Ask an uncertain answer back."""
    return f"I heard: {heard}. Is that right?"


def _listed(words: tuple[str, ...]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])}, or {words[-1]}"


PHRASES: Mapping[str, Phrase] = {
    "leave-now": "Shall we end the evening here?",
    "not-understood": "I didn't get that.",
    "you-can-say": you_can_say,
    "another-way": "Let's leave that word. Say skip this to go on, or help.",
    "help-with-step": help_with_step,
    "words-that-always-work": ("At any time: repeat that, go back, skip this, hang on, carry on, good night. To silence me, say quiet."),
    "waiting": "I'm waiting. Say carry on when you are.",
    "stopped": "Quiet now. If the mount is moving, any arrow key holds it. Say carry on to go on.",
    "still-here": "I'm here. Take your time.",
    "did-you-say": did_you_say,
    "not-now": not_now,
    "nothing-to-go-back-to": "This is the beginning.",
    "go-on-there": go_on_there,
    "journal-torn": "I was cut off while writing: your last answer may be lost.",
    "journal-damaged": "My notes are damaged part of the way through. I know only what comes before.",
    "journal-other-version": "My notes are from another version of me. I keep them, and begin anew.",
    "going-on": "We go on where we left off.",
    "stage-anew": "I have changed since then, so this part begins anew.",
}
