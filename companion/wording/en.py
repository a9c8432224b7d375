"""The English phrase book, put together from its chapters.

Rules, kept by a test: at most twenty words a sentence; no word of ours that silences or repeats us; nothing pointed out below the horizon.
"""

from __future__ import annotations

from companion.wording.en_centring import CENTRING
from companion.wording.en_check_in import CHECK_IN
from companion.wording.en_equipment import EQUIPMENT
from companion.wording.en_ground import GROUND
from companion.wording.en_guidance import GUIDANCE
from companion.wording.en_help import help_from
from companion.wording.en_live import LIVE
from companion.wording.en_mistakes import MISTAKES
from companion.wording.en_pose import POSE
from companion.wording.en_settings import SETTINGS
from companion.wording.en_stars import STARS
from companion.wording.en_targets import TARGETS
from companion.wording.phrase import Chapter, joined

_CHAPTERS = (GUIDANCE, CHECK_IN, EQUIPMENT, GROUND, POSE, SETTINGS, STARS, CENTRING, MISTAKES, TARGETS, LIVE)

BOOK: Chapter = joined(*_CHAPTERS, help_from(joined(*_CHAPTERS)))
