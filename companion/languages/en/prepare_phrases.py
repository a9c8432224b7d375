"""English for the night to come: dark hours, Moon, when to be there, what not to miss, what to charge and pack."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta

from companion import places
from companion.languages.en import clock_words
from companion.languages.en.sky_answers import moon_look
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.sky import Moment
from companion.talk.answers import KitAnswer
from companion.talk.prepare_phrases import (
    BeThereBy,
    ChargeAndPack,
    DarkHours,
    MoonOfTheNight,
    NotToMiss,
    OneThing,
    Packed,
    ShallITellAboutTonight,
    ShallITellWhatToPack,
    UntilTonight,
    WhatDoYouBring,
    WhatElseDoYouBring,
)

_THINGS: Mapping[Packed, str] = {
    "mount-battery": "the mount's battery, charged",
    "this-device": "this device, charged",
    "power-supply": "the mount's power cable",
    "eyepieces": "eyepieces",
    "diagonal": "the diagonal",
    "finder-battery": "a battery for the red dot",
    "compass": "compass",
    "spirit-level": "spirit level",
    "spare-batteries": "spare batteries",
    "dew-strip": "the dew strip",
    "red-light": "red light",
    "gloves": "gloves",
    "chair": "a chair",
    "hot-drink": "a hot drink",
}
_CHARGED = {"mount-battery": "the mount's battery", "this-device": "this device"}
_MOST_IN_A_SENTENCE = 5
_ALL_DAY, _ALL_NIGHT = timedelta(hours=23), timedelta(hours=14)
_HALF_A_DAY = timedelta(hours=12)
"""The evening of a night is so long before its middle; its sunset may come after midnight, or not at all."""


def dark_hours(scene: Scene, *, dark_from: datetime | None, dark_until: datetime | None, darkest: datetime, sun_sets: bool) -> str:
    """Tell which night is meant, and when it is dark."""
    when = "tonight" if _day(darkest - _HALF_A_DAY, scene) <= _day(scene.time, scene) else "tomorrow night"
    if not sun_sets:
        return f"The Sun doesn't set {when}."
    if dark_from is None or dark_until is None:
        return f"It won't get fully dark {when}. It's darkest at {_clock(darkest, scene)}."
    if dark_until - dark_from > _ALL_DAY:
        return "It's fully dark all day."
    return f"{when.capitalize()} it's fully dark from {_clock(dark_from, scene)} until {_clock(dark_until, scene)}."


def moon_of_the_night(scene: Scene, *, phase_deg: float, begins: datetime, rises: datetime | None, sets: datetime | None) -> str:
    """Tell what the Moon does that night: whether it is up at the beginning, and until when."""
    is_up = sets is not None and (rises is None or sets < rises)
    changes = sets if is_up else rises
    until = f"until {_clock(changes, scene)}" if changes is not None and changes - begins < _ALL_NIGHT else "all night"
    return f"The Moon is {moon_look(phase_deg)}, and {'up' if is_up else 'down'} {until}."


def be_there_by(scene: Scene, *, time: datetime, is_sunset: bool) -> str:
    """Tell when to be on the spot."""
    if is_sunset:
        return f"Be there by sunset, {_clock(time, scene)}: the finder is easiest in the last light. Caps on until the Sun is down."
    return f"Be there by {_clock(time, scene)}."


def not_to_miss(scene: Scene, *, names: tuple[str, ...]) -> str:
    """Name what is best that night."""
    if not names:
        return "Nothing on my list is well placed then."
    return f"Not to miss: {_listed([spoken_name(name) for name in names])}."


def charge_and_pack(scene: Scene, *, things: tuple[Packed, ...]) -> str:
    """Name what to charge and what to pack."""
    charge = [_CHARGED[thing] for thing in things if thing in _CHARGED]
    pack = [_THINGS[thing] for thing in things if thing not in _CHARGED]
    told = [f"Charge {_listed(charge)}: cold drains them."] if charge else []
    sentences = math.ceil(len(pack) / _MOST_IN_A_SENTENCE)
    for number in range(sentences):
        some = _listed(pack[number * len(pack) // sentences : (number + 1) * len(pack) // sentences])
        told.append(f"And {some}." if number else f"Pack {some}.")
    return " ".join(told)


def one_thing(scene: Scene, *, thing: Packed) -> str:
    """Name one thing to charge or pack."""
    return _THINGS[thing]


def _clock(time: datetime, scene: Scene) -> str:
    """Return a time on the clock, to five minutes: nobody plans to the minute."""
    local = places.local_time(Moment(scene.site, time))
    return clock_words.time_of_day(local + timedelta(minutes=round(local.minute / 5) * 5 - local.minute))


def _day(time: datetime, scene: Scene) -> date:
    return places.local_time(Moment(scene.site, time)).date()


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


PREPARE = Chapter(
    phrases={
        ShallITellAboutTonight: "It's day. Shall I tell you about tonight first?",
        DarkHours: dark_hours,
        MoonOfTheNight: moon_of_the_night,
        BeThereBy: be_there_by,
        ShallITellWhatToPack: "Shall I go on with what not to miss, and what to pack?",
        NotToMiss: not_to_miss,
        WhatDoYouBring: "What do you bring: spare batteries, dew strip, red light, gloves, chair, hot drink? Tell me one at a time.",
        WhatElseDoYouBring: "What else? Or say: that's all.",
        ChargeAndPack: charge_and_pack,
        UntilTonight: "Say ready when you want to set up, now or this evening.",
        OneThing: one_thing,
    },
    terse={
        ShallITellAboutTonight: "Shall I tell you about tonight?",
        ShallITellWhatToPack: "Targets, and what to pack?",
        WhatDoYouBring: "What do you bring? One at a time.",
    },
    sayable={KitAnswer: ("spare batteries", "dew strip", "red light", "gloves", "a chair", "hot drink", "that's all")},
    step_help={
        ShallITellAboutTonight: "Yes tells you the dark hours, the Moon, what not to miss and what to pack. No goes straight on.",
        ShallITellWhatToPack: "Five things worth a look, then what to charge and what to take with you.",
        UntilTonight: "Take your time to charge and pack. Ready begins with the tripod.",
        WhatDoYouBring: "I ask this once, and leave out of your list what you don't have.",
        WhatElseDoYouBring: "Name the next, or say: that's all.",
    },
)
