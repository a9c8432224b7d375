"""What single commands print for a person: on profile, talk key, power-on, models, the log, and how each part of the machine stands."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from companion.talk.saying import Say


class MachinePart(enum.StrEnum):
    """A part of this machine that an evening needs."""

    GRAMMARS = "grammars"
    SKY = "sky"
    OWN_EAR = "built-in recogniser"
    VOICE = "voice"
    ANY_VOICE = "a voice"
    LOUDSPEAKER = "loudspeaker"
    MICROPHONE = "microphone"
    WORD_BACK = "a word back"
    VOSK_MODEL = "vosk model"
    USER_FILES = "user files"


@dataclass(frozen=True)
class PartStands(Say):
    """Tell in a line how a part stands."""

    part: MachinePart
    name: str
    """Which one, where there are several."""
    ok: bool
    required: bool
    told: str
    """What was found, or what helps."""


@dataclass(frozen=True)
class GrammarsRead(Say):
    """Tell how many files of words there are."""

    files: int
    unreviewed: str
    """The language's code where no native speaker has read its sentences, else empty."""


@dataclass(frozen=True)
class SkyRead(Say):
    """Tell what came of a sum whose result is known."""

    pole_star_altitude_deg: float


@dataclass(frozen=True)
class EarLoaded(Say):
    """Tell which recogniser was loaded."""

    name: str


@dataclass(frozen=True)
class VoiceSpoke(Say):
    """Tell how long a voice spoke."""

    seconds: float


@dataclass(frozen=True)
class LoudspeakerPlayed(Say):
    """Tell what was played."""

    name: str
    rate_hz: int
    seconds: float
    underflows: int
    """How often it ran dry."""


@dataclass(frozen=True)
class MicrophoneGave(Say):
    """Tell how loud it was."""

    name: str
    rate_hz: int
    noise_db: float | None
    """Of full scale; None while the place isn't known."""
    loudest_db: float
    too_loud: bool


@dataclass(frozen=True)
class WordHeard(Say):
    """Tell which word came back."""

    phrase: str
    confidence: float
    above_noise_db: float | None


class NoWordUnderstood(Say): ...


class PartUnusable(Say): ...


class NoVoiceSpeaks(Say): ...


@dataclass(frozen=True)
class ProfileIsEmpty(Say):
    """Tell that nothing is known of the observer yet, and what fills it."""

    file: str


@dataclass(frozen=True)
class PlaceReplaced(Say):
    """Tell the place that was known before."""

    before: str
    """Its keys and values."""


class QuestionsBrokenOff(Say): ...


class NoKeyOfYourOwn(Say): ...


@dataclass(frozen=True)
class YourKeyIs(Say):
    """Name the talk key."""

    key: str
    device: str


@dataclass(frozen=True)
class PowerOnIsOn(Say):
    """Tell that it starts at power-on."""

    file: str


@dataclass(frozen=True)
class PowerOnWouldBe(Say):
    """Tell what switching it on would write."""

    file: str
    link: str


@dataclass(frozen=True)
class PowerOnWasOn(Say):
    """Tell that switching it on changed nothing."""

    file: str


@dataclass(frozen=True)
class PowerOnWritten(Say):
    """Tell that it was switched on."""

    file: str


@dataclass(frozen=True)
class PowerOnRemoved(Say):
    """Tell that it was switched off, and what ends one that runs."""

    file: str
    unit: str


class PowerOnWasOff(Say): ...


class NothingElseToDo(Say): ...


@dataclass(frozen=True)
class LingerNeeded(Say):
    """Tell what lets it begin before anybody logs in."""

    user: str


@dataclass(frozen=True)
class AudioGroupNeeded(Say):
    """Tell what lets it use the sound card while nobody is logged in."""

    user: str


class NoManagerAnswers(Say):
    """Tell when it begins where no systemd of the user's answers now."""


@dataclass(frozen=True)
class ModelIsIn(Say):
    """Tell where a model was put."""

    folder: str


@dataclass(frozen=True)
class LogLinesUnreadable(Say):
    """Tell how many lines of the log were passed over."""

    file: str
    count: int


@dataclass(frozen=True)
class EveningKept(Say):
    """Tell that the journal of an evening that isn't over was kept."""

    file: str


@dataclass(frozen=True)
class SoundMade(Say):
    """Tell how long what was spoken or written is."""

    file: str
    """Empty where it was spoken."""
    seconds: float
