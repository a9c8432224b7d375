"""English for the interview about place, telescope, mount, horizon and observer."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from companion.languages.en.direction_words import compass_point, degrees, sentence
from companion.languages.en.number_words import cardinal, digits
from companion.languages.phrase import Chapter
from companion.sky import Moment
from companion.talk.answers import (
    CompanyAnswer,
    CompassKindAnswer,
    ConfirmKeyAnswer,
    FewMillimetresAnswer,
    FieldWidthAnswer,
    FinderKindAnswer,
    FinderWidthAnswer,
    FistsAnswer,
    FromTownAnswer,
    FullnessAnswer,
    HorizonAnswer,
    LastKeysAnswer,
    LimitsAnswer,
    MillimetresAnswer,
    PhoneNorthAnswer,
    PoseTimeAnswer,
    StarChoiceAnswer,
    StarChoiceElseAnswer,
    TownAnswer,
    TownLettersAnswer,
)
from companion.talk.equipment_phrases import (
    AboutYourEquipment,
    AboutYourTelescope,
    AloneOrWithPeople,
    AnotherEyepiece,
    AnotherLimit,
    AnythingElseInTheWay,
    Aperture,
    ApparentField,
    DoesItTurnByHand,
    DoYouSeeTheMilkyWay,
    EquipmentKnown,
    EyepieceHeard,
    FigureLeft,
    FinderWidthHeard,
    FistHeard,
    FistLeft,
    FocalLength,
    FromTownHeard,
    HasItADiagonal,
    HowFarFromTown,
    HowManyFists,
    HowWideIsTheFinder,
    InFullOrShort,
    InTheWayHeard,
    LengthUnit,
    NoOtherTown,
    NoPairForTheFist,
    NoSuchCoordinate,
    NoSuchTown,
    SayOrSpellTheTown,
    SpellTheTown,
    TelescopeHeard,
    TownHeard,
    UnlikelyFigure,
    UnlikelyFist,
    WhatIsHardForYou,
    WhatIsInTheWay,
    WhenIsThePoseTaken,
    WhereAreYou,
    WhichCompass,
    WhichEyepiece,
    WhichFinder,
    WhichKeyConfirms,
    WhichNorthDoesThePhoneShow,
    WhichStarsDoesItTake,
    WhichTwoArrowsLast,
    WhoChoosesTheStars,
    YourLatitude,
    YourLongitude,
    YourPlaceHeard,
)

_UNITS: Mapping[LengthUnit, str] = {"kilometres": "kilometres", "miles": "miles"}
_COORDINATES: Mapping[str, str] = {"latitude": "latitude", "longitude": "longitude"}
_IN_THE_WAY = {"trees": "trees", "houses": "houses", "hills": "hills", "walls": "walls"}
"""What the grammar knows; a profile written by hand may name anything else."""


def no_such_town(_: object, *, named: str | None, spelt_alike: tuple[str, ...]) -> str:
    """Say what is wrong with a town, and what is next best."""
    unknown = f"I don't know a town called {named}." if named else "Then a larger one."
    alike = f" There is {' and '.join(spelt_alike)}." if spelt_alike else ""
    return f"{unknown}{alike} Name a larger town near you. Or say: let me spell it, or: latitude and longitude."


def no_other_town(_: object, *, letters: str) -> str:
    """Say which letters were heard, so that a wrong one is noticed."""
    return f"I know no other town that begins with {', '.join(letters)}."


def _singly(figure: float) -> str:
    """Return a figure digit by digit, to the tenth: "one two zero zero", "nine point seven"."""
    whole, _, tenths = f"{figure:.1f}".partition(".")
    return digits(whole) + (f" point {digits(tenths)}" if tenths != "0" else "")


def _fists(fists: float) -> str:
    whole, half = divmod(round(fists * 2), 2)
    if whole == 0:
        return "half a fist"
    if whole == 1:
        return "a fist and a half" if half else "a fist"
    return f"{cardinal(whole)}{' and a half' if half else ''} fists"


def telescope_heard(moment: Moment, *, aperture_mm: float | None, focal_length_mm: float | None) -> str:
    """Read aperture and focal length back."""
    wide = "" if aperture_mm is None else f"Width {_singly(aperture_mm)} millimetres"
    long = "" if focal_length_mm is None else f"focal length {_singly(focal_length_mm)} millimetres"
    return f"{sentence(', '.join(part for part in (wide, long) if part))} Is that right?"


def eyepiece_heard(moment: Moment, *, focal_length_mm: float, field_deg: float | None) -> str:
    """Read an eyepiece back."""
    field = "" if field_deg is None else f", showing {_singly(field_deg)} degrees"
    return f"An eyepiece of {_singly(focal_length_mm)} millimetres{field}. Is that right?"


def finder_width_heard(moment: Moment, *, field_deg: float) -> str:
    """Read back how much a finder shows."""
    return f"The finder shows {_singly(field_deg)} degrees. Is that right?"


def unlikely_figure(moment: Moment, *, figure: float) -> str:
    """Say which figure can't be."""
    return f"I heard {_singly(figure)}. That would be unusual: tell me the digits one by one."


def no_such_coordinate(moment: Moment, *, which: Literal["latitude", "longitude"]) -> str:
    """Say how a latitude or a longitude ends, and how large it can be."""
    if which == "latitude":
        return "A latitude is at most ninety degrees, and ends with north or south."
    return "A longitude is at most a hundred and eighty degrees, and ends with east or west."


def town_heard(moment: Moment, *, town: str, latitude_deg: float, longitude_deg: float) -> str:
    """Read a town back with its place in whole degrees, since several towns may share a name."""
    north, east = ("north" if latitude_deg >= 0 else "south"), ("east" if longitude_deg >= 0 else "west")
    at = f"latitude {digits(round(abs(latitude_deg)))} {north}, longitude {digits(round(abs(longitude_deg)))} {east}"
    return f"Near {town}, {at}. Is that right?"


def how_far_from_town(moment: Moment, *, unit: LengthUnit) -> str:
    """Ask how far from a town we are, with an example in the unit that is usual there."""
    return f"How far are we from there? Say it like: ten {_UNITS[unit]} north-west. Or say: in the town."


def from_town_heard(moment: Moment, *, town: str, distance: int, unit: LengthUnit, bearing_deg: float) -> str:
    """Read back how far from a town we are, and where from it: figures singly, since fifteen sounds like fifty."""
    return f"{sentence(digits(distance))[:-1]} {_UNITS[unit]} {compass_point(bearing_deg)} of {town}. Is that right?"


def place_heard(moment: Moment, *, latitude_deg: float, longitude_deg: float) -> str:
    """Read latitude and longitude back, degrees and minutes singly."""
    north, east = ("north" if latitude_deg >= 0 else "south"), ("east" if longitude_deg >= 0 else "west")
    return f"Latitude {_to_the_minute(latitude_deg)} {north}. Longitude {_to_the_minute(longitude_deg)} {east}. Is that right?"


def _to_the_minute(angle_deg: float) -> str:
    whole, minutes = divmod(round(abs(angle_deg) * 60), 60)
    return f"{digits(whole)} degrees {digits(minutes, 2)} minutes"


def in_the_way_heard(
    moment: Moment, *, from_azimuth_deg: float, to_azimuth_deg: float, altitude_deg: float, what: str, fists: float
) -> str:
    """Read an obstruction back."""
    width_deg = (to_azimuth_deg - from_azimuth_deg) % 360
    if width_deg <= 45:
        where = f"in the {compass_point(from_azimuth_deg + width_deg / 2)}"
    else:
        where = f"from {compass_point(from_azimuth_deg)} round to {compass_point(to_azimuth_deg)}"
    return f"{sentence(_IN_THE_WAY.get(what, what))[:-1]} {where}, up to {_fists(fists)}. Is that right?"


def how_many_fists(moment: Moment, *, one: str, other: str) -> str:
    """Ask for the distance between two stars in fists."""
    return f"How many fists from {one} to {other}? Stretch your arm out fully, shut one eye, and step fist over fist."


def fist_heard(moment: Moment, *, fists: float, fist_deg: float) -> str:
    """Read the fists back, and say what one of them spans."""
    return f"{sentence(_fists(fists))[:-1]}: so your fist spans {degrees(fist_deg)}. Is that right?"


def unlikely_fist(moment: Moment, *, fists: float) -> str:
    """Say that no fist is so large or so small."""
    return f"{sentence(_fists(fists))[:-1]} can't be so for those two. Look again which stars I mean."


EQUIPMENT = Chapter(
    phrases={
        AboutYourEquipment: "Some questions about your place and your telescope. Say skip this to any of them.",
        AboutYourTelescope: "Some questions about it. Say skip this to any of them.",
        EquipmentKnown: "Good. That's all I need to know.",
        # place
        WhereAreYou: "Where are we? Say near, and the nearest large town. Or say: latitude and longitude.",
        SpellTheTown: "Spell how it begins, up to four letters: plain letters, or words like alpha, bravo.",
        NoOtherTown: no_other_town,
        SayOrSpellTheTown: "If I mishear it, say: let me spell it.",
        TownHeard: town_heard,
        HowFarFromTown: how_far_from_town,
        FromTownHeard: from_town_heard,
        YourLatitude: "What's the latitude? Say degrees, minutes, and north or south.",
        YourLongitude: "And the longitude? Degrees, minutes, and east or west.",
        YourPlaceHeard: place_heard,
        NoSuchTown: no_such_town,
        NoSuchCoordinate: no_such_coordinate,
        # figures
        UnlikelyFigure: unlikely_figure,
        FigureLeft: "Let's leave that one. You can type it later.",
        # telescope
        Aperture: "How wide is the front lens or main mirror, in millimetres or inches?",
        FocalLength: "What's the focal length of the telescope? It's the larger number on the tube.",
        TelescopeHeard: telescope_heard,
        WhichEyepiece: "Tell me an eyepiece, the little lens you look into. What does it say, in millimetres?",
        EyepieceHeard: eyepiece_heard,
        ApparentField: "What is its apparent field, in degrees? If unsure, say skip this.",
        AnotherEyepiece: "Do you have another eyepiece with you?",
        HasItADiagonal: "Is there a diagonal, a small mirror that turns the view upwards before the eyepiece?",
        WhichFinder: "What finder is on it: a red dot, or a small telescope?",
        HowWideIsTheFinder: "How many degrees of sky does the finder show, from edge to edge? If unsure, say skip this.",
        FinderWidthHeard: finder_width_heard,
        # compass and mount
        WhichCompass: "What compass do you have: a loose needle, a turning card, a phone, or no compass?",
        WhichNorthDoesThePhoneShow: "Does it show true or magnetic north? Its compass settings say which.",
        WhoChoosesTheStars: (
            "For the alignment, does the mount name a star, or ask you for one? Say: it names them, from its list, or neither."
        ),
        WhichStarsDoesItTake: "Does it take any bright star, a single star, or the Moon or a planet?",
        WhenIsThePoseTaken: (
            "When does the mount want to be set level and facing north? Before switching on, after the settings, or by itself?"
        ),
        DoesItTurnByHand: "Can you turn the mount by hand without it losing its place?",
        WhichKeyConfirms: "What's on the key that confirms: enter, okay, select, confirm, or something else?",
        WhichTwoArrowsLast: "Which two arrows does the manual want last on each star? Or say: it doesn't say.",
        # horizon
        WhatIsInTheWay: (
            "What hides the sky from where you are? Say it like: trees in the west up to three fists. Or: nothing in the way."
        ),
        AnythingElseInTheWay: "What else? Or say: that's all.",
        InTheWayHeard: in_the_way_heard,
        # observer
        DoYouSeeTheMilkyWay: "Can you see the Milky Way from there, on a clear night without a Moon?",
        AloneOrWithPeople: "Are you alone tonight, or with people? With people around, I listen only while you hold a key.",
        WhatIsHardForYou: (
            "What is hard for you: faint stars, kneeling, reaching up, or nothing? Tell me one at a time. "
            "If you see little or nothing, say: I'm blind, or my sight is poor."
        ),
        AnotherLimit: "Anything more? Or say: nothing else.",
        InFullOrShort: "Shall I tell you every step in full, or keep it short?",
        # the fist
        HowManyFists: how_many_fists,
        FistHeard: fist_heard,
        UnlikelyFist: unlikely_fist,
        FistLeft: "Let's leave it. I'll go on counting ten degrees to a fist.",
        NoPairForTheFist: "No two stars stand well for measuring your fist just now. I'll go on counting ten degrees to it.",
    },
    terse={
        AboutYourEquipment: "Now your place and your telescope. Skip what you like.",
        AboutYourTelescope: "Skip what you like.",
        WhereAreYou: "What is the nearest large town? Or say: latitude and longitude.",
        SpellTheTown: "How does it begin? Up to four letters.",
        HowFarFromTown: "How far from it, and which way? Or say: in the town.",
        YourLatitude: "What is your latitude?",
        YourLongitude: "What is your longitude?",
        Aperture: "How wide is the main lens or mirror, in millimetres or inches?",
        FocalLength: "What is its focal length?",
        WhichEyepiece: "Which eyepiece, in millimetres?",
        ApparentField: "What is its apparent field?",
        AnotherEyepiece: "Is there another eyepiece?",
        HasItADiagonal: "Is there a diagonal?",
        WhichFinder: "Is the finder a red dot, or a small telescope?",
        HowWideIsTheFinder: "How many degrees does the finder show?",
        WhichCompass: "Which compass: a loose needle, a card, a phone, or no compass?",
        WhoChoosesTheStars: "Does it name the stars, do you choose from its list, or neither?",
        WhenIsThePoseTaken: "Does it start level and north before switching on, after the settings, or by itself?",
        DoesItTurnByHand: "Does it turn by hand?",
        WhichKeyConfirms: "Which key confirms?",
        WhichTwoArrowsLast: "Which two arrows come last on each star?",
        WhatIsInTheWay: "What hides the sky, where, and up to how many fists?",
        DoYouSeeTheMilkyWay: "Can you see the Milky Way there?",
        AloneOrWithPeople: "Are you alone, or with people?",
        WhatIsHardForYou: "What is hard for you: faint stars, kneeling, reaching up, or nothing?",
        AnotherLimit: "Is there anything more?",
        InFullOrShort: "Do you want it in full, or short?",
    },
    sayable={
        TownAnswer: ("near Nairobi", "let me spell it", "latitude and longitude"),
        TownLettersAnswer: ("B R I S", "bravo romeo india sierra"),
        FromTownAnswer: ("ten kilometres north west", "six miles south", "in the town"),
        FinderKindAnswer: ("a red dot", "a small telescope", "no finder"),
        CompassKindAnswer: ("a loose needle", "a turning card", "my phone", "no compass"),
        StarChoiceAnswer: ("it names them", "from its list", "neither"),
        StarChoiceElseAnswer: ("any bright ones", "a single star", "Moon or planet"),
        PhoneNorthAnswer: ("true north", "magnetic north"),
        FieldWidthAnswer: ("fifty", "eighty two degrees"),
        FinderWidthAnswer: ("six degrees", "six and a half"),
        PoseTimeAnswer: ("before switching on", "after the settings", "by itself"),
        ConfirmKeyAnswer: ("enter", "okay", "select", "confirm", "something else"),
        LastKeysAnswer: ("up and right", "down and left", "it doesn't say"),
        CompanyAnswer: ("I'm alone", "with other people"),
        LimitsAnswer: ("faint stars", "kneeling", "reaching up", "nothing else"),
        FullnessAnswer: ("every step in full", "keep it short"),
        MillimetresAnswer: ("one two zero zero", "twelve hundred", "eight inches"),
        FewMillimetresAnswer: ("twenty five millimetres", "nine point seven"),
        HorizonAnswer: ("trees in the west up to three fists", "nothing in the way", "that's all"),
        FistsAnswer: ("three and a half", "four fists"),
    },
    step_help={
        WhereAreYou: "I know the large towns of the world. Twenty kilometres off, or a dozen miles, is near enough for the set-up.",
        SpellTheTown: "The first four letters of the nearest large town, or all of a short name. I then offer the towns that begin so.",
        TownHeard: "Yes if that's the town, no to tell me another.",
        HowFarFromTown: "Kilometres or miles. Within twenty kilometres, or a dozen miles, just say: in the town.",
        FromTownHeard: "Yes if that's what you said, no to tell me again.",
        YourLatitude: "It's on any map, and in most phones. To a tenth of a degree is enough, that's six minutes.",
        YourLongitude: "It's on any map, and in most phones. West of Greenwich is west.",
        YourPlaceHeard: "Yes if that's what you said, no to tell me again.",
        Aperture: "It's written on the tube or by the lens, often after a D. Say the digits one by one.",
        FocalLength: "It's written on the tube or by the focuser, often after an F. Say the digits one by one.",
        TelescopeHeard: "Yes if that's what it says, no to tell me again.",
        WhichEyepiece: "The number is engraved on its rim. Begin with the largest: it shows the most sky.",
        FinderWidthHeard: "Yes if that's what it shows, no to tell me again.",
        EyepieceHeard: "Yes if that's what it says, no to tell me again.",
        ApparentField: "It's sometimes engraved too, as degrees. Simple eyepieces show about fifty.",
        AnotherEyepiece: "I work out which one shows enough sky for each step.",
        HasItADiagonal: "With one, you look down into the eyepiece, and left and right are swapped.",
        WhichFinder: "A red dot you look through with both eyes. A small telescope shows a cross, and usually turns the view round.",
        HowWideIsTheFinder: "Its manual says so; most show five to eight. The way to a target by hand goes by it.",
        WhichCompass: "They read differently away from true north, so I'll tell you what yours must show.",
        WhoChoosesTheStars: "It's what the mount does first when you begin its alignment.",
        WhichNorthDoesThePhoneShow: "Look in the compass settings for true north. If it's not there, it shows magnetic north.",
        WhichStarsDoesItTake: "Any bright ones, if it only wants something bright in the middle and asks no name.",
        WhenIsThePoseTaken: "Its manual says whether it wants levelling before the switch, or after the date and place.",
        DoesItTurnByHand: "Some keep count when turned by hand with the clamps loose. Most lose their place.",
        WhichKeyConfirms: "I'll name it, so that you can find it in the dark.",
        WhichTwoArrowsLast: "They take up the slack in the gears. If you don't know, we watch the mount on its first star.",
        WhatIsInTheWay: "Say what, where, and how high at arm's length. I'll leave out whatever stands behind it.",
        AnythingElseInTheWay: "Name the next thing, its direction and its height in fists.",
        InTheWayHeard: "Yes if that's right, no to leave it out and tell me again.",
        DoYouSeeTheMilkyWay: "A pale band across the sky. It tells me how faint a thing you can find there.",
        AloneOrWithPeople: "Other voices could answer for you. Alone, you needn't press a key first.",
        WhatIsHardForYou: "Then I'll choose brighter stars, or ones at a comfortable height.",
        AnotherLimit: "Name the next, or say: nothing else.",
        InFullOrShort: "In full says how each thing is done. Short only says what is next.",
        HowManyFists: "Count from the one star to the other, with halves if it doesn't come out even.",
        FistHeard: "Yes if you counted so, no to count again.",
    },
)
