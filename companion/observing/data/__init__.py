"""The tables observing reads."""
