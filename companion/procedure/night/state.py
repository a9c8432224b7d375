"""What is kept of a night: what was shown, seen, put off and never wanted, what was wished for, and where the sky is clear."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import datetime

from companion.observing import SiteSky, found_among
from companion.observing.observation import Observation
from companion.procedure.nudging import Steering
from companion.sky import Body, Sight, separation_deg
from companion.sky.bands import CompassPoint
from companion.talk.night_phrases import Told, Wish
from companion.talk.saying import Ask

_CLOUD_DEG = 35.0
"""How far a cloud that comes over a target reaches around it. Judgement."""
_CLEAR_SIDE_DEG = 60.0
"""How far a side of the sky reaches to each side of its compass point: a third of the way round. Judgement."""

_OBSTACLE_DEG, _ABOVE_DEG = 10.0, 2.0
"""How far what stands before a target reaches to each side and above it. Judgement."""


@dataclass(frozen=True)
class PutOff:
    """Something that is wanted later."""

    name: str
    until: datetime


@dataclass(frozen=True)
class Cloud:
    """A part of the sky that is clouded for a while."""

    around: Sight
    until: datetime

    def hides(self, sight: Sight) -> bool:
        """Say whether a sight is behind it."""
        return sight.time < self.until and separation_deg(sight, self.around) < _CLOUD_DEG


@dataclass(frozen=True)
class Obstacle:
    """Trees or a roof before a target: as high as it, and somewhat to both sides."""

    azimuth_deg: float
    altitude_deg: float

    def hides(self, sight: Sight) -> bool:
        """Say whether a sight is behind it."""
        off_deg = abs((sight.azimuth_deg - self.azimuth_deg + 180.0) % 360.0 - 180.0)
        return off_deg < _OBSTACLE_DEG and sight.altitude_deg < self.altitude_deg + _ABOVE_DEG


@dataclass(frozen=True)
class WayTaken:
    """A way by hand that is gone step by step."""

    steps: tuple[Ask[Told], ...] = ()
    """Empty where none was begun at this target."""
    at: int | None = None
    """The step that is under way; None where the way was left, or never begun."""
    lost: tuple[int, ...] = ()
    """The steps whose star could not be found, as often as that happened."""
    is_back: bool = False
    """Whether the star before the step under way is to be centred once more."""

    @property
    def is_under_way(self) -> bool:
        """Whether there is anything more to come of it."""
        return self.at is not None and (self.is_back or self.at + 1 < len(self.steps))


NO_WAY = WayTaken()


@dataclass(frozen=True)
class Night:
    """All that the observer's answers have made of the night so far. Names are those of bodies."""

    now: str | None = None
    """The target we are at; None where there is none."""
    shown: tuple[str, ...] = ()
    """In order, the one we are at last; what was gone back to stands there twice."""
    seen: tuple[str, ...] = ()
    put_off: tuple[PutOff, ...] = ()
    never: tuple[str, ...] = ()
    awaited: tuple[PutOff, ...] = ()
    """What stood at the top of the sky, and was promised for when it has left it."""
    wish: Wish = "anything"
    """A kind of thing, until none is left."""
    clouds: tuple[Cloud, ...] = ()
    obstacles: tuple[Obstacle, ...] = ()
    clear_side: CompassPoint | None = None
    """None where the sky is clear all round."""
    own: tuple[Body, ...] = ()
    """The observer's own objects, offered with the rest."""
    site_sky: SiteSky | None = None
    """How dark it is here, where that was told."""
    asked_how_dark: bool = False
    eyepiece_mm: float | None = None
    """The eyepiece that shows the target better than the one it is found with; None where there is none, or it isn't known."""
    eyepiece_in_mm: float | None = None
    """The eyepiece that is in, where that was told at this target."""
    written_last: Observation | None = None
    """The observation written down last."""
    by_hand: bool = False
    """Whether the mount doesn't know the sky, so that every way is the observer's own."""
    by_line: bool = False
    """Whether a mount that knows the sky is on the line."""
    steering: Steering = field(default_factory=Steering)
    """What small steps over the line have taught."""
    good_turns: int = 0
    """How many turns over the line went well, the proof's among them."""
    mount_is_on: bool = False
    """Whether something was told that only a mount under power does."""
    finder_field_deg: float | None = None
    """How much sky the finder shows, where that was told this night."""
    way: WayTaken = NO_WAY
    """How far the observer is on the way there by hand."""
    look_told: bool = False
    """Whether what a person sees of the target was said."""
    tried: int = 0
    """How many remedies were tried at this target since it was said to be not there."""

    @property
    def by_hand_alone(self) -> bool:
        """Whether the mount knows nothing, and may never have been switched on."""
        return self.by_hand and not self.mount_is_on

    def at(self, name: str | None, eyepiece_mm: float | None = None) -> Night:
        """Go to a target."""
        shown = self.shown if name is None else (*self.shown, name)
        put_off = tuple(one for one in self.put_off if one.name != name)
        return replace(
            self,
            now=name,
            shown=shown,
            put_off=put_off,
            eyepiece_mm=eyepiece_mm,
            eyepiece_in_mm=None,
            way=NO_WAY,
            tried=0,
            look_told=False,
            steering=self.steering.at_another(),
        )

    def saw(self) -> Night:
        """Count the target as seen."""
        return self if self.now is None or self.now in self.seen else replace(self, seen=(*self.seen, self.now))

    def later(self, until: datetime) -> Night:
        """Put the target off."""
        return self if self.now is None else replace(self, put_off=(*self.put_off, PutOff(self.now, until)))

    def not_again(self) -> Night:
        """Leave the target for good."""
        return self if self.now is None else replace(self, never=(*self.never, self.now))

    @property
    def passed(self) -> tuple[str, ...]:
        """What was shown and left without a word that it was seen, that it is wanted later, or never: in order, each once."""
        settled = {self.now, *self.seen, *self.never, *(one.name for one in self.put_off)}
        return tuple(dict.fromkeys(name for name in self.shown if name not in settled))

    def overdue(self, time: datetime) -> Night:
        """Make everything due that was put off."""
        return replace(self, put_off=tuple(replace(one, until=time) for one in self.put_off))

    def passed_over(self, time: datetime) -> frozenset[str]:
        """Return what is not offered again of itself: all that was shown, unless it was put off and is due; and what is not wanted."""
        due = {one.name for one in self.put_off if one.until <= time}
        return frozenset({*self.shown} - due | {*self.never})

    def hides(self, sight: Sight) -> bool:
        """Say whether a sight is behind clouds, trees or a roof, by what was told."""
        if self.clear_side is not None:
            off_deg = abs((sight.azimuth_deg - 45.0 * self.clear_side.value + 180.0) % 360.0 - 180.0)
            if off_deg > _CLEAR_SIDE_DEG:
                return True
        return any(cloud.hides(sight) for cloud in self.clouds) or any(one.hides(sight) for one in self.obstacles)

    def find(self, name: str) -> Body:
        """Return what a name stands for, the observer's own objects included."""
        return found_among(self.own, name)

    @property
    def before(self) -> str | None:
        """The target before this one; None where there was none."""
        earlier = [name for name in self.shown if name != self.now]
        return earlier[-1] if earlier else None
