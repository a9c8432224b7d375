"""The tables of the bench: what they count, checked with an engine that answers from a list, and once with the real one."""

import csv
from pathlib import Path

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio, read_wav, write_wav
from companion.bench import measures
from companion.bench.__main__ import main, settings
from companion.bench.measures import Taken, hear_all, on_a_board
from companion.bench.recordings import Noise, Recording, read_recordings
from companion.bench.sphinx import SphinxEngine
from companion.bench.wind import wind
from companion.bench.work import CountingNetwork
from companion.errors import BadRequest
from companion.hearing import ActiveSet, parse_grammar
from companion.hearing.whisper.weights import load_weights, packaged_model
from companion.messages import Heard, Hearing, NotUnderstood, Silence
from tests.english import VOCABULARY

FIXTURES = Path(__file__).parents[2] / "audio_fixtures"
LAMP = "#JSGF V1.0;\ngrammar lamp;\npublic <lamp> = lamp (on {state=on} | off {state=off});\npublic <stop> = stop [now];\n"
ROWS = [("a.wav", "lamp on"), ("b.wav", "lamp off"), ("c.wav", "stop now"), ("d.wav", "stop"), ("e.wav", "the dog barks"), ("f.wav", "")]

_RECORDING = Recording(Path("a.wav"), "lamp on", ActiveSet.every(parse_grammar(LAMP, "lamp")))


class Listed:
    """Answers from a list, one after another."""

    name = "listed"

    def __init__(self, *answers: Hearing) -> None:
        """Take the answers."""
        self._answers = list(answers)

    def prepare(self, active: ActiveSet) -> None:
        """Need nothing."""

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Return the next answer."""
        return self._answers.pop(0)


@pytest.fixture
def directory(tmp_path: Path) -> Path:
    """Return six half-second sounds with a manifest and a grammar."""
    (tmp_path / "lamp.jsgf").write_text(LAMP)
    with (tmp_path / "manifest.csv").open("w", newline="") as file:
        csv.writer(file).writerows([("file", "words", "grammar"), *((*row, "lamp.jsgf") for row in ROWS)])
    for number, (name, _) in enumerate(ROWS):
        tone = 0.2 * np.sin(np.arange(8_000) * (0.1 + 0.05 * number))
        write_wav(tmp_path / name, Audio(tone.astype(np.float32), 16_000))
    return tmp_path


def test_words_and_grammar_decide_what_is_an_answer(directory: Path) -> None:
    """Rows whose words the grammar allows are answers, also when only one of its rules is asked for; other words and noise are not."""
    assert [recording.is_answer for recording in read_recordings(directory)] == [True] * 4 + [False] * 2
    # A byte order mark before the headings (EF BB BF, RFC 3629, section 6) changes nothing.
    (directory / "manifest.csv").write_bytes(b"\xef\xbb\xbf" + (directory / "manifest.csv").read_bytes())
    assert len(read_recordings(directory)) == 6
    assert [recording.is_answer for recording in read_recordings(directory, rule="stop")] == [False] * 2 + [True] * 2 + [False] * 2


def test_what_is_right_and_what_is_accepted(directory: Path) -> None:
    """Right is the command with all its slots; other words for the same are right too; a refused answer is neither right nor wrong."""
    engine = Listed(
        Heard("lamp on", "lamp", {"state": "on"}, 0.95),
        Heard("lamp on", "lamp", {"state": "on"}, 0.6),
        Heard("stop", "stop", {}, 0.8),
        NotUnderstood(0.1),
    )
    recordings = read_recordings(directory)[:4]
    outcomes = hear_all(engine, recordings, Noise("pink", recordings), None)
    assert [outcome.is_right for outcome in outcomes] == [True, False, True, False]
    table = measures.acceptance(outcomes)
    assert table[1].split() == ["engine's", "own", "50.0%", "(2/4)", "25.0%", "(1/4)", "25.0%", "(1/4)"]
    assert table[3].split() == ["≥", "0.7", "50.0%", "(2/4)", "0.0%", "(0/4)", "50.0%", "(2/4)"]
    # mean of 0.05², 0.6² and 0.2²
    assert "Brier score of the accepted 0.1342" in measures.reliability(outcomes)[0]


def test_a_number_in_other_words_is_the_same_number() -> None:
    """Twelve hundred is one thousand two hundred, in words that fill their slots otherwise; it isn't two thousand one hundred."""
    grammar = next(grammar for grammar in VOCABULARY.grammars if "millimetres" in grammar.public_rules)
    recording = Recording(Path("a.wav"), "twelve hundred", ActiveSet.of((grammar, "millimetres")))
    for words, is_right in (("one thousand two hundred", True), ("two thousand one hundred", False), ("one two zero zero", True)):
        phrase = grammar.parse(words, ["millimetres"])
        assert phrase is not None
        assert Taken(recording, Heard(phrase.words, phrase.command, phrase.slots, 0.9), 1.0, 0.1).is_right is is_right


def test_strangers_and_unreadable_files(directory: Path) -> None:
    """What is no answer is counted when it is taken for one; a file that is no sound is counted as unreadable."""
    (directory / "f.wav").write_bytes(b"nonsense")
    recordings = read_recordings(directory)[4:]
    outcomes = hear_all(Listed(Heard("stop", "stop", {}, 0.55)), recordings, Noise("pink", recordings), None)
    assert outcomes[1].hearing is None
    lines = measures.refusal(outcomes)
    assert lines[0].endswith("50.0% (1/2)")
    assert lines[2].endswith("0.0% (0/2)")
    assert "'the dog barks' taken for 'stop' (0.55)" in lines[-1]


@pytest.mark.parametrize("kind", ["pink", "talk"])
def test_noise_has_the_level_it_says(directory: Path, kind: str) -> None:
    """Noise at 6 dB has a quarter of the tone's power, the same every time (6.02 dB is a factor of four)."""
    recordings = read_recordings(directory)
    sound = recordings[0].sound()
    noisy = Noise(kind, recordings).add(recordings[0], sound, 6.02)
    again = Noise(kind, recordings).add(recordings[0], sound, 6.02)
    assert np.array_equal(noisy.samples, again.samples)
    lead = round(0.3 * 16_000)
    noise = noisy.samples.copy()
    noise[lead : lead + len(sound.samples)] -= sound.samples
    assert np.mean(noise**2) == pytest.approx(np.mean(sound.samples**2) / 4, rel=0.1)


@pytest.mark.parametrize("text", [None, "", "file;words\na;b\n", "name,text\na,b\n"])
def test_an_unfit_manifest(tmp_path: Path, text: str | None) -> None:
    """A manifest that is missing, empty or without the columns is refused with what is wanted."""
    if text is not None:
        (tmp_path / "manifest.csv").write_text(text)
    with pytest.raises(BadRequest, match=r"manifest\.csv"):
        read_recordings(tmp_path)


def test_the_yardstick_hears_the_same_grammar(tmp_path: Path) -> None:
    """Pocketsphinx takes any of our grammars with all their parts, hears a clear recording, and names words it doesn't know."""
    pytest.importorskip("pocketsphinx")
    text = "#JSGF V1.0;\ngrammar t;\npublic <a> = [oh] (yes {yes} | <b> | zyxxq | <VOID>) [<NULL>] {s=v};\n<b> = go-back | no;\n"
    active = ActiveSet.every(parse_grammar(text))
    engine = SphinxEngine()
    heard = engine.recognise(read_wav(next((FIXTURES / "first_evening").glob("*-yes.wav"))), active)
    assert isinstance(heard, Heard)
    assert (heard.phrase, heard.slots) == ("yes", {"s": "v"})
    assert engine.unknown_words == {"zyxxq"}
    assert isinstance(engine.recognise(Audio(np.zeros(16_000, np.float32), 16_000), active), NotUnderstood | Silence | Heard)


@pytest.mark.parametrize("table", ["acceptance", "latency", "memory"])
def test_a_table_of_real_recordings(tmp_path: Path, capsys: pytest.CaptureFixture[str], table: str) -> None:
    """Each table is printed for three recordings of an evening, with the settings it depends on; all three are heard right."""
    words = ["yes", "go back", "dead centre"]
    files = [next((FIXTURES / "first_evening").glob(f"*-{said.replace(' ', '-')}.wav")) for said in words]
    (tmp_path / "g.jsgf").write_text("#JSGF V1.0;\ngrammar g;\npublic <a> = yes | no | go back | dead centre | not yet;\n")
    with (tmp_path / "manifest.csv").open("w", newline="") as file:
        csv.writer(file).writerows([("file", "words"), *zip(files, words, strict=True)])
    assert main([table, str(tmp_path), "--grammar", str(tmp_path / "g.jsgf")]) == 0
    printed = capsys.readouterr().out
    assert all(line in printed for line in settings())
    expected = {"acceptance": "100.0% (3/3)", "latency": "a board of 25 GFLOP/s", "memory": "3 recordings heard"}
    assert expected[table] in printed


def test_arithmetic_is_counted() -> None:
    """Five seconds of sound, 500 columns, cost the encoder what Whisper tiny's published sizes say: width 384, four layers."""
    network = CountingNetwork(load_weights(packaged_model()))
    network.encode(np.zeros((80, 500), np.float32))
    width, frames = 384, 250
    convolutions = 3 * 80 * width * 500 + 3 * width * width * frames
    layer = frames * (4 * width * width + 2 * width * 4 * width) + 2 * frames * frames * width
    assert network.multiply_adds == convolutions + 4 * layer


def test_nothing_to_measure(directory: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A directory without what a table is about is one clear line and exit code 2, before any engine is loaded."""
    (directory / "manifest.csv").write_text("file,words\na.wav,lamp on\n")
    assert main(["refusal", str(directory), "--grammar", str(directory / "lamp.jsgf")]) == 2
    assert "no recordings for 'refusal'" in capsys.readouterr().err


def test_startup_is_told_beside_pythons_own(capsys: pytest.CaptureFixture[str]) -> None:
    """Both times and their quotient are printed; loading more takes longer. The limit itself is held by what is loaded, not by a clock."""
    assert main(["startup", "--runs", "3"]) == 0
    plain, ours = capsys.readouterr().out.splitlines()[-2:]
    plain_ms, ours_ms = float(plain.split()[-2]), float(ours.split("--help")[1].split()[0])
    assert 0 < plain_ms < ours_ms
    assert float(ours.split(", ")[1].split()[0]) == pytest.approx(ours_ms / plain_ms, abs=0.02)


def test_wind_falls_as_turbulence_does() -> None:
    """Its power falls with frequency to the 5/3 (Kolmogorov's law, textbook value); gusts make some tenths of a second ten dB louder."""
    noise = wind(1 << 18, np.random.default_rng(2))
    power = np.abs(np.fft.rfft(noise.astype(np.float64))) ** 2
    hertz = np.fft.rfftfreq(len(noise), 1 / SPEECH_RATE_HZ)
    octaves = [float(power[(hertz >= low) & (hertz < 2 * low)].mean()) for low in (125, 250, 500, 1000, 2000)]
    slope = np.polyfit(np.log2([125, 250, 500, 1000, 2000]), np.log2(octaves), 1)[0]
    assert slope == pytest.approx(-5 / 3, abs=0.1)
    levels = 10 * np.log10((noise[: len(noise) // 1600 * 1600].reshape(-1, 1600) ** 2).mean(axis=1))
    assert np.percentile(levels, 95) - np.percentile(levels, 5) > 10
    assert np.array_equal(wind(9000, np.random.default_rng(5)), wind(9000, np.random.default_rng(5)))


def test_channels() -> None:
    """Clipped sound stays within a quarter of its peak and reaches it often; a telephone passes 1 kHz and neither 100 Hz nor 5 kHz."""
    time_s = np.arange(SPEECH_RATE_HZ) / SPEECH_RATE_HZ
    sound = Audio(sum(np.sin(2 * np.pi * f * time_s) for f in (100, 1000, 5000)).astype(np.float32), SPEECH_RATE_HZ)
    clipped = Noise("pink", (), "clipped").add(_RECORDING, sound, None).samples
    assert np.abs(clipped).max() == pytest.approx(np.abs(sound.samples).max() / 4, rel=1e-4)
    assert np.mean(np.abs(clipped) == np.abs(clipped).max()) > 0.3
    heard = np.abs(np.fft.rfft(Noise("pink", (), "telephone").add(_RECORDING, sound, None).samples))
    assert heard[[100, 5000]].max() < 1e-2 * heard[1000]


def test_distance_and_a_rooms_answer() -> None:
    """Twice as far is 6.02 dB less straight; the room's answer is as loud at any distance, and fades by 60 dB in its half second.

    At the critical distance both are as loud (its definition); 0.57 m is Sabine's for 50 cubic metres and half a second (textbook value).
    """
    click = np.zeros(SPEECH_RATE_HZ, np.float32)
    click[0] = 1.0

    def arrives(metres: float, *, in_a_room: bool) -> np.ndarray:
        noise = Noise("kitchen", (), metres=metres, in_a_room=in_a_room)
        return noise.add(_RECORDING, Audio(click, SPEECH_RATE_HZ), None).samples.astype(float)

    near, far = (np.sum(arrives(metres, in_a_room=False) ** 2) for metres in (1.0, 2.0))
    assert 10 * np.log10(near / far) == pytest.approx(6.02, abs=0.01)
    walls = [arrives(metres, in_a_room=True) - arrives(metres, in_a_room=False) for metres in (1.0, 4.0)]
    assert np.allclose(walls[0], walls[1], atol=1e-6)
    assert np.sum(walls[0] ** 2) == pytest.approx(1 / 0.57**2, rel=0.01)
    begins, ends = (np.mean(walls[0][at : at + 800] ** 2) for at in (0, 3200))
    assert 10 * np.log10(begins / ends) == pytest.approx(60 * 0.2 / 0.5, abs=1.5)


def test_a_board_is_expected_from_products() -> None:
    """Ten GFLOP in half a second, where matrices run at 40 GFLOP/s: half of it products, 0.4 s at 25, and a quarter for the rest."""
    taken = Taken(_RECORDING, None, 1.0, 0.5, 0.5, 5 * 10**9)
    lines = " ".join(on_a_board([taken], 40.0))
    assert "would take 0.25 s at that" in lines
    assert "would take 0.40 s for them, 0.65 s where" in lines
