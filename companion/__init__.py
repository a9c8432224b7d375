"""A hands-free voice companion for setting up a computerised alt-azimuth telescope.

The folders are the rooms; what each holds and what it may import is in DEVELOPERS.md and enforced by tests/test_rooms.py.
"""

import os

# onnxruntime (from 1.3x on) sends usage data to its maker unless told not to before it is loaded; the switch is the one its own
# documentation names. Every module of ours is imported through here, and child processes inherit it. Nobody may switch it back on:
# the README promises that nothing is sent.
os.environ["ORT_DISABLE_TELEMETRY"] = "1"
