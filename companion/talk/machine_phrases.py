"""What this machine has and lacks for an evening, and what helps; which loudspeaker and microphone are the observer's."""

from __future__ import annotations

from dataclasses import dataclass

from companion.talk.saying import Say


class NothingMissing(Say): ...


class WordsMissing(Say):
    """Tell that the grammars can't be read."""


class SkyMissing(Say): ...


class RecogniserMissing(Say): ...


class UsualVoiceMissing(Say): ...


class SpareVoiceMissing(Say): ...


class EveryVoiceMissing(Say): ...


class LoudspeakerMissing(Say): ...


class MicrophoneMissing(Say): ...


class MicrophoneUseless(Say):
    """Tell that there is a microphone, and that it gives nothing."""


class NoWordBack(Say): ...


class NoExtraRecogniser(Say): ...


class NoEarForTheLanguage(Say):
    """Tell that our own recogniser can't hear this language, and no other is installed."""


class ExtraRecogniserDamaged(Say): ...


class FilesRefused(Say):
    """Tell that our own folder can't be written."""


@dataclass(frozen=True)
class CantGoOn(Say):
    """Tell what ended the evening, and its remedy."""

    why: str
    """The error's own line, without folders."""


class ProfileUnreadable(Say):
    """Tell that the observer's profile can't be read."""


class BrokeInside(Say):
    """Tell that a mistake of ours ended the evening."""


class RemediesArePrinted(Say): ...


class CanYouHearMe(Say): ...


class CanYouHearMeOrPress(Say):
    """As CanYouHearMe, where a key will do."""


class SayYesOnceMore(Say):
    """Ask for a voice after a key was struck."""


class PairFound(Say):
    """Tell that a loudspeaker is heard and a microphone hears."""


class LoudspeakerFound(Say):
    """Tell that a loudspeaker is heard, and that no microphone heard the answer."""


class NobodyAnswered(Say): ...


class PressYourKey(Say): ...


class YourKeyIsChosen(Say): ...
