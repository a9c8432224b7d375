"""Recorded (synthesised) evenings: WAVs and the scenario files that say what they are."""
