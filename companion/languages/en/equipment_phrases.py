"""English for the interview about place, telescope, mount, horizon and observer."""

from __future__ import annotations

from companion.languages.en.direction_words import compass_point, degrees, sentence
from companion.languages.en.number_words import cardinal, digits
from companion.languages.phrase import Chapter
from companion.sky import Moment


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


def aperture_heard(moment: Moment, *, figure: float) -> str:
    """Read the aperture back."""
    return f"Width, {_singly(figure)} millimetres. Is that right?"


def focal_length_heard(moment: Moment, *, figure: float) -> str:
    """Read the focal length back."""
    return f"Focal length, {_singly(figure)} millimetres. Is that right?"


def eyepiece_heard(moment: Moment, *, figure: float) -> str:
    """Read an eyepiece back."""
    return f"Eyepiece, {_singly(figure)} millimetres. Is that right?"


def apparent_field_heard(moment: Moment, *, figure: float) -> str:
    """Read the apparent field back."""
    return f"It shows {_singly(figure)} degrees across. Is that right?"


def unlikely_figure(moment: Moment, *, figure: float) -> str:
    """Say which figure can't be."""
    return f"I heard {_singly(figure)}. That would be an unusual one; tell me the figures one by one."


def no_such_coordinate(moment: Moment, *, which: str) -> str:
    """Say how a latitude or a longitude ends, and how large it can be."""
    if which == "latitude":
        return "A latitude is at most ninety degrees, and ends with north or south."
    return "A longitude is at most a hundred and eighty degrees, and ends with east or west."


def town_heard(moment: Moment, *, name: str, latitude_deg: float, longitude_deg: float) -> str:
    """Read a town back with its place in whole degrees, since several towns may share a name."""
    north, east = ("north" if latitude_deg >= 0 else "south"), ("east" if longitude_deg >= 0 else "west")
    at = f"latitude {digits(round(abs(latitude_deg)))} {north}, longitude {digits(round(abs(longitude_deg)))} {east}"
    return f"Near {name}, {at}. Is that right?"


def from_town_heard(moment: Moment, *, name: str, distance: int, unit: str, bearing_deg: float) -> str:
    """Read back how far from a town we are, and where from it: figures singly, since fifteen sounds like fifty."""
    return f"{sentence(digits(distance))[:-1]} {unit} {compass_point(bearing_deg)} of {name}. Is that right?"


def coordinate_heard(moment: Moment, *, which: str, angle_deg: float) -> str:
    """Read a coordinate back, degrees and minutes singly."""
    whole, minutes = divmod(round(abs(angle_deg) * 60), 60)
    side = {("latitude", True): "north", ("latitude", False): "south", ("longitude", True): "east"}.get((which, angle_deg >= 0), "west")
    return f"{sentence(which)[:-1]} {digits(whole)} degrees {digits(minutes, 2)} minutes {side}. Is that right?"


def in_the_way_heard(
    moment: Moment, *, from_azimuth_deg: float, to_azimuth_deg: float, altitude_deg: float, what: str, fists: float
) -> str:
    """Read an obstruction back."""
    width_deg = (to_azimuth_deg - from_azimuth_deg) % 360
    if width_deg <= 45:
        where = f"in the {compass_point(from_azimuth_deg + width_deg / 2)}"
    else:
        where = f"from {compass_point(from_azimuth_deg)} round to {compass_point(to_azimuth_deg)}"
    return f"{sentence(what)[:-1]} {where}, up to {_fists(fists)}. Is that right?"


def how_many_fists(moment: Moment, *, one: str, other: str) -> str:
    """Ask for the distance between two stars in fists."""
    return f"How many fists from {one} to {other}? Stretch your arm right out, shut one eye, and step fist over fist."


def fist_heard(moment: Moment, *, fists: float, fist_deg: float) -> str:
    """Read the fists back, and say what one of them spans."""
    return f"{sentence(_fists(fists))[:-1]}: so your fist spans {degrees(fist_deg)}. Is that right?"


def unlikely_fist(moment: Moment, *, fists: float) -> str:
    """Say that no fist is so large or so small."""
    return f"{sentence(_fists(fists))[:-1]} can't be right for those two. Look again which stars I mean."


EQUIPMENT = Chapter(
    phrases={
        "about-your-equipment": "Some questions about your place and your telescope. Say skip this to any of them.",
        "equipment-known": "Good. That's all I need to know.",
        # place
        "where-are-you": "Where are we? Say near, and the nearest large town. Or say: latitude and longitude.",
        "town-heard": town_heard,
        "how-far-from-town": "How far are we from there? Say it like: ten kilometres north-west. Or say: in the town.",
        "from-town-heard": from_town_heard,
        "your-latitude": "What's the latitude? Say degrees, minutes, and north or south.",
        "your-longitude": "And the longitude? Degrees, minutes, and east or west.",
        "your-coordinate-heard": coordinate_heard,
        "no-such-coordinate": no_such_coordinate,
        # figures
        "unlikely-figure": unlikely_figure,
        "figure-left": "Let's leave that one. You can type it later.",
        # telescope
        "aperture": "How wide is the front lens or main mirror, in millimetres?",
        "aperture-heard": aperture_heard,
        "focal-length": "What's the focal length of the telescope? It's the longer of the two figures written on the tube.",
        "focal-length-heard": focal_length_heard,
        "eyepiece": "Tell me an eyepiece, the little lens you look into. What does it say, in millimetres?",
        "eyepiece-heard": eyepiece_heard,
        "apparent-field": "How many degrees wide does its view seem? If you don't know, say skip this.",
        "apparent-field-heard": apparent_field_heard,
        "another-eyepiece": "Have you another eyepiece with you?",
        "has-it-a-diagonal": "Is there a diagonal, a small mirror that turns the view upwards before the eyepiece?",
        "which-finder": "What finder is on it: a red dot, or a small telescope?",
        # compass and mount
        "which-compass": "What compass have you? A loose needle, a turning card or phone, one showing true north, or no compass?",
        "who-chooses-the-stars": (
            "How does the mount settle on its stars? Say: it names them, I choose from its list, or any bright ones. "
            "Or: just a single star, or the Moon or a planet."
        ),
        "when-is-the-pose-taken": (
            "When does the mount want to be level and facing north? Before switching on, after the settings, or by itself?"
        ),
        "does-it-turn-by-hand": "Can you turn the mount by hand without it losing its place?",
        "which-key-confirms": "What's on the key that confirms: enter, okay, select, or confirm?",
        # horizon
        "what-is-in-the-way": (
            "What hides the sky from where you are? Say it like: trees in the west up to three fists. Or: nothing in the way."
        ),
        "anything-else-in-the-way": "What else? Or say: that's all.",
        "in-the-way-heard": in_the_way_heard,
        # observer
        "do-you-see-the-milky-way": "Can you see the Milky Way from there, on a clear night without a Moon?",
        "alone-or-with-people": "Are you alone tonight, or with people? With people around, I listen only when you call me.",
        "what-is-hard-for-you": (
            "Is anything hard for you: faint stars, kneeling down, or reaching up? Tell me one at a time. Or say: nothing else."
        ),
        "another-limit": "Anything more? Or say: nothing else.",
        "in-full-or-short": "Shall I tell you every step in full, or keep it short?",
        # the fist
        "how-many-fists": how_many_fists,
        "fist-heard": fist_heard,
        "unlikely-fist": unlikely_fist,
        "fist-left": "Let's leave it. I go on counting ten degrees to a fist.",
        "no-pair-for-the-fist": "No two stars stand right for measuring your fist just now. I go on counting ten degrees to it.",
    },
    terse={
        "about-your-equipment": "Your place and your telescope. Skip what you like.",
        "where-are-you": "Nearest large town? Or say: latitude and longitude.",
        "how-far-from-town": "How far, and which way? Or: in the town.",
        "your-latitude": "Latitude?",
        "your-longitude": "Longitude?",
        "aperture": "Width of the main lens or mirror, in millimetres?",
        "focal-length": "Focal length?",
        "eyepiece": "Eyepiece, in millimetres?",
        "apparent-field": "Apparent field, in degrees?",
        "another-eyepiece": "Another eyepiece?",
        "has-it-a-diagonal": "Is there a diagonal?",
        "which-finder": "Red dot, or small telescope?",
        "which-compass": "Compass: a loose needle, a phone, true north, or no compass?",
        "who-chooses-the-stars": "How does the mount settle on its stars?",
        "when-is-the-pose-taken": "Starting pose before switching on, after the settings, or by itself?",
        "does-it-turn-by-hand": "Does it turn by hand?",
        "which-key-confirms": "Which key confirms?",
        "what-is-in-the-way": "What hides the sky, where, and up to how many fists?",
        "do-you-see-the-milky-way": "Can you see the Milky Way there?",
        "alone-or-with-people": "Alone, or with people?",
        "what-is-hard-for-you": "Anything hard for you?",
        "another-limit": "Anything more?",
        "in-full-or-short": "In full, or short?",
    },
    sayable={
        "town": ("near Nairobi", "latitude and longitude"),
        "from_town": ("ten kilometres north west", "in the town"),
        "finder_kind": ("a red dot", "a small telescope", "no finder"),
        "compass_kind": ("a loose needle", "my phone", "it shows true north", "no compass"),
        "star_choice": ("it names them", "from its list", "any bright ones", "a single star", "Moon or planet"),
        "pose_time": ("before switching on", "after the settings", "by itself"),
        "confirm_key": ("enter", "okay", "select", "confirm"),
        "company": ("I'm alone", "with other people"),
        "limits": ("faint stars", "kneeling down", "reaching up", "nothing else"),
        "fullness": ("every step in full", "keep it short"),
        "millimetres": ("one two zero zero", "twelve hundred", "eighty millimetres"),
        "few_millimetres": ("twenty five millimetres", "nine point seven"),
        "horizon": ("trees in the west up to three fists", "nothing in the way", "that's all"),
        "fists": ("three and a half", "four fists"),
    },
    step_help={
        "where-are-you": "I know the large towns of the world. Within twenty kilometres is near enough for the set-up.",
        "town-heard": "Yes if that's the town, no to tell me another.",
        "how-far-from-town": "Within twenty kilometres is near enough for the set-up: then say in the town. Or skip this.",
        "from-town-heard": "Yes if that's what you said, no to tell me again.",
        "your-latitude": "It's on any map, and in most phones. To a tenth of a degree is enough, that's six minutes.",
        "your-longitude": "It's on any map, and in most phones. West of Greenwich is west.",
        "your-coordinate-heard": "Yes if that's what you said, no to tell me again.",
        "aperture": "It's written on the tube or by the lens, often after a D. Say the figures one by one.",
        "aperture-heard": "Yes if that's what it says, no to tell me again.",
        "focal-length": "It's written on the tube or by the focuser, often after an F. Say the figures one by one.",
        "focal-length-heard": "Yes if that's what it says, no to tell me again.",
        "eyepiece": "The figure is engraved on its rim. Begin with the largest: it shows the most sky.",
        "eyepiece-heard": "Yes if that's what it says, no to tell me again.",
        "apparent-field": "It's sometimes engraved too, as degrees. Simple eyepieces show about fifty.",
        "apparent-field-heard": "Yes if that's right, no to tell me again.",
        "another-eyepiece": "I work out which one shows enough sky for each step.",
        "has-it-a-diagonal": "With one, you look down into the eyepiece, and left and right are swapped.",
        "which-finder": "A red dot you look through with both eyes. A small telescope shows a cross, and usually turns the view round.",
        "which-compass": "They read differently away from true north, so I tell you what yours must show.",
        "who-chooses-the-stars": "It's what the mount does first when you begin its alignment.",
        "when-is-the-pose-taken": "Its manual says whether it wants levelling before the switch, or after the date and place.",
        "does-it-turn-by-hand": "Some keep count when turned by hand with the clamps loose. Most lose their place.",
        "which-key-confirms": "I name it, so that you can find it in the dark.",
        "what-is-in-the-way": "Say what, where, and how high at arm's length. I leave out whatever stands behind it.",
        "anything-else-in-the-way": "Name the next thing, its direction and its height in fists.",
        "in-the-way-heard": "Yes if that's right, no to leave it out and tell me again.",
        "do-you-see-the-milky-way": "A pale band across the sky. It tells me how faint a thing you can find there.",
        "alone-or-with-people": "Other voices could answer for you. Alone, you needn't call me first.",
        "what-is-hard-for-you": "Then I choose brighter stars, or ones at a comfortable height.",
        "another-limit": "Name the next, or say: nothing else.",
        "in-full-or-short": "In full says how each thing is done. Short only says what is next.",
        "how-many-fists": "Count from the one star to the other, with halves if it doesn't come out even.",
        "fist-heard": "Yes if you counted so, no to count again.",
    },
)
