"""The Korean phrase book, put together from its chapters.

Rules, kept by a test: at most twenty words a sentence; no word of ours that silences or repeats us; nothing pointed out below the horizon.
"""

from __future__ import annotations

from companion.languages.ko.advice_phrases import ADVICE
from companion.languages.ko.by_hand_phrases import BY_HAND
from companion.languages.ko.centring_phrases import CENTRING
from companion.languages.ko.check_in_phrases import CHECK_IN
from companion.languages.ko.cloud_phrases import CLOUDS
from companion.languages.ko.command_phrases import COMMANDS
from companion.languages.ko.equipment_phrases import EQUIPMENT
from companion.languages.ko.ground_phrases import GROUND
from companion.languages.ko.guidance_phrases import GUIDANCE
from companion.languages.ko.help_phrases import offered
from companion.languages.ko.jump_phrases import JUMPS
from companion.languages.ko.live_phrases import LIVE
from companion.languages.ko.machine_phrases import MACHINE
from companion.languages.ko.mistakes_phrases import MISTAKES
from companion.languages.ko.mount_phrases import MOUNT
from companion.languages.ko.night_phrases import NIGHT
from companion.languages.ko.observation_phrases import OBSERVATION
from companion.languages.ko.packing_phrases import PACKING
from companion.languages.ko.pose_phrases import POSE
from companion.languages.ko.prepare_phrases import PREPARE
from companion.languages.ko.question_phrases import AGAIN, ANSWERS, WHOLE, explained
from companion.languages.ko.relay_later_phrases import RELAY_LATER
from companion.languages.ko.relay_phrases import RELAY
from companion.languages.ko.settings_phrases import SETTINGS
from companion.languages.ko.sight_phrases import SIGHT
from companion.languages.ko.sky_phrases import SKY
from companion.languages.ko.stars_phrases import STARS
from companion.languages.ko.targets_phrases import TARGETS
from companion.languages.ko.touch_phrases import TOUCH
from companion.languages.ko.tour_phrases import TOUR
from companion.languages.ko.turning_phrases import TURNING
from companion.languages.phrase import Chapter, joined
from companion.languages.whole_book import help_from, questions_from

_CHAPTERS = (
    GUIDANCE, CHECK_IN, PREPARE, EQUIPMENT, GROUND, POSE, SETTINGS, STARS, CENTRING, CLOUDS, MISTAKES,
    TARGETS, NIGHT, BY_HAND, JUMPS, OBSERVATION, LIVE, MACHINE, COMMANDS, SKY,
    PACKING, MOUNT, TURNING, ADVICE,
    SIGHT, RELAY, RELAY_LATER, TOUCH, TOUR,
)  # fmt: skip

_SAID = joined(*_CHAPTERS)

BOOK: Chapter = joined(_SAID, ANSWERS, help_from(_SAID, offered, words_between=1), questions_from(_SAID, AGAIN, WHOLE, explained))
