"""The sound server killed at random moments of an evening by voice: ``python -m tests.live.killed_server [KILLS [SEED]]``.

On the virtual sound card, in real time. Some moments lie in our sentence, some in the observer's, some in silence. Each loss must be said,
the evening go on when the server is back, and a spoken word be understood again.
"""

from __future__ import annotations

import contextlib
import os
import random
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.live.field import PATIENCE_SECONDS, Field, in_the_field
from tests.live.measure import PLACE, spoken
from tests.soundcard import SoundCard, soundcard

GONE = ("The microphone is gone", "The loudspeaker is gone")
BACK = ("The microphone is back", "The loudspeaker is back")
WORDS = "say that again"
TRIES = 4


def came(true: Callable[[], object], seconds: float = PATIENCE_SECONDS) -> bool:
    """Wait for something to happen; say whether it did."""
    deadline = time.monotonic() + seconds
    while time.monotonic() < deadline:
        if true():
            return True
        time.sleep(0.1)
    return False


def unsaid(field: Field, news: tuple[str, ...], times: int) -> list[str]:
    """Wait until each of these was said so many times; return those that weren't."""

    def count(words: str) -> int:
        return sum(line.count(words) for _, line in field.said())

    return [f"not said: {words}" for words in news if not came(lambda words=words: count(words) >= times)]


def speak(field: Field, wav: Path) -> None:
    """Say something into the microphone, whether or not there is a server."""
    with contextlib.suppress(subprocess.SubprocessError):
        field.card.say_into_microphone(wav)


def kill(card: SoundCard) -> None:
    """Kill the test's own sound server."""
    os.kill(int((card.folder / "run" / "pulse" / "pid").read_text()), signal.SIGKILL)


def sweep(kills: int, seed: int) -> Iterator[tuple[str, list[str]]]:
    """Yield when each kill came, and what went wrong."""
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory() as name, contextlib.ExitStack() as stack:
        card = stack.enter_context(soundcard())
        wav = spoken(Path(name), WORDS)
        field = stack.enter_context(in_the_field(card, *PLACE, leaking=False))
        came(lambda: field.events("sound"))
        for number in range(1, kills + 1):
            talking = threading.Thread(target=speak, args=(field, wav))
            if chance.random() < 0.5:
                talking.start()
            after_s = chance.uniform(0.0, 5.0)
            time.sleep(after_s)
            kill(card)
            wrong = unsaid(field, GONE, number)
            stack.enter_context(card.serving())
            wrong += unsaid(field, BACK, number)
            if talking.ident is not None:
                talking.join()
            if not understood(field, wav):
                wrong.append("nothing understood afterwards")
            if field.is_over:
                wrong.append(f"it ended with {field.process.returncode}")
            # What the libraries of sound print there of a server that is gone isn't ours.
            wrong += [line for line in field.complaints.read_text().splitlines() if line.startswith(("Traceback", "companion:"))]
            yield f"{after_s:.2f} s after the last{', spoken into' if talking.ident is not None else ''}", wrong
            if field.is_over:
                return


def understood(field: Field, wav: Path) -> bool:
    """Say whether a spoken word leads to something again, said a few times as people do."""
    for _ in range(TRIES):
        field.wait_for_silence()
        if any(event["kind"] in ("Heard", "NotNow") for event in field.play(wav)):
            return True
    return False


def main() -> int:
    """Sweep, and print what went wrong and the count."""
    kills, seed = (int(number) for number in (*sys.argv[1:3], *("20", "1")[len(sys.argv) - 1 :]))
    made = found = 0
    for made, (when, wrong) in enumerate(sweep(kills, seed), 1):
        print(f"kill {made}, {when}: {'; '.join(wrong) or 'said, and recovered'}", flush=True)
        found += bool(wrong)
    print(f"{made} kills of {kills}, {found} with something wrong")
    return int(found > 0 or made < kills)


if __name__ == "__main__":
    sys.exit(main())
