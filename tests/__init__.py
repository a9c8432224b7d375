"""The tests, and what measures and sweeps: ``python -m tests.…``."""

import os

# As the program does (companion/__main__.py), before anything loads numpy: a measure on a busy machine would time threads that wait.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
