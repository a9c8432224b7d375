"""Korean for a mount on the line."""

from __future__ import annotations

from collections.abc import Mapping

from companion import sky
from companion.languages.ko.direction_words import degrees, place_in_sky
from companion.languages.ko.number_words import amount_of, count_of
from companion.languages.ko.sight_words import towards, with_copula
from companion.languages.ko.spoken_names import spoken_name
from companion.languages.phrase import Chapter, Scene
from companion.talk import mount_phrases as say
from companion.talk.answers import TurnAnswer, TurningAnswer

_BY_HAND = "조종기로 세우거나 전원을 끄세요."
_WHY_NOT: Mapping[say.NotTurned, str] = {
    "sun": "가는 길이 해에 너무 가까울 수 있어서 안 돌릴게요.",
    "horizon": "지평선 아래로 가게 되니 안 돌릴게요.",
    "limits": "프로필에 경통이 갈 수 없다고 한 곳이라 안 돌릴게요.",
    "unknown": "어디를 보고 있는지 몰라서 안 돌릴게요.",
    "hands-off": "움직이지 말라고 하셨어요.",
    "unheard": "말씀을 못 듣는 동안은 안 돌릴게요.",
    "parked": "보관 자세에 있어요. 먼저 조종기로 풀어 주세요.",
    "turning": "벌써 돌고 있어요.",
    "slow": "대답이 너무 느려서 지켜볼 수 없으니 안 돌릴게요.",
    "journal": "기록을 쓸 수 없어서 안 돌릴게요.",
    "interrupted": "방금 끊겨서 더 보내지 않았어요.",
    "cannot": "연결로는 돌릴 수 없는 마운트예요.",
    "unaligned": "정렬이 끝난 뒤에만 돌릴게요.",
    "line": "마운트가 대답하지 않아요.",
    "refused": "마운트가 거절했어요.",
}
_HALTED: Mapping[say.Halted, str] = {
    "asked": "멈춰 서 있어요.",
    "off-course": "예상한 길에서 벗어나서 세웠어요.",
    "near-sun": "해에 가까워져서 세웠어요.",
    "silent": "가는 동안 대답이 없어서 세웠어요.",
    "unheard": "말씀이 안 들려서 세웠어요.",
    "line": "가는 동안 연결이 끊겼어요. 대답하는 대로 세울게요.",
    "refused": "돌지 않겠다고 했어요.",
    "unwatched": "아무도 지켜보지 않는데 돌고 있어서 세웠어요.",
    "short": "멈춰 서 있지만 보낸 곳이 아니에요.",
}
_PLACES: Mapping[say.PlaceFault, str] = {
    "longitude-side": "마운트의 동서가 바뀌어 있어요.",
    "latitude-side": "마운트의 북남이 바뀌어 있어요.",
    "longitude": "마운트의 경도가 틀려요.",
    "latitude": "마운트의 위도가 틀려요.",
    "place": "마운트가 다른 장소로 되어 있어요.",
}


def mount_line_lost(scene: Scene, *, may_turn: bool) -> str:
    """Tell that the mount doesn't answer, and what halts it by hand."""
    return f"마운트가 더 대답하지 않아요.{f' 돌고 있을 수 있어요. {_BY_HAND}' if may_turn else ''}"


def mount_believes(
    scene: Scene, *, clock: say.ClockFault | None, clock_off: float, place: say.PlaceFault | None, place_off_km: float
) -> str:
    """Tell what is wrong in the mount's time and place."""
    said = []
    if clock is not None:
        said.append(_clock(clock, clock_off))
    if place is not None:
        said.append(f"{_PLACES[place]} {amount_of(max(1, round(place_off_km)), '킬로미터')} 어긋나요.")
    return " ".join(said)


def _clock(fault: say.ClockFault, off: float) -> str:
    ahead = "빨라요" if off > 0 else "늦어요"
    match fault:
        case "hours":
            hours, minutes = divmod(round(abs(off) * 60), 60)
            parts = [*([count_of(hours, "시간")] if hours else []), *([amount_of(minutes, "분")] if minutes else [])]
            return f"마운트의 시계가 {' '.join(parts)} {ahead}. 시간대나 서머타임 때문일 수 있어요."
        case "date":
            return f"마운트의 날짜가 {amount_of(round(abs(off)), '일')} {ahead}."
        case "clock":
            minutes = round(abs(off))
            return f"마운트의 시계가 {amount_of(minutes, '분') if minutes else '일 분 미만'} {ahead}."


def angle_words(angle_deg: float) -> str:
    """Return an angle in whole arcminutes, in degrees from two on."""
    minutes = round(abs(angle_deg) * 60)
    if minutes < 1:
        return "각도 일 분 미만"
    return f"각도 {amount_of(minutes, '분')}" if minutes < 120 else amount_of(round(minutes / 60), "도")


def told_it_the_star(scene: Scene, *, star: str) -> str:
    """Tell that the mount knows now where it points."""
    return f"좋아요. 지금 보는 것이 {with_copula(spoken_name(star))}고 마운트에 알렸어요."


def what_the_readings_tell(scene: Scene, *, rms_deg: float, tilt_deg: float | None) -> str:
    """Tell how well the readings agree, and how far the base leans."""
    if rms_deg > say.FIT_TOGETHER_DEG:
        return f"읽은 값으로는 별들이 서로 {angle_words(rms_deg)} 어긋나요. 그중 하나가 다른 별일 수 있어요."
    agreed = f"읽은 값으로 별들이 {angle_words(rms_deg)} 안에서 맞아요."
    return agreed if tilt_deg is None else f"{agreed} 받침이 {angle_words(tilt_deg)} 기울었어요."


def _there(scene: Scene, name: str) -> str:
    sight = sky.sight(scene.find(name), scene)
    return towards(f"{place_in_sky(sight.altitude_deg, sight.azimuth_deg)}의 {spoken_name(name)}")


def may_i_turn_there(scene: Scene, *, name: str) -> str:
    """Announce a turn and ask for it."""
    return (
        f"확인해 볼게요. {_there(scene, name)} 돌릴까요? 어느 쪽으로든 돌 수 있어요. "
        "경통 길이보다 멀리 물러서고 전선을 치우세요. 그다음 거기로 돌려 주세요, 또는 손으로 할게요라고 하세요."
    )


def may_i_turn_there_tersely(scene: Scene, *, name: str) -> str:
    """Announce a turn in few words."""
    return f"확인해 볼게요. {_there(scene, name)} 돌릴까요? 물러서세요. 거기로 돌려 주세요, 또는 손으로 할게요라고 하세요."


def is_it_really_that(scene: Scene, *, name: str, away_deg: float) -> str:
    """Ask whether it points at a thing that it reads itself to be far from."""
    return f"마운트가 읽은 값으로는 {angle_words(away_deg)} 떨어진 곳을 봐요. 지금 보는 것이 정말 {with_copula(spoken_name(name))}가요?"


def where_it_points(scene: Scene, *, altitude_deg: float | None, azimuth_deg: float | None, turns: bool) -> str:
    """Tell where it says that it points, or only that it turns."""
    now = "지금 돌고 있어요. " if turns else ""
    if altitude_deg is None or azimuth_deg is None:
        return f"{now}마운트가 어디를 보는지 말하지 않아요."
    level = "높이" if altitude_deg >= 0 else "수평보다 아래로"
    return f"{now}마운트가 읽은 값으로는 {place_in_sky(altitude_deg, azimuth_deg)}, {level} {degrees(abs(altitude_deg))}를 봐요."


MOUNT = Chapter(
    phrases={
        say.MountOnTheLine: "마운트가 연결됐어요.",
        say.MountNotThere: "마운트가 대답하지 않아요. 없이 시작하고 계속 불러 볼게요.",
        say.MountLineLost: mount_line_lost,
        say.MountLineBack: "마운트가 이제 대답해요.",
        say.ItStandsStill: "멈춰 서 있어요.",
        say.CanNotHaltIt: f"제가 세울 수 없어요. {_BY_HAND}",
        say.WatchIt: "세우라고 했지만 멈췄다는 대답이 없어요. 지켜보세요.",
        say.HandsOffIt: "움직이거나 알려 주지 않을게요. 읽기만 할게요.",
        say.HandsOnAgain: "이제 움직여도 되는군요. 움직이기 전에 물어볼게요.",
        say.ItHasTheRightOnes: "마운트의 시각과 장소가 제 것과 같아요.",
        say.MountBelieves: mount_believes,
        say.GiveItTimeAndPlace: "마운트에 시각과 장소를 알려 줄까요?",
        say.ItHasThemNow: "이제 마운트가 제 시각과 장소를 알아요.",
        say.ItDidNotTakeThem: "마운트가 받지 않아서 손으로 넣을게요.",
        say.ToldItTheStar: told_it_the_star,
        say.WhatTheReadingsTell: what_the_readings_tell,
        say.MayITurnThere: may_i_turn_there,
        say.WhileItTurns: "돌고 있어요. 아무 키나 누르면 멎어요.",
        say.ItSaysItTurns: "연결로는 아직 돌고 있대요. 한 번 더 보세요. 멈춰 서 있어요?",
        say.ItMayStillTurn: f"제가 끊길 때 돌고 있었고, 아직 돌고 있을 수 있어요. {_BY_HAND} 그다음 도착했어요, 또는 누가 세웠어요라고 하세요.",
        say.DoesItStandStill: "연결로는 아직 돌고 있대요. 정말 멈춰 서 있어요?",
        say.WhereItPoints: where_it_points,
        say.NobodyTellsWhereItPoints: "연결된 마운트가 없어서 저는 몰라요. 경통을 따라 보고, 거기 밝은 것이 뭔지 물어보세요.",
        say.IsItReallyThat: is_it_really_that,
        say.NotTurning: lambda scene, *, why: _WHY_NOT[why],
        say.WasHalted: lambda scene, *, why: _HALTED[why],
    },
    terse={
        say.MayITurnThere: may_i_turn_there_tersely,
    },
    sayable={TurnAnswer: ("거기로 돌려 주세요", "손으로 할게요"), TurningAnswer: ("도착했어요", "누가 세웠어요")},
    step_help={
        say.GiveItTimeAndPlace: "그러면 직접 넣지 않아도 돼요. 네라고 하면 제 것을 주고, 아니요라고 하면 그대로 둬요.",
        say.MayITurnThere: "거기로 돌려 주세요라고 할 때만 돌려요. 손으로 할게요라고 하면 조종기로 보내시는 거예요.",
        say.WhileItTurns: "가는 동안 지켜볼게요. 도착하면 무엇이 보이는지 물어볼게요.",
        say.DoesItStandStill: "경통을 보세요. 아무것도 움직이지 않으면 네, 돌고 있으면 아니요라고 하세요.",
        say.IsItReallyThat: "네라고 하면 믿을게요. 아니요라고 하면 어디 있는지 한 번 더 말할게요.",
        say.ItSaysItTurns: "아무것도 움직이지 않으면 도착했어요라고 하세요.",
    },
)
