"""One short function a command: parse, call, print. No logic."""
