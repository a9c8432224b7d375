"""The command line: one short function a command, and exit codes. No logic."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing
from dataclasses import asdict
from time import perf_counter
from typing import Any

from companion import sky
from companion.arguments import moment_of, profile_of, read_arguments, site_of, time_of
from companion.audio import read_wav, write_wav
from companion.check import check_parts
from companion.dialogue import Journal
from companion.errors import AudioFileError, BadRequest, CompanionError, MissingPart
from companion.events import Heard, Hearing, NotUnderstood, Silence
from companion.hearing import ActiveSet, load_grammar
from companion.live import TypedEvening, clock_from, journal_path
from companion.log import log_trouble
from companion.parts import open_engine, open_voice
from companion.printing import Printer, site_time
from companion.profile import home
from companion.rehearsal import LONGEST_UTTERANCE_SECONDS, Rehearsal, find_scenario, lines_of, load_scenario
from companion.sky import Sight
from companion.speaking import Outcome, Player
from companion.vocabulary import load_vocabulary
from companion.wording import describe_with_caution, reasons_in_words, warning_in_words

STAR_COUNT, TARGET_COUNT = 6, 10
"""How many stars and targets are listed unless another number is asked for."""
DONE, MACHINE_LACKS, INTERRUPTED = 0, 3, 130


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code; every complaint is one line on standard error."""
    try:
        options = read_arguments(arguments)
        return COMMANDS[options.command](options)
    except CompanionError as error:
        print(f"companion: error: {' '.join(str(error).split())}", file=sys.stderr)
        return error.exit_code
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # Whoever read our output has gone; nobody is left to tell. Python would complain again at exit, so give it a sink.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except Exception as error:
        # A mistake of ours: one line for the user, the trace for whoever mends it.
        log = log_trouble(home(), error)
        print(f"companion: error: something broke inside ({type(error).__name__}); the details are in {log or 'no log'}", file=sys.stderr)
        return MACHINE_LACKS


# --- evenings --------------------------------------------------------------------------------------------------------


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
    engine = open_engine(options.engine or profile.engine, options.model)
    with closing(open_voice(profile.voice, options.language)) as voice:
        evening = Rehearsal(scenario, load_vocabulary(options.language), engine, voice)
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
                    **_heard(exchange.hearing),
                    "said": exchange.said,
                    "stage": exchange.stage,
                }
                for exchange in evening.exchanges
            ],
        }
    )
    return DONE if evening.finished else MACHINE_LACKS


# --- ear and voice ---------------------------------------------------------------------------------------------------


def hear(options: argparse.Namespace) -> int:
    """Say what each sound file says, one utterance a file."""
    active = _listening_for(options)
    engine = open_engine(options.engine or profile_of(options).engine, options.model)
    engine.prepare(active)
    printer, unreadable = Printer(options.json), []
    for file in options.wav:
        began, hearing, why = perf_counter(), None, None
        try:
            hearing = engine.recognise(read_wav(file, LONGEST_UTTERANCE_SECONDS), active)
            why = {Silence: "silence", NotUnderstood: "not_understood"}.get(type(hearing))
        except AudioFileError as error:
            why = error.reason
            unreadable.append(file)
        answer = _heard(hearing)
        words = answer.pop("heard")
        printer.lines(f"{file}: {why or words}")
        printer.document(
            {
                "file": file,
                "accepted": words is not None,
                "phrase": words,
                **answer,
                "why": why,
                "engine": engine.name,
                "seconds": round(perf_counter() - began, 4),
            }
        )
    if unreadable:
        raise BadRequest(
            f"{len(unreadable)} of {len(options.wav)} files can't be read, {unreadable[0]} first; 'why' says the reason of each"
        )
    return DONE


def say(options: argparse.Namespace) -> int:
    """Speak words, or write them as sound."""
    with closing(open_voice(profile_of(options).voice, options.language)) as voice:
        sound = voice.render(options.words)
    if options.out:
        write_wav(options.out, sound)
    else:
        with Player() as player:
            if player.play(sound).wait() is Outcome.DEVICE_LOST:
                raise MissingPart("the loudspeaker went away; connect it again, or give --out FILE.wav")
    printer = Printer(options.json)
    printer.lines(f"{options.out or 'spoken'}: {sound.seconds:.1f} seconds")
    printer.document({"file": str(options.out) if options.out else None, "seconds": round(sound.seconds, 3)})
    return DONE


def check(options: argparse.Namespace) -> int:
    """Look at every part this machine needs, and say the remedies."""
    parts = check_parts(options.language)
    printer = Printer(options.json)
    for part in parts:
        needed = "" if part.ok or part.required else " (not required)"
        printer.lines(f"{part.part}: {'well' if part.ok else 'missing'}{needed}; {part.remedy or part.detail}")
    printer.document([asdict(part) for part in parts])
    missing = next((part for part in parts if part.required and not part.ok), None)
    if missing:
        raise MissingPart(f"{missing.part}: {missing.remedy}")
    return DONE


def _listening_for(options: argparse.Namespace) -> ActiveSet:
    grammars = (load_grammar(options.grammar),) if options.grammar else load_vocabulary(options.language).grammars
    if options.rule is None:
        return ActiveSet.every(*grammars)
    for grammar in grammars:
        if options.rule in grammar.public_rules:
            return ActiveSet.of((grammar, options.rule))
    known = ", ".join(rule for grammar in grammars for rule in grammar.public_rules)
    raise BadRequest(f"there is no public rule '{options.rule}'; choose one of: {known}")


def _heard(hearing: Hearing | None) -> dict[str, Any]:
    """Return what was heard, with the fields the turns of an evening and the lines of ``hear`` share."""
    heard = hearing if isinstance(hearing, Heard) else None
    confidence = hearing.confidence if isinstance(hearing, Heard | NotUnderstood) else 0.0
    return {
        "heard": heard.phrase if heard else None,
        "command": heard.command if heard else None,
        "slots": dict(heard.slots) if heard else {},
        "confidence": round(confidence, 4),
    }


# --- the sky ---------------------------------------------------------------------------------------------------------


def where(options: argparse.Namespace) -> int:
    """Say where something is."""
    moment = moment_of(options)
    sight = sky.sight(sky.find(options.name), moment, refraction=not options.no_refraction)
    spoken = describe_with_caution(sight, moment)
    printer = Printer(options.json)
    printer.lines(spoken, f"altitude {sight.altitude_deg:.2f} degrees, azimuth {sight.azimuth_deg:.2f} degrees, in {sight.constellation}")
    printer.document({**_place(sight), "constellation": sight.constellation, "spoken": spoken})
    return DONE


def what(options: argparse.Namespace) -> int:
    """Say what bright thing stands at a place in the sky."""
    moment = moment_of(options)
    candidates = sky.standing_at(options.azimuth, options.altitude, moment)
    return _print_list(
        options,
        [
            {
                **_place(candidate.sight),
                "kind": candidate.sight.body.kind,
                "distance_deg": round(candidate.distance_deg, 4),
                "spoken": describe_with_caution(candidate.sight, moment),
            }
            for candidate in candidates
        ],
        nothing="Nothing bright stands there.",
    )


def night(options: argparse.Namespace) -> int:
    """Say when the Sun sets and rises, when it is dark, and what the Moon does."""
    moment = moment_of(options)
    times, moon = sky.night_around(moment), sky.moon_state(moment)
    events = {name: site_time(getattr(times, name), moment.site) for name in _NIGHT_EVENTS}
    moon_times = {"rise": site_time(moon.rise, moment.site), "set": site_time(moon.set, moment.site)}
    printer = Printer(options.json)
    printer.lines(
        *(f"{name.replace('_', ' ')}: {time or 'none'}" for name, time in events.items()),
        f"Moon: {moon.illuminated_fraction:.0%} lit, next rise {moon_times['rise'] or 'none'}, next set {moon_times['set'] or 'none'}",
    )
    lit = {"phase_deg": round(moon.phase_deg, 3), "illuminated_fraction": round(moon.illuminated_fraction, 4)}
    printer.document({**events, "moon": {**lit, **moon_times}})
    return DONE


def stars(options: argparse.Namespace) -> int:
    """List the reference stars to use now, best first, and why."""
    moment = moment_of(options)
    ranked = sky.reference_stars(moment, options.count or STAR_COUNT)
    return _print_list(
        options,
        [
            {
                **_place(star.sight),
                "score": round(star.score, 4),
                "reasons": reasons_in_words(star.reasons),
                "spoken": describe_with_caution(star.sight, moment),
            }
            for star in ranked
        ],
        nothing="No reference star is well placed now.",
    )


def tonight(options: argparse.Namespace) -> int:
    """List tonight's targets, best first, and why."""
    moment = moment_of(options)
    ranked = sky.targets(moment, options.count or TARGET_COUNT)
    return _print_list(
        options,
        [
            {
                **_place(target.sight),
                "kind": target.sight.body.kind,
                "best_time": site_time(target.best_time, moment.site),
                "sets_at": site_time(target.sets_at, moment.site),
                "score": round(target.score, 4),
                "reasons": reasons_in_words(target.reasons),
                "spoken": describe_with_caution(target.sight, moment),
            }
            for target in ranked
        ],
        nothing="Nothing is well placed now.",
    )


def declination(options: argparse.Namespace) -> int:
    """Say how far magnetic north lies from true north."""
    found = sky.declination(moment_of(options))
    warning = warning_in_words(found.warning)
    printer = Printer(options.json)
    printer.lines("unknown" if found.declination_deg is None else f"{found.declination_deg:+.2f} degrees (east positive), {found.model}")
    printer.lines(*([warning] if warning else []))
    printer.document(
        {
            "declination_deg": _rounded(found.declination_deg),
            "model": found.model,
            "epoch_valid": found.epoch_valid,
            "warning": warning,
        }
    )
    return DONE


def settings(options: argparse.Namespace) -> int:
    """Say what the mount's hand control asks for."""
    keyed = sky.mount_settings(moment_of(options))
    document = asdict(keyed) | {"declination_deg": _rounded(keyed.declination_deg)}
    printer = Printer(options.json)
    printer.lines(*(f"{name.replace('_', ' ')}: {value}" for name, value in document.items()))
    printer.document(document)
    return DONE


_NIGHT_EVENTS = (
    "sunset",
    "civil_dusk",
    "nautical_dusk",
    "astronomical_dusk",
    "astronomical_dawn",
    "nautical_dawn",
    "civil_dawn",
    "sunrise",
)


def _place(sight: Sight) -> dict[str, Any]:
    return {
        "name": sight.body.name,
        "altitude_deg": round(sight.altitude_deg, 5),
        "azimuth_deg": round(sight.azimuth_deg, 5) % 360,
        "magnitude": None if sight.magnitude is None else round(sight.magnitude, 2),
    }


def _rounded(angle_deg: float | None) -> float | None:
    return None if angle_deg is None else round(angle_deg, 4)


def _print_list(options: argparse.Namespace, found: Sequence[Mapping[str, Any]], *, nothing: str) -> int:
    printer = Printer(options.json)
    printer.lines(*([entry["spoken"] for entry in found] or [nothing]))
    printer.document(list(found))
    return DONE


COMMANDS: Mapping[str, Callable[[argparse.Namespace], int]] = {
    "start": start,
    "rehearse": rehearse,
    "hear": hear,
    "say": say,
    "check": check,
    "where": where,
    "what": what,
    "night": night,
    "stars": stars,
    "tonight": tonight,
    "declination": declination,
    "settings": settings,
}
