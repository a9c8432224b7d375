"""Looks at every part this machine needs for an evening, and says the remedy for what is missing."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial

from companion import sky
from companion.devices import LOUDSPEAKER, MICROPHONE, present
from companion.documents.profile_tables import Profile, VoicePreference
from companion.errors import CompanionError, MissingPart
from companion.factories import open_voice
from companion.hearing import WhisperEngine
from companion.hearing.vosk import found_models, tried_model
from companion.languages import Language
from companion.live import journal_path
from companion.live.preferred_sound import loudspeaker_opener, microphone_opener
from companion.live.self_test import try_loudspeaker, try_microphone
from companion.sky import Moment, Site
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

    part: str
    ok: bool
    required: bool
    """Whether no evening can be held without it."""
    detail: str
    """What was found."""
    remedy: str | None
    """What to do about it, for the screen; None when it is well."""
    aloud: Say | None
    """The same for the ear; None when it is well."""


class _Lacking(MissingPart):
    """Something is missing in one of several ways, each told in its own words."""

    def __init__(self, message: str, aloud: Say) -> None:
        super().__init__(message)
        self.aloud = aloud


def check_parts(language: Language, profile: Profile) -> list[PartChecked]:
    """Try each part for real: read, compute, speak and listen as the profile has it, look for devices."""
    usual, *spare = language.voices
    parts = [
        _tried("grammars", partial(_grammars, language), WordsMissing(), required=True),
        _tried("sky", _sky, SkyMissing(), required=True),
        _tried("built-in recogniser", lambda: f"loaded, {WhisperEngine.load().name}", RecogniserMissing(), required=True),
        _tried(f"voice {usual}", partial(_voice, usual, language), UsualVoiceMissing(), required=False),
        *(_tried(f"voice {name}", partial(_voice, name, language), SpareVoiceMissing(), required=False) for name in spare),
        *_devices(language, profile),
        _tried("vosk model", partial(_vosk_model, language), ExtraRecogniserDamaged(), required=False),
        _tried("user files", _writable_home, FilesRefused(), required=True),
    ]
    if not any(part.ok for part in parts if part.part.startswith("voice")):
        remedy = "mend one of the voices above"
        parts.append(PartChecked("a voice", False, True, "none of the voices speaks", remedy, EveryVoiceMissing()))
    return parts


def _tried(part: str, attempt: Callable[[], str], aloud: Say, *, required: bool) -> PartChecked:
    try:
        return PartChecked(part, True, required, attempt(), None, None)
    except _Lacking as error:
        return PartChecked(part, False, required, "not usable", str(error), error.aloud)
    except CompanionError as error:
        return PartChecked(part, False, required, "not usable", str(error), aloud)


def _grammars(language: Language) -> str:
    return f"{len(load_vocabulary(language).grammars)} files{_unreviewed(language)}"


def _unreviewed(language: Language) -> str:
    return "" if language.reviewed else f"; no native speaker has reviewed '{language.code}' yet"


def _sentence(language: Language) -> str:
    return language.words(ThisIsMyVoice(), SOMEWHERE)


def _sky() -> str:
    sight = sky.sight(sky.find("Polaris"), SOMEWHERE)
    return f"ephemeris and stars read; the pole star stands {sight.altitude_deg:.1f} degrees high at 46 north"


def _voice(name: str, language: Language) -> str:
    with closing(open_voice(VoicePreference(name), language)) as voice:
        return f"spoke {voice.render(_sentence(language)).seconds:.1f} seconds"


def _devices(language: Language, profile: Profile) -> Iterator[PartChecked]:
    """Speak a sentence where there is a loudspeaker, then listen for a word where there is a microphone."""
    yield _tried("loudspeaker", partial(_speak, language, profile), LoudspeakerMissing(), required=False)
    word = ""

    def listen() -> str:
        nonlocal word
        if not present(MICROPHONE):
            raise _Lacking("no microphone is connected; plug one in (typed evenings work without)", MicrophoneMissing())
        found, word = try_microphone(
            WhisperEngine.load(writing=language.writing), load_vocabulary(language), microphone_opener(profile.sound)
        )
        return found

    microphone = _tried("microphone", listen, MicrophoneUseless(), required=False)
    yield microphone
    if microphone.ok:
        remedy = None if word else "say yes after the tone; if you did, come closer to the microphone or raise its level"
        yield PartChecked("a word back", bool(word), False, word or "none understood", remedy, None if word else NoWordBack())


def _speak(language: Language, profile: Profile) -> str:
    if not present(LOUDSPEAKER):
        raise MissingPart("no loudspeaker is connected; plug one in (typed evenings and WAV files work without)")
    with closing(open_voice(profile.voice, language)) as voice:
        return try_loudspeaker(voice, _sentence(language), loudspeaker_opener(profile.sound))


def _vosk_model(language: Language) -> str:
    models = found_models(language.code, home())
    get_one = f"companion model get {language.code}"
    if not models and "builtin" not in language.engines:
        raise _Lacking(f"none is installed, and the built-in recogniser hears English only; to have one: {get_one}", NoEarForTheLanguage())
    if not models:
        raise _Lacking(f"none is installed, the built-in recogniser listens; to have one: {get_one}", NoExtraRecogniser())
    complaints = []
    for model in models:
        try:
            return str(tried_model(model).path)
        except MissingPart as complaint:
            complaints.append(str(complaint))
    raise MissingPart(f"the built-in recogniser listens: {complaints[0]}")


def _writable_home() -> str:
    folder = journal_path(home()).parent
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        probe = folder / ".probe"
        probe.write_bytes(b"")
        probe.unlink()
    except OSError as error:
        raise MissingPart(f"{folder} can't be written ({error.strerror}); set COMPANION_HOME to a folder of yours") from error
    return str(folder)
