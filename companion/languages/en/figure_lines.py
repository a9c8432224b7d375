"""Figures as single commands print them for a person, in English."""

from __future__ import annotations

from collections.abc import Mapping


def table_lines(figures: Mapping[str, object]) -> list[str]:
    """Return a line for each named figure; None is one there is not."""
    return [f"{name.replace('_', ' ')}: {'none' if figure is None else figure}" for name, figure in figures.items()]


def moon_line(lit: float, rises: str | None, sets: str | None) -> str:
    """Return the share of the Moon that is lit, 0..1, and its next rise and set."""
    return f"Moon: {lit:.0%} lit, next rise {rises or 'none'}, next set {sets or 'none'}"


def place_line(altitude_deg: float, azimuth_deg: float, constellation: str) -> str:
    """Return where something is; ``constellation``: its three letters."""
    return f"altitude {altitude_deg:.2f} degrees, azimuth {azimuth_deg:.2f} degrees, in {constellation}"


def declination_line(declination_deg: float | None, model: str) -> str:
    """Return the magnetic declination, None where the model doesn't know it."""
    return "unknown" if declination_deg is None else f"{declination_deg:+.2f} degrees (east positive), {model}"
