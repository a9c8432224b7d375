"""How readings become one answer and a probability: what must count for it and what against."""

import numpy as np
import pytest

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.hearing.whisper.conditioning import loud_seconds
from companion.hearing.whisper.confidence import (
    AMONG_ALL,
    AMONG_ANSWERS,
    FoundTexts,
    Verdict,
    is_possible,
    judge,
    judge_again,
    judge_found,
    judge_found_again,
)
from companion.hearing.whisper.prefix_tree import PrefixTree
from companion.hearing.whisper.scorer import Reading


def layout(lengths: list[int], owners: list[int] | None = None) -> PrefixTree:
    """Return a layout of which only the lengths and owners matter."""
    nothing = np.zeros(0, np.intp)
    return PrefixTree(*[nothing] * 6, np.array(lengths), np.array(owners or range(len(lengths))))


def reading(*fits: float, closing: float = -0.5, min_token_logprob: float = -1.0, no_speech: float = 0.1) -> Reading:
    """Return what one utterance makes of some forms."""
    end_logprob, least = (np.full(len(fits), value, np.float32) for value in (closing, min_token_logprob))
    return Reading(np.array(fits, np.float32), end_logprob, least, no_speech)


def verdict(*fits: float, prior: float = -8.0, **more: float) -> Verdict:
    """Return the verdict on two-token forms of a set scored phrase by phrase."""
    return judge(layout([2] * len(fits)), np.full(len(fits), prior, np.float32), [reading(*fits, **more)], range(len(fits)))


def found(*fits: float, meanings: str = "abc", lengths: tuple[int, ...] = (10, 10, 10), **more: float) -> Verdict:
    """Return the verdict on texts that a search brought."""
    count = len(fits)
    prior = np.array(lengths[:count], np.float32) * -4
    texts = FoundTexts(layout(list(lengths[:count])), prior, list(meanings[:count]), AMONG_ANSWERS)
    return judge_found(texts, [reading(*fits, **more)])


def test_the_best_form_wins() -> None:
    """The phrase with the likeliest form is chosen, whichever of its forms that is."""
    assert judge(layout([2, 2, 2], [0, 0, 1]), np.zeros(3, np.float32), [reading(-9, -1, -5)], range(2)).phrase == 0
    assert verdict(-5, -1, -9).phrase == 1


def test_what_counts_against_an_answer() -> None:
    """A worse fit, a close rival, one unlikely word, an end that is none, and nobody speaking each lower the same phrase's confidence."""
    good = verdict(-2, -9).confidence
    assert good > 0.9
    unlikely = verdict(-2, -9, min_token_logprob=-6.0)
    for doubtful in (verdict(-6, -13), verdict(-2, -2.5), unlikely, verdict(-2, -9, closing=-3), verdict(-2, -9, no_speech=0.9)):
        assert doubtful.phrase == 0
        assert doubtful.confidence < good


def test_a_word_said_again_needs_each_time_to_be_likely() -> None:
    """A model that writes repeats itself over any sound: "no no" of which one half is hardly likelier than over noise gives way."""
    tree, prior, fits = layout([2, 2]), np.full(2, -8.0, np.float32), (-2.0, -4.0)
    assert judge(tree, prior, [reading(*fits, min_token_logprob=1.5)], range(2), [True, False]).phrase == 0
    assert judge(tree, prior, [reading(*fits, min_token_logprob=0.0)], range(2), [True, False]).phrase == 1
    assert judge(tree, prior, [reading(*fits, min_token_logprob=0.0)], range(2)).phrase == 0


def test_what_is_likely_over_any_sound_does_not_win_by_that() -> None:
    """Of two texts that fit about as well, the one that noise alone makes likely is the second."""
    prior = np.array([-20.0, -40.0], np.float32)
    among_all, among_answers = (FoundTexts(layout([10, 10]), prior, "ab", weighing) for weighing in (AMONG_ALL, AMONG_ANSWERS))
    assert judge_found(among_all, [reading(-11.0, -12.0)]).phrase == 1
    assert judge_found(among_all, [reading(-3.0, -12.0)]).phrase == 0
    assert judge_found(among_answers, [reading(-3.0, -12.0)]).phrase == 1
    assert judge_found(among_answers, [reading(-3.0, -22.0)]).phrase == 0


def test_what_counts_against_a_found_text() -> None:
    """A rival of another meaning, one unlikely word and an end that is none lower the confidence; a rival of the same meaning does not.

    That every word is rare makes nothing sure.
    """
    sure = found(-5.0, -30.0)
    assert sure.confidence > 0.9
    assert found(-5.0, -5.5).confidence < sure.confidence
    assert found(-5.0, -5.5, meanings="aa").confidence >= sure.confidence
    assert found(-5.0, -30.0, min_token_logprob=-6.0).confidence < sure.confidence
    assert found(-5.0, -30.0, closing=-3.0).confidence < sure.confidence
    assert found(-5.0, -30.0, min_token_logprob=6.0).confidence == found(-5.0, -30.0, min_token_logprob=0.0).confidence


def test_what_may_be_left_out_is_not_lost() -> None:
    """Of a text and its longer version, whose sum is a little less, the longer is taken."""
    assert found(-5.0, -6.0, lengths=(8, 12)).phrase == 1


def test_several_speeds_are_averaged() -> None:
    """Two readings weigh the same."""
    assert judge(layout([2, 2]), np.zeros(2, np.float32), [reading(-1, -2), reading(-4, -2)], range(2)).phrase == 1


def test_said_twice_counts_twice() -> None:
    """What both tries bear out is surer than either tells alone; what only one bears out falls behind what both do."""
    tree, prior = layout([2, 2, 2]), np.full(3, -8.0, np.float32)
    once = judge(tree, prior, [reading(-4.0, -5.0, -9.0)], range(3))
    both, *_ = judge_again(tree, prior, [[reading(-4.0, -5.0, -9.0)], [reading(-4.0, -9.0, -5.0)]], range(3))
    assert (once.phrase, both.phrase) == (0, 0)
    assert both.confidence > once.confidence > 0.5
    split, *_ = judge_again(tree, prior, [[reading(-3.5, -4.0, -12.0)], [reading(-12.0, -4.0, -3.5)]], range(3))
    assert split.phrase == 1


def test_found_twice_counts_twice() -> None:
    """The same for texts that searches have found."""
    tree, prior = layout([10, 10]), np.full(2, -40.0, np.float32)
    texts = FoundTexts(tree, prior, "ab", AMONG_ANSWERS)
    again = judge_found_again(texts, [[reading(-9.0, -10.0)], [reading(-9.0, -14.0)]])
    assert [verdict.phrase for verdict in again] == [0, 1]
    assert again[0].confidence > judge_found(texts, [reading(-9.0, -10.0)]).confidence


@pytest.mark.parametrize(
    ("words", "seconds", "loud", "possible"),
    [("yes", 0.2, 0.1, True), ("one hundred and twenty three", 0.3, 0.2, False), ("yes", 8.0, 1.5, True), ("yes", 8.0, 5.0, False)],
)
def test_words_and_how_long_they_take(words: str, seconds: float, loud: float, possible: bool) -> None:
    """Words of many letters don't fit a short sound (35 a second), nor a short word one that stays loud: common practice, no source."""
    assert is_possible(words, seconds, loud) is possible


def test_loud_seconds() -> None:
    """Half a second of a tone in two of hiss 40 dB below is loud for half a second, whatever its offset; nothing is loud for none."""
    sound = np.random.default_rng(0).normal(0, 0.005, 2 * SPEECH_RATE_HZ)
    sound[8_000:16_000] += np.sin(np.arange(8_000) * 0.3)
    assert loud_seconds(Audio((0.5 * sound + 0.1).astype(np.float32), SPEECH_RATE_HZ)) == pytest.approx(0.5, abs=0.06)
    assert loud_seconds(Audio(np.zeros(0, np.float32), SPEECH_RATE_HZ)) == 0.0


def test_phrases_of_the_same_meaning_are_no_rivals() -> None:
    """Who says "small telescope" isn't in doubt for "a small telescope"."""
    tree, prior, fits = layout([2, 2, 2]), np.zeros(3, np.float32), [reading(-2.0, -2.1, -9.0)]
    assert judge(tree, prior, fits, ["small", "small", "large"]).confidence > judge(tree, prior, fits, range(3)).confidence
    assert judge(tree, prior, fits, ["small"] * 3) == judge(tree, prior, fits, range(3))


def test_how_a_found_text_ends_is_told() -> None:
    """Whether what was said goes on after it is for whoever asked to weigh: "I forgot" begins much that is said to others."""
    assert found(-20, -40, closing=-0.5).end_logprob == pytest.approx(-0.5)
    assert found(-20, -40, closing=-6.0).end_logprob == pytest.approx(-6.0)
