"""English for two, for a mount on the line that turns, and for the lines of the display."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps

from companion.languages.en import settings_phrases as words_of
from companion.languages.en.mount_phrases import angle_words, to_prove_it
from companion.languages.en.night_phrases import introduce_target
from companion.languages.en.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.sky import Kind
from companion.talk import mount_phrases as mount
from companion.talk import settings_phrases as settings
from companion.talk import turning_phrases as turning


def _both_clear(scene: Scene) -> str:
    """Have both of them out of the tube's way, the child held."""
    both = "Take the child by the hand, both" if scene.eyes == "child" else "Both"
    return f"{both} more than the tube's length off, cables clear. It may swing either way round."


def may_i_turn_there(scene: Scene, *, name: str) -> str:
    """Announce a turn and ask for it."""
    return f"{to_prove_it(scene, name)} {_both_clear(scene)} Shall I turn it: turn there, or by hand?"


def is_it_really_that(scene: Scene, *, name: str, away_deg: float) -> str:
    """Have the thing looked at again that it reads itself to be far from."""
    return f"By its own reading it points {angle_words(away_deg)} away from {spoken_name(name)}. Eyes: is it really {spoken_name(name)}?"


def shall_i_turn_there(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool, again: bool) -> str:
    """Introduce a target, tell both where to stand, and ask for the turn."""
    introduced = (
        spoken_name(target) + "." if again else introduce_target(scene, target=target, kind=kind, eyepiece_mm=eyepiece_mm, change=change)
    )
    return f"{introduced} {_both_clear(scene)} Shall I turn it: turn there, or by hand?"


def shall_i_turn_there_too(scene: Scene, *, target: str, kind: Kind, eyepiece_mm: float | None, change: bool, again: bool) -> str:
    """Introduce a target, and ask for the turn by a plain yes."""
    introduced = (
        spoken_name(target) + "." if again else introduce_target(scene, target=target, kind=kind, eyepiece_mm=eyepiece_mm, change=change)
    )
    return f"{introduced} {_both_clear(scene)} Shall I turn it there?"


def _for_two(words: Callable[..., str]) -> Callable[..., str]:
    """Return words for a line of the display that say who reads and who keys."""

    @wraps(words)
    def told(scene: Scene, **facts: object) -> str:
        return f"Eyes read, hands key. {words(scene, **facts)}"

    return told


RELAY_TURNING = Chapter(
    phrases={},
    relayed={
        mount.MayITurnThere: may_i_turn_there,
        mount.IsItReallyThat: is_it_really_that,
        turning.ShallITurnThere: shall_i_turn_there,
        turning.ShallITurnThereToo: shall_i_turn_there_too,
        settings.KeyTheDate: _for_two(words_of.key_the_date),
        settings.KeyTheTime: _for_two(words_of.key_the_time),
        settings.KeyDaylightSaving: _for_two(words_of.key_daylight_saving),
        settings.KeyTheZone: _for_two(words_of.key_the_zone),
        settings.KeyTheLatitude: _for_two(words_of.key_the_latitude),
        settings.KeyTheLongitude: _for_two(words_of.key_the_longitude),
        settings.KeyTheElevation: _for_two(words_of.key_the_elevation),
        settings.PickACity: _for_two(words_of.pick_a_city),
    },
)
