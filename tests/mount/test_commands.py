"""Mount commands as effects with ids: written down, read back, sent once."""

from __future__ import annotations

import json
from datetime import datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.errors import BadRequest
from companion.mount import (
    Command,
    Effect,
    EffectLog,
    Equatorial,
    Horizontal,
    Nudge,
    Park,
    SetPlace,
    SetTime,
    Slew,
    Sync,
    Track,
    effect_document,
    effect_from,
)
from companion.mount.commands import moves

_ZONE = timezone(timedelta(hours=-3))
_COMMANDS: list[Command] = [
    SetTime(datetime(2026, 10, 15, 19, 30, tzinfo=_ZONE)),
    SetPlace(46.31, -67.52, 120.0),
    Sync(Equatorial(10.0, -20.0, "J2000")),
    Sync(Horizontal(30.0, 180.0)),
    Slew(Equatorial(359.9, 89.0, "of_date")),
    Slew(Equatorial(0.0, 0.0, None)),
    Slew(Horizontal(12.0, 0.0)),
    Nudge("secondary", -0.25, 0.4),
    Track(True),
    Park(False),
]


@pytest.mark.parametrize("command", _COMMANDS)
def test_a_journal_gives_back_what_was_written(command: Command) -> None:
    """Through JSON and back, the same effect."""
    effect = Effect("verify 4", command)
    assert effect_from(json.loads(json.dumps(effect_document(effect)))) == effect


_JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.text(max_size=8), lambda inner: st.dictionaries(st.text(max_size=8), inner, max_size=3)
)


@given(st.dictionaries(st.sampled_from(["id", "command", "time", "direction", "axis", "on", "seconds"]), _JSON | st.sampled_from(["slew"])))
def test_a_damaged_journal_is_refused(document: dict[str, object]) -> None:
    """Whatever stands there is an effect or a BadRequest, nothing else."""
    try:
        effect = effect_from(document)
    except BadRequest:
        return
    assert effect.command is not None


def test_an_effect_is_new_until_it_is_written_down() -> None:
    """Replay meets it again and finds it written."""
    effect = Effect("proof 1", Slew(Horizontal(30.0, 180.0)))
    log = EffectLog()
    assert log.is_new(effect)
    log = log.with_effect(effect)
    assert not log.is_new(effect)
    assert not log.is_new(Effect("proof 1", Park(True)))
    assert log.is_new(Effect("proof 2", effect.command))


def test_only_what_turns_the_tube_counts_as_moving() -> None:
    """A stop voids these and not the others."""
    assert [type(command).__name__ for command in _COMMANDS if moves(command)] == ["Slew", "Slew", "Slew", "Nudge", "Track"]
    assert moves(Park(True))
