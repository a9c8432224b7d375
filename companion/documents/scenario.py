"""The scenario of a rehearsal as its TOML file holds it: where and when an evening is, with what equipment, and what is said."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Annotated, Any, Literal

from companion.documents.equipment_tables import EquipmentTables, without_own_words
from companion.documents.reader import read, wrong
from companion.documents.site_table import SiteTable
from companion.messages import NO_SLOTS
from companion.ranges import Range

Kind = Literal["in-grammar", "out-of-grammar", "silence"]


@dataclass(frozen=True, kw_only=True)
class TurnTable:
    """One recorded utterance, and what a perfect ear makes of it."""

    at: datetime
    wav: str
    """The file, beside the scenario."""
    kind: Kind = "in-grammar"
    words: str = ""
    """What was said; empty for silence."""
    command: str | None = None
    """The command it stands for; of in-grammar utterances only."""
    slots: Mapping[str, str] = field(default_factory=lambda: NO_SLOTS)
    after_crash: bool = False
    """Whether the companion is cut off before this is said, and has to go on from its journal."""
    voice: str | None = None
    """Who says it. Read, like the next, only where the recordings are made."""
    snr_db: Annotated[float, Range(-20, 100, "decibels")] | None = None
    """How loud it is above the noise."""

    def __post_init__(self) -> None:
        """Refuse an answer without its command."""
        if self.kind == "in-grammar" and self.command is None:
            raise wrong("command", "this is missing; an in-grammar turn needs the command it stands for")


@dataclass(frozen=True, kw_only=True)
class ScenarioTables(EquipmentTables):
    """The file."""

    title: str
    site: SiteTable
    starts_at: datetime
    turn: tuple[TurnTable, ...]


def read_scenario(document: Mapping[str, Any], where: str) -> ScenarioTables:
    """Return a parsed scenario; ``where`` names its file in complaints."""
    return read(without_own_words(document, where, None), ScenarioTables, where)
