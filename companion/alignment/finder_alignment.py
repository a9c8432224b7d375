"""How far away a thing must be to set the finder by it."""

from __future__ import annotations

import math

from companion.errors import BadRequest

TOLERATED_SHARE = 0.1
"""How much of the eyepiece's field the finder may point beside it: what is in the finder's middle is then well inside the field.
Common practice, no published source."""


def far_enough_m(offset_cm: float, true_field_deg: float) -> float:
    """Return from how many metres on finder and telescope, their axes ``offset_cm`` apart, agree to a tenth of the eyepiece's field.

    Figures that are not above zero are refused with ``BadRequest``.
    """
    if not (0.0 < offset_cm < math.inf and 0.0 < true_field_deg < 180.0):
        raise BadRequest("finder offset and field must be above zero; give them in centimetres and degrees")
    return offset_cm / 100.0 / math.tan(math.radians(TOLERATED_SHARE * true_field_deg))
