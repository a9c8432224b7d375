"""English for what single commands print."""

from __future__ import annotations

from companion.languages.phrase import Chapter, Scene
from companion.talk import command_phrases as say


def part_stands(scene: Scene, *, part: say.MachinePart, name: str, ok: bool, required: bool, told: str) -> str:
    """Say in a line how a part stands."""
    called = f"{part} {name}" if name else part
    return f"{called}: {'well' if ok else 'missing'}{'' if ok or required else ' (not required)'}; {told}"


def grammars_read(scene: Scene, *, files: int, unreviewed: str) -> str:
    """Say how many files there are, and whether somebody has read them."""
    return f"{files} files" + (f"; no native speaker has reviewed '{unreviewed}' yet" if unreviewed else "")


def sky_read(scene: Scene, *, pole_star_altitude_deg: float) -> str:
    """Say what the sum gave."""
    return f"planets and stars read; the pole star stands {pole_star_altitude_deg:.1f} degrees high at 46 north"


def ear_loaded(scene: Scene, *, name: str) -> str:
    """Name the ear."""
    return f"loaded, {name}"


def voice_spoke(scene: Scene, *, seconds: float) -> str:
    """Say how long."""
    return f"spoke {seconds:.1f} seconds"


def loudspeaker_played(scene: Scene, *, name: str, rate_hz: int, seconds: float, underflows: int) -> str:
    """Say what was played."""
    return f"{name} at {rate_hz} Hz; spoke {seconds:.1f} seconds, ran dry {underflows} times"


def microphone_gave(scene: Scene, *, name: str, rate_hz: int, noise_db: float | None, loudest_db: float, too_loud: bool) -> str:
    """Say how loud it was."""
    floor = "" if noise_db is None else f"noise at {noise_db:.0f} dB of full scale, "
    return f"{name} at {rate_hz} Hz; {floor}loudest {loudest_db:.0f} dB{', too loud: lower its level' if too_loud else ''}"


def word_heard(scene: Scene, *, phrase: str, confidence: float, above_noise_db: float | None) -> str:
    """Say which word, and how surely."""
    level = "" if above_noise_db is None else f", {above_noise_db:.0f} dB above the noise"
    return f"heard: {phrase}, {confidence:.0%} sure{level}"


def profile_is_empty(scene: Scene, *, file: str) -> str:
    """Say what fills it."""
    return f"{file} says nothing yet: fill it with 'companion profile ask' or 'companion profile near TOWN'."


def place_replaced(scene: Scene, *, before: str) -> str:
    """Say what was known before."""
    return f"In place of {before}."


def your_key_is(scene: Scene, *, key: str, device: str) -> str:
    """Name the key."""
    return f"{key} on {device}"


def power_on_is_on(scene: Scene, *, file: str) -> str:
    """Say that it is on."""
    return f"This is on: {file}"


def power_on_would_be(scene: Scene, *, file: str, link: str) -> str:
    """Say what would be written."""
    return f"'companion autostart on' would write this to {file} and link it at {link}"


def power_on_was_on(scene: Scene, *, file: str) -> str:
    """Say that nothing was changed."""
    return f"This was on already: {file}"


def power_on_written(scene: Scene, *, file: str) -> str:
    """Say that it is on now."""
    return f"On: written to {file}"


def power_on_removed(scene: Scene, *, file: str, unit: str) -> str:
    """Say that it is off now."""
    return f"Off: {file} is removed. One that runs goes on until this machine is off, or: systemctl --user stop {unit}"


def linger_needed(scene: Scene, *, user: str) -> str:
    """Say what lets it begin without a login."""
    return f"Without this it waits until you log in (your system may ask for an administrator): loginctl enable-linger {user}"


def audio_group_needed(scene: Scene, *, user: str) -> str:
    """Say what lets it use the sound card."""
    return f"Without this, nobody logged in, it may not use the sound card (needs root): sudo usermod -aG audio {user}"


def model_is_in(scene: Scene, *, folder: str) -> str:
    """Say where it is."""
    return f"The model is in {folder}; 'auto' listens with it from now on."


def log_lines_unreadable(scene: Scene, *, file: str, count: int) -> str:
    """Say how many are passed over."""
    return f"{file}: {count} of its lines can't be read and are passed over; they were cut off or damaged"


def evening_kept(scene: Scene, *, file: str) -> str:
    """Say what is kept, and what ends it."""
    return f"{file} is kept: that evening isn't over. Go on with it or say good night, then 'companion log forget' again"


def sound_made(scene: Scene, *, file: str, seconds: float) -> str:
    """Say how long it is."""
    return f"{file or 'spoken'}: {seconds:.1f} seconds"


COMMANDS = Chapter(
    phrases={
        say.PartStands: part_stands,
        say.GrammarsRead: grammars_read,
        say.SkyRead: sky_read,
        say.EarLoaded: ear_loaded,
        say.VoiceSpoke: voice_spoke,
        say.LoudspeakerPlayed: loudspeaker_played,
        say.MicrophoneGave: microphone_gave,
        say.WordHeard: word_heard,
        say.NoWordUnderstood: "none understood",
        say.PartUnusable: "not usable",
        say.NoVoiceSpeaks: "none of the voices speaks",
        say.ProfileIsEmpty: profile_is_empty,
        say.PlaceReplaced: place_replaced,
        say.QuestionsBrokenOff: "The questions were broken off; what you had answered is kept.",
        say.NoKeyOfYourOwn: "No key of your own: the space bar. Choose one with 'companion key choose'.",
        say.YourKeyIs: your_key_is,
        say.PowerOnIsOn: power_on_is_on,
        say.PowerOnWouldBe: power_on_would_be,
        say.PowerOnWasOn: power_on_was_on,
        say.PowerOnWritten: power_on_written,
        say.PowerOnRemoved: power_on_removed,
        say.PowerOnWasOff: "It was off already: nothing is removed.",
        say.NothingElseToDo: "Nothing else need be done.",
        say.LingerNeeded: linger_needed,
        say.AudioGroupNeeded: audio_group_needed,
        say.NoManagerAnswers: (
            "No systemd of your own answers just now: it begins with your next login, or at the next start of this machine."
        ),
        say.ModelIsIn: model_is_in,
        say.LogLinesUnreadable: log_lines_unreadable,
        say.EveningKept: evening_kept,
        say.SoundMade: sound_made,
    },
)
