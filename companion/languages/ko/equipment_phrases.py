"""Korean for the interview about place, telescope, mount, horizon and observer."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from companion.languages.ko.direction_words import compass_point, degrees, half_fists
from companion.languages.ko.number_words import digits
from companion.languages.ko.sight_words import it_is, subject
from companion.languages.ko.spoken_names import spoken_name, town_name
from companion.languages.ko.transliteration import LETTERS, in_hangul
from companion.languages.phrase import Chapter
from companion.sky import Moment
from companion.talk import answers
from companion.talk import equipment_phrases as say

_UNITS: Mapping[say.LengthUnit, str] = {"kilometres": "킬로미터", "miles": "마일"}
_IN_THE_WAY = {"trees": "나무", "houses": "집", "hills": "산", "walls": "담"}
"""What the grammar knows; a profile written by hand may name anything else."""


def no_such_town(_: object, *, named: str | None, spelt_alike: tuple[str, ...]) -> str:
    """Say what is wrong with a town, and what is next best."""
    unknown = "그 이름의 도시는 몰라요." if named else "그럼 더 큰 곳으로 해요."
    return f"{unknown} 가까운 더 큰 도시를 말하거나, 위도와 경도라고 하세요. 글로 써도 돼요."


def no_other_town(_: object, *, letters: str) -> str:
    """Say which letters were heard, so that a wrong one is noticed."""
    return f"{' '.join(LETTERS[letter] for letter in letters)}, 이렇게 시작하는 도시는 더 없어요."


def _singly(figure: float) -> str:
    """Return a figure digit by digit, to the tenth: "일 이 영 영", "구 점 칠"."""
    whole, _, tenths = f"{figure:.1f}".partition(".")
    return digits(whole) + (f" 점 {digits(tenths)}" if tenths != "0" else "")


def _fists(fists: float) -> str:
    return half_fists(round(fists * 2))


def telescope_heard(moment: Moment, *, aperture_mm: float | None, focal_length_mm: float | None) -> str:
    """Read aperture and focal length back."""
    figures = (("구경", aperture_mm), ("초점 거리", focal_length_mm))
    return f"{it_is(', '.join(f'{what} {_singly(figure)} 밀리미터' for what, figure in figures if figure is not None))} 맞아요?"


def eyepiece_heard(moment: Moment, *, focal_length_mm: float, field_deg: float | None) -> str:
    """Read an eyepiece back."""
    field = "" if field_deg is None else f", 겉보기 시야 {_singly(field_deg)} 도"
    return f"{_singly(focal_length_mm)} 밀리미터 접안렌즈{field}. 맞아요?"


def finder_width_heard(moment: Moment, *, field_deg: float) -> str:
    """Read back how much a finder shows."""
    return f"파인더에 {_singly(field_deg)} 도가 보여요. 맞아요?"


def unlikely_figure(moment: Moment, *, figure: float) -> str:
    """Say which figure can't be."""
    return f"{_singly(figure)}. 이렇게 들었는데 드문 숫자예요. 숫자를 하나씩 말해 주세요."


def no_such_coordinate(moment: Moment, *, which: Literal["latitude", "longitude"]) -> str:
    """Say how a latitude or a longitude begins, and how large it can be."""
    if which == "latitude":
        return "위도는 구십 도까지이고, 북위나 남위로 시작해요."
    return "경도는 백팔십 도까지이고, 동경이나 서경으로 시작해요."


def _to_the_minute(angle_deg: float) -> str:
    whole, minutes = divmod(round(abs(angle_deg) * 60), 60)
    return f"{digits(whole)} 도 {digits(minutes, 2)} 분"


def town_heard(moment: Moment, *, town: str, latitude_deg: float, longitude_deg: float) -> str:
    """Read a town back with its place in whole degrees, since several towns may share a name."""
    north, east = ("북위" if latitude_deg >= 0 else "남위"), ("동경" if longitude_deg >= 0 else "서경")
    at = f"{north} {digits(round(abs(latitude_deg)))} 도, {east} {digits(round(abs(longitude_deg)))} 도"
    return f"{town_name(town)} 근처, {it_is(at)} 맞아요?"


def how_far_from_town(moment: Moment, *, unit: say.LengthUnit) -> str:
    """Ask how far from a town we are, with an example in the unit that is usual there."""
    return f"거기서 얼마나 떨어져 있어요? 북서쪽으로 십 {_UNITS[unit]}처럼 말하세요. 아니면 시내예요라고 하세요."


def from_town_heard(moment: Moment, *, town: str, distance: int, unit: say.LengthUnit, bearing_deg: float) -> str:
    """Read back how far from a town we are, and where from it: figures singly."""
    return f"{town_name(town)}에서 {compass_point(bearing_deg)}으로 {digits(distance)} {it_is(_UNITS[unit])} 맞아요?"


def place_heard(moment: Moment, *, latitude_deg: float, longitude_deg: float) -> str:
    """Read latitude and longitude back, degrees and minutes singly."""
    north, east = ("북위" if latitude_deg >= 0 else "남위"), ("동경" if longitude_deg >= 0 else "서경")
    return f"{north} {_to_the_minute(latitude_deg)}, {east} {it_is(_to_the_minute(longitude_deg))} 맞아요?"


def in_the_way_heard(
    moment: Moment, *, from_azimuth_deg: float, to_azimuth_deg: float, altitude_deg: float, what: str, fists: float
) -> str:
    """Read an obstruction back."""
    width_deg = (to_azimuth_deg - from_azimuth_deg) % 360
    if width_deg <= 45:
        where = f"{compass_point(from_azimuth_deg + width_deg / 2)}에"
    else:
        where = f"{compass_point(from_azimuth_deg)}에서 {compass_point(to_azimuth_deg)}까지"
    thing = _IN_THE_WAY.get(what) or in_hangul(what)
    return f"{where} {_fists(fists)} 높이까지 {subject(thing)} 있어요. 맞아요?"


def how_many_fists(moment: Moment, *, one: str, other: str) -> str:
    """Ask for the distance between two stars in fists."""
    return f"{spoken_name(one)}에서 {spoken_name(other)}까지 주먹 몇 개예요? 팔을 쭉 펴고 한쪽 눈을 감고 주먹을 옮겨 가며 재세요."


def fist_heard(moment: Moment, *, fists: float, fist_deg: float) -> str:
    """Read the fists back, and say what one of them spans."""
    return f"{it_is(_fists(fists))} 그러면 주먹 하나가 {it_is(degrees(fist_deg))} 맞아요?"


def unlikely_fist(moment: Moment, *, fists: float) -> str:
    """Say that no fist is so large or so small."""
    return f"그 두 별은 {subject(_fists(fists))} 될 수 없어요. 어느 별인지 한 번 더 보세요."


EQUIPMENT = Chapter(
    phrases={
        say.AboutYourEquipment: "장소와 망원경을 물어볼게요. 어느 질문이든 건너뛰기라고 해도 돼요.",
        say.AboutYourTelescope: "망원경을 물어볼게요. 어느 질문이든 건너뛰기라고 해도 돼요.",
        say.EquipmentKnown: "좋아요. 알아야 할 것은 다 알았어요.",
        say.WhereAreYou: "어디에 계세요? 가장 가까운 큰 도시를 서울 근처처럼 말하세요. 아니면 위도와 경도라고 하세요.",
        say.SpellTheTown: "로마자로 첫 글자 네 개까지 불러 주세요. 비 알 아이 에스처럼요. 글로 쓰거나 건너뛰기라고 해도 돼요.",
        say.NoOtherTown: no_other_town,
        say.SayOrSpellTheTown: "제가 자꾸 잘못 들으면 가까운 더 큰 도시를 말하거나, 위도와 경도라고 하세요.",
        say.TownHeard: town_heard,
        say.HowFarFromTown: how_far_from_town,
        say.FromTownHeard: from_town_heard,
        say.YourLatitude: "위도가 얼마예요? 북위나 남위, 그리고 도와 분을 말하세요.",
        say.YourLongitude: "경도는요? 동경이나 서경, 그리고 도와 분을 말하세요.",
        say.YourPlaceHeard: place_heard,
        say.NoSuchTown: no_such_town,
        say.NoSuchCoordinate: no_such_coordinate,
        say.UnlikelyFigure: unlikely_figure,
        say.FigureLeft: "그건 그냥 둘게요. 나중에 글로 써도 돼요.",
        say.Aperture: "앞 렌즈나 주경의 지름이 몇 밀리미터예요? 인치로 말해도 돼요.",
        say.FocalLength: "망원경의 초점 거리가 얼마예요? 경통에 적힌 더 큰 숫자예요.",
        say.TelescopeHeard: telescope_heard,
        say.WhichEyepiece: "눈을 대는 작은 렌즈, 접안렌즈를 하나 말해 주세요. 몇 밀리미터라고 적혀 있어요?",
        say.EyepieceHeard: eyepiece_heard,
        say.ApparentField: "겉보기 시야가 몇 도예요? 모르면 건너뛰기라고 하세요.",
        say.AnotherEyepiece: "접안렌즈가 더 있어요?",
        say.HasItADiagonal: "접안렌즈 앞에서 빛을 위로 꺾는 작은 거울, 천정미러가 있어요?",
        say.WhichFinder: "어떤 파인더가 달려 있어요? 빨간 점이에요, 작은 망원경이에요?",
        say.HowWideIsTheFinder: "파인더에 하늘이 끝에서 끝까지 몇 도 보여요? 모르면 건너뛰기라고 하세요.",
        say.FinderWidthHeard: finder_width_heard,
        say.WhichCompass: "어떤 나침반이 있어요? 바늘 나침반, 판이 도는 나침반, 휴대폰, 아니면 없어요?",
        say.WhichNorthDoesThePhoneShow: "휴대폰이 진북을 가리켜요, 자북을 가리켜요? 나침반 설정에 나와요.",
        say.WhoChoosesTheStars: (
            "정렬할 때 마운트가 별 이름을 말해 줘요, 아니면 골라 달라고 해요? 마운트가 골라요, 목록에서 골라요, 둘 다 아니에요로 답하세요."
        ),
        say.WhichStarsDoesItTake: "밝은 별이면 다 돼요, 별 하나만 써요, 아니면 달이나 행성을 써요?",
        say.WhenIsThePoseTaken: "수평과 북쪽은 언제 맞춰요? 켜기 전이에요, 설정 다음이에요, 아니면 스스로 찾아요?",
        say.DoesItTurnByHand: "손으로 돌려도 마운트가 방향을 잊지 않아요?",
        say.WhichTwoArrowsLast: "설명서는 별마다 마지막에 어느 화살표 두 개를 누르래요? 아니면 안 적혀 있어요라고 하세요.",
        say.WhichKeyConfirms: "확인하는 키에 뭐라고 적혀 있어요? 엔터, 오케이, 셀렉트, 컨펌, 아니면 다른 말이에요?",
        say.WhatIsInTheWay: "계신 곳에서 무엇이 하늘을 가려요? 서쪽에 나무가 주먹 세 개처럼 말하세요. 없으면 가린 것 없어요라고 하세요.",
        say.AnythingElseInTheWay: "또 있어요? 없으면 그게 다예요라고 하세요.",
        say.InTheWayHeard: in_the_way_heard,
        say.DoYouSeeTheMilkyWay: "달 없는 맑은 밤에 거기서 은하수가 보여요?",
        say.AloneOrWithPeople: "오늘 혼자예요, 사람들과 함께예요? 함께라면 키를 누르고 있을 때만 들을게요.",
        say.WhatIsHardForYou: "무엇이 힘드세요? 어두운 별, 무릎 꿇기, 손 높이 뻗기, 아니면 없어요? 하나씩 말하세요. 잘 안 보이시면 눈이 나빠요라고 하세요.",
        say.AnotherLimit: "또 있어요? 없으면 더 없어요라고 하세요.",
        say.InFullOrShort: "모든 단계를 자세히 말할까요, 짧게 말할까요?",
        say.HowManyFists: how_many_fists,
        say.FistHeard: fist_heard,
        say.UnlikelyFist: unlikely_fist,
        say.FistLeft: "그건 그냥 둘게요. 주먹 하나를 십 도로 셀게요.",
        say.NoPairForTheFist: "지금은 주먹을 재기 좋은 별 한 쌍이 없어요. 주먹 하나를 십 도로 셀게요.",
    },
    terse={
        say.AboutYourEquipment: "이제 장소와 망원경이에요. 건너뛰기라고 해도 돼요.",
        say.AboutYourTelescope: "건너뛰기라고 해도 돼요.",
        say.WhereAreYou: "가장 가까운 큰 도시가 어디예요? 아니면 위도와 경도라고 하세요.",
        say.SpellTheTown: "어떻게 시작해요? 로마자 네 개까지요.",
        say.HowFarFromTown: "거기서 어느 쪽으로 얼마나 떨어져 있어요? 아니면 시내예요라고 하세요.",
        say.YourLatitude: "위도가 얼마예요?",
        say.YourLongitude: "경도가 얼마예요?",
        say.Aperture: "앞 렌즈나 주경의 지름이 얼마예요? 밀리미터나 인치로 말하세요.",
        say.FocalLength: "초점 거리가 얼마예요?",
        say.WhichEyepiece: "접안렌즈가 몇 밀리미터예요?",
        say.ApparentField: "겉보기 시야가 몇 도예요?",
        say.AnotherEyepiece: "접안렌즈가 또 있어요?",
        say.HasItADiagonal: "천정미러가 있어요?",
        say.WhichFinder: "파인더가 빨간 점이에요, 작은 망원경이에요?",
        say.HowWideIsTheFinder: "파인더에 하늘이 몇 도 보여요?",
        say.WhichCompass: "나침반은 바늘 나침반, 판이 도는 나침반, 휴대폰, 아니면 없어요?",
        say.WhoChoosesTheStars: "정렬 별은 마운트가 골라요, 목록에서 골라요, 둘 다 아니에요?",
        say.WhenIsThePoseTaken: "수평과 북쪽은 켜기 전이에요, 설정 다음이에요, 스스로 찾아요?",
        say.DoesItTurnByHand: "손으로 돌려도 방향을 안 잊어요?",
        say.WhichKeyConfirms: "어느 키로 확인해요?",
        say.WhichTwoArrowsLast: "별마다 마지막에 어느 화살표 두 개예요?",
        say.WhatIsInTheWay: "무엇이 어느 쪽에서 주먹 몇 개까지 하늘을 가려요?",
        say.DoYouSeeTheMilkyWay: "거기서 은하수가 보여요?",
        say.AloneOrWithPeople: "혼자예요, 사람들과 함께예요?",
        say.WhatIsHardForYou: "무엇이 힘드세요? 어두운 별, 무릎 꿇기, 손 높이 뻗기, 아니면 없어요?",
        say.AnotherLimit: "또 있어요?",
        say.InFullOrShort: "자세히 할까요, 짧게 할까요?",
    },
    sayable={
        answers.TownAnswer: ("서울 근처", "위도와 경도", "철자로 말할게요"),
        answers.TownLettersAnswer: ("비 알 아이 에스",),
        answers.FromTownAnswer: ("북서쪽으로 십 킬로미터", "남쪽으로 육 마일", "시내예요"),
        answers.FinderKindAnswer: ("빨간 점이에요", "작은 망원경이에요", "파인더가 없어요"),
        answers.CompassKindAnswer: ("바늘 나침반이요", "판이 도는 나침반이요", "휴대폰이요", "나침반이 없어요"),
        answers.StarChoiceAnswer: ("마운트가 골라요", "목록에서 골라요", "둘 다 아니에요"),
        answers.StarChoiceElseAnswer: ("밝은 별이면 다 돼요", "별 하나만 써요", "달이나 행성이요"),
        answers.PhoneNorthAnswer: ("진북이요", "자북이요"),
        answers.FieldWidthAnswer: ("오십 도", "팔십이 도"),
        answers.FinderWidthAnswer: ("육 도", "육 점 오 도"),
        answers.PoseTimeAnswer: ("켜기 전이요", "설정 다음이요", "스스로 찾아요"),
        answers.LastKeysAnswer: ("위쪽과 오른쪽이요", "아래쪽과 왼쪽이요", "안 적혀 있어요"),
        answers.ConfirmKeyAnswer: ("엔터", "오케이", "셀렉트", "컨펌", "다른 말이에요"),
        answers.CompanyAnswer: ("혼자예요", "사람들과 함께예요"),
        answers.LimitsAnswer: ("어두운 별이요", "무릎 꿇기요", "손 높이 뻗기요", "더 없어요"),
        answers.FullnessAnswer: ("자세히요", "짧게요"),
        answers.MillimetresAnswer: ("일 이 영 영", "천이백 밀리미터", "팔 인치"),
        answers.FewMillimetresAnswer: ("이십오 밀리미터", "구 점 칠"),
        answers.HorizonAnswer: ("서쪽에 나무가 주먹 세 개", "가린 것 없어요", "그게 다예요"),
        answers.FistsAnswer: ("주먹 세 개 반", "주먹 네 개"),
    },
    step_help={
        say.WhereAreYou: "세계의 큰 도시를 알아요. 이십 킬로미터 안이면 설치에는 충분해요.",
        say.SpellTheTown: "가장 가까운 큰 도시 이름의 첫 글자 네 개예요. 더 짧은 이름이면 다 부르세요. 저는 한 글자씩은 잘 못 들으니, 글로 쓰거나 건너뛰기라고 한 다음 더 큰 도시나 위도와 경도를 말하는 쪽이 나아요.",
        say.TownHeard: "그 도시가 맞으면 네, 다른 도시면 아니요라고 하세요.",
        say.HowFarFromTown: "킬로미터나 마일로 말하세요. 이십 킬로미터 안이면 시내예요라고 하세요.",
        say.FromTownHeard: "맞으면 네, 새로 말하려면 아니요라고 하세요.",
        say.YourLatitude: "지도나 휴대폰에 나와요. 십분의 일 도, 그러니까 육 분까지면 충분해요.",
        say.YourLongitude: "지도나 휴대폰에 나와요. 그리니치보다 서쪽이면 서경이에요.",
        say.YourPlaceHeard: "맞으면 네, 새로 말하려면 아니요라고 하세요.",
        say.Aperture: "경통이나 렌즈 옆에, 흔히 디 뒤에 적혀 있어요. 숫자를 하나씩 말하세요.",
        say.FocalLength: "경통이나 초점 손잡이 옆에, 흔히 에프 뒤에 적혀 있어요. 숫자를 하나씩 말하세요.",
        say.TelescopeHeard: "맞으면 네, 새로 말하려면 아니요라고 하세요.",
        say.WhichEyepiece: "숫자는 테두리에 새겨져 있어요. 하늘을 가장 넓게 보여 주는 가장 큰 숫자부터 말하세요.",
        say.FinderWidthHeard: "맞으면 네, 새로 말하려면 아니요라고 하세요.",
        say.EyepieceHeard: "맞으면 네, 새로 말하려면 아니요라고 하세요.",
        say.ApparentField: "도 단위로 새겨진 것도 있어요. 단순한 접안렌즈는 오십 도쯤이에요.",
        say.AnotherEyepiece: "단계마다 하늘이 넉넉히 보이는 접안렌즈를 골라 드려요.",
        say.HasItADiagonal: "천정미러가 있으면 아래로 들여다보고, 왼쪽과 오른쪽이 바뀌어 보여요.",
        say.WhichFinder: "빨간 점은 두 눈을 뜨고 봐요. 작은 망원경은 십자가 보이고 대개 상이 뒤집혀요.",
        say.HowWideIsTheFinder: "설명서에 나와요. 대개 오 도에서 팔 도예요. 손으로 찾아가는 길을 이것으로 재요.",
        say.WhichCompass: "진북과 어긋나는 정도가 저마다 달라서 무엇을 가리켜야 하는지 말해 드려요.",
        say.WhoChoosesTheStars: "정렬을 시작하면 마운트가 맨 먼저 하는 일이에요.",
        say.WhichNorthDoesThePhoneShow: "나침반 설정에서 진북을 찾아보세요. 없으면 자북을 가리켜요.",
        say.WhichStarsDoesItTake: "이름을 안 묻고 밝은 것을 가운데에 넣으라고만 하면, 밝은 별이면 다 돼요.",
        say.WhenIsThePoseTaken: "켜기 전에 맞추는지, 날짜와 장소 다음에 맞추는지 설명서에 나와요.",
        say.DoesItTurnByHand: "고정 나사를 풀고 돌려도 방향을 세는 것이 있어요. 대부분은 잊어버려요.",
        say.WhichTwoArrowsLast: "톱니의 유격을 없애는 키예요. 모르면 첫 별에서 마운트를 보고 알아봐요.",
        say.WhichKeyConfirms: "어두운 곳에서 찾을 수 있게 그 이름으로 부를게요.",
        say.WhatIsInTheWay: "무엇이, 어느 쪽에, 주먹 몇 개 높이인지 말하세요. 그 뒤의 것은 권하지 않을게요.",
        say.AnythingElseInTheWay: "다음 것과 방향, 주먹 높이를 말하세요.",
        say.InTheWayHeard: "맞으면 네, 빼고 새로 말하려면 아니요라고 하세요.",
        say.DoYouSeeTheMilkyWay: "하늘을 가로지르는 흐린 띠예요. 거기서 얼마나 어두운 것까지 보이는지 알려 줘요.",
        say.AloneOrWithPeople: "다른 사람의 말을 답으로 들을 수 있어서 물어요. 혼자면 키를 안 눌러도 돼요.",
        say.WhatIsHardForYou: "더 밝은 별이나 편한 높이의 별을 골라 드려요.",
        say.AnotherLimit: "다음 것을 말하거나 더 없어요라고 하세요.",
        say.InFullOrShort: "자세히는 어떻게 하는지까지 말해요. 짧게는 무엇을 할지만 말해요.",
        say.HowManyFists: "한 별에서 다른 별까지 세세요. 딱 떨어지지 않으면 반도 세세요.",
        say.FistHeard: "그렇게 셌으면 네, 새로 세려면 아니요라고 하세요.",
    },
)
