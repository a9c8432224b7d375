"""The sky's reason and warning codes in words."""

from __future__ import annotations

from collections.abc import Iterable

_REASONS = {
    "good-height": "at a good height",
    "low": "rather low",
    "high": "high in the sky",
    "very-bright": "very bright",
    "bright": "bright",
    "alone": "nothing like it nearby",
    "rivals-near": "others like it are near",
    "well-apart": "well apart from the others",
    "near-pole": "close to the pole, so it says little about the clock",
    "sky-too-bright": "the sky is still too bright for it",
    "overhead": "almost overhead, where the mount follows badly",
    "at-its-best": "as high as it gets tonight",
    "better-later": "higher later tonight",
    "faint": "near the limit of your telescope",
    "moonlight": "the Moon washes it out",
    "twilight": "the sky is not dark yet",
    "sets-soon": "soon too low or hidden",
    "large": "wide: use low power",
}
_WARNINGS = {
    "outside-model-years": "the magnetic model does not cover this date; use the pole star or a landmark for north",
    "blackout-zone": "so near the magnetic pole no compass can be trusted; use the pole star or a landmark for north",
    "caution-zone": "this near the magnetic pole a compass is unreliable; use the pole star or a landmark for north",
}


def reasons_in_words(codes: Iterable[str]) -> list[str]:
    """Return each reason as a short phrase."""
    return [_REASONS[code] for code in codes]


def warning_in_words(code: str | None) -> str | None:
    """Return what a warning about the declination means, or None."""
    return None if code is None else _WARNINGS[code]
