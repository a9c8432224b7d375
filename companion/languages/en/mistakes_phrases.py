"""English for finding out why the mount missed: hand measures back, readings of the hand control, causes and remedies."""

from __future__ import annotations

from datetime import timedelta
from typing import Literal

from companion import places
from companion.diagnosis import Cause, Reading
from companion.equipment import CompassKind
from companion.languages.en import clock_words
from companion.languages.en.cause_words import cause_in_words, remedy_in_words
from companion.languages.en.direction_words import degrees, sentence
from companion.languages.en.number_words import cardinal, count_of, digits
from companion.languages.en.pose_phrases import compass_heading
from companion.languages.en.settings_phrases import key_the_date, key_the_latitude, key_the_longitude, key_the_time, key_the_zone
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.talk.answers import MissAnswer
from companion.talk.mistakes_phrases import (
    AnOrdinaryMiss,
    FairlySureOfTheCause,
    KeyOurTimeAgain,
    MendIt,
    MendItsClock,
    MendThat,
    MissHeard,
    NotSureAtAll,
    OneOfTwoCauses,
    PerhapsOurOwnClock,
    ReadItBack,
    ReadMeItsTime,
    ThatStarIsDown,
    WhereWasTheLastStar,
    WhichWayAndHowFar,
)


def which_way_and_how_far(scene: Scene, *, star: str) -> str:
    """Ask for the miss in hand measures."""
    return f"Sight along the tube. How many fists left or right is {spoken_name(star)}? And up or down?"


def where_was_the_last_star(scene: Scene, *, star: str) -> str:
    """Ask for the last star's miss afterwards."""
    return f"When the mount stood still, how many fists left or right of the tube was {spoken_name(star)}? And up or down?"


def miss_heard(scene: Scene, *, right_deg: float | None, up_deg: float | None) -> str:
    """Say the miss back in degrees, so that a wrong one is noticed."""
    if right_deg is None or up_deg is None:
        return "Not to be seen at all."
    if abs(right_deg) > 90:
        return "Behind you."
    parts = []
    if round(right_deg):
        parts.append(f"{degrees(abs(right_deg))} {'right' if right_deg > 0 else 'left'}")
    if round(up_deg):
        parts.append(f"{degrees(abs(up_deg))} {'up' if up_deg > 0 else 'down'}")
    return sentence(", ".join(parts)) if parts else "Hardly off."


def read_it_back(scene: Scene, *, reading: Reading, star: str) -> str:
    """Ask whether the hand control shows what it should."""
    settings, local = places.mount_settings(scene), places.local_time(scene)
    match reading:
        case "date":
            day = f"{digits(local.day, 2)}, month {digits(local.month, 2)}, year {digits(local.year, 4)}"
            return f"Look at the date on the handset. Is it day {day}?"
        case "time":
            return f"Look at the time on the handset. Is it about {clock_words.time_of_day(local)}?"
        case "daylight_saving":
            return f"On the handset, is daylight saving switched {'on' if settings.daylight_saving else 'off'}?"
        case "time_zone":
            hours = settings.standard_offset_hours
            whole, minutes = divmod(round(abs(hours) * 60), 60)
            half = f" {cardinal(minutes)} minutes" if minutes else ""
            return f"On the handset, is the zone {'minus' if hours < 0 else 'plus'} {count_of(whole, 'hour')}{half}?"
        case "latitude" | "longitude":
            angle = places.latitude(scene.site) if reading == "latitude" else places.longitude(scene.site)
            side = {"N": "north", "S": "south", "E": "east", "W": "west"}[angle.side]
            return f"On the handset, is the {reading} {digits(angle.degrees)} degrees, {digits(angle.minutes, 2)} minutes, {side}?"
    return f"Are you sure that the star was {spoken_name(star)}, and not a neighbour?"


def mend_that(scene: Scene, *, reading: Reading, star: str) -> str:
    """Say what the hand control should show instead, and what must be done again after that."""
    if reading == "star_name":
        return f"Then look again for {spoken_name(star)}, and begin the alignment again with it. Say ready."
    should = {
        "date": lambda: f"Set the date again. {key_the_date(scene).removeprefix('The date. ')}",
        "time": lambda: f"Set the time again. {key_the_time(scene)}",
        "daylight_saving": lambda: f"It should be {'on' if places.mount_settings(scene).daylight_saving else 'off'} tonight: change it.",
        "time_zone": lambda: f"Set the zone again. {key_the_zone(scene)}",
        "latitude": lambda: f"Set it again. {key_the_latitude(scene)}",
        "longitude": lambda: f"Set it again. {key_the_longitude(scene)}",
    }[reading]()
    return f"That must be corrected. {should} Then begin again from level and north. The finder is still good. Say ready."


def mend_its_clock(scene: Scene, *, minutes: int) -> str:
    """Say how wrong the mount's clock is, and the time to key."""
    size = clock_words.duration(timedelta(minutes=abs(minutes)))
    ahead = "ahead" if minutes > 0 else "behind"
    return f"Its clock is {size} {ahead}. Set the time again. {key_the_time(scene)} Then begin again from level and north. Say ready."


def fairly_sure_of_the_cause(scene: Scene, *, cause: Cause) -> str:
    """Name a cause we are fairly sure of."""
    return f"I'm fairly sure: {cause_in_words(cause)}."


def one_of_two_causes(scene: Scene, *, cause: Cause, other: Cause) -> str:
    """Name two causes, honestly."""
    return f"I can't tell for certain. Most likely {cause_in_words(cause)}. It could also be that {cause_in_words(other)}."


def mend_it(scene: Scene, *, cause: Cause, compass: CompassKind | Literal["unknown"]) -> str:
    """Say the least that must be done again, and wait for it."""
    declination_deg = places.declination(scene).declination_deg
    if cause == "magnetic_declination" and declination_deg is not None:
        card, needle = (digits(compass_heading(declination_deg, kind), 3) for kind in ("card", "needle"))
        shown = {"card": f"a compass reads {card}", "needle": f"the needle lies over {needle}"}
        figure = shown.get(compass, f"a card or phone reads {card}, or a loose needle lies over {needle}")
        return f"Bring the tube round until {figure}. Then begin the alignment again. The finder is still good. Say ready."
    return f"{remedy_in_words(cause)} The finder is still good. Say ready."


def that_star_is_down(scene: Scene, *, star: str) -> str:
    """Say that the mount offers a star below the horizon."""
    return f"{spoken_name(star)} is below the horizon now. With correct settings the mount wouldn't offer it."


def key_our_time_again(scene: Scene, *, hours: Literal[12, 24] | None) -> str:
    """Say the corrected time once more, for the hand control has the wrong one from us."""
    return f"Then the handset has the wrong time from me. Set it again. {key_the_time(scene, hours=hours)} Begin from level and north."


MISTAKES = Chapter(
    phrases={
        WhichWayAndHowFar: which_way_and_how_far,
        WhereWasTheLastStar: where_was_the_last_star,
        ThatStarIsDown: that_star_is_down,
        MissHeard: miss_heard,
        ReadItBack: read_it_back,
        AnOrdinaryMiss: "That can happen with nothing wrong. Steer it there with the arrows.",
        MendThat: mend_that,
        ReadMeItsTime: "I'm not sure. Read me the time it shows.",
        MendItsClock: mend_its_clock,
        NotSureAtAll: "Its clock is correct, and I still can't tell.",
        FairlySureOfTheCause: fairly_sure_of_the_cause,
        OneOfTwoCauses: one_of_two_causes,
        PerhapsOurOwnClock: "If all that is correct on the handset, my own clock may be wrong. Compare it with your watch.",
        KeyOurTimeAgain: key_our_time_again,
        MendIt: mend_it,
    },
    sayable={MissAnswer: ("a fist left and two fingers up", "nowhere near", "it's behind me", "same as last time")},
    step_help={
        WhichWayAndHowFar: "Stretch your arm out. A fist spans ten degrees, three fingers five. Say right or left, then up or down.",
        WhereWasTheLastStar: "Stretch your arm out. A fist spans ten degrees, three fingers five. Skip this if you don't remember.",
        ReadItBack: "Call up that setting on the handset. Yes if it shows what I say, no if not.",
        KeyOurTimeAgain: "It had my time, and mine was wrong. Only time and date must be set again.",
        MendThat: "Only that must be set again. Say ready when it is done.",
        ReadMeItsTime: "Call up the time on the handset, and read it to me, hours and minutes.",
        MendItsClock: "Only the time must be set again. Say ready when it is done.",
        MendIt: "Only that needs doing again. Say ready when it is done.",
    },
)
