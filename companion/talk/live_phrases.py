"""What happens to microphone, loudspeaker and voice in the field."""

from __future__ import annotations

from companion.talk.saying import Say


class NoMicrophone(Say): ...


class MicrophoneLost(Say): ...


class MicrophoneBack(Say): ...


class OtherMicrophone(Say):
    """Tell that another microphone listens in place of the one that went away."""


class MicrophoneSilent(Say): ...


class NoLoudspeaker(Say): ...


class LoudspeakerLost(Say): ...


class LoudspeakerBack(Say): ...


class OtherLoudspeaker(Say):
    """Tell that another loudspeaker speaks in place of the one that went away."""


class VoiceLost(Say): ...


class NoVoice(Say): ...


class VoiceAtItsLimit(Say): ...


class NoVoiceToChange(Say): ...


class SoundDropped(Say): ...


class TooNoisy(Say): ...


class KeepOneEarFree(Say): ...


class KeyNeeded(Say): ...


class HoldTheKey(Say): ...


class HoldYourKey(Say):
    """Tell how a key of the observer's own, on another device, is used."""


class YourKeyIsMissing(Say):
    """Tell that such a key can't be used."""


class PressTheKey(Say): ...


class JournalRefused(Say):
    """Tell that the disk won't take the journal."""


class JournalMended(Say):
    """Tell that the disk takes the journal again, and that nothing of it is missing."""


class ProfileRefused(Say):
    """Tell that what was to be remembered can't be."""


class OtherRecogniser(Say):
    """Tell that the installed recogniser's model can't be used, and the built-in one listens."""


class LogRefused(Say):
    """Tell that the disk won't take what was seen, and that it is tried again."""


class LogMended(Say):
    """Tell that the disk took what was seen after all."""


class ThisIsMyVoice(Say):
    """Try the voice, and ask for a word back after the tone."""
