"""A mount without a server, for evenings that are read: it does what the protocol asks, and only moves on when the script says so."""

from __future__ import annotations

import threading
from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from companion.mount import Command, Horizontal, Identity, MountState, Park, SetPlace, SetTime, Settings, Slew, Sync
from companion.mount.values import fault
from tests.mount.lines import until


class ScriptClock:
    """Stands at a line's time, but for a thousandth of a second each time it is read: readings have an order."""

    def __init__(self, time: datetime) -> None:
        """Begin."""
        self.time, self._read = time, 0

    def __call__(self) -> datetime:
        """Return the time."""
        self._read += 1
        return self.time + timedelta(milliseconds=self._read)

    def go_on(self, by: timedelta) -> None:
        """Let time pass."""
        self.time, self._read = self.time + by, 0


class MemoryMount:
    """Adapter and stopper in one: alt-azimuth, told directions over the ground only."""

    def __init__(self, clock: ScriptClock, settings: Settings) -> None:
        """Take the evening's clock, and what it believes in: ``settings.time`` as it reads at ``settings.at``."""
        self.clock = clock
        self._error = (settings.time or settings.at) - settings.at
        self._settings = settings
        self._pointing = Horizontal(0.0, 0.0)
        self._target: Horizontal | None = None
        self.parked = False
        self.is_cut = False
        self.commands: list[Command] = []

    @classmethod
    def of(cls, facts: Mapping[str, Any]) -> MemoryMount:
        """Return one that believes what a script's table ``[link]`` says when its evening begins."""
        clock, believed = ScriptClock(facts["starts_at"]), facts["link"]
        ahead = timedelta(seconds=believed["clock_error_s"])
        return cls(clock, Settings(clock.time, clock.time + ahead, believed["latitude_deg"], believed["longitude_deg"], elevation_m=0.0))

    # --- what the script does ----------------------------------------------------------------------------------------

    def put_on(self, pointing: Horizontal) -> None:
        """Stand there, by somebody's hand."""
        self._pointing, self._target = pointing, None

    def arrive(self) -> None:
        """Come to the end of a slew."""
        until(lambda: self._target)  # a slew is sent by the line's own thread
        assert self._target is not None
        self._pointing, self._target = self._target, None

    # --- the adapter -------------------------------------------------------------------------------------------------

    has_answered = True

    def open(self, limit_s: float) -> Identity:
        """Say who it is."""
        self._answer()
        can = frozenset({"read", "set_time", "set_place", "sync", "slew_altaz", "abort", "park"})
        return Identity("alpaca", "Remembered", can, None, is_altazimuth=True, syncs_on=frozenset({"horizontal"}))

    def state(self, limit_s: float) -> MountState:
        """Say where it points."""
        self._answer()
        return MountState(
            self.clock(),
            altitude_deg=self._pointing.altitude_deg,
            azimuth_deg=self._pointing.azimuth_deg,
            slewing=self._target is not None,
            tracking=False,
            parked=self.parked,
        )

    def settings(self, limit_s: float) -> Settings:
        """Say what it believes in."""
        self._answer()
        now = self.clock()
        return replace(self._settings, at=now, time=now + self._error)

    def perform(self, command: Command, limit_s: float, halt: threading.Event) -> None:
        """Do what it is told."""
        self._answer()
        self.commands.append(command)
        match command:
            case SetTime(time):
                error = time - self.clock()
                self._error = timedelta(0) if abs(error) < timedelta(seconds=5) else error
            case SetPlace(latitude_deg, longitude_deg, elevation_m):
                self._settings = replace(self._settings, latitude_deg=latitude_deg, longitude_deg=longitude_deg, elevation_m=elevation_m)
            case Sync(Horizontal() as pointing):
                self._pointing = pointing
            case Slew(Horizontal() as target):
                self._target = target
            case Park(parked):
                self.parked = parked
            case _:
                raise fault("cannot", command)

    def close(self) -> None:
        """Let go."""

    # --- the stopper -------------------------------------------------------------------------------------------------

    def stop(self, limit_s: float) -> None:
        """Stand."""
        self._answer()
        self._target = None

    def is_slewing(self, limit_s: float) -> bool | None:
        """Say whether it turns."""
        self._answer()
        return self._target is not None

    def _answer(self) -> None:
        if self.is_cut:
            raise fault("unreachable", "the script has cut the line")
