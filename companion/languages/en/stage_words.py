"""What the parts of an evening are called, whether they are under way or come next."""

from __future__ import annotations

STAGES = {
    "check-in": "the start: time, place and darkness",
    "tonight": "looking ahead to tonight",
    "ground": "the tripod: firm ground, clamps and cables",
    "finder": "lining the finder up with the tube",
    "starting-pose": "the start position: level, north, tube level",
    "power": "switching on",
    "settings": "entering the settings",
    "late-finder": "lining the finder up with the tube",
    "late-pose": "the start position: level, north, tube level",
    "reference-stars": "the alignment stars",
    "proof": "proving the alignment on another star",
    "targets": "tonight's targets",
    "good-night": "packing up",
    "your-equipment": "your place and equipment",
}


def at_stage(stage: str) -> str:
    """Return what we are doing, or where we are: "switching on", "at the tripod: …"."""
    words = STAGES[stage]
    return words if words.split()[0].endswith("ing") else f"at {words}"
