"""The noises of tests/hearing are heard here, too."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1] / "hearing"))
