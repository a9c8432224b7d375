"""What the parts of an evening are called in Korean, whether they are under way or come next."""

from __future__ import annotations

STAGES = {
    "check-in": "시각과 장소, 어둠 확인",
    "tonight": "오늘 밤 미리 보기",
    "ground": "삼각대 세우기",
    "finder": "파인더 맞추기",
    "starting-pose": "시작 자세 잡기",
    "power": "전원 켜기",
    "settings": "조종기 설정",
    "late-finder": "파인더 맞추기",
    "late-pose": "시작 자세 잡기",
    "reference-stars": "정렬 별 맞추기",
    "proof": "다른 별로 정렬 확인",
    "targets": "오늘 밤 대상",
    "good-night": "정리",
    "your-equipment": "장소와 장비",
}


def at_stage(stage: str) -> str:
    """Return a sentence on where we are."""
    return f"지금은 {STAGES[stage]} 차례예요."
