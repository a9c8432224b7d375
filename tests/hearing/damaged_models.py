"""Damaged Vosk models: ``python -m tests.hearing.damaged_models [MODELS [SEED]]``; they are the Korean one, which a registry has.

A file is cut short, emptied, removed, written over in places, filled with noise or with another's content. Each model is put where an
English one would lie and opened as an evening does it, in a process of its own: that must never end but as it should. Either the
built-in recogniser takes over, with one complaint, or the model is still good enough to hear eight words and noise with.
"""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from companion.hearing.vosk import found_models

_HOLD = """
import json, sys
from companion.factories import open_engine
from companion.languages import load_language
complaints = []
engine = open_engine("auto", load_language(), None, None, complaints.append)
if engine.name == "vosk":
    from companion.speaking.pyttsx3_voice import Pyttsx3Voice
    from tests.hearing.test_vosk import COMMANDS, WORDS, noise
    speaker = Pyttsx3Voice("ko", rate_wpm=150)
    for sound in (*(speaker.render(word).at_rate(16_000) for word in WORDS), noise(48_000, 0.1), noise(160_000, 0.9)):
        engine.recognise(sound, COMMANDS)
print(json.dumps([engine.name, complaints]))
"""
_PLACE = "vosk-model-small-en-us-0.15"
DAMAGES = ("cut short", "emptied", "removed", "bits turned", "noise in it", "another's content", "all noise")


def damage(model: Path, chance: random.Random) -> str:
    """Damage one file of a model, a link to it being replaced; return what was done."""
    files = sorted(path for path in model.rglob("*") if path.is_file() and path.name != "README")
    file, how = chance.choice(files), chance.choice(DAMAGES)
    data = bytearray(file.read_bytes())
    file.unlink()
    if how == "cut short":
        del data[chance.randrange(len(data)) :]
    elif how == "emptied":
        data.clear()
    elif how == "bits turned":
        for _ in range(chance.choice((1, 10, 1000))):
            data[chance.randrange(len(data))] ^= 1 << chance.randrange(8)
    elif how == "noise in it":
        at = chance.randrange(len(data))
        data[at : at + 4096] = chance.randbytes(len(data[at : at + 4096]))
    elif how == "another's content":
        data[:] = chance.choice([other for other in files if other != file]).read_bytes()
    elif how == "all noise":
        data[:] = chance.randbytes(min(len(data), 1_000_000))
    if how != "removed":
        file.write_bytes(data)
    return f"{file.relative_to(model)} {how}"


def sweep(models: int, seed: int, undamaged: Path) -> Iterator[tuple[str, str, str | None]]:
    """Yield what was done to each model, which engine listens then, and what is wrong with that."""
    chance = random.Random(seed)
    for _ in range(models):
        with tempfile.TemporaryDirectory() as name:
            model = Path(name) / "models" / _PLACE
            for file in filter(Path.is_file, undamaged.rglob("*")):
                place = model / file.relative_to(undamaged)
                place.parent.mkdir(parents=True, exist_ok=True)
                place.symlink_to(file)
            done = damage(model, chance)
            opened = subprocess.run(
                (sys.executable, "-c", _HOLD), env=os.environ | {"COMPANION_HOME": name}, capture_output=True, text=True, check=False
            )
            if opened.returncode:
                yield done, "none", f"it ended with {opened.returncode}: {opened.stderr.strip()[-300:]}"
                continue
            engine, complaints = json.loads(opened.stdout.splitlines()[-1])
            right = len(complaints) == (engine != "vosk") and all(complaints) and "Traceback" not in opened.stderr
            yield done, engine, None if right else f"{complaints} {opened.stderr[-300:]}"


def main() -> int:
    """Sweep, and print what went wrong and the count."""
    models, seed = (int(number) for number in (*sys.argv[1:3], *("60", "1")[len(sys.argv) - 1 :]))
    listening, found = Counter[str](), 0
    for done, engine, wrong in sweep(models, seed, found_models("ko", Path())[-1]):
        listening[engine] += 1
        found += wrong is not None
        print(f"{done}: {engine}{f'; {wrong}' if wrong else ''}", flush=True)
    print(f"{sum(listening.values())} models, {found} with something wrong; {dict(listening)}")
    return int(found > 0)


if __name__ == "__main__":
    sys.exit(main())
