"""Measures recognisers on directories of recordings: ``python -m companion.bench acceptance DIR`` and its sisters, a table each."""
