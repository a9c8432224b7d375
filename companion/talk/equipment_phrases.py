"""What is said of the interview about place, telescope, mount, horizon and observer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from companion.talk.answers import (
    CompanyAnswer,
    CompassKindAnswer,
    ConfirmKeyAnswer,
    CoordinateAnswer,
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
    ToldFigureAnswer,
    TownAnswer,
    TownLettersAnswer,
    YesNoAnswer,
)
from companion.talk.saying import Ask, Receipt, Say

LengthUnit: TypeAlias = Literal["kilometres", "miles"]


class AboutYourEquipment(Say): ...


class AboutYourTelescope(Say): ...


class EquipmentKnown(Receipt): ...


class WhereAreYou(Ask[TownAnswer]): ...


class SpellTheTown(Ask[TownLettersAnswer]):
    """Ask for the first letters of a town that isn't among those an ear knows."""


@dataclass(frozen=True)
class NoOtherTown(Say):
    """Say that no town is left that begins with these letters."""

    letters: str


class SayOrSpellTheTown(Say):
    """Offer to spell a town that was heard wrong."""


@dataclass(frozen=True)
class TownHeard(Ask[YesNoAnswer]):
    """Read a town back with its place in whole degrees, since several towns may share a name."""

    town: str
    latitude_deg: float
    longitude_deg: float


@dataclass(frozen=True)
class HowFarFromTown(Ask[FromTownAnswer]):
    """Ask how far from a town we are, in the unit that is usual there; either is taken."""

    unit: LengthUnit


@dataclass(frozen=True)
class FromTownHeard(Ask[YesNoAnswer]):
    """Read back how far from a town we are, and where from it: figures singly, since fifteen sounds like fifty."""

    town: str
    distance: int
    unit: LengthUnit
    bearing_deg: float


class YourLatitude(Ask[CoordinateAnswer]): ...


class YourLongitude(Ask[CoordinateAnswer]): ...


@dataclass(frozen=True)
class YourPlaceHeard(Ask[YesNoAnswer]):
    """Read latitude and longitude back, degrees and minutes singly."""

    latitude_deg: float
    longitude_deg: float


@dataclass(frozen=True)
class NoSuchTown(Say):
    """Say that we know no such town, which are spelt much like it, and what to do instead."""

    named: str | None
    """As it was typed; None where it wasn't named."""
    spelt_alike: tuple[str, ...]


@dataclass(frozen=True)
class NoSuchCoordinate(Say):
    """Say how a latitude or a longitude ends, and how large it can be."""

    which: Literal["latitude", "longitude"]


@dataclass(frozen=True)
class UnlikelyFigure(Say):
    """Say which figure can't be."""

    figure: float


class FigureLeft(Receipt): ...


class Aperture(Ask[MillimetresAnswer]): ...


class FocalLength(Ask[MillimetresAnswer]): ...


@dataclass(frozen=True)
class TelescopeHeard(Ask[YesNoAnswer]):
    """Read back what was told of aperture and focal length; at least one of them was."""

    aperture_mm: float | None
    focal_length_mm: float | None


class WhichEyepiece(Ask[FewMillimetresAnswer]): ...


@dataclass(frozen=True)
class EyepieceHeard(Ask[YesNoAnswer]):
    """Read an eyepiece back."""

    focal_length_mm: float
    field_deg: float | None


class ApparentField(Ask[FieldWidthAnswer]): ...


class AnotherEyepiece(Ask[YesNoAnswer]): ...


class HasItADiagonal(Ask[YesNoAnswer]): ...


class WhichFinder(Ask[FinderKindAnswer | ToldFigureAnswer]): ...


class HowWideIsTheFinder(Ask[FinderWidthAnswer]): ...


@dataclass(frozen=True)
class FinderWidthHeard(Ask[YesNoAnswer]):
    """Read back how much of the sky a finder shows: numbers with a half or a tenth sound alike."""

    field_deg: float


class WhichCompass(Ask[CompassKindAnswer]): ...


class WhichNorthDoesThePhoneShow(Ask[PhoneNorthAnswer]): ...


class WhoChoosesTheStars(Ask[StarChoiceAnswer]): ...


class WhichStarsDoesItTake(Ask[StarChoiceElseAnswer]): ...


class WhenIsThePoseTaken(Ask[PoseTimeAnswer]): ...


class DoesItTurnByHand(Ask[YesNoAnswer]): ...


class WhichKeyConfirms(Ask[ConfirmKeyAnswer]): ...


class WhichTwoArrowsLast(Ask[LastKeysAnswer]): ...


class WhatIsInTheWay(Ask[HorizonAnswer]): ...


class AnythingElseInTheWay(Ask[HorizonAnswer]): ...


@dataclass(frozen=True)
class InTheWayHeard(Ask[YesNoAnswer]):
    """Read an obstruction back."""

    from_azimuth_deg: float
    to_azimuth_deg: float
    altitude_deg: float
    what: str
    fists: float


class DoYouSeeTheMilkyWay(Ask[YesNoAnswer | ToldFigureAnswer]): ...


class AloneOrWithPeople(Ask[CompanyAnswer]): ...


class WhatIsHardForYou(Ask[LimitsAnswer]): ...


class AnotherLimit(Ask[LimitsAnswer]): ...


class InFullOrShort(Ask[FullnessAnswer]): ...


@dataclass(frozen=True)
class HowManyFists(Ask[FistsAnswer]):
    """Ask for the distance between two stars in fists."""

    one: str
    other: str


@dataclass(frozen=True)
class FistHeard(Ask[YesNoAnswer]):
    """Read the fists back, and say what one of them spans."""

    fists: float
    fist_deg: float


@dataclass(frozen=True)
class UnlikelyFist(Say):
    """Say that no fist is so large or so small."""

    fists: float


class FistLeft(Receipt): ...


class NoPairForTheFist(Say): ...
