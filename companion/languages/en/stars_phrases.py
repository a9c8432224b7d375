"""English for the reference stars: which one, where it is, what it looks like, what is said about it, and the mount's verdict."""

from __future__ import annotations

from datetime import datetime

from companion import alignment, sky
from companion.equipment import StarChoice
from companion.languages.en import clock_words
from companion.languages.en.direction_words import compass_point, fists, sentence, sweep
from companion.languages.en.number_words import count_of
from companion.languages.en.sight_words import describe, describe_rivals, side_of, turn_towards
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.languages.told_turns import tube_turn
from companion.sky import Sight
from companion.talk.answers import FinderAnswer, OutcomeAnswer, StarNameAnswer, WaitingAnswer
from companion.talk.stars_phrases import (
    AnotherStar,
    BeforeTheStars,
    CapsOffNow,
    FindStar,
    FirstStar,
    HowHigh,
    ItFailed,
    KeepPeopleBack,
    LeaveStar,
    NoMoreStars,
    NoneItNamesWillDo,
    NoStarsTonight,
    PressItsKeyForAnother,
    Unfit,
    WaitForTheFirstStar,
    WhatColour,
    WhatDoesTheMountSay,
    WhatToExpect,
    WhereFromTheMoon,
    WhichOfThese,
    WhichStarDoesItName,
)

_CENTRED_DEG = 0.2
"""How exactly a star is centred in a low-power eyepiece: judgement, a fifth of its field."""
_EXPECTED = (
    (0.29, "a quarter of a degree, well inside the low-power view"),
    (0.42, "a third of a degree, inside the low-power view"),
    (0.6, "half a degree, to the edge of the low-power view"),
)
"""How an error is called below so many degrees: halfway to the next."""
_UNFIT = {
    "hidden": "stands behind something",
    "too-low": "is too low: the air blurs it",
    "too-high": "is too high: the mount can hardly turn there",
    "too-bright-sky": "can't be seen yet, the sky is too bright",
    "near-another": "stands too near the star before",
    "near-sun": "is too near the Sun",
    "sets-soon": "is about to set",
}
"""Why a star the mount names won't do."""
_HOW_IT_CHOOSES = {
    "names": "Read me each name it shows, and I'll say whether it will do.",
    "list": "Pick each star I name from its list.",
    "unnamed": "It takes any bright objects: I'll say which, and in which order.",
    "one": "It wants one star only.",
    "body": "It wants the Moon or a planet.",
}


def before_the_stars(scene: Scene, *, choice: StarChoice) -> str:
    """Say how the stars are chosen, and the caution where the hazard is."""
    return (
        "Now the alignment stars, which tell the mount how the sky lies. "
        f"When it turns, step back: eyes off the eyepiece, hands clear of tube and arms. {how_it_chooses(choice)}"
    )


def how_it_chooses(choice: StarChoice) -> str:
    """Say how a mount settles on its stars."""
    return _HOW_IT_CHOOSES[choice]


def first_star(scene: Scene, *, star: str, from_star: str | None) -> str:
    """Introduce the first reference star."""
    return _introduction("First", scene, star, from_star)


def another_star(scene: Scene, *, star: str, from_star: str | None) -> str:
    """Introduce a further reference star."""
    return _introduction("Next", scene, star, from_star)


def _introduction(opening: str, scene: Scene, star: str, from_star: str | None) -> str:
    sight = sky.sight(sky.find(star), scene)
    words = describe(sight, scene.fist_deg)
    if sight.altitude_deg < 0:
        return f"{opening}: {words} Ask me for another."
    rivals = "" if star == sky.MOON.name else f" {describe_rivals(sight, scene, scene.fist_deg)}"
    return f"{opening}: {words}{_colour(sight)}{_turn(sight, scene, from_star)}{rivals}"


def star_tersely(scene: Scene, *, star: str, from_star: str | None) -> str:
    """Introduce a star in few words: where, then what could be taken for it."""
    sight = sky.sight(sky.find(star), scene)
    if sight.altitude_deg < 0:
        return f"{describe(sight)} Ask me for another."
    rivals = alignment.rivals(sight.body, scene)
    rival = f" {describe_rivals(sight, scene, scene.fist_deg)}" if rivals else ""
    where = f"{compass_point(sight.azimuth_deg)}, {fists(sight.altitude_deg, scene.fist_deg)} up"
    return f"{sentence(f'{spoken_name(star)} is in the {where}')}{rival}"


def _colour(sight: Sight) -> str:
    """Return a word on the colour where it is strong."""
    colour = sky.colour(sight.body)
    return "" if colour is None else f" It looks {colour}."


def _turn(sight: Sight, scene: Scene, from_star: str | None) -> str:
    """Return which way the tube has to go from where it is: level and north before the first star, else at the star before."""
    turn = tube_turn(sight, scene, from_star)
    if turn is None:
        return ""
    parts = []
    if turn.right_deg:
        parts.append(f"{sweep(abs(turn.right_deg), scene.fist_deg)} to the {'right' if turn.right_deg > 0 else 'left'}")
    if turn.up_deg:
        parts.append(f"{fists(abs(turn.up_deg), scene.fist_deg)} {'up' if turn.up_deg > 0 else 'down'}")
    return f" From where the tube points: {', '.join(parts)}." if parts else " The tube points almost there."


def find_star(scene: Scene, *, star: str) -> str:
    """Help the eye to the star again, from where it is now."""
    sight = sky.sight(sky.find(star), scene)
    if sight.altitude_deg < 0:
        return f"{spoken_name(star)} has gone below the horizon. Say give me another."
    look = f"{describe(sight, scene.fist_deg)}{_colour(sight)} {describe_rivals(sight, scene, scene.fist_deg)}"
    return f"{turn_towards(sight)}. {look} Tell me when it's in the finder."


def how_high(scene: Scene, *, star: str) -> str:
    """Say how high a star stands."""
    sight = sky.sight(sky.find(star), scene)
    if sight.altitude_deg < 0:
        return "It has gone below the horizon."
    return f"{sentence(fists(sight.altitude_deg, scene.fist_deg))[:-1]} up, {count_of(round(sight.altitude_deg), 'degree')}."


def where_from_the_moon(scene: Scene, *, star: str) -> str:
    """Say on which side of the Moon a star stands."""
    if star == sky.MOON.name:
        return "It is the Moon itself."
    sight, moon = sky.sight(sky.find(star), scene), sky.sight(sky.MOON, scene)
    if moon.altitude_deg < 0 or sight.altitude_deg < 0:
        return "The Moon is no help: it is down."
    apart_deg = sky.separation_deg(sight, moon)
    if apart_deg > 90:
        return "Nowhere near the Moon: turn your back to it."
    return f"{sentence(fists(apart_deg, scene.fist_deg))[:-1]} from the Moon, {side_of(sight, moon)}."


def what_colour(scene: Scene, *, star: str) -> str:
    """Say whether a star has a colour that shows."""
    if star == sky.MOON.name:
        return "It is the Moon: nothing else looks like it."
    colour = sky.colour(sky.find(star))
    return f"Yes, it looks {colour}." if colour else "No, it looks white."


def which_star_does_it_name(scene: Scene, *, again: bool = False) -> str:
    """Ask for the name on the hand control."""
    return "And now?" if again else "What star does it name?"


def which_of_these(scene: Scene, *, stars: tuple[str, ...]) -> str:
    """Name the stars that begin so."""
    *others, last = map(spoken_name, stars)
    return f"Is it {', '.join(others)} or {last}?"


def press_its_key_for_another(scene: Scene, *, star: str, why: Unfit) -> str:
    """Say why a star won't do, and how to have another."""
    return f"{spoken_name(star)} {_UNFIT[why]}. Ask the mount for another, and read me the name."


def wait_for_the_first_star(scene: Scene, *, star: str, first: datetime) -> str:
    """Say when a star will come out."""
    left = first - scene.time
    soon = f"in about {clock_words.duration(left)}" if left.total_seconds() > 60 else "any minute now"
    caps = "Both caps off only after sunset." if sky.sun_state(scene).is_up else "Both caps off now."
    return f"The sky is still too bright. {sentence(spoken_name(star))[:-1]} comes out {soon}. {caps} Say ready when you see it."


def no_more_stars(scene: Scene, *, choice: StarChoice) -> str:
    """Say that nothing is left to centre."""
    thing = "neither the Moon nor a planet" if choice == "body" else "no other good star"
    return f"I have {thing} for you now. Give the sky half an hour, and say ready. Or skip this."


def what_to_expect(scene: Scene, *, stars: tuple[str, ...], lean_deg: float | None, if_level: bool) -> str:
    """Say by how much the mount should miss half of all targets now, from where its stars stand and how the base leans."""
    if len(stars) == 1:
        return f"One thing alone teaches it little: near {spoken_name(stars[0])} it is good, far from there it may miss."
    sights = [sky.sight(sky.find(star), scene) for star in stars]
    error_deg = alignment.expected_error_deg(sights, _CENTRED_DEG, lean_deg or 0.0)
    for below_deg, words in _EXPECTED:
        if error_deg < below_deg:
            level = ", and with the base level" if if_level else ""
            return f"From where these stars stand{level}, I expect it to miss by about {words}."
    if alignment.expected_error_deg(sights, _CENTRED_DEG) < _EXPECTED[-1][0]:
        return "With the base leaning so, it is good near these stars; far from them it may miss."
    return "These stars stand too close together to teach it much: near them it is good, far from them it may miss."


STARS = Chapter(
    phrases={
        BeforeTheStars: before_the_stars,
        KeepPeopleBack: "Keep the children back while it turns. If anyone points with a laser: never near an aircraft.",
        FirstStar: first_star,
        AnotherStar: another_star,
        FindStar: find_star,
        HowHigh: how_high,
        WhereFromTheMoon: where_from_the_moon,
        WhatColour: what_colour,
        LeaveStar: "We'll pass that one by.",
        WhichStarDoesItName: which_star_does_it_name,
        WhichOfThese: which_of_these,
        PressItsKeyForAnother: press_its_key_for_another,
        NoneItNamesWillDo: "None of those will do. Choose from its list instead: I'll say which.",
        WaitForTheFirstStar: wait_for_the_first_star,
        NoStarsTonight: "No star comes out tonight: the Sun hardly sets. The Moon or a bright planet is all there is.",
        NoMoreStars: no_more_stars,
        WhatDoesTheMountSay: "Did the mount accept the alignment, refuse it, or does it want another star?",
        CapsOffNow: "Both caps off now.",
        WhatToExpect: what_to_expect,
        ItFailed: (
            "Then something it was told is wrong. Check daylight saving and the hour, then the date. "
            "Bring it to level and north again, and say ready."
        ),
    },
    terse={
        BeforeTheStars: "Now the stars. Step back when it turns.",
        KeepPeopleBack: "Keep children back. Keep lasers away from aircraft.",
        FirstStar: star_tersely,
        AnotherStar: star_tersely,
        WhatToExpect: "That's good.",
    },
    sayable={
        FinderAnswer: ("it's in the finder", "it's way off", "which one is it", "can't see it", "that's behind a tree"),
        WaitingAnswer: ("ready", "I see it", "measure my fist"),
        StarNameAnswer: ("it says Vega", "Vega", "it begins with A L P"),
        OutcomeAnswer: ("it accepted it", "it refused it", "it wants another star"),
    },
    step_help={
        FindStar: "Look over the tube with both eyes open, then through the finder.",
        WhichStarDoesItName: "Read me the name on the handset or app, however you would say it. Or say: it begins with, and three letters.",
        WhichOfThese: "Say the whole name, as I said it. Or skip this to go on with mine.",
        NoMoreStars: "Clouds move and stars rise. Say ready to look again, or skip this to go on without.",
        WaitForTheFirstStar: "Bright stars come out first, about half an hour after sunset. Let your eyes get used to the dark.",
        WhatDoesTheMountSay: "After the last star, the handset or app shows whether it's content. Tell me what it shows, or: it worked.",
        ItFailed: "Most failures are one hour, a wrong star, or a sloppy start to the north.",
    },
)
