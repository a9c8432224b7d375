"""Evenings: held with the observer, or rehearsed on recordings."""

from __future__ import annotations

import argparse
import sys
from contextlib import closing

from companion.arguments import profile_of, site_of, time_of
from companion.commands.fields import hearing_fields
from companion.dialogue import Journal
from companion.live import TypedEvening, clock_from, journal_path
from companion.parts import open_engine, open_voice
from companion.printing import Printer, site_time
from companion.profile import home
from companion.rehearsal import Rehearsal, find_scenario, lines_of, load_scenario
from companion.vocabulary import load_vocabulary

DONE, UNFINISHED = 0, 3


def start(options: argparse.Namespace) -> int:
    """Hold an evening with the observer."""
    site, clock = site_of(options), clock_from(time_of(options))
    vocabulary = load_vocabulary(options.language)
    if not options.text:
        print("I can't use a microphone yet: type your answers, one a line.", file=sys.stderr, flush=True)
    with Journal(journal_path(home())) as journal:
        TypedEvening(site, vocabulary, clock, lambda words: print(f"it:  {words}", flush=True), journal).hold(sys.stdin)
    return DONE


def rehearse(options: argparse.Namespace) -> int:
    """Play a recorded evening through the real recogniser and voice."""
    profile, printer = profile_of(options), Printer(options.json)
    scenario = load_scenario(find_scenario(options.scenario))
    vocabulary = load_vocabulary(options.language)
    engine = open_engine(options.engine or profile.engine, options.model, options.language, vocabulary.everything)
    with closing(open_voice(profile.voice, options.language)) as voice:
        evening = Rehearsal(scenario, vocabulary, engine, voice)
        for exchange in evening:
            printer.progress(*lines_of(exchange))
        if options.out:
            evening.write(options.out)
    tally = evening.tally()
    printer.progress(
        f"The evening {'came to its end' if evening.finished else 'did not come to its end'}.",
        f"Understood: {tally.recognised} of {tally.expected} answers. Refused: {tally.rejected} of {tally.strangers} strange utterances.",
        *([f"Written to {options.out}: evening.wav and evening.txt."] if options.out else []),
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
