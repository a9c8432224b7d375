"""A call of PortAudio's that doesn't come back, as one may whose sound server hangs, holds up neither the evening nor its end."""

from __future__ import annotations

import subprocess
import sys
import threading

import pytest

from companion import portaudio
from companion.errors import MissingPart
from companion.portaudio import PortAudio

if not sys.platform.startswith("linux"):
    pytest.skip("elsewhere PortAudio wants to be called on one thread", allow_module_level=True)


@pytest.fixture
def library(monkeypatch: pytest.MonkeyPatch) -> PortAudio:
    """Have little patience with it."""
    monkeypatch.setattr(portaudio, "ANSWER_SECONDS", 0.05)
    monkeypatch.setattr(portaudio, "CLOSING_SECONDS", 0.05)
    return PortAudio("it hangs")


def test_what_comes_back(library: PortAudio) -> None:
    """An answer is returned, an objection raised; nothing stays behind."""
    assert library.ask(lambda: 3) == 3
    with pytest.raises(OSError, match="-9988"):
        library.ask(lambda: object_("PaErrorCode -9988"))
    assert not library.is_stuck


def object_(words: str) -> None:
    """Object."""
    raise OSError(words)


def test_what_comes_too_late(library: PortAudio) -> None:
    """It is given back where it comes after all, and nothing is asked for meanwhile: that would hold the evening up again."""
    over, came = threading.Event(), threading.Event()
    late: list[bool] = []

    def given_back(answer: bool) -> None:
        late.append(answer)
        came.set()

    with pytest.raises(MissingPart, match="it hangs"):
        library.ask(lambda: over.wait(60), given_back)
    assert library.is_stuck
    with pytest.raises(MissingPart, match="it hangs"):
        library.ask(lambda: pytest.fail("asked meanwhile"))
    over.set()
    assert came.wait(60)
    assert (late, library.is_stuck) == ([True], False)


def test_it_is_asked_again_after_a_rest(library: PortAudio, monkeypatch: pytest.MonkeyPatch) -> None:
    """A sound server may have been started again."""
    monkeypatch.setattr(portaudio, "REST_SECONDS", 0.0)
    with pytest.raises(MissingPart):
        library.ask(threading.Event().wait)
    assert library.ask(lambda: 3) == 3


def test_closing_is_not_waited_for(library: PortAudio) -> None:
    """The second stream is closed, too, while the first hangs."""
    second = threading.Event()
    library.tell(threading.Event().wait)
    library.tell(second.set)
    assert second.wait(60)
    assert library.is_stuck


def test_the_process_ends() -> None:
    """Beside a call that hangs, and without what PortAudio does at the end, which would wait for it."""
    code = (
        "import atexit, sys, threading; from types import SimpleNamespace; from companion import portaudio\n"
        "module = sys.modules['sounddevice'] = SimpleNamespace(_exit_handler=lambda: print('closed at the end'))\n"
        "atexit.register(module._exit_handler); portaudio.CLOSING_SECONDS = 0.05\n"
        "portaudio.PortAudio('it hangs').tell(threading.Event().wait); print('over')"
    )
    done = subprocess.run((sys.executable, "-c", code), capture_output=True, text=True, timeout=60, check=True)
    assert (done.stdout, done.stderr) == ("over\n", "")
