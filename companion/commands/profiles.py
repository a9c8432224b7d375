"""The observer's profile: shown, changed a key at a time, placed by a town, or asked for question by question."""

from __future__ import annotations

import argparse
import contextlib
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

from companion import places
from companion.commands.options import language_of, time_of
from companion.dialogue import Conversation, turns
from companion.documents.profile_tables import BARE_KEYS, TABLES, Profile, document_from, plain_from_text, profile_from
from companion.errors import BadRequest
from companion.languages import Language
from companion.lines import bounded_lines, complain
from companion.messages import Heard, Hearing
from companion.places import Town
from companion.printing import Printer
from companion.procedure import Stage
from companion.procedure.ask_equipment import ask_about_equipment
from companion.procedure.equipment_told import EquipmentTold, tables_of
from companion.profile import load_profile, profile_path, write_profile
from companion.talk.answers import UniversalAnswer
from companion.talk.saying import Answers, Ask
from companion.vocabulary import load_vocabulary

DONE = 0
_INTERVIEW = Stage("your-equipment", ask_about_equipment, EquipmentTold)


def show(options: argparse.Namespace) -> int:
    """Show the profile."""
    path, found = profile_path(options.profile), _known(options, must_exist=options.profile is not None)
    printer, document = Printer(options.json), document_from(found)
    if document:
        printer.lines(f"{path}:", *_lines(document))
    else:
        printer.lines(f"{path} says nothing yet: fill it with 'companion profile ask' or 'companion profile near TOWN'.")
    printer.document(document)
    return DONE


def change(options: argparse.Namespace) -> int:
    """Change keys; written only when all of it can be."""
    words = options.pairs
    if len(words) % 2:
        raise BadRequest(f"'{words[-1]}' has no value; give KEY VALUE, such as instrument.focal_length_mm 1200")
    document = document_from(_known(options))
    pairs = dict(zip(words[::2], words[1::2], strict=True))
    if {"site.latitude_deg", "site.longitude_deg"} & pairs.keys():
        # Another place has its own zone, unless one is given with it.
        document.get("site", {}).pop("zone", None)
    for key, text in pairs.items():
        _put(document, key.casefold(), text)
    return _keep(options, document)


def place_near(options: argparse.Namespace) -> int:
    """Place the profile at a town."""
    name, _, country = (part.strip() for part in " ".join(options.town).partition(","))
    towns = [town for town in places.towns_named(name) if country.upper() in ("", town.country)]
    if len(towns) > 1:
        raise BadRequest(f"several towns are called {name}: {_choices(towns)}")
    if not towns and country:
        raise BadRequest(f"I know no {name} in {country}; leave the country out, or set site.latitude_deg and site.longitude_deg")
    town = towns[0] if towns else places.find_town(name)
    place = {"name": town.name, "latitude_deg": town.latitude_deg, "longitude_deg": town.longitude_deg}
    return _keep(options, document_from(_known(options)) | {"site": place})


def _choices(towns: Sequence[Town]) -> str:
    """Tell towns of one name apart: by country, and where that isn't enough by where they are."""
    told = [f"{town.name}, {town.country} (latitude {town.latitude_deg:.1f}, longitude {town.longitude_deg:.1f})" for town in towns]
    remedy = "add the country to the name"
    if len({town.country for town in towns}) < len(towns):
        remedy += ", or set site.latitude_deg and site.longitude_deg"
    return f"{'; '.join(told)}; {remedy}"


def ask(options: argparse.Namespace) -> int:
    """Fill the profile by questions and typed answers."""
    known, printer = _known(options), Printer(options.json)
    answers, asked_all = _interview(
        known, time_of(options), language_of(options), bounded_lines(sys.stdin), lambda words: printer.progress(f"it:  {words}")
    )
    if not answers:
        raise BadRequest("nothing was answered, so nothing is written; answer a question, or set a key with 'companion profile set'")
    if not asked_all:
        printer.progress("The questions were broken off; what you had answered is kept.")
    document = document_from(known)
    for name, answer in answers.items():
        # What was skipped stays as it was; a place and a horizon are replaced whole.
        document[name] = {**document.get(name, {}), **answer} if name in ("instrument", "mount", "observer") else answer
    return _keep(options, document)


def _interview(
    known: Profile, time: datetime, language: Language, lines: Iterable[str], say: Callable[[str], None]
) -> tuple[Mapping[str, Any], bool]:
    """Hold the interview over typed lines; return what was answered, and whether everything was asked: it may be broken off anywhere."""
    vocabulary = load_vocabulary(language)
    conversation = Conversation([_INTERVIEW], known.site, language, equipment=known.equipment)
    waiting = iter(lines)

    def hear(question: Ask[Answers]) -> Hearing | None:
        line = next(waiting, None)
        heard = None if line is None else vocabulary.understand(line, question.expects)
        return None if isinstance(heard, Heard) and heard.command == UniversalAnswer.GOOD_NIGHT else heard

    turn = conversation.begin(time)
    with contextlib.suppress(KeyboardInterrupt):
        for _, turn in turns(turn, hear, lambda heard: conversation.hear(heard, time)):  # noqa: B020 - the first turn is the loop's own
            words = " ".join(conversation.words(saying, time) for saying in turn.sayings)
            if words:
                say(words)
    asked_all = turn.finished
    while not turn.finished:
        turn = conversation.command(UniversalAnswer.SKIP, time)
    told = next((result for result in conversation.results if isinstance(result, EquipmentTold)), None)
    return (tables_of(told) if told is not None else {}), asked_all


def _put(document: dict[str, Any], key: str, text: str) -> None:
    """Put the value typed for a key into the document; checked when the document is read."""
    name, _, field = key.partition(".")
    if key in BARE_KEYS:
        document[key] = plain_from_text(text, BARE_KEYS[key])
    elif name not in TABLES or field not in TABLES[name]:
        known = [f"{name}.{field}" for field in TABLES[name]] if name in TABLES else [*_every_key()]
        raise BadRequest(f"there is no key '{key}' in a profile; known are {', '.join(known)}")
    else:
        document.setdefault(name, {})[field] = plain_from_text(text, TABLES[name][field])


def _every_key() -> Iterable[str]:
    yield from (f"{name}.{field}" for name, fields in TABLES.items() for field in fields)
    yield from BARE_KEYS


def _known(options: argparse.Namespace, *, must_exist: bool = False) -> Profile:
    """Return the profile as it is now, an empty one where there is none yet; say what in it means nothing to us."""
    passed_over: list[str] = []
    found = load_profile(options.profile, passed_over.append, must_exist=must_exist)
    complain(*passed_over)
    return found


def _keep(options: argparse.Namespace, document: Mapping[str, Any]) -> int:
    """Check the changed document and write it; show it as it is now."""
    path = profile_path(options.profile)
    changed = profile_from(document, str(path), _refuse)
    write_profile(changed, path)
    printer, written = Printer(options.json), document_from(changed)
    printer.lines(f"{path}:", *_lines(written))
    printer.document(written)
    return DONE


def _refuse(what: str) -> None:
    raise BadRequest(what)


def _lines(document: Mapping[str, Any]) -> Iterable[str]:
    """Return the profile a line a key, each key as ``set`` takes it."""
    for name, value in document.items():
        if isinstance(value, Mapping):
            yield from (f"  {name}.{key}: {_in_line(item)}" for key, item in value.items())
        else:
            yield f"  {name}: {_in_line(value)}"


def _in_line(value: object) -> str:
    if isinstance(value, list):
        return "; ".join(map(_in_line, value)) or "nothing"
    if isinstance(value, Mapping):
        return ", ".join(f"{key} {_in_line(item)}" for key, item in value.items())
    if isinstance(value, bool):
        return "true" if value else "false"
    return f"{value:.10g}" if isinstance(value, float) else str(value)
