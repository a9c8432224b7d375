"""The English phrase book: every sentence of the evening, by key.

Rules, kept by a test: at most twenty words a sentence; no word of ours that silences or repeats us; nothing pointed out below the horizon.
"""

from __future__ import annotations

from collections.abc import Mapping

from companion.wording import en_check_in, en_guidance, en_mistakes, en_pose, en_settings, en_stars
from companion.wording.phrase import Phrase

PHRASES: Mapping[str, Phrase] = {
    **en_guidance.PHRASES,
    **en_check_in.PHRASES,
    **en_pose.PHRASES,
    **en_settings.PHRASES,
    **en_stars.PHRASES,
    **en_mistakes.PHRASES,
}
