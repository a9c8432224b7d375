"""Tables of places; where they come from is in README.md beside this."""
