"""Evenings: held with the observer, or rehearsed on recordings."""

from __future__ import annotations

import argparse
import contextlib
import sys
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace

from companion import mount as mounts
from companion.commands.by_voice import hold_by_voice
from companion.commands.fields import hearing_fields
from companion.commands.mount import named_mount
from companion.commands.options import known_site, language_of, profile_of, time_of
from companion.commands.spoken_trouble import trouble_told_aloud
from companion.dialogue import Journal
from companion.documents.profile_tables import Profile
from companion.equipment import Equipment
from companion.errors import BadRequest
from companion.factories import open_engine, open_voice
from companion.lines import bounded_lines, complain, printable, put_line
from companion.live import (
    Clock,
    MountLink,
    Session,
    clock_from,
    hold_typed,
    journal_path,
    lines_and_mount,
    open_terminal,
)
from companion.live.own_clock import keeps_time
from companion.observing import own_objects
from companion.outputs import tried_folder
from companion.printing import Printer, site_time
from companion.profile import NOTHING, profile_path, write_profile
from companion.rehearsal import WRITTEN, Rehearsal, find_scenario, lines_of, load_scenario
from companion.sky import Body, Site
from companion.user_files import home
from companion.vocabulary import load_vocabulary

DONE, UNFINISHED = 0, 3


def start(options: argparse.Namespace) -> int:
    """Hold an evening with the observer; by voice, what ends it early is said, too."""
    if options.json:
        raise BadRequest("start holds a conversation and prints no JSON; leave --json out, or use rehearse")
    with contextlib.nullcontext() if options.text else trouble_told_aloud(options):
        return _start(options)


def _start(options: argparse.Namespace) -> int:
    site, clock = known_site(options), clock_from(time_of(options))
    language, profile = language_of(options), profile_of(options)
    own = own_objects(home())
    vocabulary = replace(load_vocabulary(language), own_names=tuple(body.name for body in own))
    is_newcomer = replace(profile, sound=NOTHING.sound) == NOTHING and not journal_path(home()).exists()

    def remember(kept_site: Site, equipment: Equipment) -> None:
        write_profile(replace(profile, site=kept_site, equipment=equipment), profile_path(options.profile), profile)

    with Journal(journal_path(home())) as journal, _mount_link(options, profile, clock, own) as mount:
        equipment = profile.equipment
        evening = Session(
            site,
            clock,
            journal,
            equipment,
            language=language,
            by_voice=not options.text,
            remember=remember,
            own=own,
            mount=mount,
            clock_runs_on=options.at is not None or keeps_time(),
            is_newcomer=is_newcomer,
        )
        if not options.text:
            hold_by_voice(evening, language, vocabulary, profile, options)
        elif mount is None:
            hold_typed(evening, vocabulary, bounded_lines(sys.stdin), _say)
        else:
            with closing(open_terminal(sys.stdin, lambda _: mount.key_pressed())) as typing:
                hold_typed(evening, vocabulary, lines_and_mount(typing, evening, _say), _say)
    if evening.unremembered is not None:
        raise evening.unremembered
    return DONE


@contextlib.contextmanager
def _mount_link(options: argparse.Namespace, profile: Profile, clock: Clock, own: tuple[Body, ...]) -> Iterator[MountLink | None]:
    """Hold the line to the mount that was named, if one was, here or in the profile."""
    named = options.mount or profile.equipment.mount.address
    if named is None:
        yield None
        return
    link = MountLink(mounts.open_line(named_mount(named), clock), clock, profile.equipment, own)
    with closing(link):
        yield link


def _say(words: str) -> None:
    _show(f"it:  {words}")


def _show(line: str) -> None:
    put_line(printable(line))


def rehearse(options: argparse.Namespace) -> int:
    """Play a recorded evening through the real recogniser and voice."""
    profile, printer = profile_of(options), Printer(options.json)
    language = language_of(options)
    scenario = load_scenario(find_scenario(options.scenario or language.rehearsal))
    out = tried_folder(options.out, *WRITTEN) if options.out is not None else None
    vocabulary = load_vocabulary(language)
    wanted = profile.engine if options.engine is None else options.engine
    engine = open_engine(wanted, language, options.model, vocabulary.answers, complain)
    with closing(open_voice(profile.voice, language)) as voice:
        evening = Rehearsal(scenario, language, vocabulary, engine, voice)
        for exchange in evening.play():
            printer.progress(*lines_of(exchange))
        if out is not None:
            evening.write(out)
    tally = evening.tally()
    printer.progress(
        *language.rehearsed(evening.finished, (tally.recognised, tally.expected), (tally.rejected, tally.strangers)),
        *([f"Written to {out}: {' and '.join(WRITTEN)}."] if out is not None else []),
    )
    printer.document(
        {
            "finished": evening.finished,
            "engine": engine.name,
            "expected": tally.expected,
            "recognised": tally.recognised,
            "rejected": tally.rejected,
            "turns": [
                {
                    "time": site_time(exchange.time, scenario.site),
                    **hearing_fields(exchange.hearing),
                    "said": exchange.said,
                    "stage": exchange.stage,
                }
                for exchange in evening.exchanges
            ],
        }
    )
    return DONE if evening.finished else UNFINISHED
