"""Ear and voice on their own."""

from __future__ import annotations

import argparse
from contextlib import closing
from time import perf_counter

from companion.audio import LONGEST_UTTERANCE_SECONDS, read_wav, write_wav
from companion.commands.fields import hearing_fields
from companion.commands.options import language_of, profile_of, told
from companion.errors import AudioFileError, BadRequest, MissingPart
from companion.factories import open_engine, open_voice
from companion.hearing import ActiveSet, Engine, load_grammar
from companion.lines import complain
from companion.messages import NotUnderstood, Silence
from companion.outputs import tried_file
from companion.printing import Printer
from companion.speaking import Outcome, Player
from companion.talk.command_phrases import SoundMade
from companion.vocabulary import load_vocabulary

DONE = 0
BENCH_LEVELS_DB = (None, 15.0, 9.0, 6.0)
"""As recorded, then in a kitchen that is synthesised: ``python -m companion.bench page`` has other places and levels."""
LONGEST_TEXT = 3000
"""Characters spoken in one call: a voice keeps a whole sentence in memory, and one of 3,000 words took 8 GB."""


def hear(options: argparse.Namespace) -> int:
    """Say what each sound file says, one utterance a file, or tell how a folder of them is heard."""
    if bool(options.wav) == (options.bench is not None):
        raise BadRequest("give the sound files as WAV, or a folder as --bench DIR; one of the two")
    if options.bench is not None:
        return _bench(options)
    active = _listening_for(options)
    engine = _ear(options)
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
        answer = hearing_fields(hearing)
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


def _bench(options: argparse.Namespace) -> int:
    """Print one page: right, wrong and refused within one try and two, by noise and voice, and how far its confidence can be believed."""
    if options.json:
        raise BadRequest("--bench prints a page to read; leave --json out")
    # What only measures isn't loaded to hear a file.
    from companion.bench.page import Page  # noqa: PLC0415
    from companion.bench.recordings import Noise, read_recordings  # noqa: PLC0415

    recordings = read_recordings(options.bench, options.grammar, options.rule, options.language)
    page, printer = Page(_ear(options), Noise("kitchen", recordings), load_vocabulary(language_of(options))), Printer(as_json=False)
    for line in page.lines(recordings, BENCH_LEVELS_DB):
        printer.lines(line)
    return DONE


def say(options: argparse.Namespace) -> int:
    """Speak words, or write them as sound."""
    if not options.words.strip():
        raise BadRequest("there is nothing to say; give the words as TEXT")
    if len(options.words) > LONGEST_TEXT:
        raise BadRequest(f"{len(options.words)} characters are too many at once; give at most {LONGEST_TEXT}, and the rest in another call")
    out = tried_file(options.out) if options.out is not None else None
    with closing(open_voice(profile_of(options).voice, language_of(options))) as voice:
        sound = voice.render(options.words)
    if not len(sound.samples):
        raise BadRequest(f"nothing in {options.words[:40]!r} can be spoken; write it in words")
    if out is not None:
        write_wav(out, sound)
    else:
        with Player() as player:
            if player.play(sound).wait() is Outcome.DEVICE_LOST:
                raise MissingPart("the loudspeaker went away; connect it again, or give --out FILE.wav")
    printer = Printer(options.json)
    printer.lines(told(options, SoundMade(str(out or ""), sound.seconds)))
    printer.document({"file": str(out) if out else None, "seconds": round(sound.seconds, 3)})
    return DONE


def _ear(options: argparse.Namespace) -> Engine:
    wanted = profile_of(options).engine if options.engine is None else options.engine
    return open_engine(wanted, language_of(options), options.model, replaced=complain)


def _listening_for(options: argparse.Namespace) -> ActiveSet:
    language = language_of(options)
    grammars = (load_grammar(options.grammar, language.writing),) if options.grammar else load_vocabulary(language).grammars
    if options.rule is None:
        return ActiveSet.every(*grammars)
    for grammar in grammars:
        if options.rule in grammar.public_rules:
            return ActiveSet.of((grammar, options.rule))
    known = ", ".join(rule for grammar in grammars for rule in grammar.public_rules)
    raise BadRequest(f"there is no public rule '{options.rule}'; choose one of: {known}")
