"""Reads a parsed JSON or TOML document into the dataclass declared for it; whatever is wrong is one line that says where and the remedy.

A declaration is a frozen dataclass. ``Annotated[float, Range(…)]`` is a figure within bounds, ``Annotated[X, By(function)]`` is read by
a function of its own; everything else follows from the types. What needs but one key may be given as the value of that key alone.
Null counts as left out. A key that isn't declared is an error.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Set
from dataclasses import MISSING, dataclass, fields, is_dataclass
from datetime import date, datetime, time
from functools import cache
from types import GenericAlias
from typing import Annotated, Any, Literal, TypeVar, get_args, get_origin, get_type_hints

from cattrs import Converter, override
from cattrs.cols import homogenous_tuple_structure_factory, mapping_structure_factory
from cattrs.errors import AttributeValidationNote, BaseValidationError, ForbiddenExtraKeysError, IterableValidationNote
from cattrs.gen import make_dict_structure_fn

from companion.errors import BadRequest
from companion.ranges import Range

T = TypeVar("T")
Hook = Callable[[Any, Any], Any]

_LONGEST_TEXT = 200
_LONGEST_SHOWN = 60


@dataclass(frozen=True)
class By:
    """In ``Annotated``: the function that reads this value. It may hand parts of it to ``read_part``."""

    read: Callable[[object], Any]


def read(document: object, declared: type[T], where: str = "") -> T:
    """Return the document as the dataclass declared for it; ``where`` names it in complaints. BadRequest when it can't be read."""
    try:
        return _CONVERTER.structure(document, declared)
    except (BaseValidationError, BadRequest) as error:
        path, complaint = _first(error)
        place = ": ".join(part for part in (where, path) if part) or "the file"
        raise BadRequest(f"{place}: {complaint}") from None


def read_part(value: object, declared: Any) -> Any:
    """Return a value as its declared type, from within a reading."""
    return _CONVERTER.structure(value, declared)


def plain(value: Any) -> dict[str, Any]:
    """Return a declared dataclass as the plain values of its document; what is as everywhere is left out."""
    document: dict[str, Any] = _CONVERTER.unstructure(value)
    return document


def wrong(key: str, complaint: str) -> BadRequest:
    """Return the complaint about one key, for a declaration that checks its keys against each other."""
    error = BadRequest(complaint)
    error.add_note(AttributeValidationNote(key, key, None))
    return error


@cache
def declared_keys(declared: type) -> Mapping[str, Any]:
    """Return the keys of a declaration and the types they hold."""
    return get_type_hints(declared, include_extras=True)


def known_keys(declared: type) -> str:
    """Return what to say of a key that isn't declared."""
    return f"known are {', '.join(sorted(declared_keys(declared)))}"


# --- the kinds of values ---------------------------------------------------------------------------------------------


def _class(declared: type, converter: Converter) -> Hook:
    hints = declared_keys(declared)
    # The library looks at a dataclass's types without their annotations, so each key is handed its own.
    parts: dict[str, Any] = {key: override(struct_hook=_as(hint, converter)) for key, hint in hints.items()}
    fill: Hook = make_dict_structure_fn(declared, converter, _cattrs_forbid_extra_keys=True, **parts)
    needed = [field.name for field in fields(declared) if field.default is MISSING and field.default_factory is MISSING]

    def hook(value: Any, _: Any) -> Any:
        if isinstance(value, Mapping):
            return fill({key: entry for key, entry in value.items() if entry is not None or key not in hints}, declared)
        if len(needed) == 1:
            return declared(**{needed[0]: converter.structure(value, hints[needed[0]])})
        raise BadRequest(f"this must be an object or table {{…}}, not {kind(value)}; give it {', '.join(needed or sorted(hints))}")

    return hook


def _as(hint: Any, converter: Converter) -> Hook:
    return lambda value, _: converter.structure(value, hint)


def _annotated(hint: Any, converter: Converter) -> Hook:
    held, *rules = get_args(hint)
    for rule in rules:
        match rule:
            case By():
                return lambda value, _: rule.read(value)
            case Range():
                return lambda value, _: _figure(value, rule, held)
    return converter.get_structure_hook(held)


def _figure(value: object, within: Range, held: type) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise BadRequest(f"this must be a number, not {kind(value)}; give {within}")
    if value not in within:
        raise BadRequest(within.complaint(value))
    return round(value) if held is int else float(value)


def _choice(hint: Any, _: Converter) -> Hook:
    choices = get_args(hint)

    def hook(value: object, _: Any) -> Any:
        for known in choices:
            # Words in any case, figures with or without quotes; true is not 1.
            meant = str(known).casefold() == value.strip().casefold() if isinstance(value, str) else known == value
            if meant and not isinstance(value, bool):
                return known
        raise BadRequest(f"{shown(value)} is not one of {', '.join(map(str, choices))}")

    return hook


def _list(hint: Any, converter: Converter) -> Hook:
    items = homogenous_tuple_structure_factory(hint, converter)

    def hook(value: object, _: Any) -> Any:
        if not isinstance(value, list | tuple):
            raise BadRequest(f"this must be a list […], not {kind(value)}{_of(get_args(hint)[0])}")
        return items(value, hint)

    return hook


def _set(hint: Any, converter: Converter) -> Hook:
    items = converter.get_structure_hook(GenericAlias(tuple, (*get_args(hint), ...)))
    return lambda value, _: frozenset(items(value, hint))


def _of(item: Any) -> str:
    """Return what a list is to hold, as a remedy."""
    if get_origin(item) is Literal:
        return f"; give any of {', '.join(map(str, get_args(item)))}"
    return f"; give objects or tables {{…}} of {', '.join(declared_keys(item))}" if isinstance(item, type) and is_dataclass(item) else ""


def _mapping(hint: Any, converter: Converter) -> Hook:
    entries = mapping_structure_factory(hint, converter)

    def hook(value: object, _: Any) -> Any:
        if not isinstance(value, Mapping):
            raise BadRequest(f"this must be an object or table {{…}}, not {kind(value)}")
        return entries(value, hint)

    return hook


def _text(value: object, _: Any) -> str:
    if not isinstance(value, str):
        raise BadRequest(f"this must be a text in quotes, not {kind(value)}")
    if len(value) > _LONGEST_TEXT or not value.isprintable():
        raise BadRequest(f"this must be one line of text, at most {_LONGEST_TEXT} characters")
    return value


def _flag(value: object, _: Any) -> bool:
    if not isinstance(value, bool):
        raise BadRequest(f"this must be true or false, not {kind(value)}")
    return value


def _time(value: object, _: Any) -> datetime:
    if isinstance(value, str):
        value = _time_of_text(value)
    if not isinstance(value, datetime):
        raise BadRequest(f"this must be a time with its offset such as {_SAMPLE_TIME}, not {kind(value)}")
    if value.utcoffset() is None:
        iso = value.isoformat()
        raise BadRequest(f"{iso} has no offset; add one, e.g. {iso}+00:00 or {iso}Z")
    return value


def _time_of_text(text: str) -> datetime:
    try:
        return datetime.fromisoformat(text.strip())
    except ValueError:
        raise BadRequest(f"{shown(text)} is not an ISO 8601 time; give one such as {_SAMPLE_TIME}") from None


_SAMPLE_TIME = "2026-11-05T18:10:00+00:00"


def kind(value: object) -> str:
    """Return what a plain value is, in words."""
    if isinstance(value, str) and not value.strip():
        return "an empty text"
    return next((words for types, words in _KINDS if isinstance(value, types)), "that")


_KINDS: tuple[tuple[type | tuple[type, ...], str], ...] = (
    (type(None), "null"),
    (str, "a text"),
    (bool, "true or false"),
    ((int, float), "a number"),
    ((list, tuple), "a list"),
    (Mapping, "an object"),
    (datetime, "a time"),
    ((date, time), "a date or time alone"),
)


def shown(value: object) -> str:
    """Return a plain value as one short line."""
    if isinstance(value, str | bool) or value is None:
        text = repr(value[:_LONGEST_TEXT] if isinstance(value, str) else value)
    elif isinstance(value, int | float) and abs(value) < 10**12:
        text = str(value)
    else:
        text = kind(value)
    return text if len(text) <= _LONGEST_SHOWN else f"{text[:_LONGEST_SHOWN]}…"


def shown_key(key: str) -> str:
    """Return a key as it may stand in a path."""
    return key if key.isprintable() and 0 < len(key) <= _LONGEST_SHOWN else shown(key)


# --- where it went wrong ---------------------------------------------------------------------------------------------


def _first(error: Exception) -> tuple[str, str]:
    """Return path and complaint of the first thing wrong; a key nobody knows comes first, since a missing one may be it misspelt."""
    path, holder = _step(error), None
    while isinstance(error, BaseValidationError):
        holder = error.cl
        error = next((cause for cause in error.exceptions if isinstance(cause, ForbiddenExtraKeysError)), error.exceptions[0])
        path += _step(error)
    match error:
        case BadRequest():
            complaint = str(error)
        case ForbiddenExtraKeysError():
            path += f".{shown_key(min(error.extra_fields))}"
            complaint = f"I don't know this field; {known_keys(error.cl)}"
        case KeyError() if holder is not None and error.args[0] in declared_keys(holder):
            complaint = f"this is missing; {_remedy(declared_keys(holder)[error.args[0]])}"
        case _:
            raise error
    return path.removeprefix("."), complaint


def _remedy(hint: Any) -> str:
    """Return what to give for a key that is missing."""
    within = next((rule for rule in getattr(hint, "__metadata__", ()) if isinstance(rule, Range)), None)
    return f"give {within}" if within else "add it"


def _step(error: Exception) -> str:
    """Return how the path goes on to what an exception is about."""
    for note in getattr(error, "__notes__", ()):
        match note:
            case AttributeValidationNote():
                return f".{note.name}"
            case IterableValidationNote():
                return f"[{note.index}]" if isinstance(note.index, int) else f".{shown_key(note.index)}"
    return ""


def _converter() -> Converter:
    converter = Converter(omit_if_default=True, unstruct_collection_overrides={Set: sorted, tuple: list})
    hooks: tuple[tuple[type, Hook], ...] = ((str, _text), (bool, _flag), (datetime, _time))
    for held, hook in hooks:
        converter.register_structure_hook(held, hook)
    factories: tuple[tuple[Callable[[Any], bool], Callable[[Any, Converter], Hook]], ...] = (
        (lambda hint: isinstance(hint, type) and is_dataclass(hint), _class),
        (lambda hint: get_origin(hint) is Annotated, _annotated),
        (lambda hint: get_origin(hint) is Literal, _choice),
        (lambda hint: get_origin(hint) is tuple, _list),
        (lambda hint: get_origin(hint) is Set, _set),
        (lambda hint: get_origin(hint) is Mapping, _mapping),
    )
    for predicate, factory in factories:
        converter.register_structure_hook_factory(predicate, factory)
    return converter


_CONVERTER = _converter()
