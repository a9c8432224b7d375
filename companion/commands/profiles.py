"""The observer's profile: shown, changed a key at a time, placed by a town, or asked for question by question."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from functools import partial
from typing import Any

from companion import places
from companion.commands.options import language_of, time_of, told
from companion.dialogue import Conversation, Turn, turns
from companion.documents.profile_tables import BARE_KEYS, TABLES, Profile, document_from, plain_from_text, profile_from
from companion.errors import BadRequest
from companion.languages import Language
from companion.lines import bounded_lines, complain
from companion.messages import Heard, Hearing, NotNow
from companion.mount.address import mount_address
from companion.places import Town
from companion.printing import Printer
from companion.procedure import Stage
from companion.procedure.ask_equipment import ask_about_equipment
from companion.procedure.equipment_told import EquipmentTold, tables_of
from companion.profile import load_profile, profile_path, write_profile
from companion.talk.answers import UniversalAnswer
from companion.talk.command_phrases import PlaceReplaced, ProfileIsEmpty, QuestionsBrokenOff
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
        printer.lines(told(options, ProfileIsEmpty(str(path))))
    printer.document(document)
    return DONE


def change(options: argparse.Namespace) -> int:
    """Change keys; written only when all of it can be."""
    words = options.pairs
    if len(words) % 2:
        raise BadRequest(f"'{words[-1]}' has no value; give KEY VALUE, such as instrument.focal_length_mm 1200")
    known = _known(options)
    document = document_from(known)
    pairs = dict(zip(words[::2], words[1::2], strict=True))
    if {"site.latitude_deg", "site.longitude_deg"} & pairs.keys():
        # Another place has its own zone, unless one is given with it.
        document.get("site", {}).pop("zone", None)
    for key, text in pairs.items():
        _put(document, key.casefold(), text)
    return _keep(options, known, document)


def place_near(options: argparse.Namespace) -> int:
    """Place the profile at a town."""
    name, _, country = (part.strip() for part in " ".join(options.town).partition(","))
    name = language_of(options).town_called(name)
    towns = [town for town in places.towns_named(name) if country.upper() in ("", town.country)]
    if len(towns) > 1:
        raise BadRequest(f"several towns are called {name}: {_choices(towns)}")
    if not towns and country:
        raise BadRequest(f"I know no {name} in {country}; leave the country out, or set site.latitude_deg and site.longitude_deg")
    town = towns[0] if towns else places.find_town(name)
    place = {"name": town.name, "latitude_deg": town.latitude_deg, "longitude_deg": town.longitude_deg}
    known = _known(options)
    document = document_from(known)
    if (before := document.get("site")) and before != place:
        place_before = ", ".join(f"{key} {_in_line(item)}" for key, item in before.items())
        Printer(options.json).progress(told(options, PlaceReplaced(place_before)))
    return _keep(options, known, document | {"site": place})


def _choices(towns: Sequence[Town]) -> str:
    """Tell towns of one name apart: by country, and where that isn't enough by where they are."""
    told = [f"{town.name}, {town.country} (latitude {town.latitude_deg:.1f}, longitude {town.longitude_deg:.1f})" for town in towns]
    remedy = "add the country to the name"
    if len({town.country for town in towns}) < len(towns):
        remedy += ", or set site.latitude_deg and site.longitude_deg"
    return f"{'; '.join(told)}; {remedy}"


def ask(options: argparse.Namespace) -> int:
    """Fill the profile by questions and typed answers; what is answered is kept at once."""
    known, printer = _known(options), Printer(options.json)
    kept = known

    def keep(answers: Mapping[str, Any]) -> None:
        nonlocal kept
        document = document_from(known)
        for name, answer in answers.items():
            # What was skipped stays as it was; a place and a horizon are replaced whole.
            merged = {**document.get(name, {}), **answer} if name in ("instrument", "mount", "observer") else answer
            document[name] = {key: told for key, told in merged.items() if told is not None} if isinstance(merged, dict) else merged
        if document != document_from(kept):
            kept = _written(options, kept, document)

    interview = _Interview(known, time_of(options), language_of(options), keep)
    try:
        asked_all = interview.hold(bounded_lines(sys.stdin), lambda words: printer.progress(f"it:  {words}"))
    except KeyboardInterrupt:
        if kept != known:
            complain(told(options, QuestionsBrokenOff()))
        raise
    if kept == known and not interview.answers:
        raise BadRequest("nothing was answered, so nothing is written; answer a question, or set a key with 'companion profile set'")
    if not asked_all:
        printer.progress(told(options, QuestionsBrokenOff()))
    return _keep(options, kept, document_from(kept))


class _Interview:
    """The questions of the equipment, over typed lines."""

    def __init__(self, known: Profile, time: datetime, language: Language, keep: Callable[[Mapping[str, Any]], None]) -> None:
        """Take what is known, and who is handed the tables answered so far whenever they have changed."""
        self._new = partial(Conversation, [_INTERVIEW], known.site, language, equipment=known.equipment)
        self._time = time
        self._vocabulary = load_vocabulary(language)
        self._keep = keep
        self._heard: list[Hearing] = []
        self.answers: Mapping[str, Any] = {}
        """The tables answered so far."""

    def hold(self, lines: Iterable[str], say: Callable[[str], None]) -> bool:
        """Ask; return whether everything was asked: it may be broken off anywhere."""
        conversation, waiting = self._new(), iter(lines)

        def hear(question: Ask[Answers]) -> Hearing | None:
            line = next(waiting, None)
            heard = None if line is None else self._vocabulary.understand(line, question.expects)
            return None if isinstance(heard, Heard) and heard.command == UniversalAnswer.GOOD_NIGHT else heard

        def answer(heard: Hearing) -> Turn:
            turn = conversation.hear(heard, self._time)
            self._heard.append(heard)
            if isinstance(heard, Heard | NotNow):
                self._take()
            return turn

        turn = conversation.begin(self._time)
        for _, turn in turns(turn, hear, answer):  # noqa: B020 - the first turn is the loop's own
            words = " ".join(conversation.words(saying, self._time) for saying in turn.sayings)
            if words:
                say(words)
        return turn.finished

    def _take(self) -> None:
        """Work out what the answers so far amount to, were the rest skipped: the same script is gone through once more."""
        conversation = self._new()
        turn = conversation.begin(self._time)
        for heard in self._heard:
            turn = conversation.hear(heard, self._time)
        while not turn.finished:
            turn = conversation.command(UniversalAnswer.SKIP, self._time)
        told = next((result for result in conversation.results if isinstance(result, EquipmentTold)), None)
        answers = tables_of(told) if told is not None else {}
        if conversation.oneself is not None:
            before, aside = answers.get("observer", {}), asdict(conversation.oneself)
            aside["limits"] = sorted({*before.get("limits", ()), *aside["limits"]})
            answers["observer"] = before | aside
        if answers != self.answers:
            self.answers = answers
            self._keep(answers)


def _put(document: dict[str, Any], key: str, text: str) -> None:
    """Put the value typed for a key into the document; checked when the document is read."""
    name, _, field = key.partition(".")
    if key in BARE_KEYS:
        document[key] = plain_from_text(text, BARE_KEYS[key])
    elif name not in TABLES or field not in TABLES[name]:
        known = [f"{name}.{field}" for field in TABLES[name]] if name in TABLES else [*_every_key()]
        raise BadRequest(f"there is no key '{key}' in a profile; known are {', '.join(known)}")
    else:
        if key == "mount.address" and text.strip().casefold() != "discover":
            mount_address(text)  # One that is none would keep every evening from beginning.
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


def _keep(options: argparse.Namespace, known: Profile, document: Mapping[str, Any]) -> int:
    """Check the changed document and write what has changed; show the profile as it is now."""
    changed = _written(options, known, document)
    path, printer, written = profile_path(options.profile), Printer(options.json), document_from(changed)
    printer.lines(f"{path}:", *_lines(written))
    printer.document(written)
    return DONE


def _written(options: argparse.Namespace, known: Profile, document: Mapping[str, Any]) -> Profile:
    path = profile_path(options.profile)
    changed = profile_from(document, str(path), _refuse)
    write_profile(changed, path, known)
    return changed


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
