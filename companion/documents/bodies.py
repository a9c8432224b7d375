"""Stars and planets by name, as requests give them."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from companion.documents.reader import By, kind, read_part
from companion.errors import BadRequest
from companion.sky import Body, find


def _named(value: object) -> Body:
    name: str = read_part(value, str)
    if not name.strip():
        raise BadRequest(f"this must be a name, not {kind(value)}")
    return find(name.strip())


Named: TypeAlias = Annotated[Body, By(_named)]
"""A body, given by any of its names; one that nobody knows is refused with near spellings."""
