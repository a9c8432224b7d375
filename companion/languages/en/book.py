"""The English phrase book, put together from its chapters.

Rules, kept by a test: at most twenty words a sentence; no word of ours that silences or repeats us; nothing pointed out below the horizon.
"""

from __future__ import annotations

from companion.languages.en.advice_phrases import ADVICE
from companion.languages.en.by_hand_phrases import BY_HAND
from companion.languages.en.centring_phrases import CENTRING
from companion.languages.en.check_in_phrases import CHECK_IN
from companion.languages.en.cloud_phrases import CLOUDS
from companion.languages.en.command_phrases import COMMANDS
from companion.languages.en.equipment_phrases import EQUIPMENT
from companion.languages.en.ground_phrases import GROUND
from companion.languages.en.guidance_phrases import GUIDANCE
from companion.languages.en.help_phrases import offered
from companion.languages.en.jump_phrases import JUMPS
from companion.languages.en.live_phrases import LIVE
from companion.languages.en.machine_phrases import MACHINE
from companion.languages.en.mistakes_phrases import MISTAKES
from companion.languages.en.mount_phrases import MOUNT
from companion.languages.en.night_phrases import NIGHT
from companion.languages.en.observation_phrases import OBSERVATION
from companion.languages.en.packing_phrases import PACKING
from companion.languages.en.pose_phrases import POSE
from companion.languages.en.prepare_phrases import PREPARE
from companion.languages.en.question_phrases import AGAIN, ANSWERS, WHOLE, explained
from companion.languages.en.relay_later_phrases import RELAY_LATER
from companion.languages.en.relay_phrases import RELAY
from companion.languages.en.relay_terse_phrases import RELAY_TERSE
from companion.languages.en.relay_turning_phrases import RELAY_TURNING
from companion.languages.en.settings_phrases import SETTINGS
from companion.languages.en.sight_phrases import SIGHT
from companion.languages.en.sky_phrases import SKY
from companion.languages.en.stars_phrases import STARS
from companion.languages.en.targets_phrases import TARGETS
from companion.languages.en.touch_phrases import TOUCH
from companion.languages.en.tour_phrases import TOUR
from companion.languages.en.turning_phrases import TURNING
from companion.languages.phrase import Chapter, joined
from companion.languages.whole_book import help_from, questions_from

_CHAPTERS = (
    GUIDANCE, CHECK_IN, PREPARE, EQUIPMENT, GROUND, POSE, SETTINGS, STARS, CENTRING, CLOUDS, MISTAKES,
    TARGETS, NIGHT, BY_HAND, JUMPS, OBSERVATION, LIVE, MACHINE, COMMANDS, SKY,
    PACKING, MOUNT, TURNING, ADVICE,
    SIGHT, RELAY, RELAY_LATER, RELAY_TERSE, RELAY_TURNING, TOUCH, TOUR,
)  # fmt: skip

_SAID = joined(*_CHAPTERS)

BOOK: Chapter = joined(_SAID, ANSWERS, help_from(_SAID, offered), questions_from(_SAID, AGAIN, WHOLE, explained))
