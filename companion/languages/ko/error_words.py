"""Korean for errors, by their class: what is wrong and what mends it. The English line with all its details is printed behind it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar, cast

from companion.errors import (
    AlreadyAtWork,
    BadRequest,
    BrokenInside,
    CompanionError,
    DeviceMissing,
    FileUnusable,
    MachineRefuses,
    MissingPart,
    MountMissing,
    NameUnknown,
    PlaceMissing,
    RecogniserMissing,
    TimeUnclear,
    TownUnknown,
    WrongCall,
)

_Error = TypeVar("_Error", bound=CompanionError)
_READ_IT = "까닭은 화면에 영어로 적혀 있어요."
_TABLE: dict[type[CompanionError], Callable[[CompanionError], str]] = {}


def error_words(error: CompanionError) -> str:
    """Return the words for an error's class, or for the nearest class above it."""
    return next(_TABLE[kind] for kind in type(error).__mro__ if kind in _TABLE)(error)


def _words(kind: type[_Error], words: Callable[[_Error], str]) -> None:
    # It is only called with an error of that class.
    _TABLE[kind] = cast("Callable[[CompanionError], str]", words)


_words(CompanionError, lambda error: f"할 수 없어요. {_READ_IT}")
_words(BadRequest, lambda error: f"그렇게는 할 수 없어요. {_READ_IT}")
_words(MissingPart, lambda error: f"이 기기에 없거나 쓸 수 없는 것이 있어요. {_READ_IT}")
_words(WrongCall, lambda error: f"명령을 알아볼 수 없어요. '{error.program} --help'를 입력하면 쓸 수 있는 것이 나와요.")
_words(
    PlaceMissing, lambda error: "어디에 계신지 몰라요. --lat과 --lon을 둘 다 주거나, 'companion profile near 도시'로 장소를 알려 주세요."
)
_words(NameUnknown, lambda error: f"{error.name}: 제가 모르는 별이나 천체예요. 이름을 다시 확인해 주세요.")
_words(TownUnknown, lambda error: f"{error.name}: 제가 모르는 도시예요. 가까운 더 큰 도시나 위도와 경도를 알려 주세요.")
_words(TimeUnclear, lambda error: f"{error.given}: 알아볼 수 없는 시각이에요. 2026-10-15T19:42:00+09:00처럼 써 주세요.")
_words(FileUnusable, lambda error: f"{Path(error.file).name} 파일을 쓸 수 없어요. 이름과 폴더와 내용을 확인해 주세요.")
_words(AlreadyAtWork, lambda error: "이미 다른 창에서 관측을 하고 있어요. 그쪽을 먼저 끝내 주세요.")
_words(DeviceMissing, lambda error: f"{'마이크' if error.is_microphone else '스피커'}를 찾을 수 없어요. 연결하고 다시 해 주세요.")
_words(
    RecogniserMissing,
    lambda error: "한국어를 듣는 귀가 없어요. pip install 'dark-field-companion[ko]'로 받거나, start --text로 글로 쓰세요.",
)
_words(MachineRefuses, lambda error: "이 기기에 자리가 모자라요. 다른 프로그램을 끝내거나 디스크를 비워 주세요.")
_words(MountMissing, lambda error: "마운트가 대답하지 않아요. 전원이 켜져 있고 같은 네트워크에 있는지 보세요.")
_words(BrokenInside, lambda error: "제 안에서 문제가 생겼어요. 다시 시작해 주세요.")
