"""The line to a mount: every call off the caller's thread and within a time of ours, stops past all others, a lost line mended.

Two threads. One makes the adapter's calls in their order and reads the mount's state between them; the other only stops. Whoever
holds the evening never waits: calls return a ``Pending``, and what happens to the line comes as events.
"""

from __future__ import annotations

import queue
import threading
import time
from collections import deque
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any, TypeAlias

from companion.mount.commands import Command, Effect, Nudge, SetTime, moves, objection
from companion.mount.pending import Pending
from companion.mount.protocol import Adapter, Clock, Stopper
from companion.mount.stopping import Stopping
from companion.mount.values import Failed, Identity, LineFault, MountReading, MountState, Standstill

OPEN_LIMIT_S = 4.0
"""To reach a mount and ask what it can. These limits are judgement: a hand control behind a wireless bridge answers in some 50 ms."""
READ_LIMIT_S = 1.5
"""For one answer, where each thing is asked for on its own."""
COMMAND_LIMIT_S = 4.0
CALL_LIMIT_S = 5.0
"""From a call to its outcome, unless the caller says otherwise."""
POLL_SLEWING_S, POLL_STANDING_S = 0.4, 1.0
"""Between two readings: while it turns it is read more than twice a second."""
RETRY_S = 1.0
"""Between two tries to mend the line."""
UNCERTAIN_S = 10.0
"""So long after a command that nobody answered it may still begin to move. Judgement."""


_MAY_RUN_ON = ("unanswered", "unreachable", "lost", "nonsense")
"""After a nudge that failed like this the axis may still turn."""


@dataclass(frozen=True)
class Opened:
    """The mount answers."""

    identity: Identity
    again: bool
    """Whether the line had been lost."""


@dataclass(frozen=True)
class Lost:
    """The mount does not answer, for the first time since it did. Mending is under way."""

    failed: Failed
    was_slewing: bool | None
    """Whether it turned when last heard of; None where that isn't known. Nothing of ours can be sure to stop it now."""


@dataclass(frozen=True)
class Finished:
    """The mount took a command. A slew goes on after that."""

    at: datetime


LineEvent: TypeAlias = Opened | Lost


@dataclass(frozen=True)
class _Job:
    call: Callable[[], Any]
    pending: Pending[Any]
    command: Command | None
    stops_before: int
    """How many stops had been called when it was asked for: it is void after another."""

    @property
    def moves(self) -> bool:
        return self.command is not None and moves(self.command)


class Line:
    """One mount on the line."""

    def __init__(self, adapter: Adapter, stopper: Stopper, clock: Clock = lambda: datetime.now(UTC)) -> None:
        """Take what speaks with the mount; ``start`` begins."""
        self._adapter, self._clock = adapter, clock
        self._wake = threading.Condition()
        self._jobs: deque[_Job] = deque()
        self._events: queue.SimpleQueue[LineEvent] = queue.SimpleQueue()
        self._used_ids: set[str] = set()
        self._closing = False
        self._halt = threading.Event()
        self._moving_call = False
        self._uncertain_until = 0.0
        self._guarded = False
        self._identity: Identity | None = None
        self._up = False
        self._failure: Failed | None = None
        """Why nobody can be asked now; None while the mount answers, and before it was first tried."""
        self._state: MountState | None = None
        self._state_took_s = 0.0
        self._stopping = Stopping(stopper, lambda: self._moving_call)
        self._thread = threading.Thread(target=self._run, name="mount line", daemon=True)

    def start(self) -> None:
        """Begin to reach the mount."""
        self._stopping.start()
        self._thread.start()

    def close(self) -> None:
        """Let go of the line; the mount stays as it is. What is still open ends as ``lost``."""
        with self._wake:
            self._closing = True
            self._wake.notify_all()
        self._halt.set()
        self._stopping.close()
        self._thread.join(1.0)

    @property
    def is_up(self) -> bool:
        """Whether the mount answered last time."""
        return self._up

    @property
    def has_answered(self) -> bool:
        """Whether anything has answered there since it was last tried: who answers slowly is there all the same."""
        return self._adapter.has_answered

    @property
    def state_took_s(self) -> float:
        """How long the last reading of the state took."""
        return self._state_took_s

    @property
    def is_closing(self) -> bool:
        """Whether the line was let go of."""
        return self._closing

    @property
    def identity(self) -> Identity | None:
        """Who is on the line, once known; kept while the line is lost."""
        return self._identity

    @property
    def state(self) -> MountState | None:
        """What was last read, None before the first reading; its ``at`` says how old it is."""
        return self._state

    def events(self) -> Iterator[LineEvent]:
        """Yield what has happened to the line since last asked, each once."""
        while not self._events.empty():
            yield self._events.get()

    def read(self, limit_s: float = CALL_LIMIT_S) -> Pending[MountReading]:
        """Ask for all the mount tells."""
        return self._ask(self._reading, None, limit_s)

    def send(self, effect: Effect, limit_s: float = CALL_LIMIT_S) -> Pending[Finished]:
        """Send a command, once: an id that was used before is ``repeated``. What can't be sent in its time is never sent."""
        if effect.id in self._used_ids:
            refused: Pending[Finished] = Pending(limit_s)
            refused.resolve(Failed("repeated", effect.id))
            return refused
        self._used_ids.add(effect.id)
        asked_s = time.monotonic()
        return self._ask(lambda: self._performed(effect.command, asked_s), effect.command, limit_s)

    def stop(self) -> Pending[Standstill]:
        """Stop the mount: at once, whatever else is under way. What was asked to move and hasn't been sent yet is void."""
        pending = self._stopping.stop()
        self._halt.set()
        self._guarded = self._moving_call or time.monotonic() < self._uncertain_until
        return pending

    def _ask(self, call: Callable[[], Any], command: Command | None, limit_s: float) -> Pending[Any]:
        pending: Pending[Any] = Pending(limit_s)
        with self._wake:
            if self._failure is not None:
                pending.resolve(self._failure)
            else:
                self._jobs.append(_Job(call, pending, command, self._stopping.count))
                self._wake.notify_all()
        return pending

    def _run(self) -> None:
        next_poll = 0.0
        while not self._closing:
            if not self._up:
                next_poll = 0.0
                self._reach()
                continue
            job = self._next_job(next_poll)
            if job is not None:
                self._do(job)
                if job.command is not None:
                    next_poll = 0.0
            elif time.monotonic() >= next_poll:
                self._poll()
                turning = self._state is not None and self._state.slewing is True
                next_poll = time.monotonic() + (POLL_SLEWING_S if turning else POLL_STANDING_S)
        self._fail_jobs(Failed("lost", "the line is closed"))
        self._adapter.close()

    def _reach(self) -> None:
        try:
            self._identity = self._adapter.open(OPEN_LIMIT_S)
        except Exception as error:
            self._lose(_failed(error))
            with self._wake:
                self._wake.wait_for(lambda: self._closing, RETRY_S)
            return
        with self._wake:
            again, self._failure = self._failure is not None, None
        self._up = True
        self._events.put(Opened(self._identity, again))

    def _lose(self, failed: Failed) -> None:
        """Take note that nobody answers; tell it once."""
        self._up = False
        if self._failure is None:
            self._events.put(Lost(failed, None if self._state is None else self._state.slewing))
        self._fail_jobs(failed)

    def _fail_jobs(self, failed: Failed) -> None:
        """End what waits, and what is asked for until the mount answers again."""
        with self._wake:
            jobs, self._jobs = self._jobs, deque()
            self._failure = failed
        for job in jobs:
            job.pending.resolve(failed)

    def _next_job(self, until: float) -> _Job | None:
        with self._wake:
            self._wake.wait_for(lambda: bool(self._jobs) or self._closing, max(until - time.monotonic(), 0.0))
            return self._jobs.popleft() if self._jobs and not self._closing else None

    def _do(self, job: _Job) -> None:
        if time.monotonic() >= job.pending.deadline:
            job.pending.resolve(Failed("late", "its time ran out before it could be sent"))
            return
        if job.moves:
            self._halt.clear()
            self._moving_call = True
            # A stop that comes from here on waits for this call and stops again after it.
            if job.stops_before != self._stopping.count or self._stopping.is_busy:
                self._moving_call = False
                job.pending.resolve(Failed("stopped", "a stop came before it, or is still under way"))
                return
            self._guarded = False
        outcome: Any
        try:
            outcome = job.call()
        except Exception as error:
            outcome = _failed(error)
        if job.moves:
            self._after_moving(job, outcome)
        job.pending.resolve(outcome)

    def _after_moving(self, job: _Job, outcome: Any) -> None:
        unanswered = isinstance(outcome, Failed) and outcome.why == "unanswered"
        self._uncertain_until = time.monotonic() + UNCERTAIN_S if unanswered else 0.0
        runs_on = isinstance(job.command, Nudge) and isinstance(outcome, Failed) and outcome.why in _MAY_RUN_ON
        if job.stops_before != self._stopping.count or runs_on:
            # A stop came while it was sent, or a nudge's end may not have arrived.
            self._guarded = unanswered
            self._stopping.stop()
        self._moving_call = False

    def _poll(self) -> None:
        for last in (False, True):
            try:
                self._read_state()
                break
            except Exception as error:
                # One answer gone astray is no lost line.
                if last:
                    self._lose(_failed(error))
                    return
        if self._guarded and time.monotonic() >= self._uncertain_until:
            self._guarded = False
        if self._guarded and self._state is not None and self._state.slewing:
            self._stopping.stop()

    def _reading(self) -> MountReading:
        assert self._identity is not None
        return MountReading(self._identity, self._read_state(), self._adapter.settings(READ_LIMIT_S))

    def _read_state(self) -> MountState:
        asked_s = time.monotonic()
        self._state = self._adapter.state(READ_LIMIT_S)
        self._state_took_s = time.monotonic() - asked_s
        return self._state

    def _performed(self, command: Command, asked_s: float) -> Finished:
        assert self._identity is not None
        if isinstance(command, SetTime):
            # A time that had to wait its turn is later by then.
            command = SetTime(command.time + timedelta(seconds=time.monotonic() - asked_s))
        if why := objection(command, self._identity):
            raise LineFault(Failed("cannot", why))
        self._adapter.perform(command, COMMAND_LIMIT_S, self._halt)
        return Finished(self._clock())


def _failed(error: Exception) -> Failed:
    """Return what an adapter's exception says. Libraries raise what they like; the line must outlive it."""
    return error.failed if isinstance(error, LineFault) else Failed("nonsense", f"{type(error).__name__}: {error}"[:300])
