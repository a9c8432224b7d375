"""What the observer has and how they work: telescope, mount, compass, horizon.

Every part may be unknown; nothing is demanded before starting. Values only,
like ``messages``: any room may import them, and they import none.
"""

from __future__ import annotations

from collections.abc import Set
from dataclasses import dataclass, replace
from typing import Annotated, Literal

from companion.ranges import Range

FIST_DEG = 10.0
"""A fist at arm's length, until a person's own is measured. Common practice, no published source."""
FISTS_DEG = Range(6, 13, "degrees")
"""What a person's fist spans. Common practice, no published source."""
APERTURE_MM = Range(10, 5_000, "millimetres")
FOCAL_LENGTH_MM = Range(50, 50_000, "millimetres")
EYEPIECE_MM = Range(1, 100, "millimetres")
APPARENT_FIELD_DEG = Range(10, 130, "degrees")
FINDER_OFFSET_CM = Range(0, 200, "centimetres")
FINDER_FIELD_DEG = Range(1, 10, "degrees")
SKY_MAG_ARCSEC2 = Range(14, 22.5, "magnitudes per square arcsecond")
"""A night sky, from under floodlights to the darkest there is: judgement."""
AZIMUTH_DEG = Range(0, 360, "degrees")
KEY_PLACE = Range(1, 12, "keys")
"""How many rows of keys a handset has, and how many keys a row: no figure is published."""
HORIZON_DEG = Range(0, 90, "degrees")
"""How high trees, roofs and hills may reach."""

FinderKind = Literal["dot", "optical"]
"""``dot``: a lit mark seen with both eyes; ``optical``: a small telescope with a cross."""

CompassKind = Literal["needle", "card", "true", "none"]
"""``needle``: a free needle over a fixed dial; ``card``: a card, bezel or phone that reads the magnetic bearing faced; ``true``: already
corrected to true north; ``none``: no compass at all."""

StarChoice = Literal["names", "list", "unnamed", "one", "body"]
"""How the mount settles on its stars: it ``names`` them, the person picks from its ``list``, any bright things ``unnamed``, ``one`` star
only, or the Moon or a planet (``body``)."""

PoseTime = Literal["before-power", "after-settings", "by-itself"]
"""When the mount wants its starting pose: before it is switched on, after the settings are in, or it finds the pose by itself."""

DateOrder = Literal["day-month", "month-day", "year-month-day"]
"""In which order the mount wants its date."""

LastKeys = Literal["up-right", "up-left", "down-right", "down-left"]
"""The two arrows that move the tube as the mount itself does at the end of a turn."""

Limit = Literal["faint-stars", "kneeling", "reaching"]
"""What the observer can't do: see faint stars, kneel, reach up."""

ArrowByCable = Literal["up", "down", "left", "right"]
"""The arrow key that lies nearest the handset's cable: found by feel."""

SightLeft = Literal["none", "little"]
"""What an observer whose sight is limited sees: nothing, or hands and keys and the brightest stars."""

Looker = Literal["helper", "child"]
"""Who looks for the observer: a grown-up, or a child."""

LevelAid = Literal["phone", "mark", "none"]
"""What tells without sight that something is level: a ``phone`` that says its slope, a level with a raised ``mark``, or none."""

Kit = Literal["spare-batteries", "dew-strip", "red-light", "gloves", "chair", "hot-drink"]
"""What the observer may bring beside the telescope: for it, and for themselves. Common practice, no published source."""


@dataclass(frozen=True)
class Eyepiece:
    """One eyepiece."""

    focal_length_mm: Annotated[float, EYEPIECE_MM]
    apparent_field_deg: Annotated[float, APPARENT_FIELD_DEG] = 50.0
    """Fifty is what most simple designs show: common practice, no published source."""


@dataclass(frozen=True)
class Instrument:
    """The telescope and what goes with it."""

    aperture_mm: Annotated[float, APERTURE_MM] | None = None
    focal_length_mm: Annotated[float, FOCAL_LENGTH_MM] | None = None
    eyepieces: tuple[Eyepiece, ...] = ()
    has_diagonal: bool | None = None
    finder: FinderKind | None = None
    finder_offset_cm: Annotated[float, FINDER_OFFSET_CM] = 15.0
    """From the axis of the finder to the axis of the main tube."""
    finder_field_deg: Annotated[float, FINDER_FIELD_DEG] | None = None
    """How much sky the finder shows, from edge to edge."""

    @property
    def lowest_power(self) -> Eyepiece | None:
        """The eyepiece of the longest focal length."""
        return max(self.eyepieces, key=lambda eyepiece: eyepiece.focal_length_mm, default=None)

    def true_field_deg(self, eyepiece: Eyepiece) -> float | None:
        """Return how much sky an eyepiece shows, in degrees; None where the focal length of the telescope isn't known."""
        if self.focal_length_mm is None:
            return None
        return eyepiece.apparent_field_deg * eyepiece.focal_length_mm / self.focal_length_mm


@dataclass(frozen=True)
class Mount:
    """How the mount wants to be set up."""

    star_choice: StarChoice | None = None
    pose_time: PoseTime | None = None
    turns_by_hand: bool | None = None
    """Whether it may be turned by hand with the clutches loose, without losing its place."""
    confirm_key: str | None = None
    """What is written on the key that confirms."""
    hours: Literal[12, 24] | None = None
    """Which clock it wants the time on; None for the one that is usual where we are."""
    date_order: DateOrder | None = None
    """In which order it wants its date; None for the usual one."""
    address: str | None = None
    """Where it is reached, as ``--mount`` takes it; None where it isn't on the line."""
    lowest_deg: Annotated[float, HORIZON_DEG] | None = None
    """Below this the tube can't go; None for the horizon."""
    highest_deg: Annotated[float, HORIZON_DEG] | None = None
    """Above this the tube can't go; None for the zenith."""
    last_keys: LastKeys | None = None
    """With which arrows a star is to be finished: as the mount itself comes to rest, so that the slack is taken up alike."""
    arrow_by_cable: ArrowByCable | None = None
    """Which arrow key lies nearest the cable, for who finds keys by feel."""
    confirm_row: Annotated[int, KEY_PLACE] | None = None
    """In which row of keys, counted from the cable, the one that confirms lies."""
    confirm_key_in_row: Annotated[int, KEY_PLACE] | None = None
    """Which key of that row it is, counted from the left-hand side with the cable away from you."""


@dataclass(frozen=True)
class Obstruction:
    """Something on the horizon that hides the sky: from one azimuth clockwise to another, up to a height; 0 to 360 is all round."""

    from_azimuth_deg: Annotated[float, AZIMUTH_DEG]
    to_azimuth_deg: Annotated[float, AZIMUTH_DEG]
    altitude_deg: Annotated[float, HORIZON_DEG]
    what: str = "trees"

    def hides(self, azimuth_deg: float, altitude_deg: float) -> bool:
        """Say whether a place in the sky is behind it."""
        apart_deg = self.to_azimuth_deg - self.from_azimuth_deg
        width_deg = 360.0 if abs(apart_deg) == 360.0 else apart_deg % 360.0
        return altitude_deg < self.altitude_deg and (azimuth_deg - self.from_azimuth_deg) % 360.0 <= width_deg


@dataclass(frozen=True)
class Observer:
    """The person."""

    compass: CompassKind | None = None
    fist_deg: Annotated[float, FISTS_DEG] = FIST_DEG
    sees_milky_way: bool | None = None
    in_company: bool | None = None
    """Whether other people are around, whose words must change nothing."""
    limits: Set[Limit] = frozenset()
    terse: bool = False
    """Whether they know the procedure and want it in few words."""
    brings: Set[Kit] | None = None
    """What they own and bring; None where nobody has asked."""
    sky_mag_arcsec2: Annotated[float, SKY_MAG_ARCSEC2] | None = None
    """How dark the sky is at the zenith, as a meter shows it or counted stars tell; it counts more than the Milky Way."""
    sight: SightLeft | None = None
    """None where nothing is wrong with it, or nobody has said."""
    eyes: Looker | None = None
    """Who looks in their place; None where they look themselves, or nobody does."""

    level_aid: LevelAid | None = None
    """None where nobody has asked."""

    @property
    def is_unseeing(self) -> bool:
        """Whether nobody at the telescope sees."""
        return self.sight == "none" and self.eyes is None

    @property
    def by_touch(self) -> bool:
        """Whether fine things, such as a bubble or small print, are beyond all eyes at the telescope."""
        return self.sight is not None and self.eyes is None

    @property
    def hard(self) -> Set[Limit]:
        """What they can't do: their limits, and to see faint things where only poor sight looks."""
        return self.limits | {"faint-stars"} if self.by_touch and self.sight == "little" else self.limits


@dataclass(frozen=True)
class Equipment:
    """All of it."""

    instrument: Instrument = Instrument()
    mount: Mount = Mount()
    observer: Observer = Observer()
    horizon: tuple[Obstruction, ...] = ()

    def hides(self, azimuth_deg: float, altitude_deg: float) -> bool:
        """Say whether trees, roofs or hills hide a place in the sky."""
        return any(obstruction.hides(azimuth_deg, altitude_deg) for obstruction in self.horizon)


@dataclass(frozen=True)
class Oneself:
    """What the observer said unasked this evening: of their sight, who looks for them, what talks, what is hard, of the telescope."""

    sight: SightLeft | None = None
    eyes: Looker | None = None
    level_aid: LevelAid | None = None
    """None where nothing was said of it."""
    compass: CompassKind | None = None
    """None where nothing was said of it."""
    limits: tuple[Limit, ...] = ()
    """What is hard for them beside what is known already; each once."""
    aperture_mm: float | None = None
    """Of the telescope, told before anybody asked; None where it wasn't, here and below."""
    focal_length_mm: float | None = None
    finder: FinderKind | None = None

    @classmethod
    def of(cls, equipment: Equipment) -> Oneself:
        """Return what is known of sight and eyes."""
        return cls(equipment.observer.sight, equipment.observer.eyes)

    def put_into(self, equipment: Equipment) -> Equipment:
        """Return the equipment with this in place of what was known."""
        before = equipment.observer
        aid, compass = self.level_aid or before.level_aid, self.compass or before.compass
        told = replace(before, sight=self.sight, eyes=self.eyes, level_aid=aid, compass=compass, limits=before.limits | {*self.limits})
        gear = {"aperture_mm": self.aperture_mm, "focal_length_mm": self.focal_length_mm, "finder": self.finder}
        known = {key: value for key, value in gear.items() if value is not None}
        return replace(equipment, observer=told, instrument=replace(equipment.instrument, **known))  # type: ignore[arg-type]


NOTHING_KNOWN = Equipment()
"""Before anything was told."""
