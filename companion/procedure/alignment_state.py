"""One go at the alignment, from the starting pose on: what was centred, what was left, and what stands in the way."""

from __future__ import annotations

import enum
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Literal, TypeAlias

from companion import alignment, sky
from companion.equipment import FIST_DEG, Obstruction, StarChoice
from companion.procedure.arrows import Arrows
from companion.procedure.notes import MissTold, StarRead
from companion.procedure.nudging import Steering
from companion.procedure.script import Context, Skipped
from companion.procedure.suspicion import Suspicion
from companion.sky import Body, Sight
from companion.talk.answers import FinderAnswer, MissAnswer, NudgeAnswer, StarNameAnswer
from companion.talk.centring_phrases import ArrowKey
from companion.talk.saying import Reply
from companion.talk.stars_phrases import STARTING_POSE

STAR_COUNTS: dict[StarChoice, int] = {"names": 2, "list": 2, "unnamed": 3, "one": 1, "body": 1}
"""How many stars each kind of mount wants: common practice, no published source. It may ask for more."""
MANY_CLOUDED = 2
"""After so many stars behind clouds the whole sky is asked about, instead of one more."""
_OUT_OF_THE_GLARE_DEG = 5.0
"""Nearer to the Moon a star drowns; nearer to any body, it proves nothing. Judgement."""
_MANY = 20
"""More than are well placed at a time."""
_TOO_HIGH_DEG = 50.0
"""For who can't reach or kneel. Judgement."""
Hiding: TypeAlias = Literal["cloud", "tree"]
_OBSTRUCTIONS: Mapping[Hiding, tuple[float, float]] = {"cloud": (30.0, 15.0), "tree": (15.0, 3.0)}
"""How far a cloud or a tree reaches to each side of a star, and above it, in degrees, where nothing better is known: judgement."""


class Ending(enum.Enum):
    """How the work on one star ended."""

    CENTRED = enum.auto()
    WAY_OFF = enum.auto()
    """Its miss was told, or it is below the horizon."""
    LEFT = enum.auto()
    CLOUDED = enum.auto()
    """The whole sky is clouded over."""
    NAMED_ANOTHER = enum.auto()
    """The mount goes to another star."""


FinderReply: TypeAlias = Reply[FinderAnswer | StarNameAnswer | NudgeAnswer | MissAnswer]
"""An answer about the finder: the star the mount names instead, a step of it, and how far off the star is are some, too."""


@dataclass(frozen=True)
class Visit:
    """The work on one star, ended."""

    ending: Ending
    time: datetime
    told: FinderReply | None = None
    """What named another star."""


@dataclass
class AlignmentState:
    """One go at the alignment."""

    context: Context
    started: datetime
    choice: StarChoice
    wanted: int
    """How many stars the mount wants."""
    centred: list[str] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)
    misses: list[MissTold] = field(default_factory=list)
    centred_at: dict[str, datetime] = field(default_factory=dict)
    """When each star was taken in."""
    suspicion: Suspicion = field(default_factory=Suspicion)
    """What may be wrong, by what was answered and done so far."""
    hidden: list[Obstruction] = field(default_factory=list)
    """Clouds and trees told on the way."""
    fist_deg: float = FIST_DEG
    arrows: Arrows | None = None
    """How the arrow keys move a star in the eyepiece, once that is learned."""
    finder_arrows: Arrows | None = None
    """The same in the finder, which turns the view in its own way."""
    last_keys: tuple[ArrowKey, ...] = ()
    """With which arrows, one of each pair, stars were finished so far; the mount's own, where they are known."""
    asked_last_keys: bool = False
    """Whether it was asked how the mount comes to rest: once, whatever the answer."""
    left_since: bool = False
    """Whether the tube went to a star since, that was then left."""
    from_pose: bool = True
    """Whether it began in the starting pose; after a mishap the tube may stand anywhere."""
    seen_in_twilight: bool = False
    """Whether the observer saw a star that should not have shown yet: from then on they are believed."""
    no_star_tonight: bool = False
    clouded: int = 0
    """How many stars in a row stood behind clouds."""
    unseen: dict[str, int] = field(default_factory=dict)
    """How often each star could not be seen: each time another cure is tried."""

    readings: list[StarRead] = field(default_factory=list)
    """What a mount on the line read at each star."""
    lean_deg: float | None = None
    """How far the base leans by those; None where that isn't known."""
    synced: set[str] = field(default_factory=set)
    """Stars that the mount was told over the line."""
    reading_is_doubted: bool = False
    """Whether the observer was believed against what the mount on the line reads."""
    steering: Steering = field(default_factory=Steering)
    """What small steps over the line have taught."""
    synced_by: tuple[float, float] = (0.0, 0.0)
    """By how much syncs have shifted its azimuth and altitude so far, degrees."""

    @property
    def visited(self) -> bool:
        """Whether any star was introduced before."""
        return bool(self.centred or self.refused)

    @property
    def points_at(self) -> str | None:
        """Where the tube was left: at a star, or in its starting pose; None where it may stand anywhere."""
        if self.left_since:
            return None
        if self.centred:
            return self.centred[-1]
        pose_time = self.context.equipment.mount.pose_time
        pose = self.context.results.get("late-pose" if pose_time == "after-settings" else "starting-pose")
        stands_so = self.from_pose and pose_time != "by-itself" and not isinstance(pose, Skipped)
        return STARTING_POSE if stands_so else None

    def told_miss_deg(self, star: str) -> float:
        """Return how far a star was told to lie from where the mount stopped, at most; nought where nothing was told of it."""
        told = [miss for miss in self.misses if miss.star == star]
        return max((math.hypot(miss.right_deg or miss.turn_deg or 0.0, miss.up_deg or 0.0) for miss in told), default=0.0)

    def watches(self, star: str) -> bool:
        """Say whether the observer is to watch how the mount comes to rest at a star, to finish every star the same way."""
        turns_by_itself = self.choice != "unnamed"
        can_watch = not self.context.equipment.observer.by_touch
        return turns_by_itself and can_watch and star != sky.MOON.name and not self.asked_last_keys and not self.last_keys

    @property
    def partners(self) -> list[Body]:
        """The stars centred so far."""
        return [sky.find(name) for name in self.centred]

    def hides(self, sight: Sight) -> bool:
        """Say whether something stands before a sight."""
        return self.context.hides(sight) or any(one.hides(sight.azimuth_deg, sight.altitude_deg) for one in self.hidden)

    def too_faint(self, sight: Sight) -> bool:
        """Say whether a sight is hidden, or too faint for this person's eyes."""
        return self.hides(sight) or self.context.conceals(sight)

    def uncomfortable(self, sight: Sight) -> bool:
        """Say whether a sight is hidden, too faint, or so high that this person can't get at the eyepiece.

        With a diagonal one kneels to look high up, without one reaches or climbs.
        """
        limits = self.context.equipment.observer.limits
        has_diagonal = self.context.equipment.instrument.has_diagonal
        limited = ("kneeling" in limits and has_diagonal is not False) or ("reaching" in limits and has_diagonal is not True)
        return self.too_faint(sight) or (limited and sight.altitude_deg > _TOO_HIGH_DEG)

    def settle(self, star: str, visit: Visit) -> None:
        """Keep how a star went: centred, or left."""
        done = visit.ending is Ending.CENTRED
        (self.centred if done else self.refused).append(star)
        if done:
            self.centred_at[star] = visit.time
        self.left_since = not done
        if done:
            self.clouded = 0
        elif visit.ending is Ending.CLOUDED:
            self.clouded = MANY_CLOUDED

    def hide(self, star: str, time: datetime, behind: Hiding) -> None:
        """Keep in mind that a cloud or a tree stands before a star."""
        self.clouded += behind == "cloud"
        sight = sky.sight(sky.find(star), self.context.moment(time))
        beside_deg, above_deg = _OBSTRUCTIONS[behind]
        left_deg, right_deg = (sight.azimuth_deg - beside_deg) % 360, (sight.azimuth_deg + beside_deg) % 360
        self.hidden.append(Obstruction(left_deg, right_deg, min(90.0, sight.altitude_deg + above_deg), behind))

    def forgive(self) -> None:
        """Let what was refused count again: clouds move and stars rise."""
        self.clouded = 0
        self.unseen.clear()
        self.refused.clear()
        self.hidden.clear()

    def next_star(self, time: datetime) -> str | None:
        """Return the best thing to centre next, for this mount, from here and for this person; None when nothing is left."""
        return self._best(time, self.uncomfortable) or self._best(time, self.too_faint) or self._best(time, self.hides)

    def next_after(self, star: str, time: datetime) -> str | None:
        """Return the best thing to go to if a star is left; None when nothing is."""
        return replace(self, refused=[*self.refused, star]).next_star(time)

    def nearest_star(self, time: datetime) -> str | None:
        """Return what shows nearest to the one thing centred, where a mount that knows only that points best; None where nothing does."""
        moment = self.context.moment(time)
        (alone,) = sky.sights(self.partners, moment)
        avoiding = (*self.centred, *self.refused)
        ranked = alignment.bright_things(moment, count=_MANY, avoiding=avoiding, hidden=self.uncomfortable)
        seen = (star.sight for star in ranked if sky.visible_now(star.sight, moment))
        apart_deg = {sight.body.name: sky.separation_deg(sight, alone) for sight in seen}
        clear = [name for name, apart in apart_deg.items() if apart > _OUT_OF_THE_GLARE_DEG]
        return min(clear, key=apart_deg.__getitem__, default=None)

    def _best(self, time: datetime, hidden: Callable[[Sight], bool]) -> str | None:
        moment = self.context.moment(time)
        avoiding = (*self.centred, *self.refused)
        if self.choice == "body":
            bodies = (sight.body.name for sight in alignment.alignment_bodies(moment, hidden))
            return next((name for name in bodies if name not in avoiding), None)
        choose = alignment.bright_things if self.choice == "unnamed" else alignment.reference_stars
        ranked = choose(moment, count=1, avoiding=avoiding, partners=self.partners, hidden=hidden)
        return ranked[0].sight.body.name if ranked else None
