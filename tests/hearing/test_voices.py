"""The measure itself: which voices may be tuned on, what chatter is, and, slow, a seeded few of what ``companion.bench page`` counts."""

from __future__ import annotations

import csv
import random
import shutil
from pathlib import Path

import numpy as np
import pytest

from companion.audio import write_wav
from companion.bench.kitchen import kitchen
from companion.bench.page import Page
from companion.bench.recordings import Noise, read_recordings
from companion.hearing.whisper import WhisperEngine
from companion.messages import Heard, NotUnderstood
from tests.bench.test_bench import Listed
from tests.english import VOCABULARY
from tests.hearing.voices.__main__ import QUESTIONS, chatter, examples, rows
from tests.hearing.voices.synthesisers import SYNTHESISERS, put_aside, say, voices


def speaker(voice: str) -> str:
    """Return who speaks, without program and variant: espeak-ng is one speaker, whatever its accent."""
    program, _, name = voice.partition(":")
    return program if program == "pyttsx3" else name


def test_no_speaker_is_tuned_on_and_put_aside() -> None:
    """At least six speakers are never tuned on; none of them is in the other list under any synthesiser, and each can be had."""
    never, tuning = put_aside(), voices("tuning")
    assert len({speaker(voice) for voice in voices("never")}) >= 6
    assert len({speaker(voice) for voice in never}) == len(never)
    assert not {speaker(voice) for voice in never} & {speaker(voice) for voice in tuning}
    assert {voice.partition(":")[0] for voice in (*never, *tuning)} <= SYNTHESISERS.keys()


def test_chatter_is_none_of_ours() -> None:
    """Two hundred different sentences, none of which any grammar knows; the ten questions are known to one, and live nowhere."""
    said = {words for words, _ in chatter()}
    assert len(said) == 200
    assert not [words for words in said if VOCABULARY.everything.parse(words)]
    assert len(QUESTIONS) == 10
    assert all(VOCABULARY.everything.parse(words) for words in QUESTIONS)


def test_who_says_what() -> None:
    """Each voice says a choice of its own, the same every time; what is shared is said once, by one voice after another."""
    said = examples()
    assert len(said) > 120
    two = list(rows(said, ("a", "b"), 5, share=False))
    assert two == list(rows(said, ("a", "b"), 5, share=False))
    assert [voice for _, _, voice in two] == ["a"] * 5 + ["b"] * 5
    assert len(list(rows(chatter(), voices("never"), 1000, share=True))) == 200


def test_a_kitchen() -> None:
    """Its noise has unit power, is the same for the same seed, is mostly low, as hoods and hums are, and has dishes that stand out."""
    noise = kitchen(160_000, np.random.default_rng(1))
    assert np.array_equal(noise, kitchen(160_000, np.random.default_rng(1)))
    assert np.sqrt(np.mean(noise**2)) == pytest.approx(1.0, abs=1e-3)
    power = np.abs(np.fft.rfft(noise)) ** 2
    assert power[: len(power) // 8].sum() > 0.4 * power.sum()
    assert np.abs(noise).max() > 4


def test_two_tries_are_counted(tmp_path: Path) -> None:
    """Of one right, one refused and then right, one refused twice and one wrong: 25 % within one try, 50 % within two, 25 % wrong."""
    words = ["yes", "no", "yes", "no"]
    with (tmp_path / "manifest.csv").open("w", newline="") as file:
        table = csv.writer(file)
        table.writerow(("file", "again", "words", "rule", "voice"))
        for number, said in enumerate(words):
            table.writerow((f"{number}.wav", f"{number}.wav", said, "yes_no+universal", f"voice {number % 2}"))
            write_wav(tmp_path / f"{number}.wav", say("hibari:heart", said))
    yes, no, unsure = Heard("yes", "yes", {}, 0.9), Heard("no", "no", {}, 0.9), NotUnderstood(0.3)
    engine = Listed(yes, unsure, no, unsure, unsure, yes)
    recordings = read_recordings(tmp_path)
    lines = list(Page(engine, Noise("kitchen", recordings), VOCABULARY).lines(recordings, [None]))
    assert lines[2].split() == ["all", "25.0%", "25.0%", "50.0%", "50.0%", "25.0%", "0.0%", "4"]
    assert lines[3].split() == ["voice", "0", "50.0%", "0.0%", "50.0%", "50.0%", "0.0%", "0.0%", "2"]
    assert "'no' taken for 'yes' (0.90)" in lines[5]


def test_other_words_heard_as_live_ones_are_understood(tmp_path: Path) -> None:
    """Two sayings that aren't live in these words: one heard as live words of the same meaning, and one wrongly as those."""
    said = ["just about in the middle", "where is Saturn"]
    with (tmp_path / "manifest.csv").open("w", newline="") as file:
        table = csv.writer(file)
        table.writerow(("file", "words", "rule"))
        for number, words in enumerate(said):
            table.writerow((f"{number}.wav", words, "eyepiece+universal"))
            write_wav(tmp_path / f"{number}.wav", say("hibari:heart", words))
    centred = Heard("dead centre", "centred", {}, 0.9)
    recordings = read_recordings(tmp_path)
    lines = list(Page(Listed(centred, centred), Noise("kitchen", recordings), VOCABULARY).lines(recordings, [None]))
    assert lines[1].startswith("as recorded: 1 of 2 questions understood")
    assert len(lines) == 3
    assert "'where is Saturn' taken for 'dead centre' (0.90)" in lines[2]


@pytest.mark.slow
def test_a_stranger_is_heard(engine: WhisperEngine, tmp_path: Path) -> None:
    """Fourteen seeded examples by a voice never tuned on, clean and at 9 dB of a synthesised kitchen: one wrong at most.

    The figures of all voices are in the README (98 and 89 % right); so few, and others whenever an example is added, only show when
    hearing breaks: below 85 and 60 % right.
    """
    if shutil.which("text2wave") is None:
        pytest.skip("festival with festvox-kdlpc16k is not here")
    chosen = random.Random(3).sample(examples(), 14)
    with (tmp_path / "manifest.csv").open("w", newline="") as file:
        table = csv.writer(file)
        table.writerow(("file", "words", "rule"))
        for number, (words, rule) in enumerate(chosen):
            write_wav(tmp_path / f"{number}.wav", say("festival:ked", words))
            table.writerow((f"{number}.wav", words, f"{rule}+universal" if rule != "universal" else rule))
    recordings = read_recordings(tmp_path)
    lines = list(Page(engine, Noise("kitchen", recordings), VOCABULARY).lines(recordings, [None, 9.0]))
    print("\n".join(lines))
    shares = [line.split()[1:3] for line in lines if line.startswith("  all")]
    assert all(float(right.rstrip("%")) >= least for (right, _), least in zip(shares, (85, 60), strict=True))
    assert all(float(wrong.rstrip("%")) <= 8 for _, wrong in shares)
