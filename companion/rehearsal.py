"""A whole evening on recorded audio: WAVs through a real recogniser, the scenario's own clock, the same dialogue, real synthesis."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from datetime import datetime
from importlib import resources
from itertools import pairwise
from pathlib import Path

from companion.audio import LONGEST_UTTERANCE_SECONDS, Audio, join, read_wav, silence, write_wav
from companion.dialogue import Conversation, Journal, Turn, read_journal, rebuild, turns
from companion.documents.scenario import Kind, TurnTable, read_scenario
from companion.equipment import NOTHING_KNOWN, Equipment
from companion.errors import BadRequest, FileUnusable
from companion.files import LARGEST_DOCUMENT_BYTES, is_file, read_file, write_whole
from companion.hearing import Engine, Scope, listen
from companion.languages import Language
from companion.messages import Heard, Hearing, NotNow
from companion.procedure import EVENING
from companion.sky import Site
from companion.speaking import Voice
from companion.talk.saying import Answers, Ask
from companion.temporary import temporary_folder
from companion.vocabulary import Vocabulary

EVENING_RATE_HZ = 16_000
WRITTEN = ("evening.txt", "evening.wav")
"""Both sides of a rehearsed evening."""
_PAUSE_SECONDS = 0.6


@dataclass(frozen=True)
class RecordedAnswer:
    """One recorded utterance of a scenario, and what a perfect ear makes of it."""

    at: datetime
    wav: Path
    kind: Kind
    words: str
    """What was said; empty for silence."""
    command: str | None
    """The command it stands for; None unless in-grammar."""
    slots: Mapping[str, str]
    after_crash: bool = False
    """Whether the companion is cut off before this is said, and has to go on from its journal."""


@dataclass(frozen=True)
class Scenario:
    """An invented evening: where, when, and what is said."""

    site: Site
    starts_at: datetime
    recordings: tuple[RecordedAnswer, ...]
    equipment: Equipment = NOTHING_KNOWN


@dataclass(frozen=True)
class Exchange:
    """One thing heard and what was said to it. The first exchange of an evening, and the first after a crash: nothing is heard there."""

    time: datetime
    recording: RecordedAnswer | None
    hearing: Hearing | None
    said: str
    stage: str

    @property
    def heard(self) -> Heard | NotNow | None:
        """What was understood, an answer or what may be said at any time; or None."""
        return self.hearing if isinstance(self.hearing, Heard | NotNow) else None

    @property
    def as_expected(self) -> bool:
        """Whether an in-grammar recording was taken with the right command and slots, or another one not taken for an answer."""
        if self.recording is None or self.recording.command is None:
            return not isinstance(self.hearing, Heard)
        heard = self.heard
        return heard is not None and heard.command == self.recording.command and dict(heard.slots) == dict(self.recording.slots)


@dataclass(frozen=True)
class Tally:
    """How the recordings of an evening were taken."""

    expected: int
    """In-grammar utterances in the scenario."""
    recognised: int
    """Of those, taken with the right command and slots."""
    strangers: int
    """Out-of-grammar utterances in the scenario."""
    rejected: int
    """Of those, refused."""


@dataclass
class Rehearsal:
    """A rehearsal: to be played once; afterwards it can be counted and written."""

    scenario: Scenario
    language: Language
    vocabulary: Vocabulary
    engine: Engine
    voice: Voice
    exchanges: list[Exchange] = field(default_factory=list)
    finished: bool = False
    _sounds: list[Audio] = field(default_factory=list)

    def play(self) -> Iterator[Exchange]:
        """Play the evening; yield each exchange as soon as it is over."""
        with temporary_folder() as folder, Journal(folder / "evening.jsonl") as journal:
            for part in _between_crashes(self.scenario.recordings):
                conversation = Conversation(
                    EVENING, self.scenario.site, self.language, journal.append, self.scenario.equipment, by_voice=True
                )
                if not self.exchanges:
                    time, turn = self.scenario.starts_at, conversation.begin(self.scenario.starts_at)
                else:
                    # All that is left of the evening is what reached the journal.
                    time, turn = part[0].at, conversation.resume(rebuild(read_journal(journal.path).records), part[0].at)
                yield from self._held(conversation, turn, time, iter(part))
                if self.finished:
                    return

    def _held(self, conversation: Conversation, first: Turn, began: datetime, recordings: Iterator[RecordedAnswer]) -> Iterator[Exchange]:
        """Hold the evening until the recordings are used up."""
        recording: RecordedAnswer | None = None

        def hear(question: Ask[Answers]) -> Hearing | None:
            nonlocal recording
            recording = next(recordings, None)
            if recording is None:
                return None
            sound = read_wav(recording.wav, LONGEST_UTTERANCE_SECONDS)
            self._sounds += [sound, silence(_PAUSE_SECONDS, sound.rate_hz)]
            likely = self.vocabulary.active(question.expects).expecting(conversation.expected(recording.at))
            heard = listen(self.engine, sound, Scope(likely, self.vocabulary.everything))
            return self.vocabulary.settled(heard, question.expects)

        def time() -> datetime:
            return recording.at if recording else began

        for hearing, turn in turns(first, hear, lambda hearing: conversation.hear(hearing, time())):
            exchange = Exchange(time(), recording, hearing, self._spoken(conversation, turn, time()), turn.stage)
            self.finished = turn.finished
            self.exchanges.append(exchange)
            yield exchange

    def _spoken(self, conversation: Conversation, turn: Turn, time: datetime) -> str:
        """Say a turn; the next question's phrases are prepared meanwhile, as they would be in the field."""
        said = " ".join(conversation.words(saying, time) for saying in turn.sayings)
        with ThreadPoolExecutor(1) as meanwhile:
            ready = meanwhile.submit(self.engine.prepare, self.vocabulary.active(turn.question.expects)) if turn.question else None
            if said:
                sound = self.voice.render(said)
                self._sounds += [sound, silence(_PAUSE_SECONDS, sound.rate_hz)]
            if ready:
                ready.result()
        return said

    def tally(self) -> Tally:
        """Count how the recordings of the scenario fared."""
        kinds = [recording.kind for recording in self.scenario.recordings]
        fared_well = [e.recording.kind for e in self.exchanges if e.recording is not None and e.as_expected]
        return Tally(
            expected=kinds.count("in-grammar"),
            recognised=fared_well.count("in-grammar"),
            strangers=kinds.count("out-of-grammar"),
            rejected=fared_well.count("out-of-grammar"),
        )

    def write(self, folder: Path) -> None:
        """Write both sides of the evening as ``WRITTEN`` into a folder that was tried. FileUnusable where the disk is full by now."""
        text, sound = (folder / name for name in WRITTEN)
        lines = [line for exchange in self.exchanges for line in lines_of(exchange)]
        try:
            write_whole(text, ("\n".join(lines) + "\n").encode("utf-8"))
        except OSError as error:
            raise FileUnusable(f"can't be written ({error.strerror}); choose another place", file=str(text)) from error
        write_wav(sound, join(self._sounds, EVENING_RATE_HZ))


def _between_crashes(recordings: Sequence[RecordedAnswer]) -> Iterator[Sequence[RecordedAnswer]]:
    """Part recordings before each at which the companion is cut off."""
    cuts = [0, *(number for number, recording in enumerate(recordings) if recording.after_crash), len(recordings)]
    return (recordings[start:end] for start, end in pairwise(cuts))


def lines_of(exchange: Exchange) -> list[str]:
    """Return an exchange as plain lines, one an utterance: what was said to us, what we made of it where it differs, our reply."""
    lines = []
    if exchange.recording is not None:
        if exchange.recording.kind == "silence":
            lines.append("you: (silence)")
        elif exchange.heard is None:
            lines.append(f"you: {exchange.recording.words} (not understood)")
        elif exchange.heard.phrase != exchange.recording.words.lower():
            lines.append(f"you: {exchange.recording.words} (heard: {exchange.heard.phrase})")
        else:
            lines.append(f"you: {exchange.recording.words}")
    if exchange.said:
        lines.append(f"it:  {exchange.said}")
    return lines


# --- scenario files --------------------------------------------------------------------------------------------------


def find_scenario(name: str) -> Path:
    """Return the folder of a scenario: a path, or the name of one that comes with the companion."""
    if name and _exists(Path(name)):
        path = Path(name)
        return path.parent if is_file(path) else path
    shelf = Path(str(resources.files("companion.audio_fixtures")))
    folder = shelf / name
    if not is_file(folder / "scenario.toml"):
        known = sorted(entry.parent.name for entry in shelf.glob("*/scenario.toml"))
        raise BadRequest(f"there is no scenario '{name}'; give the folder of one, or choose: {', '.join(known)}")
    return folder


def _exists(path: Path) -> bool:
    try:
        return path.exists()
    except (OSError, ValueError):  # a name no file can have, or a folder closed to us
        return False


def load_scenario(folder: Path) -> Scenario:
    """Read ``scenario.toml`` and check that every recording it names is there."""
    file = folder / "scenario.toml"
    try:
        document = tomllib.loads(read_file(file, LARGEST_DOCUMENT_BYTES).decode("utf-8-sig"))
    except FileNotFoundError as error:
        raise FileUnusable("there is no such scenario; check the folder", file=str(file)) from error
    except (OSError, ValueError, RecursionError) as error:
        raise FileUnusable(f"not a readable TOML scenario ({error})", file=str(file)) from error
    tables = read_scenario(document, str(file))
    recordings = tuple(_recording(turn, folder, file) for turn in tables.turn)
    return Scenario(tables.site.site, tables.starts_at, recordings, tables.equipment)


def _recording(turn: TurnTable, folder: Path, file: Path) -> RecordedAnswer:
    wav = folder / turn.wav
    if not is_file(wav):
        raise FileUnusable(f"the recording {turn.wav} is missing; make it or take its turn out", file=str(file))
    command = turn.command if turn.kind == "in-grammar" else None
    return RecordedAnswer(turn.at, wav, turn.kind, turn.words, command, turn.slots, turn.after_crash)
