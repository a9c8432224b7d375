"""A slew of ours, watched on a thread of its own from the moment it is sent until the mount stands: whatever is wrong halts it."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Mapping
from datetime import timedelta

from companion.mount import Failed, Finished, Horizontal, Line, MountState, Pending, Standstill
from companion.mount.clear_way import Way
from companion.mount.coordinates import horizontal_of
from companion.mount.flight_watch import Seen, judge_flight
from companion.sky import SUN, Moment, angle_deg, sight
from companion.talk.mount_phrases import Halted

LOOK_EVERY_S = 0.1
"""Between two looks at what the line has read; the line reads more than twice a second while the mount turns."""
ARRIVED_WITHIN_DEG = 2.0
"""Farther from where it was sent it was halted by somebody else, as from its own controls. Judgement."""
_BEGINS_WITHIN_S = 3.0
"""A mount that has taken a slew and stands is given so long to begin."""

_MAY_HAVE_BEGUN = ("unanswered", "lost", "unreachable", "nonsense")
"""A slew that failed like this may have begun all the same."""
_HALTS: Mapping[str, Halted] = {"off_course": "off-course", "near_sun": "near-sun", "silent": "silent"}


def pointing_of(state: MountState, moment: Moment) -> Horizontal | None:
    """Return where a mount points over the horizon, worked out where it tells right ascension and declination only."""
    if state.horizontal is not None or state.equatorial is None:
        return state.horizontal
    return horizontal_of(state.equatorial, moment)


def sun_at(moment: Moment) -> Horizontal:
    """Return where the Sun stands, airless."""
    sun = sight(SUN, moment, refraction=False)
    return Horizontal(sun.altitude_deg, sun.azimuth_deg)


class Flight:
    """One slew. ``outcome`` is None while it is on its way, then ``arrived`` or why it was halted."""

    def __init__(
        self,
        line: Line,
        pending: Pending[Finished],
        way: Way,
        *,
        moment: Moment,
        uncertainty_deg: float,
        may_move: Callable[[], bool],
    ) -> None:
        """Take the line, what the slew will come to, the way found clear, when it was sent, and who says that we may still turn it."""
        self._line, self._pending, self._way = line, pending, way
        self._moment, self._uncertainty_deg, self._may_move = moment, uncertainty_deg, may_move
        self._sent_s = time.monotonic()
        self._asked_to_halt = False
        self._outcome: Halted | None = None
        self._arrived = False
        self.stands_again = False
        """Whether it was halted when a lost line was back."""
        self._last: MountState | None = None
        self._thread = threading.Thread(target=self._watch, name="slew watch", daemon=True)
        self._thread.start()

    @property
    def is_over(self) -> bool:
        """Whether it has come to an end, one way or the other."""
        return self._arrived or self._outcome is not None

    @property
    def outcome(self) -> Halted | None:
        """Why it was halted; None where it arrived, or is on its way."""
        return self._outcome

    def halted_by_observer(self) -> None:
        """Take note that the halt that comes now was asked for."""
        self._asked_to_halt = True

    def _watch(self) -> None:
        """Look until it has arrived, or is to be halted."""
        seen: list[Seen] = []
        while not self.is_over:
            time.sleep(LOOK_EVERY_S)
            sent = self._pending.outcome()
            why = self._fault(sent, seen)
            if why is not None:
                self._halt(why)
            elif isinstance(sent, Failed):
                self._outcome = "refused"
            elif isinstance(sent, Finished):
                self._see_whether_it_stands(sent, seen)

    def _fault(self, sent: Finished | Failed | None, seen: list[Seen]) -> Halted | None:
        """Return why it must be halted; None where all is well."""
        if self._asked_to_halt:
            return "asked"
        if not self._line.is_up or (isinstance(sent, Failed) and sent.why in _MAY_HAVE_BEGUN):
            return "line"
        if isinstance(sent, Failed):
            return None
        now_s, state = time.monotonic(), self._line.state
        moment = Moment(self._moment.site, self._moment.time + timedelta(seconds=now_s - self._sent_s))
        if state is not None and state is not self._last:
            self._last = state
            if (pointing := pointing_of(state, moment)) is not None:
                seen.append(Seen(now_s, pointing))
        if not self._may_move():
            return "unheard"
        judged = judge_flight(
            self._way, seen, started_s=self._sent_s, now_s=now_s, sun=sun_at(moment), uncertainty_deg=self._uncertainty_deg
        )
        return _HALTS.get(judged)

    def _see_whether_it_stands(self, sent: Finished, seen: list[Seen]) -> None:
        state = self._last
        if state is None or state.at <= sent.at or state.slewing is not False:
            return
        if self._is_there(seen):
            self._arrived = True
        elif time.monotonic() - self._sent_s > _BEGINS_WITHIN_S:
            self._outcome = "short"

    def _is_there(self, seen: list[Seen]) -> bool:
        if not seen:
            return False
        end, now = self._way.end, seen[-1].pointing
        return angle_deg(now.altitude_deg, now.azimuth_deg, end.altitude_deg, end.azimuth_deg) <= ARRIVED_WITHIN_DEG

    def _halt(self, why: Halted) -> None:
        """Halt it, and go on doing so until it says that it stands: also when a lost line is back."""
        halted = self._line.stop().wait()
        self._outcome = why
        lost = not self._line.is_up
        while not (isinstance(halted, Standstill) and halted.confirmed) and not self._line.is_closing:
            if self._line.is_up:
                halted = self._line.stop().wait()
            time.sleep(LOOK_EVERY_S)
        self.stands_again = lost and not self._line.is_closing
