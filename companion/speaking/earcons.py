"""Three small sounds, each meaning one thing: I listen, I heard you, I didn't understand.

They differ in direction and number of notes, so that they are told apart in wind and by people who can't name a pitch. Between 400 and
1000 Hz, where small loudspeakers and ageing ears are both good; soft, with eased edges.
"""

from __future__ import annotations

import numpy as np

from companion.audio import Audio, join, silence

EARCON_RATE_HZ = 24_000
PEAK = 0.2
"""About 8 dB under our speech's peaks."""
EDGE_SECONDS = 0.015


def _note(start_hz: float, end_hz: float, seconds: float) -> Audio:
    """Return a tone that glides from one pitch to another, with raised-cosine edges and a fading end."""
    count = round(seconds * EARCON_RATE_HZ)
    phase = 2 * np.pi * np.cumsum(np.linspace(start_hz, end_hz, count)) / EARCON_RATE_HZ
    edge = round(EDGE_SECONDS * EARCON_RATE_HZ)
    shape = np.linspace(1.0, 0.4, count)
    shape[:edge] *= (1 - np.cos(np.linspace(0, np.pi, edge))) / 2
    shape[-edge:] *= (1 + np.cos(np.linspace(0, np.pi, edge))) / 2
    return Audio((PEAK * shape * (np.sin(phase) + 0.2 * np.sin(2 * phase)) / 1.2).astype(np.float32), EARCON_RATE_HZ)


LISTENING = _note(520, 700, 0.12)
"""One short note going up: the microphone is open."""
HEARD = join([_note(660, 660, 0.07), silence(0.03, EARCON_RATE_HZ), _note(880, 880, 0.09)], EARCON_RATE_HZ)
"""Two notes, the second higher: understood."""
NOT_UNDERSTOOD = _note(520, 390, 0.24)
"""One longer low note going down: something was said, nothing was done."""
