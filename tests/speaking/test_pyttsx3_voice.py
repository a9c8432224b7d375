"""The pyttsx3 voice: real sentences, and what happens when the engine hangs, chatters, crashes or isn't there."""

from __future__ import annotations

import importlib.util
import os
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from companion.errors import BadRequest, MissingPart
from companion.speaking import worker
from companion.speaking.pronunciation import Pronunciation, Pronunciations
from companion.speaking.pyttsx3_voice import Pyttsx3Voice

SENTENCE = "Turn the tube to the north until the needle points there."
LINUX_ONLY = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="about espeak-ng on Linux")


@pytest.fixture
def temporary_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return an empty folder that stands for the system's temporary one."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


def python(code: str) -> tuple[str, ...]:
    """Return the command line that runs this code."""
    return (sys.executable, "-c", code)


def no_children() -> bool:
    """Return whether this process has neither running nor unburied children."""
    try:
        os.waitpid(-1, os.WNOHANG)
    except ChildProcessError:
        return True
    return False


def test_a_sentence_becomes_sound_and_leaves_nothing_behind(temporary_folder: Path) -> None:
    """Eleven words take two to six seconds (110 to 330 words a minute), are loud enough, and leave no file and no process."""
    audio = Pyttsx3Voice("en-gb").render(SENTENCE)
    assert 2 < audio.seconds < 6
    assert 0.3 < np.abs(audio.samples).max() <= 1
    assert list(temporary_folder.iterdir()) == []
    assert no_children()


def test_several_sentences_in_a_row_are_each_whole() -> None:
    """Sentences that follow one another come out as they do alone, sample for sample."""
    voice = Pyttsx3Voice("en-gb")
    sentences = ["Yes.", SENTENCE, "Two fists up.", SENTENCE]
    lengths = [len(voice.render(sentence).samples) for sentence in sentences]
    assert lengths[0] < lengths[2] < lengths[1] == lengths[3]
    np.testing.assert_array_equal(voice.render(SENTENCE).samples, Pyttsx3Voice("en-gb").render(SENTENCE).samples)


def test_the_rate_counts_from_the_first_sentence_on() -> None:
    """Twice the words a minute take about half the time (pauses shrink less), whichever order they are asked in."""
    voice = Pyttsx3Voice("en-gb", rate_wpm=130)
    slow = voice.render(SENTENCE).seconds
    voice.rate_wpm = 260
    fast = voice.render(SENTENCE).seconds
    voice.rate_wpm = 130
    assert voice.render(SENTENCE).seconds == slow
    assert 0.4 < fast / slow < 0.65


def test_two_voices_differ() -> None:
    """An American and a British voice give other samples."""
    british, american = Pyttsx3Voice("en-gb").render(SENTENCE), Pyttsx3Voice("en-us").render(SENTENCE)
    assert not np.array_equal(british.samples, american.samples)


def test_volume_scales() -> None:
    """A third of the volume gives about a third of the peak."""
    loud, soft = Pyttsx3Voice("en-gb", volume=0.9).render(SENTENCE), Pyttsx3Voice("en-gb", volume=0.3).render(SENTENCE)
    assert np.abs(soft.samples).max() == pytest.approx(np.abs(loud.samples).max() / 3, rel=0.1)


@pytest.mark.parametrize("blank", ["", "  ", "\n"])
def test_a_blank_text_has_no_samples(blank: str) -> None:
    """Nothing to say is no sound, and starts no process."""
    assert len(Pyttsx3Voice(command=("/nowhere",)).render(blank).samples) == 0


@pytest.mark.parametrize("text", ["...", "a\0b", "A <b>bold</b> word & [[h@loU]]", "\ud800 odd", "Zwölf Grad", "x" * 2000])
def test_odd_text_is_read_as_plain_text(text: str) -> None:
    """Markup, control characters and half characters are no reason to fail."""
    assert Pyttsx3Voice("en-gb").render(text).seconds > 0


def test_a_word_of_the_table_is_respelt() -> None:
    """The respelling is what the engine reads."""
    table = Pronunciations((Pronunciation("Xyzzy", "", "needle"),))
    said = Pyttsx3Voice("en-gb", pronunciations=table).render("Look at Xyzzy.")
    np.testing.assert_array_equal(said.samples, Pyttsx3Voice("en-gb").render("Look at needle.").samples)


def test_an_unknown_voice_names_near_ones() -> None:
    """A voice that isn't there is a missing part, and the error offers others."""
    with pytest.raises(MissingPart, match=r"no voice 'en-xx'.*en-us"):
        Pyttsx3Voice("en-xx").render("Yes.")


@pytest.mark.parametrize("settings", [{"rate_wpm": 5}, {"rate_wpm": 900}, {"volume": 2.0}, {"pitch": 101}])
def test_impossible_settings_are_refused(settings: dict[str, float]) -> None:
    """A rate, volume or pitch out of range is a bad request that says the range."""
    with pytest.raises(BadRequest, match=r"\d+ (to|and)"):
        Pyttsx3Voice(**settings).render("Yes.")  # type: ignore[arg-type]


def test_a_hanging_engine_is_killed_and_named(temporary_folder: Path) -> None:
    """An engine that never answers ends in an error with its remedy, in words for the ear too, and leaves nothing behind."""
    voice = Pyttsx3Voice(command=python("import time; time.sleep(600)"), seconds_allowed=0.2)
    with pytest.raises(MissingPart, match=r"no answer within 0\.2 seconds.*choose another voice"):
        voice.render("Yes.")
    assert list(temporary_folder.iterdir()) == []
    assert no_children()


def test_an_engine_that_hangs_once_is_started_again(tmp_path: Path) -> None:
    """A hang is mended by a fresh process: the sentence comes out all the same."""
    mark = tmp_path / "hung"
    code = f"""if True:
        import pathlib, time
        from companion.speaking import worker
        mark = pathlib.Path({str(mark)!r})
        if not mark.exists():
            mark.touch()
            time.sleep(600)
        worker.main()"""
    voice = Pyttsx3Voice("en-gb", command=python(code), seconds_allowed=3.0)
    assert voice.render(SENTENCE).seconds > 2
    assert mark.exists()


def test_what_libraries_print_stays_out_of_the_answer() -> None:
    """Noise on standard output, from Python and from below it, doesn't reach the protocol."""
    code = """if True:
        import os
        from companion.speaking import worker
        render = worker.render
        worker.render = lambda request: (print('{"error": "noise"}', flush=True), os.write(1, b'noise'), render(request))[-1]
        worker.main()"""
    assert Pyttsx3Voice("en-gb", command=python(code)).render(SENTENCE).seconds > 2


@pytest.mark.parametrize(
    ("code", "says"), [("raise SystemExit('out of memory')", "out of memory"), ("", "ended with 0"), ("print('{}')", "no such file")]
)
def test_a_crashing_engine_is_reported_in_its_own_words(code: str, says: str) -> None:
    """The last line of a process that died is the reason given."""
    with pytest.raises(MissingPart, match=says):
        Pyttsx3Voice(command=python(code)).render("Yes.")


def test_a_missing_library_says_what_to_install() -> None:
    """Without pyttsx3 the error says how to get it."""
    code = "import sys; sys.modules['pyttsx3'] = None; from companion.speaking import worker; worker.main()"
    with pytest.raises(MissingPart, match="pip install pyttsx3 espeakng-loader"):
        Pyttsx3Voice(command=python(code)).render("Yes.")


@LINUX_ONLY
def test_ctrl_c_takes_the_engine_with_it(tmp_path: Path) -> None:
    """An interrupt while a sentence is rendered ends the child process too."""
    pid_file = tmp_path / "pid"
    child = f"import os, time; open({str(pid_file)!r} + '.part', 'w').write(str(os.getpid())); "
    child += f"os.replace({str(pid_file)!r} + '.part', {str(pid_file)!r}); time.sleep(600)"
    # A test run in the background of a shell inherits an ignored interrupt, which Python would keep.
    code = "import signal, sys; signal.signal(signal.SIGINT, signal.default_int_handler); "
    code += f"from companion.speaking.pyttsx3_voice import Pyttsx3Voice; Pyttsx3Voice(command=(sys.executable, '-c', {child!r}),"
    code += " seconds_allowed=3.0).render('Yes.')"
    with subprocess.Popen(python(code), stderr=subprocess.PIPE, start_new_session=True) as speaking:
        while not pid_file.exists():
            assert speaking.poll() is None
            time.sleep(0.01)
        speaking.send_signal(signal.SIGINT)
        _, complaint = speaking.communicate()
    assert b"KeyboardInterrupt" in complaint
    with pytest.raises(ProcessLookupError):
        os.kill(int(pid_file.read_text()), 0)


@LINUX_ONLY
def test_the_wheel_supplies_espeak() -> None:
    """After load_espeak the library found under the system's name is the wheel's, and before it, without a system one, none is."""
    code = """if True:
        import ctypes
        from companion.speaking import worker
        def found():
            try:
                ctypes.CDLL("libespeak-ng.so.1")
            except OSError:
                return []
            return sorted({line.split()[-1] for line in open("/proc/self/maps") if "libespeak-ng" in line})
        print(LOAD and worker.load_espeak() or found())"""

    def libraries(load: bool) -> str:
        return subprocess.run(python(code.replace("LOAD", str(load))), capture_output=True, text=True, check=True).stdout.strip()

    wheel = importlib.util.find_spec("espeakng_loader")
    assert wheel is not None
    assert wheel.origin is not None
    assert libraries(load=True) == str([str((Path(wheel.origin).parent / "libespeak-ng.so").resolve())])
    if libraries(load=False) != "[]":
        pytest.skip(f"a system espeak-ng is installed, so that none is found without the wheel can't be shown: {libraries(load=False)}")


@LINUX_ONLY
def test_a_deep_environment_works(tmp_path: Path) -> None:
    """The data are found where their path is longer than the 160 bytes espeak-ng has for it."""
    wheel = importlib.util.find_spec("espeakng_loader")
    assert wheel is not None
    assert wheel.origin is not None
    deep = tmp_path.joinpath(*["deep"] * 50)
    deep.mkdir(parents=True)
    (deep / "espeakng_loader").symlink_to(Path(wheel.origin).parent)
    code = f"import sys; sys.path.insert(0, {str(deep)!r}); from companion.speaking import worker; worker.main()"
    assert Pyttsx3Voice("en-gb", command=python(code)).render(SENTENCE).seconds > 2
    naive = f"os.environ['ESPEAK_DATA_PATH'] = {str(deep / 'espeakng_loader')!r}"
    code = code.replace("worker.main()", f"import os; worker.os.chdir = lambda home: None; worker.load_espeak(); {naive}; ")
    control = subprocess.run(python(code + "import pyttsx3; pyttsx3.init()"), capture_output=True, text=True, check=False)
    assert "phontab" in control.stderr


def test_voices_are_found_by_identifier_tail_language_and_name() -> None:
    """The order is identifier, last part, language, name, wider language; variants are kept."""
    voices = [
        SimpleNamespace(id="gmw/en-gb-scotland", languages=["en-gb-scotland"], name="English (Scotland)"),
        SimpleNamespace(id="gmw/en", languages=["en-gb"], name="English (Great Britain)"),
        SimpleNamespace(id="com.system.Anna", languages=["de_DE"], name="Anna"),
        SimpleNamespace(id="bare", languages=None, name="Bare"),
    ]
    found = {wanted: worker.voice_id(wanted, voices) for wanted in ("en", "en-gb", "GMW/EN", "en_gb+f3", "de", "anna", "bare", "fr", "d")}
    assert found == {
        "en": "gmw/en",
        "en-gb": "gmw/en",
        "GMW/EN": "gmw/en",
        "en_gb+f3": "gmw/en+f3",
        "de": "com.system.Anna",
        "anna": "com.system.Anna",
        "bare": "bare",
        "fr": None,
        "d": None,
    }
