"""Korean for what single commands print. Commands, options, files and devices stay as they are typed or named."""

from __future__ import annotations

from companion.languages.phrase import Chapter, Scene
from companion.talk import command_phrases as say
from companion.talk.command_phrases import MachinePart

_PARTS = {
    MachinePart.GRAMMARS: "알아듣는 말",
    MachinePart.SKY: "하늘 자료",
    MachinePart.OWN_EAR: "영어를 듣는 귀",
    MachinePart.VOICE: "목소리",
    MachinePart.ANY_VOICE: "나오는 목소리",
    MachinePart.LOUDSPEAKER: "스피커",
    MachinePart.MICROPHONE: "마이크",
    MachinePart.WORD_BACK: "돌아온 말",
    MachinePart.VOSK_MODEL: "한국어를 듣는 귀",
    MachinePart.USER_FILES: "파일을 두는 폴더",
}


def part_stands(scene: Scene, *, part: MachinePart, name: str, ok: bool, required: bool, told: str) -> str:
    """Say in a line how a part stands."""
    called = f"{_PARTS[part]} {name}" if name else _PARTS[part]
    return f"{called}: {'좋아요' if ok else '없어요'}{'' if ok or required else ' (없어도 돼요)'}; {told}"


def grammars_read(scene: Scene, *, files: int, unreviewed: str) -> str:
    """Say how many files there are, and whether somebody has read them."""
    return f"파일 {files}개" + ("; 한국어가 모어인 사람이 아직 검토하지 않았어요" if unreviewed else "")


def sky_read(scene: Scene, *, pole_star_altitude_deg: float) -> str:
    """Say what the sum gave."""
    return f"천체력과 별을 읽었어요. 북위 46도에서 북극성의 높이는 {pole_star_altitude_deg:.1f}도예요"


def ear_loaded(scene: Scene, *, name: str) -> str:
    """Name the ear."""
    return f"불러왔어요, {name}"


def voice_spoke(scene: Scene, *, seconds: float) -> str:
    """Say how long."""
    return f"{seconds:.1f}초 동안 말했어요"


def loudspeaker_played(scene: Scene, *, name: str, rate_hz: int, seconds: float, underflows: int) -> str:
    """Say what was played."""
    return f"{name}, {rate_hz} Hz. {seconds:.1f}초 동안 말했고, {underflows}번 끊겼어요"


def microphone_gave(scene: Scene, *, name: str, rate_hz: int, noise_db: float | None, loudest_db: float, too_loud: bool) -> str:
    """Say how loud it was."""
    floor = "" if noise_db is None else f"주변 소음 {noise_db:.0f} dB, "
    return f"{name}, {rate_hz} Hz. {floor}가장 큰 소리 {loudest_db:.0f} dB{', 너무 커요. 음량을 낮추세요' if too_loud else ''}"


def word_heard(scene: Scene, *, phrase: str, confidence: float, above_noise_db: float | None) -> str:
    """Say which word, and how surely."""
    level = "" if above_noise_db is None else f", 소음보다 {above_noise_db:.0f} dB 커요"
    return f"들은 말: {phrase}, {confidence:.0%} 확실해요{level}"


def profile_is_empty(scene: Scene, *, file: str) -> str:
    """Say what fills it."""
    return f"{file}에는 아직 아무것도 없어요. 'companion profile ask'나 'companion profile near 도시'로 채우세요."


def place_replaced(scene: Scene, *, before: str) -> str:
    """Say what was known before."""
    return f"바꾸기 전의 장소예요: {before}."


def your_key_is(scene: Scene, *, key: str, device: str) -> str:
    """Name the key."""
    return f"{device}의 {key} 키예요"


def power_on_is_on(scene: Scene, *, file: str) -> str:
    """Say that it is on."""
    return f"켜져 있어요: {file}"


def power_on_would_be(scene: Scene, *, file: str, link: str) -> str:
    """Say what would be written."""
    return f"'companion autostart on'을 입력하면 이것을 {file}에 쓰고 {link}에 연결해요"


def power_on_was_on(scene: Scene, *, file: str) -> str:
    """Say that nothing was changed."""
    return f"이미 켜져 있었어요: {file}"


def power_on_written(scene: Scene, *, file: str) -> str:
    """Say that it is on now."""
    return f"켰어요. 쓴 파일은 {file}"


def power_on_removed(scene: Scene, *, file: str, unit: str) -> str:
    """Say that it is off now."""
    return f"껐어요. {file} 파일을 지웠어요. 지금 돌고 있는 것은 기기를 끌 때까지 이어져요. 바로 끝내려면: systemctl --user stop {unit}"


def linger_needed(scene: Scene, *, user: str) -> str:
    """Say what lets it begin without a login."""
    return f"이것이 없으면 로그인할 때까지 기다려요(관리자 권한이 필요할 수 있어요): loginctl enable-linger {user}"


def audio_group_needed(scene: Scene, *, user: str) -> str:
    """Say what lets it use the sound card."""
    return f"이것이 없으면 아무도 로그인하지 않았을 때 소리를 쓸 수 없어요(root 권한이 필요해요): sudo usermod -aG audio {user}"


def model_is_in(scene: Scene, *, folder: str) -> str:
    """Say where it is."""
    return f"듣는 귀를 {folder} 폴더에 두었어요. 이제부터 'auto'는 이것으로 들어요."


def log_lines_unreadable(scene: Scene, *, file: str, count: int) -> str:
    """Say how many are passed over."""
    return f"{file}: 끊기거나 상해서 읽을 수 없는 {count}줄은 건너뛰었어요"


def evening_kept(scene: Scene, *, file: str) -> str:
    """Say what is kept, and what ends it."""
    return f"{file} 파일은 남겨 두었어요. 그 관측이 아직 끝나지 않았어요. 이어서 하거나 마친 다음 'companion log forget'을 다시 입력하세요"


def sound_made(scene: Scene, *, file: str, seconds: float) -> str:
    """Say how long it is."""
    return f"{file or '말했어요'}: {seconds:.1f}초"


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
        say.NoWordUnderstood: "알아들은 말이 없어요",
        say.PartUnusable: "쓸 수 없어요",
        say.NoVoiceSpeaks: "아무 목소리도 나오지 않아요",
        say.ProfileIsEmpty: profile_is_empty,
        say.PlaceReplaced: place_replaced,
        say.QuestionsBrokenOff: "질문이 도중에 끝났어요. 대답하신 것은 남아 있어요.",
        say.NoKeyOfYourOwn: "따로 정한 키가 없어서 스페이스 바를 써요. 'companion key choose'로 정할 수 있어요.",
        say.YourKeyIs: your_key_is,
        say.PowerOnIsOn: power_on_is_on,
        say.PowerOnWouldBe: power_on_would_be,
        say.PowerOnWasOn: power_on_was_on,
        say.PowerOnWritten: power_on_written,
        say.PowerOnRemoved: power_on_removed,
        say.PowerOnWasOff: "이미 꺼져 있었어요. 지운 것이 없어요.",
        say.NothingElseToDo: "더 하실 것이 없어요.",
        say.LingerNeeded: linger_needed,
        say.AudioGroupNeeded: audio_group_needed,
        say.NoManagerAnswers: "지금은 systemd가 대답하지 않아요. 다음에 로그인하거나 기기를 켤 때부터 시작돼요.",
        say.ModelIsIn: model_is_in,
        say.LogLinesUnreadable: log_lines_unreadable,
        say.EveningKept: evening_kept,
        say.SoundMade: sound_made,
    },
)
