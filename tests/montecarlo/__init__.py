"""Seeded trials of the pointing fit and the diagnosis, with astropy as the sky: ``python -m tests.montecarlo``."""
