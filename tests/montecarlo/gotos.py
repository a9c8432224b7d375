"""How far a go-to misses after two stars, by how far apart they stood: the fitted mount against astropy's sky."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

import numpy as np

from companion.alignment.pointing import fit
from companion.documents.fit_request import read_fit_request

from .truth import angles, horizontal, stars, tilted, vector

BINS_DEG = ((0.0, 15.0), (15.0, 30.0), (30.0, 60.0), (60.0, 90.0), (90.0, 120.0), (120.0, 180.0))
# SKY.md, section 8: the plain rotation, median and 95 % for 0.2 degrees; for 0.5 degrees "x 2.5".
PLAIN_ROTATION_AT_0_2 = ((0.69, 4.5), (0.36, 1.2), (0.26, 0.67), (0.22, 0.47), (0.21, 0.47), (0.23, 0.57))


@dataclass(frozen=True)
class Goto:
    """One go-to."""

    separation_deg: float
    error_deg: float


def run_gotos(sigma_deg: float, trials: int, seed: int, index_sigma_deg: float = 0.0) -> list[Goto]:
    """Return go-tos to a third bright star after two sighted ones, all 15 to 80 degrees high, the base tilted by about a degree."""
    rng = np.random.default_rng([seed, int(sigma_deg * 100), int(index_sigma_deg * 100)])
    gotos: list[Goto] = []
    while len(gotos) < trials:
        latitude, longitude = float(rng.uniform(-55.0, 60.0)), float(rng.uniform(-180.0, 180.0))
        time = datetime(2026, 1, 1, tzinfo=UTC) + timedelta(hours=float(rng.uniform(0.0, 8760.0)))
        sky = horizontal(latitude, longitude, time)
        good = np.flatnonzero((sky[:, 1] > 15.0) & (sky[:, 1] < 80.0) & (stars()[1] < 2.6))
        for _ in range(40 if len(good) >= 3 else 0):
            chosen = rng.choice(good, 3, replace=False)
            tilt, zero = tilted(*rng.normal(0.0, 1.0, 2)), np.array([rng.uniform(0.0, 360.0), -rng.normal(0.0, index_sigma_deg)])
            true_reading = [angles(tilt.T @ vector(*sky[i])) - zero for i in chosen]
            noise = rng.normal(0.0, sigma_deg, (2, 2))
            document = {
                "site": {"latitude_deg": latitude, "longitude_deg": longitude},
                "sightings": [
                    {
                        "star": stars()[0][i],
                        "time": time.isoformat(),
                        "reported_azimuth_deg": float(reading[0] + off[0] / np.cos(np.radians(reading[1] + zero[1]))),
                        "reported_altitude_deg": float(reading[1] + off[1]),
                    }
                    for i, reading, off in zip(chosen, true_reading, noise, strict=False)
                ],
                "find": [stars()[0][chosen[2]]],
            }
            found = fit(read_fit_request(document)).predictions[0]
            stop = vector(found.reported_azimuth_deg + zero[0], found.reported_altitude_deg + zero[1])
            wanted = vector(*(true_reading[2] + zero))
            apart = np.degrees(np.arccos(np.clip(vector(*sky[chosen[0]]) @ vector(*sky[chosen[1]]), -1.0, 1.0)))
            gotos.append(Goto(float(apart), float(np.degrees(2.0 * np.arcsin(np.linalg.norm(stop - wanted) / 2.0)))))
    return gotos[:trials]


def goto_table(sigma_deg: float, gotos: list[Goto]) -> str:
    """Return median and 95 % by separation, beside the figures of the plain rotation."""
    lines = ["apart        go-tos  median    95 %   plain rotation (SKY.md)"]
    for (low, high), (median, most) in zip(BINS_DEG, PLAIN_ROTATION_AT_0_2, strict=True):
        errors = [g.error_deg for g in gotos if low <= g.separation_deg < high]
        if errors:
            factor = sigma_deg / 0.2
            got = f"{np.median(errors):6.2f}  {np.percentile(errors, 95):6.2f}"
            lines.append(f"{low:3.0f}..{high:3.0f}     {len(errors):6d}  {got}   {median * factor:.2f} / {most * factor:.2f}")
    return "\n".join(lines)
