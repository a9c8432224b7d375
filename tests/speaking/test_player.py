"""The player, on a virtual sound card: what the loudspeaker really played is recorded and looked at."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from companion import devices
from companion.audio import Audio, read_wav, write_wav
from companion.errors import MissingPart
from companion.speaking.hibari_voice import HibariVoice
from tests.soundcard import SoundCard, found_in, soundcard

AUDIBLE = 0.003
SETUP = """if True:
    import time
    import numpy as np
    from companion.audio import Audio, read_wav
    from companion.errors import MissingPart
    from companion import devices
    from companion.speaking import player
    from companion.speaking.player import Outcome, Player
    tone = Audio((0.3 * np.sin(2 * np.pi * 440 * np.arange(6 * 24000) / 24000)).astype(np.float32), 24000)
"""


@pytest.fixture(scope="module")
def card() -> Iterator[SoundCard]:
    """Start one sound card for the tests that leave it whole."""
    with soundcard() as running:
        yield running


def run(card: SoundCard, code: str) -> list[str]:
    """Run code after SETUP and return the lines it printed."""
    return card.run(SETUP + "\n".join("    " + line for line in code.strip().splitlines())).split("\n")[:-1]


def stretches(sound: Audio, gap_seconds: float = 0.15) -> list[tuple[int, int]]:
    """Return first and last sample of each stretch of audible sound."""
    loud = np.flatnonzero(np.abs(sound.samples) > AUDIBLE)
    cuts = np.flatnonzero(np.diff(loud) > gap_seconds * sound.rate_hz)
    return list(zip(loud[np.insert(cuts + 1, 0, 0)], loud[np.append(cuts, len(loud) - 1)], strict=True))


@pytest.mark.alone
@pytest.mark.slow
def test_what_is_played_is_what_is_heard(card: SoundCard, tmp_path: Path) -> None:
    """A sentence comes out of the loudspeaker sample for sample, once, after the lead-in, and is reported as finished."""
    sentence = HibariVoice().render("Turn the tube to the north until the needle points there.")
    write_wav(tmp_path / "sentence.wav", sentence)
    with card.listening(tmp_path / "heard.wav"):
        printed = run(
            card,
            f"""
with Player() as loudspeaker:
    print(loudspeaker.play(read_wav({str(tmp_path / "sentence.wav")!r})).wait(), loudspeaker.underflows)
""",
        )
    assert printed == ["Outcome.FINISHED 0"]
    heard = read_wav(tmp_path / "heard.wav")
    likeness, start = found_in(heard, sentence)
    assert likeness > 0.999
    end = start + round(sentence.seconds * heard.rate_hz)
    assert np.abs(heard.samples[end + 2400 :]).max() < AUDIBLE


@pytest.mark.alone
@pytest.mark.slow
def test_finished_means_heard(card: SoundCard, tmp_path: Path) -> None:
    """Closing the player as soon as a sound is finished cuts nothing off, and sounds follow one another in order."""
    with card.listening(tmp_path / "heard.wav"):
        printed = run(
            card,
            """
short, long = (Audio(tone.samples[:count], 24000) for count in (12000, 24000))
with Player() as loudspeaker:
    playbacks = [loudspeaker.play(short), loudspeaker.play(long)]
    print(playbacks[1].wait(), playbacks[0].over, playbacks[0].wait())
""",
        )
    assert printed == ["Outcome.FINISHED True Outcome.FINISHED"]
    lengths = [(last - first) / 48_000 for first, last in stretches(read_wav(tmp_path / "heard.wav"), gap_seconds=0.03)]
    assert lengths == pytest.approx([0.5, 1.0], abs=0.01)


@pytest.mark.alone
@pytest.mark.slow
def test_stop_silences_within_200_ms(card: SoundCard, tmp_path: Path) -> None:
    """After stop the device gets one fading block and no more; with what it had already taken that is under 200 ms of sound.

    Counted in the recording's samples, so that a slow machine can't change it. Against the clock, and with the recorder's own delay
    in it, stop to silence was 100 to 134 ms.
    """
    with card.listening(tmp_path / "heard.wav"):
        printed = run(
            card,
            """
with Player() as loudspeaker:
    playback = loudspeaker.play(tone)
    while loudspeaker.blocks_taken < 100:
        time.sleep(0.005)
    loudspeaker.stop()
    print(loudspeaker.blocks_taken, loudspeaker._stream.latency, playback.wait())
    time.sleep(1)
""",
        )
    blocks, latency_seconds, outcome = printed[0].split()
    ((first, last),) = stretches(read_wav(tmp_path / "heard.wav"))
    lead_in_blocks = 15
    block_seconds = 0.02
    assert outcome == "Outcome.STOPPED"
    assert 1.0 < (last - first) / 48_000 <= (int(blocks) - lead_in_blocks + 2) * block_seconds
    assert float(latency_seconds) + 2 * block_seconds <= 0.2


def test_a_sound_after_stop_is_played(card: SoundCard, tmp_path: Path) -> None:
    """Stop forgets what was queued, not what comes later; stopping when nothing plays is harmless."""
    with card.listening(tmp_path / "heard.wav"):
        printed = run(
            card,
            """
with Player() as loudspeaker:
    loudspeaker.stop()
    queued = [loudspeaker.play(tone), loudspeaker.play(tone)]
    loudspeaker.stop()
    print(*[playback.wait() for playback in queued])
    print(loudspeaker.play(Audio(tone.samples[:12000], 24000)).wait())
    print(loudspeaker.play(Audio(tone.samples[:0], 24000)).wait())
print(loudspeaker.play(tone).wait())
""",
        )
    assert printed == ["Outcome.STOPPED Outcome.STOPPED", "Outcome.FINISHED", "Outcome.FINISHED", "Outcome.STOPPED"]
    first, last = stretches(read_wav(tmp_path / "heard.wav"))[-1]
    assert (last - first) / 48_000 == pytest.approx(0.5, abs=0.01)


def test_a_loudspeaker_that_is_awake_needs_no_lead_in(card: SoundCard) -> None:
    """After wake a sound starts at once; the lead-in of 15 blocks has been played meanwhile. Every block is also given to the tap."""
    printed = run(
        card,
        """
taken = []
short = Audio(tone.samples[:2400], 24000)
with Player(tap=lambda block, rate_hz: taken.append(len(block) / rate_hz)) as loudspeaker:
    loudspeaker.play(short)
    asleep = len(loudspeaker._pending)
    time.sleep(3)
    loudspeaker.wake()
    time.sleep(1)
    loudspeaker.wake()
    loudspeaker.play(short)
    print(asleep - len(loudspeaker._pending), len(taken) == loudspeaker.blocks_taken, round(taken[-1], 3))
""",
    )
    assert printed[0].split()[1:] == ["True", "0.02"]
    assert int(printed[0].split()[0]) == pytest.approx(15, abs=1)


def test_a_lost_device_is_noticed() -> None:
    """When the loudspeaker goes away, what plays and what follows end as lost, and opening another one says what is wrong."""
    with soundcard() as card:
        code = """
    loudspeaker = Player()
    playback = loudspeaker.play(tone)
    while loudspeaker.blocks_taken < 30:
        time.sleep(0.005)
    print("playing", flush=True)
    print(playback.wait(), loudspeaker.play(tone).wait(), loudspeaker.lost)
    try:
        Player()
    except MissingPart as error:
        print(error)
"""
        with card.start(SETUP + code) as speaking:
            assert speaking.stdout is not None
            assert speaking.stdout.readline() == "playing\n"
            card.unplug_loudspeaker()
            printed, complaint = speaking.communicate(timeout=60)
        assert printed.splitlines()[0] == "Outcome.DEVICE_LOST Outcome.DEVICE_LOST True", complaint
        assert "can't be opened" in printed
        assert "choose another: pulse, default" in printed


def test_a_device_that_comes_back_is_opened_anew(card: SoundCard) -> None:
    """After a player was closed for a lost device, and devices were counted anew, another one plays on the same device."""
    printed = run(
        card,
        """
with Player("PUL") as loudspeaker:
    loudspeaker._lose()
    print(loudspeaker.name, loudspeaker.play(tone).wait())
devices.look_again()
with Player("PUL") as loudspeaker:
    print(loudspeaker.play(Audio(tone.samples[:2400], 24000)).wait())
""",
    )
    assert printed == ["pulse Outcome.DEVICE_LOST", "Outcome.FINISHED"]


def test_an_unknown_name_lists_the_choices(card: SoundCard) -> None:
    """A loudspeaker that isn't there is a missing part that names those that are."""
    printed = run(
        card,
        """
try:
    Player("Moon")
except MissingPart as error:
    print(error)
""",
    )
    assert printed == ["no loudspeaker is called 'Moon'; there are pulse, default"]


class NoSound:
    """Stands for sounddevice on a machine without any device."""

    @staticmethod
    def query_devices() -> list[dict[str, object]]:
        """Return a microphone only."""
        return [{"name": "mic", "max_output_channels": 0, "default_samplerate": 48000.0}]


def test_no_loudspeaker_at_all(monkeypatch: pytest.MonkeyPatch) -> None:
    """A machine with only a microphone is told what to do."""
    monkeypatch.setitem(sys.modules, "sounddevice", NoSound)
    with pytest.raises(MissingPart, match=r"plug one in, or use 'start --text' or 'say --out FILE\.wav'"):
        devices.find(devices.LOUDSPEAKER, None)


def test_a_missing_library_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without sounddevice the error says how to get it."""
    monkeypatch.setitem(sys.modules, "sounddevice", None)
    with pytest.raises(MissingPart, match="pip install sounddevice"):
        devices.present(devices.LOUDSPEAKER)


def test_a_missing_portaudio_says_what_to_install(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """With sounddevice but without PortAudio, importing fails with OSError, which names the package to install."""
    (tmp_path / "sounddevice.py").write_text("raise OSError('PortAudio library not found')")
    monkeypatch.delitem(sys.modules, "sounddevice", raising=False)
    monkeypatch.syspath_prepend(tmp_path)
    with pytest.raises(MissingPart, match=r"PortAudio library not found; .*libportaudio2"):
        devices.present(devices.LOUDSPEAKER)
