"""Short answers as Koreans type them, each at its question; the sayings are ours, no native speaker has read them."""

from __future__ import annotations

import pytest

from companion.languages import load_language
from companion.languages.ko.content_words import of_line
from companion.languages.ko.typed_forms import typed_forms
from companion.live.barge_in import STOP, BargeIn
from companion.messages import Heard
from companion.talk import answers
from companion.talk.night_answers import TargetAnswer
from companion.talk.saying import Answers
from companion.vocabulary import Vocabulary, load_vocabulary


@pytest.fixture(scope="module")
def korean() -> Vocabulary:
    """Return its words."""
    return load_vocabulary(load_language("ko"))


@pytest.mark.parametrize(
    ("rule", "lines", "command"),
    [
        (answers.ReadyAnswer, "했어요 끝났어요 준비/다/됐어요 세웠습니다 다/했습니다 넵 ㅇㅇ 됐어", "ready"),
        (answers.ReadyAnswer, "아니요 아직요 아뇨", "wait"),
        (answers.YesNoAnswer, "네네 넵 응 맞습니다 예", "yes"),
        (answers.YesNoAnswer, "아뇨 아닙니다 ㄴㄴ", "no"),
        (answers.LevelAnswer, "네/맞췄어요 수평/맞췄습니다 됐어요", "ready"),
        (answers.NorthAnswer, "찾았어요 네", "ready"),
        (answers.PowerAnswer, "켰어요 켜졌습니다", "ready"),
        (answers.PowerAnswer, "전원이/안/들어와요", "dead"),
        (answers.SettingAnswer, "네 다음 다음이요 했어요 넣었습니다 다/됐어요", "next"),
        (answers.CompassKindAnswer, "없어요 없습니다", "none"),
        (answers.FinderCheckAnswer, "네/맞아요 맞아요", "agrees"),
        (answers.FinderCheckAnswer, "안/맞아요 아니요", "moved"),
        (answers.FinderAnswer, "보여요 들어왔습니다 파인더에/있어요", "in-finder"),
        (answers.FinderAnswer, "아니요/안/보여요 안/보여 안/보입니다", "cannot-see"),
        (answers.EyepieceAnswer, "네/가운데예요 됐어요", "centred"),
        (answers.EyepieceAnswer, "오른쪽으로/조금요 오른쪽에/있어요", "just-off"),
        (answers.ViewAnswer, "위쪽이요 왼쪽/위요 오른쪽이에요", "view"),
        (answers.MissAnswer, "왼쪽으로/주먹/하나 왼쪽으로/주먹/2개/위로/손가락/3개", "miss"),
        (answers.OutcomeAnswer, "성공이요 성공했습니다", "success"),
        (answers.OutcomeAnswer, "실패요 실패했습니다", "failed"),
        (answers.ProofAnswer, "있어요 네/보여요", "in-eyepiece"),
        (answers.OneToFiveAnswer, "4 사요 4입니다", "four"),
        (answers.HowItShowedAnswer, "잘/보여요 잘/보였습니다", "easily"),
        (TargetAnswer, "보여요 찾았습니다", "found"),
        (TargetAnswer, "그만할래요", "good-night"),
        (answers.PackingAnswer, "챙겼어요 네 했습니다", "done"),
    ],
)
def test_short_answers_are_understood(korean: Vocabulary, rule: type[Answers], lines: str, command: str) -> None:
    """Each is taken for the answer it is, and not as a guess that is asked back."""
    for line in lines.split():
        heard = korean.understand(line.replace("/", " "), rule)
        assert isinstance(heard, Heard), (line, heard)
        assert (heard.command, heard.is_guess) == (command, False), line


def test_a_no_is_never_made_a_yes(korean: Vocabulary) -> None:
    """No other form of a line that denies has the affirmative beside it."""
    for line in ("안 됐어요", "아직 안 했어요", "못 찾았어요", "안 켜졌어요"):
        assert not any(form in {"됐어요", "네 됐어요", "네"} for form in typed_forms(line))
        for rule in (answers.ReadyAnswer, answers.PowerAnswer, answers.SettingAnswer, answers.NorthAnswer):
            heard = korean.understand(line, rule)
            assert not isinstance(heard, Heard) or heard.command not in {"ready", "next"}, (line, rule)


def test_figures_become_words() -> None:
    """Counted in native numerals before a counter, else in Sino-Korean; a decimal's places singly."""
    assert "주먹 두 개" in typed_forms("주먹 2개")
    assert "열두 시 방향이에요" in typed_forms("12시 방향이에요")
    assert "삼십오 점 구 도" in typed_forms("35.9 도")


def test_help_names_words_that_halt_a_mount(korean: Vocabulary) -> None:
    """What help says is heard best is live while a mount turns, and what silences us while we speak."""
    language = load_language("ko")
    barge_in = BargeIn(korean, language.words_in)
    for words in ("조용히 하세요", "세워 주세요"):
        assert words in language.topics["limits"]
        phrase = barge_in.while_turning.parse(words)
        assert phrase is not None
        assert phrase.command == STOP
    assert barge_in.against("별을 찾으세요.").parse("조용히 하세요") is not None


@pytest.mark.parametrize(
    ("rule", "line", "command"),
    [
        (answers.ReadyAnswer, "다리 다 폈고 단단히 조였어요", "ready"),
        (answers.SettingAnswer, "날짜 입력했어요", "next"),
        (answers.LevelAnswer, "물방울이 한가운데 왔어요", "ready"),
        (answers.NorthAnswer, "나침반이 없는데 어떡하죠", "which-way"),
        (answers.FinderAnswer, "구름에 가려졌어요", "cloud"),
        (answers.OutcomeAnswer, "정렬 성공이라고 떠요", "success"),
        (answers.HowItShowedAnswer, "희미하게 겨우 보였어요", "just"),
        (TargetAnswer, "우와 예쁘다 다른 거 보여줘", "next"),
    ],
)
def test_what_is_said_freely_is_guessed(korean: Vocabulary, rule: type[Answers], line: str, command: str) -> None:
    """By the words that carry its meaning, or by its form; as a guess, so that it is asked back."""
    heard = korean.understand(line, rule)
    assert isinstance(heard, Heard)
    assert (heard.command, heard.is_guess) == (command, True)


@pytest.mark.parametrize("line", ["다리가 부러졌어요", "아직 다 못 조였어요", "삼각대가 넘어졌어요", "나사를 안 조였어요"])
def test_what_went_wrong_is_not_guessed_to_be_done(korean: Vocabulary, line: str) -> None:
    """Neither a deed that is denied nor an accident."""
    heard = korean.understand(line, answers.ReadyAnswer)
    assert not isinstance(heard, Heard) or heard.command != "ready"


def test_a_word_carries_the_same_in_all_its_forms() -> None:
    """Polite, formal and familiar, past and present, spaced or not."""
    for line in ("보였어요", "보여요", "보입니다", "보이네요"):
        assert of_line(line) == {"보이"}
    assert of_line("안보여요") == of_line("안 보이네요") == {"보이", "아니"}
    assert of_line("구름에 가려졌어요") == of_line("구름이 가렸어요")
