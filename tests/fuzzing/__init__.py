"""Damaged and invented inputs: whatever comes in, an answer or one of our own errors goes out."""
