"""A hands-free voice companion for setting up a computerised alt-azimuth telescope.

The folders are the rooms; what each holds and what it may import is in DEVELOPERS.md and enforced by tests/test_rooms.py.
"""
