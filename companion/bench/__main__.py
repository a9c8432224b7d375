"""``python -m companion.bench TABLE …``: one command a table. ``--help`` says what there is."""

from __future__ import annotations

import argparse
import os
import platform
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from time import perf_counter, process_time

import numpy as np

from companion.bench import measures
from companion.bench.measures import hear_all
from companion.bench.page import Page
from companion.bench.recordings import CHANNELS, NOISES, Noise, Recording, read_recordings
from companion.bench.sphinx import SphinxEngine
from companion.bench.startup import startup
from companion.bench.work import CountingEngine
from companion.errors import BadRequest, CompanionError, MissingPart
from companion.hearing import Engine, WhisperEngine
from companion.languages import load_language
from companion.vocabulary import load_vocabulary

ENGINES: dict[str, Callable[[], Engine]] = {
    "builtin": lambda: WhisperEngine.load(writing=load_language().writing),
    "pocketsphinx": SphinxEngine,
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Print one table and return the exit code."""
    options = _read(arguments)
    try:
        print("\n".join(settings()))
        if options.table == "startup":
            print("\n".join(startup(options.runs)))
        elif options.table == "page":
            for line in one_page(options):
                print(line, flush=True)
        elif options.table == "memory":
            print("\n".join(memory(options)))
        else:
            for line in tables(options):
                print(line, flush=True)
    except CompanionError as error:
        print(f"companion.bench: error: {error}", file=sys.stderr)
        return error.exit_code
    return 0


def settings() -> list[str]:
    """Return lines for what results depend on beside the code: machine, libraries, threads."""
    blas = [f"{name}={value}" for name, value in sorted(os.environ.items()) if name.startswith(("OPENBLAS_", "OMP_"))]
    try:
        import threadpoolctl  # type: ignore[import-not-found,unused-ignore]  # noqa: PLC0415 - a help for the curious, never needed

        pools = [
            f"{pool['internal_api']} {pool['num_threads']} ({pool.get('architecture', '?')})" for pool in threadpoolctl.threadpool_info()
        ]
    except ImportError:
        pools = ["not known without threadpoolctl"]
    return [
        f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}, numpy {np.__version__}",
        f"BLAS: {_blas()}",
        f"OPENBLAS and OMP settings: {' '.join(blas) or 'none'}; threads: {', '.join(pools)}",
    ]


def tables(options: argparse.Namespace) -> Iterator[str]:
    """Yield the lines of ``acceptance``, ``refusal`` or ``latency``."""
    everything = read_recordings(options.directory, options.grammar, options.rule)
    wanted: Sequence[Recording] = everything
    if options.table != "latency":
        wanted = [recording for recording in everything if recording.is_answer == (options.table == "acceptance")]
    if not wanted:
        raise BadRequest(f"{options.directory} has no recordings for '{options.table}': the words decide, by the grammar")
    start = perf_counter()
    engine = (
        CountingEngine.load(writing=load_language().writing)
        if options.table == "latency" and options.engine == "builtin"
        else ENGINES[options.engine]()
    )
    loaded = perf_counter() - start
    start = perf_counter()
    sets = list(dict.fromkeys(recording.active for recording in wanted))
    for active in sets:
        engine.prepare(active)
    yield f"{engine.name}: loaded in {loaded:.2f} s, {len(sets)} sets prepared in {perf_counter() - start:.2f} s"
    yield f"phrases in a set: {', '.join(str(active.phrase_count) for active in sets[:8])}{' …' if len(sets) > 8 else ''}"
    if isinstance(engine, SphinxEngine) and engine.unknown_words:
        yield f"words it has no pronunciation for: {', '.join(sorted(engine.unknown_words))}"
    noise = Noise(options.noise, everything)
    for snr_db in options.snr or [None]:
        outcomes = hear_all(engine, wanted, noise, snr_db)
        unread = sum(outcome.hearing is None for outcome in outcomes)
        heading = "as recorded" if snr_db is None else f"{options.noise} at {snr_db:g} dB"
        yield f"{heading}, n = {len(outcomes)}{f', {unread} of them unreadable' if unread else ''}"
        yield from getattr(measures, options.table)(outcomes)
        if options.table == "latency":
            yield from measures.on_a_board(outcomes, gflop_a_second())
            yield f"  most memory held so far: {_most_mb():.0f} MB{_load()}"
        if options.table == "acceptance" and not isinstance(engine, SphinxEngine):
            yield from measures.reliability(outcomes)


def one_page(options: argparse.Namespace) -> Iterator[str]:
    """Yield the lines of the page; sets are laid out when they are first needed, as in an evening."""
    everything = read_recordings(options.directory, options.grammar, options.rule)
    levels = (None, *(options.snr or ()))
    chosen = everything[:: options.every]
    noise = Noise(options.noise, everything, options.channel, metres=options.metres, in_a_room=options.room)
    yield from Page(ENGINES[options.engine](), noise, load_vocabulary(load_language())).lines(chosen, levels)


def memory(options: argparse.Namespace) -> list[str]:
    """Return lines for the most memory the process has held, after each step."""
    recordings = read_recordings(options.directory, options.grammar, options.rule)
    lines = [f"before the engine is loaded: {_most_mb():.0f} MB"]
    engine = ENGINES[options.engine]()
    lines.append(f"{engine.name} loaded: {_most_mb():.0f} MB")
    for active in dict.fromkeys(recording.active for recording in recordings):
        engine.prepare(active)
    lines.append(f"sets prepared: {_most_mb():.0f} MB")
    hear_all(engine, recordings, Noise(options.noise, recordings), None)
    lines.append(f"{len(recordings)} recordings heard: {_most_mb():.0f} MB")
    return lines


def gflop_a_second() -> float:
    """Return how fast matrices of 1024 by 1024 in four bytes are multiplied here, by a second of processor time: the best of ten."""
    square = np.random.default_rng(0).standard_normal((1024, 1024)).astype(np.float32)
    best = np.inf
    for _ in range(10):
        start = process_time()
        square @ square
        best = min(best, process_time() - start)
    return 2e-9 * 1024**3 / best


def _blas() -> str:
    config = np.show_config(mode="dicts")
    known = config.get("Build Dependencies", {}).get("blas", {}) if config else {}
    return f"{known.get('name', 'not known')} {known.get('version', '')} {known.get('openblas configuration', '')}".strip()


def _load() -> str:
    """Return how busy the machine was, where the system tells: others' work makes decisions slower."""
    return f"; {os.getloadavg()[0]:.1f} programs were running over the last minute" if hasattr(os, "getloadavg") else ""


def _most_mb() -> float:
    try:
        import resource  # noqa: PLC0415 - there is none on Windows
    except ImportError as error:
        raise MissingPart("memory can't be measured on this system; use another") from error
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / 2**20 if sys.platform == "darwin" else most / 2**10


def _read(arguments: Sequence[str] | None) -> argparse.Namespace:
    where = argparse.ArgumentParser(add_help=False)
    where.add_argument("directory", type=Path, metavar="DIR", help="recordings with a manifest.csv")
    where.add_argument("--engine", choices=tuple(ENGINES), default="builtin")
    where.add_argument("--grammar", type=Path, metavar="FILE.jsgf", help="what may be said, where the manifest names nothing")
    where.add_argument("--rule", metavar="NAME", help="only this public rule")
    where.add_argument("--snr", type=float, nargs="+", metavar="DB", help="add noise at these levels; else as recorded")
    heard = argparse.ArgumentParser(add_help=False, parents=[where])
    heard.add_argument("--noise", choices=NOISES, default="talk", help="five others talking at once, pink noise, or a synthesised kitchen")

    parser = argparse.ArgumentParser(prog="python -m companion.bench", description=__doc__)
    tables = parser.add_subparsers(dest="table", metavar="TABLE", required=True)
    tables.add_parser("acceptance", parents=[heard], help="how many answers are taken, and rightly")
    tables.add_parser("refusal", parents=[heard], help="how many strange utterances are taken for an answer")
    tables.add_parser("latency", parents=[heard], help="how long a decision takes")
    tables.add_parser("memory", parents=[heard], help="the most memory held, after each step")
    paged = tables.add_parser("page", parents=[where], help="right, refused and wrong within one try and two, by noise and voice; chatter")
    paged.add_argument("--noise", choices=NOISES, default="kitchen", help="what the levels of --snr are of; as recorded comes first")
    paged.add_argument("--channel", choices=CHANNELS, default="open", help="what the microphone does to it; 'open' is nothing")
    paged.add_argument("--metres", type=float, default=1.0, help="how far who speaks is; the levels of --snr are those at one")
    paged.add_argument("--room", action="store_true", help="in a room of 50 cubic metres, which answers for half a second")
    paged.add_argument("--every", type=int, default=1, metavar="N", help="only each Nth utterance")
    started = tables.add_parser("startup", help="how long 'companion --help' takes beside Python's own start")
    started.add_argument("--runs", type=int, default=20, metavar="N", help="runs of each (default 20)")
    return parser.parse_args(arguments)


if __name__ == "__main__":
    sys.exit(main())
