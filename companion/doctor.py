"""Looks at every part this machine needs for an evening, and says the remedy for what is missing."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from companion import sky
from companion.devices import LOUDSPEAKER, MICROPHONE, present
from companion.documents.profile_tables import Profile, VoicePreference
from companion.errors import CompanionError, MissingPart
from companion.factories import open_engine, open_voice
from companion.hearing import WhisperEngine
from companion.hearing.vosk import found_models, tried_model
from companion.languages import Language
from companion.live import journal_path
from companion.live.preferred_sound import loudspeaker_opener, microphone_opener
from companion.live.self_test import try_loudspeaker, try_microphone
from companion.sky import Moment, Site
from companion.talk.command_phrases import (
    EarLoaded,
    GrammarsRead,
    MachinePart,
    NoVoiceSpeaks,
    NoWordUnderstood,
    PartStands,
    PartUnusable,
    SkyRead,
    VoiceSpoke,
)
from companion.talk.live_phrases import ThisIsMyVoice
from companion.talk.machine_phrases import (
    EveryVoiceMissing,
    ExtraRecogniserDamaged,
    FilesRefused,
    LoudspeakerMissing,
    MicrophoneMissing,
    MicrophoneUseless,
    NoEarForTheLanguage,
    NoExtraRecogniser,
    NoWordBack,
    RecogniserMissing,
    SkyMissing,
    SpareVoiceMissing,
    UsualVoiceMissing,
    WordsMissing,
)
from companion.talk.saying import Say
from companion.user_files import home
from companion.vocabulary import load_vocabulary

SOMEWHERE = Moment(Site(46.0, 0.0), datetime(2026, 1, 1, tzinfo=UTC))
"""For sentences in which neither place nor time is named, and for a sum whose result is known."""


@dataclass(frozen=True)
class PartChecked:
    """One part and how it stands."""

    part: MachinePart
    ok: bool
    required: bool
    """Whether no evening can be held without it."""
    detail: str
    """What was found, in the language's words."""
    remedy: str | None
    """What to do about it, for the screen; None when it is well."""
    aloud: Say | None
    """The same for the ear; None when it is well."""
    name: str = ""
    """Which one, where there are several."""

    @property
    def called(self) -> str:
        """What it is called in the document, and in an error."""
        return f"{self.part} {self.name}".strip()

    @property
    def document(self) -> dict[str, str | bool | None]:
        """What ``--json`` tells of it."""
        return {"part": self.called, "ok": self.ok, "required": self.required, "detail": self.detail, "remedy": self.remedy}

    def line(self, language: Language) -> str:
        """Return how it stands, in one line for a person: of what is missing the language's words, and its details behind them."""
        told = self.detail
        if self.remedy is not None:
            told = self.remedy if self.aloud is None else language.with_details(language.plain_words(self.aloud), self.remedy)
        return language.plain_words(PartStands(self.part, self.name, self.ok, self.required, told))


class _Lacking(MissingPart):
    """Something is missing in one of several ways, each told in its own words."""

    def __init__(self, message: str, aloud: Say) -> None:
        super().__init__(message)
        self.aloud = aloud


def check_parts(language: Language, profile: Profile) -> list[PartChecked]:
    """Try each part for real: read, compute, speak and listen as the profile has it, look for devices."""
    tried = partial(_tried, language)
    usual, *spare = language.voices
    parts = [
        tried(MachinePart.GRAMMARS, partial(_grammars, language), WordsMissing(), required=True),
        tried(MachinePart.SKY, _sky, SkyMissing(), required=True),
        tried(MachinePart.OWN_EAR, lambda: EarLoaded(WhisperEngine.load().name), RecogniserMissing(), required=True),
        tried(MachinePart.VOICE, partial(_voice, usual, language), UsualVoiceMissing(), required=False, name=usual),
        *(tried(MachinePart.VOICE, partial(_voice, name, language), SpareVoiceMissing(), required=False, name=name) for name in spare),
        *_devices(language, profile),
        tried(MachinePart.VOSK_MODEL, partial(_vosk_model, language), ExtraRecogniserDamaged(), required=False),
        tried(MachinePart.USER_FILES, _writable_home, FilesRefused(), required=True),
    ]
    if not any(part.ok for part in parts if part.part is MachinePart.VOICE):
        silent, remedy = language.plain_words(NoVoiceSpeaks()), "mend one of the voices above"
        parts.append(PartChecked(MachinePart.ANY_VOICE, False, True, silent, remedy, EveryVoiceMissing()))
    return parts


def _tried(
    language: Language, part: MachinePart, attempt: Callable[[], Say | Path], aloud: Say, *, required: bool, name: str = ""
) -> PartChecked:
    """Try a part: it gives what is told of it, or the folder that it is."""
    try:
        found = attempt()
    except CompanionError as error:
        told = error.aloud if isinstance(error, _Lacking) else aloud
        return PartChecked(part, False, required, language.plain_words(PartUnusable()), str(error), told, name)
    detail = str(found) if isinstance(found, Path) else language.plain_words(found)
    return PartChecked(part, True, required, detail, None, None, name)


def _grammars(language: Language) -> Say:
    return GrammarsRead(len(load_vocabulary(language).grammars), "" if language.reviewed else language.code)


def _sentence(language: Language) -> str:
    return language.plain_words(ThisIsMyVoice())


def _sky() -> Say:
    return SkyRead(sky.sight(sky.find("Polaris"), SOMEWHERE).altitude_deg)


def _voice(name: str, language: Language) -> Say:
    with closing(open_voice(VoicePreference(name), language)) as voice:
        return VoiceSpoke(voice.render(_sentence(language)).seconds)


def _devices(language: Language, profile: Profile) -> Iterator[PartChecked]:
    """Speak a sentence where there is a loudspeaker, then listen for a word where there is a microphone."""
    yield _tried(language, MachinePart.LOUDSPEAKER, partial(_speak, language, profile), LoudspeakerMissing(), required=False)
    word: Say | None = None

    def listen() -> Say:
        nonlocal word
        if not present(MICROPHONE):
            raise _Lacking("no microphone is connected; plug one in (typed evenings work without)", MicrophoneMissing())
        found, word = try_microphone(open_engine("auto", language), load_vocabulary(language), microphone_opener(profile.sound))
        return found

    microphone = _tried(language, MachinePart.MICROPHONE, listen, MicrophoneUseless(), required=False)
    yield microphone
    if microphone.ok:
        remedy = None if word else "say yes after the tone; if you did, come closer to the microphone or raise its level"
        told = language.plain_words(word or NoWordUnderstood())
        yield PartChecked(MachinePart.WORD_BACK, word is not None, False, told, remedy, None if word else NoWordBack())


def _speak(language: Language, profile: Profile) -> Say:
    if not present(LOUDSPEAKER):
        raise MissingPart("no loudspeaker is connected; plug one in (typed evenings and WAV files work without)")
    with closing(open_voice(profile.voice, language)) as voice:
        return try_loudspeaker(voice, _sentence(language), loudspeaker_opener(profile.sound))


def _vosk_model(language: Language) -> Path:
    models = found_models(language.code, home())
    get_one = f"companion model get {language.code}"
    if not models and "builtin" not in language.engines:
        raise _Lacking(f"none is installed, and the built-in recogniser hears English only; to have one: {get_one}", NoEarForTheLanguage())
    if not models:
        raise _Lacking(f"none is installed, the built-in recogniser listens; to have one: {get_one}", NoExtraRecogniser())
    complaints = []
    for model in models:
        try:
            return tried_model(model).path
        except MissingPart as complaint:
            complaints.append(str(complaint))
    raise MissingPart(f"the built-in recogniser listens: {complaints[0]}")


def _writable_home() -> Path:
    folder = journal_path(home()).parent
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        probe = folder / ".probe"
        probe.write_bytes(b"")
        probe.unlink()
    except OSError as error:
        raise MissingPart(f"{folder} can't be written ({error.strerror}); set COMPANION_HOME to a folder of yours") from error
    return folder
