"""The mount on the line during an evening: does what scripts ask of it, never what nobody asked for, and halts it whenever told."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta

from companion.dialogue.device_calls import done, failed
from companion.equipment import Equipment
from companion.live import steps
from companion.live.flight import Flight, pointing_of, sun_at
from companion.live.mount_told import horizontal, setting, slots_of, why_not
from companion.messages import Answer, Heard, Hearing, Slots
from companion.mount import (
    Command,
    Effect,
    Equatorial,
    Failed,
    Horizontal,
    Identity,
    Line,
    Lost,
    MountState,
    Opened,
    Pending,
    Settings,
    Slew,
    Standstill,
    Sync,
    Track,
)
from companion.mount.belief import uncertainty_deg
from companion.mount.clear_way import Blocked, Limits, clear_way
from companion.mount.coordinates import place_of
from companion.mount.flight_watch import SILENT_S
from companion.observing import found_among
from companion.procedure.mount_calls import GivePlace, GiveTime, NudgeBy, ReadMount, SyncOn, TurnTo
from companion.sky import Body, Moment
from companion.talk.answers import TurningAnswer
from companion.talk.mount_phrases import (
    CanNotHaltIt,
    ItStandsStill,
    MountLineBack,
    MountLineLost,
    MountNotThere,
    MountOnTheLine,
    NotTurned,
    WasHalted,
    WatchIt,
)
from companion.talk.saying import Call, Outcome, Say

READ_WITHIN_S = 4.0
"""A reading that takes longer isn't waited for."""
HALTED_LATELY_S = 5.0
"""A "stop" that is understood so shortly after a halt is the one that was taken already, or means the same. Judgement."""


class MountLink:
    """Holds the line for one evening. All but ``key_pressed`` is called on the conversation's thread."""

    def __init__(self, line: Line, clock: Callable[[], datetime], equipment: Equipment, own: tuple[Body, ...] = ()) -> None:
        """Take an open line, our own clock, what the profile says of the mount, and the observer's own objects."""
        self._line, self._clock, self._own = line, clock, own
        mount = equipment.mount
        self._limits = Limits(
            0.0 if mount.lowest_deg is None else mount.lowest_deg, 90.0 if mount.highest_deg is None else mount.highest_deg
        )
        self.may_move: Callable[[], bool] = lambda: True
        """Whether the observer could halt it by a word or a key; who holds the evening says so."""
        self._flight: Flight | None = None
        self._halts: list[Pending[Standstill]] = []
        self._lost: Flight | None = None
        """The flight before: where its line was lost, what comes of it is told when that is back."""
        self._was_up = False
        self._is_acting = False
        """Whether a call that moves it is under way: a key pressed now is meant for that, though nothing turns yet."""
        self._was_halted = False
        """Whether such a call was halted."""
        self._halted_s: float | None = None
        self._stood: datetime | None = None
        """When it last said, after a halt, that it stands."""

    @property
    def is_up(self) -> bool:
        """Whether the mount answers."""
        return self._line.is_up

    # --- halting -----------------------------------------------------------------------------------------------------

    @property
    def is_turning(self) -> bool:
        """Whether the mount turns, so far as we know, or is about to."""
        return self._is_acting or self._turns

    @property
    def _turns(self) -> bool:
        state = self._line.state
        flying = self._flight is not None and not self._flight.is_over
        return flying or (self._line.is_up and state is not None and state.slewing is True)

    def halt(self) -> bool:
        """Halt the mount at once; return whether it turned, now or a moment ago. What comes of it is told by ``news`` or ``hearings``."""
        turning, flight, now_s = self.is_turning, self._flight, time.monotonic()
        lately = self._halted_s is not None and now_s - self._halted_s < HALTED_LATELY_S
        if turning:
            self._halted_s = now_s
        self._was_halted = self._is_acting
        if flight is not None and not flight.is_over:
            flight.halted_by_observer()
        halted = self._line.stop()
        if turning:
            self._halts.append(halted)
        return turning or lately

    def key_pressed(self) -> None:
        """Halt the mount if it turns: any key does. May be called on any thread."""
        if self.is_turning:
            self.halt()

    # --- what happens of itself --------------------------------------------------------------------------------------

    def news(self) -> Iterator[Say]:
        """Yield what has happened on the line since last asked, each once."""
        for event in self._line.events():
            match event:
                case Opened(again=again):
                    self._was_up = True
                    yield MountLineBack() if again else MountOnTheLine()
                case Lost(was_slewing=turned):
                    flying = self._flight is not None and not self._flight.is_over
                    yield MountLineLost(flying or turned is True) if self._was_up else MountNotThere()
        if self._lost is not None and self._lost.stands_again:
            self._lost = None
            yield ItStandsStill()
        while self._halts and (came_to := self._halts[0].outcome()) is not None:
            del self._halts[0]
            if isinstance(came_to, Failed):
                yield CanNotHaltIt()
            elif not came_to.confirmed:
                yield WatchIt()
            else:
                self._stood = self._clock()
                if self._flight is None:
                    yield ItStandsStill()

    def hearings(self) -> Iterator[Hearing]:
        """Yield that our slew is over, as if somebody had said so. To be asked only where that is waited for."""
        if self._flight is None:
            yield from self._unwatched()
        elif self._flight.is_over:
            why, self._lost, self._flight = self._flight.outcome, self._flight, None
            slots: Slots = {} if why is None else {"why": why}
            yield Heard("", TurningAnswer.ARRIVED if why is None else TurningAnswer.HALTED, slots)

    def ended_unawaited(self) -> Iterator[Say]:
        """Yield how our slew ended, to be asked where nobody waits for that any more: a halt is told wherever the talk has gone."""
        if self._flight is not None and self._flight.is_over:
            why, self._lost, self._flight = self._flight.outcome, self._flight, None
            yield ItStandsStill() if why is None else WasHalted(why)

    def _unwatched(self) -> Iterator[Hearing]:
        """Yield the end of a slew that nobody watches: gone back to, or left by a session that was cut off. It is halted."""
        state = self._line.state
        if not self._line.is_up or state is None or state.slewing is None or self._halts:
            return
        if self._stood is not None and state.at <= self._stood:
            return  # read before it was halted
        if state.slewing:
            self.halt()
        yield Heard("", TurningAnswer.HALTED, {"why": "unwatched" if state.slewing else "asked"})

    def close(self) -> None:
        """Let go of the line, after halting a slew of ours: nobody would watch it."""
        if self._flight is not None and not self._flight.is_over:
            self._flight.halted_by_observer()
            self._line.stop().wait()
        self._line.close()

    def _may_move(self) -> bool:
        return self.may_move()

    # --- calls of scripts --------------------------------------------------------------------------------------------

    def __call__(self, call: Call, id: str, moment: Moment) -> Answer:
        """Do a call and say what came of it; a slew goes on after that."""
        match call:
            case ReadMount():
                return self._read(moment)
            case GiveTime() | GivePlace():
                return self._sent(id, setting(call, moment), moment)
            case SyncOn():
                return self._sync(call.name, id, moment)
            case TurnTo():
                return self._moved(lambda: self._turn(call, id, moment), moment)
            case NudgeBy():
                return self._moved(lambda: self._step(call, id, moment), moment)
            case _:
                return failed("cannot", moment.time)

    def _read(self, moment: Moment) -> Answer:
        called = self._clock()
        found = self._line.read(READ_WITHIN_S).wait()
        if isinstance(found, Failed):
            return failed("line", moment.time)
        then = moment.time + max(found.state.at - called, timedelta(0))
        told = slots_of(found, Moment(moment.site, then), moment.time - called)
        # A slew of ours that hasn't begun yet is one all the same.
        flying = self._flight is not None and not self._flight.is_over
        return done(then, {**told, "slewing": "yes"} if flying else told)

    def _sent(self, id: str, command: Command, moment: Moment) -> Answer:
        outcome = self._line.send(Effect(id, command)).wait()
        return failed(why_not(outcome), moment.time) if isinstance(outcome, Failed) else done(moment.time, {})

    def _sync(self, name: str, id: str, moment: Moment) -> Answer:
        identity, state = self._line.identity, self._line.state
        if identity is None or "sync" not in identity.can:
            return failed("cannot", moment.time)
        body = found_among(self._own, name)
        tracking = state is not None and state.tracking is True
        # The standard has a sync by right ascension and declination only while the mount tracks, the other only while it doesn't.
        equatorial = (
            "equatorial" in identity.syncs_on and identity.epoch is not None and (tracking or "horizontal" not in identity.syncs_on)
        )
        if equatorial and identity.epoch is not None:
            return self._sent(id, Sync(place_of(body, moment, identity.epoch)), moment)
        return self._sent(id, Sync(horizontal(body, moment)), moment)

    def _moved(self, move: Callable[[], Answer], moment: Moment) -> Answer:
        """Do what moves it; where it was halted meanwhile, say so, and see to it that nothing is sent after that."""
        self._is_acting, self._was_halted = True, False
        try:
            answer = move()
        finally:
            self._is_acting = False
        return failed("interrupted", moment.time) if self._was_halted and answer.command == Outcome.DONE else answer

    def _turn(self, call: TurnTo, id: str, moment: Moment) -> Answer:
        identity = self._line.identity
        found = self._start(moment)
        if isinstance(found, str):
            return failed(found, moment.time)
        assert identity is not None
        state, settings, start = found
        body = found_among(self._own, call.name)
        end = horizontal(body, moment)
        unsure_deg = self._unsure_deg(call.uncertainty_deg, identity, settings, moment)
        way = clear_way(start, end, sun_at(moment), self._limits, unsure_deg)
        if isinstance(way, Blocked):
            return failed(way.why, moment.time)
        by_stars = "slew" in identity.can and identity.epoch is not None and (state.tracking is True or "track" in identity.can)
        if by_stars and state.tracking is not True:
            tracks = self._line.send(Effect(f"{id} track", Track(on=True))).wait()
            if isinstance(tracks, Failed):
                return failed(why_not(tracks), moment.time)
        if not by_stars and "slew_altaz" not in identity.can:
            return failed("cannot", moment.time)
        where: Equatorial | Horizontal = end
        if by_stars and identity.epoch is not None:
            where = place_of(body, moment, identity.epoch)
        if self._was_halted:
            return failed("interrupted", moment.time)
        pending = self._line.send(Effect(id, Slew(where)))
        self._flight = Flight(self._line, pending, way, moment=moment, uncertainty_deg=unsure_deg, may_move=self._may_move)
        return done(moment.time, {})

    def _step(self, call: NudgeBy, id: str, moment: Moment) -> Answer:
        found = self._start(moment)
        if isinstance(found, str):
            return failed(found, moment.time)
        state, settings, start = found
        assert self._line.identity is not None
        unsure_deg = self._unsure_deg(call.uncertainty_deg, self._line.identity, settings, moment)
        if (why := steps.objection(call, start, sun_at(moment), self._limits, unsure_deg)) is not None:
            return failed(why, moment.time)
        if self._was_halted:
            return failed("interrupted", moment.time)
        moved_deg = steps.make_step(self._line, call, id, state=state, start=start, moment=moment)
        if isinstance(moved_deg, Failed):
            return failed(why_not(moved_deg), moment.time)
        return done(moment.time, {"moved_deg": repr(moved_deg)})

    def _unsure_deg(self, aligned_within_deg: float, identity: Identity, settings: Settings, moment: Moment) -> float:
        """Return how far it may be from where it says it points."""
        return uncertainty_deg(aligned_within_deg, identity, settings, moment.site, (moment.time - self._clock()).total_seconds())

    def _start(self, moment: Moment) -> tuple[MountState, Settings, Horizontal] | NotTurned:
        """Read where the mount is about to be moved from, or say why it can't be moved."""
        if not self.may_move():
            return "unheard"
        found = self._line.read(READ_WITHIN_S).wait()
        if isinstance(found, Failed):
            return "line"
        state = found.state
        pointing = pointing_of(state, moment)
        if state.parked:
            return "parked"
        if self._turns:
            return "turning"
        if self._line.state_took_s >= SILENT_S:
            return "slow"
        return "unknown" if pointing is None or state.slewing is None else (state, found.settings, pointing)
