"""The mechanics and the mind of an invented alt-azimuth mount: axes that turn, zeros, a tilted base, a clock and a place of its own.

Written for the tests from the published standard and textbook formulas; it imports nothing of ours.
"""

from __future__ import annotations

import math
import threading
import time
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

SIDEREAL_DEG_PER_DAY = 360.98564736629
"""The Earth's turn: USNO Circular 179, equation 2.12 to first order, as the GMST formula of the Astronomical Almanac has it."""


def sidereal_deg(now: datetime, longitude_deg: float) -> float:
    """Return the mean local sidereal time, degrees (Astronomical Almanac; the equation of the equinoxes, at most 18", is left out)."""
    days = (now - datetime(2000, 1, 1, 12, tzinfo=UTC)).total_seconds() / 86_400
    return (280.46061837 + SIDEREAL_DEG_PER_DAY * days + longitude_deg) % 360


def turned(first_deg: float, second_deg: float, latitude_deg: float) -> tuple[float, float]:
    """Turn hour angle and declination into azimuth and altitude, or the other way: Meeus, Astronomical Algorithms, chapter 13."""
    a, b, lat = map(math.radians, (first_deg, second_deg, latitude_deg))
    x = math.sin(b) * math.cos(lat) - math.cos(b) * math.cos(a) * math.sin(lat)
    y = -math.cos(b) * math.sin(a)
    z = math.sin(b) * math.sin(lat) + math.cos(b) * math.cos(a) * math.cos(lat)
    return math.degrees(math.atan2(y, x)) % 360, math.degrees(math.atan2(z, math.hypot(x, y)))


def leaning(azimuth_deg: float, altitude_deg: float, tilt_deg: float, towards_deg: float) -> tuple[float, float]:
    """Turn a direction over the ground into one over a base that leans ``tilt_deg`` towards an azimuth; a negative tilt goes back."""
    # About the level axis at right angles to the lean: azimuth from there on, the leaning compass point as x.
    a, h, t = math.radians(azimuth_deg - towards_deg), math.radians(altitude_deg), math.radians(tilt_deg)
    x, y, z = math.cos(h) * math.cos(a), math.cos(h) * math.sin(a), math.sin(h)
    x, z = x * math.cos(t) - z * math.sin(t), x * math.sin(t) + z * math.cos(t)
    return (math.degrees(math.atan2(y, x)) + towards_deg) % 360, math.degrees(math.atan2(z, math.hypot(x, y)))


@dataclass
class AltAzMount:
    """One mount. ``step`` lets it turn up to now; every public method does so first and is safe from any thread."""

    rate_deg_s: float = 4.0
    latitude_deg: float = 46.3
    longitude_deg: float = -67.5
    elevation_m: float = 100.0
    clock_error_s: float = 0.0
    tilt_deg: float = 0.0
    tilt_towards_deg: float = 0.0
    lowest_deg: float = -5.0
    highest_deg: float = 90.0
    goes_long_way_round: bool = False
    azimuth_rate_sign: int = 1
    """-1 where a positive rate turns the azimuth axis anticlockwise: the standard leaves that open."""
    azimuth_deg: float = 180.0
    """The axis itself, over its own base."""
    altitude_deg: float = 30.0
    azimuth_zero_deg: float = 0.0
    """What it says minus what its axis stands at; a sync shifts it."""
    altitude_zero_deg: float = 0.0
    tracking: bool = False
    parked: bool = False
    target: tuple[float, float] | None = None
    rates: list[float] = field(default_factory=lambda: [0.0, 0.0])
    stopped_at: float | None = None
    """When it last came to a stand, on the monotonic clock."""
    last_step: float = field(default_factory=time.monotonic)
    lock: threading.RLock = field(default_factory=threading.RLock)
    _way_deg: float = 0.0

    def now(self) -> datetime:
        """Return the time it believes in."""
        return datetime.now(UTC) + timedelta(seconds=self.clock_error_s)

    @property
    def slewing(self) -> bool:
        """Whether it turns fast."""
        return self.target is not None or any(self.rates)

    def says(self) -> tuple[float, float]:
        """Return the azimuth and altitude it believes to point at."""
        with self.lock:
            self.step()
            return (self.azimuth_deg + self.azimuth_zero_deg) % 360, self.altitude_deg + self.altitude_zero_deg

    def points_at(self) -> tuple[float, float]:
        """Return the azimuth and altitude it really points at, over the ground."""
        with self.lock:
            self.step()
            return leaning(self.azimuth_deg, self.altitude_deg, -self.tilt_deg, self.tilt_towards_deg)

    def turn_to(self, azimuth_deg: float, altitude_deg: float) -> None:
        """Let a person turn it until it points at this place over the ground."""
        with self.lock:
            self.azimuth_deg, self.altitude_deg = leaning(azimuth_deg, altitude_deg, self.tilt_deg, self.tilt_towards_deg)

    def says_equatorial(self) -> tuple[float, float]:
        """Return the right ascension and declination of the day, degrees, it believes to point at."""
        hour_angle, declination = turned(*self.says(), self.latitude_deg)
        return (sidereal_deg(self.now(), self.longitude_deg) - hour_angle) % 360, declination

    def axes_of(self, right_ascension_deg: float, declination_deg: float) -> tuple[float, float]:
        """Return the azimuth and altitude it believes a place among the stars to be at."""
        hour_angle = sidereal_deg(self.now(), self.longitude_deg) - right_ascension_deg
        return turned(hour_angle, declination_deg, self.latitude_deg)

    def slew(self, azimuth_deg: float, altitude_deg: float) -> bool:
        """Start towards what it believes to be there; False where its limits forbid it."""
        with self.lock:
            self.step()
            axis_altitude = altitude_deg - self.altitude_zero_deg
            if not self.lowest_deg <= axis_altitude <= self.highest_deg:
                return False
            self.target = ((azimuth_deg - self.azimuth_zero_deg) % 360, axis_altitude)
            short = (self.target[0] - self.azimuth_deg + 180) % 360 - 180
            self._way_deg = short - math.copysign(360, short) if self.goes_long_way_round else short
            return True

    def sync(self, azimuth_deg: float, altitude_deg: float) -> None:
        """Believe from now on to point there."""
        with self.lock:
            self.step()
            self.azimuth_zero_deg = azimuth_deg - self.azimuth_deg
            self.altitude_zero_deg = altitude_deg - self.altitude_deg

    def halt(self) -> None:
        """Stand at once."""
        with self.lock:
            self.step()
            if self.slewing:
                self.stopped_at = time.monotonic()
            self.target, self.rates = None, [0.0, 0.0]

    def turn_axis(self, axis: int, rate_deg_s: float) -> None:
        """Turn an axis until told otherwise."""
        with self.lock:
            self.step()
            before = self.slewing
            self.rates[axis] = rate_deg_s * (self.azimuth_rate_sign if axis == 0 else 1)
            if before and not self.slewing:
                self.stopped_at = time.monotonic()

    def step(self) -> None:
        """Turn up to now."""
        with self.lock:
            now = time.monotonic()
            seconds, self.last_step = now - self.last_step, now
            if self.tracking and not self.slewing:
                self._follow(seconds)
            if self.target is not None:
                most = self.rate_deg_s * seconds
                turn = math.copysign(min(abs(self._way_deg), most), self._way_deg)
                self._way_deg -= turn
                self.azimuth_deg = (self.azimuth_deg + turn) % 360
                left = self.target[1] - self.altitude_deg
                self.altitude_deg += math.copysign(min(abs(left), most), left)
                if not self._way_deg and self.altitude_deg == self.target[1]:
                    self.target, self.stopped_at = None, now
            self.azimuth_deg = (self.azimuth_deg + self.rates[0] * seconds) % 360
            self.altitude_deg += self.rates[1] * seconds

    def _follow(self, seconds: float) -> None:
        """Turn with the sky, as far as it knows how."""
        said = self.azimuth_deg + self.azimuth_zero_deg, self.altitude_deg + self.altitude_zero_deg
        hour_angle, declination = turned(*said, self.latitude_deg)
        azimuth, altitude = turned(hour_angle + SIDEREAL_DEG_PER_DAY / 86_400 * seconds, declination, self.latitude_deg)
        self.azimuth_deg = (azimuth - self.azimuth_zero_deg) % 360
        self.altitude_deg = altitude - self.altitude_zero_deg
