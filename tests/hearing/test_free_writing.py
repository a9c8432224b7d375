"""What the model writes when no grammar binds it, and how that makes a text found in a grammar less sure."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from companion.audio import SPEECH_RATE_HZ, Audio, read_wav, silence
from companion.hearing import ActiveSet, WhisperEngine, parse_grammar
from companion.hearing.whisper.conditioning import prepare
from companion.hearing.whisper.confidence import doubted
from companion.hearing.whisper.features import log_mel
from companion.hearing.whisper.free_writing import FreeWriting, Written, letters_of, others_than
from companion.hearing.whisper.network import EncodedUtterance, Network
from companion.hearing.whisper.tokens import Tokenizer
from companion.hearing.whisper.weights import packaged_model
from companion.messages import Heard
from companion.speaking.hibari_voice import HibariVoice

RECORDED = Path(__file__).parents[3] / "shared" / "human_speech" / "digits"


@dataclass(frozen=True)
class Found:
    """A text that a search has found."""

    log_probability: float
    on_noise: float


def encoded(network: Network, audio: Audio) -> EncodedUtterance:
    """Return a sound as the network remembers it."""
    return network.cross_attention(network.encode(log_mel(prepare(audio))))


@pytest.mark.parametrize("digit", [(2, "two"), (4, "four"), (7, "seven")])
def test_a_person_s_digit_is_written(network: Network, digit: tuple[int, str]) -> None:
    """What the model writes of a recorded person's digit is that digit, in figures or in letters, and less likely over silence."""
    if not RECORDED.is_dir():
        pytest.skip("the human recordings (../shared/human_speech/digits) are not here")
    number, word = digit
    writing = FreeWriting(network, Tokenizer(packaged_model()))
    said = read_wav(RECORDED / f"{number}_speaker2_1.wav")
    written = writing.write(encoded(network, said), encoded(network, silence(1.0, SPEECH_RATE_HZ)))
    assert written == sorted(written, key=lambda text: -text.log_probability)
    assert written[0].letters in {str(number), word}
    assert written[0].log_probability > written[0].on_noise


def test_what_is_the_same_text() -> None:
    """Large letters, commas and figures in known forms make no other text, nor does a text twice over; another word does."""
    texts = [Written(text, -1.0, -9.0) for text in (" Six, degrees", " 6 degrees", " six degrees six degrees", " six debris", " ...")]
    assert [text.text for text in others_than(["six degrees", " 6 degrees"], texts)] == [" six debris"]
    assert letters_of(" It's 6,5") == "its65"


def test_what_casts_doubt() -> None:
    """A text that fits much better lowers the confidence, and never raises it; one that is likely over any sound doesn't.

    Where even the likeliest text isn't sure, the same difference counts less.
    """
    found = Found(-20.0, -50.0)
    assert doubted(0.95, found, []) == pytest.approx(0.95)
    assert doubted(0.95, found, [Written("worse", -24.0, -50.0)]) == pytest.approx(0.95)
    assert doubted(0.95, found, [Written("better", -2.0, -55.0)]) < 0.8
    assert doubted(0.95, found, [Written("likely over any sound", -4.0, -18.0)]) == pytest.approx(0.95)
    assert doubted(0.95, Found(-30.0, -50.0), [Written("unsure", -14.0, -50.0)]) > doubted(0.95, found, [Written("sure", -4.0, -50.0)])


LETTERS = (
    "alpha bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar papa quebec romeo sierra tango uniform "
    "victor whiskey yankee zulu"
)
LETTER = LETTERS.replace(" ", " | ")
SPELLING = parse_grammar(f"#JSGF V1.0;\ngrammar t;\npublic <spelt> = latitude and longitude | [it is] <l> <l> <l> [<l>];\n<l> = {LETTER};")
SPELT = ActiveSet.of((SPELLING, "spelt"))
PAIRS = [("latitude and longitude", "love latitude and longitude"), ("kilo lima oscar zulu", "kilo lemon oscar zulu")]


@pytest.mark.parametrize(("said", "exchanged"), PAIRS)
def test_a_word_of_another_sentence_is_doubted(engine: WhisperEngine, said: str, exchanged: str) -> None:
    """A phrase of half a million is understood, and not acted on unasked where a word was exchanged or put before it (a synthesised voice).

    Without what is written freely both were taken with more than 0.9.
    """
    voice = HibariVoice()
    heard = engine.recognise(voice.render(said), SPELT)
    assert isinstance(heard, Heard)
    assert heard.phrase == said
    assert heard.confidence > 0.9
    other = engine.recognise(voice.render(exchanged), SPELT)
    assert not isinstance(other, Heard) or other.confidence < 0.8
