"""Writes the Korean grammars of names: star_names, question_names, towns, town_letters and trade_words in grammars/ko.

Run by hand after a table of the sky, of towns or of Korean names changes: ``python grammars/make_korean_names.py``. A test holds the files
against this.
"""

from __future__ import annotations

import csv
from importlib import resources
from pathlib import Path

from skyfield.api import load_constellation_names

from companion import observing, places, sky
from companion.languages.ko.spoken_names import known_constellations, known_names, known_towns, spoken_name
from companion.languages.ko.trade_word_phrases import FORMS
from companion.languages.ko.transliteration import letters

_LETTERS = 3
_HEAD = "#JSGF V1.0 UTF-8 ko;\n\n// Made by grammars/make_korean_names.py. {what}\ngrammar {name};\n\n"


def texts() -> dict[str, str]:
    """Return each file's text by its name."""
    return {
        "star_names": _star_names(),
        "question_names": _question_names(),
        "towns": _towns(),
        "town_letters": _town_letters(),
        "trade_words": _trade_words(),
    }


def _choice(rule: str, ways: dict[str, str]) -> str:
    """Return a rule, one way a line, from what is meant to what is said."""
    lines = [f"({said}) {{{meant}}}" for meant, said in ways.items()]
    return f"\n<{rule}> = " + f"\n{' ' * (len(rule) + 3)}| ".join(lines) + ";\n"


def _star_names() -> str:
    stars = {body.name: spoken_name(body.name) for body in sky.nameable()}
    beginnings = sorted({name.replace(" ", "")[:_LETTERS].upper() for name in stars})
    spelt = {beginning: " ".join(letters(beginning)) for beginning in beginnings}
    return (
        _HEAD.format(what="Asked in a step of its own: the names are many.", name="star_names")
        + "/**\n * @example 베가라고 나와요\n * @example 베가\n * @example 바다뱀자리에 있는 별\n * @example 첫 글자는 에이 엘 피\n"
        + " * @counterexample 나와요\n */\npublic <star_name> = <star> [(이라고 | 라고) 나와요] {star-name}\n"
        + "                   | <constellation> 에 있는 별 {star-name}\n                   | 첫 글자는 <letters> {star-letters};\n"
        + _choice("star", stars)
        + _choice("constellation", _brightest())
        + _choice("letters", spelt)
    )


def _brightest() -> dict[str, str]:
    """Return the brightest star a mount may name of each constellation, with the constellation's Korean name."""
    # Both lists go by the alphabet of the Latin names.
    codes = [code for code, _ in sorted(load_constellation_names(), key=lambda pair: pair[1].replace("ö", "o"))]
    korean = dict(zip(codes, known_constellations().values(), strict=True))
    offered = {body.name for body in sky.nameable()}
    rows = csv.DictReader((resources.files("companion.sky.data") / "stars.csv").read_text("utf-8").splitlines())
    found: dict[str, str] = {}
    for row in sorted(rows, key=lambda row: float(row["vmag"])):
        if row["name"] in offered:
            found.setdefault(row["constellation"], row["name"])
    return {star: korean[code] for code, star in found.items()}


def _question_names() -> str:
    bodies = {body.name: spoken_name(body.name) for body in (*sky.nameable(), sky.SUN)}
    taken = set(bodies.values())
    showpieces: dict[str, str] = {}
    for showpiece in observing.rated_showpieces():
        body = showpiece.body
        number = observing.catalogue_number(body)
        said = [spoken_name(name) for name in dict.fromkeys((body.name, number or body.name)) if name in known_names() or name == number]
        said += [words.replace("메시에", "엠") for words in said if words.startswith("메시에")]
        fresh = [words for words in dict.fromkeys(said) if words not in taken]
        taken |= set(fresh)
        if fresh and body.name not in bodies:
            showpieces[body.name] = " | ".join(fresh)
    return (
        _HEAD.format(what="Never live beside an open question.", name="question_names")
        + "/**\n * @example 토성이 어디 있어요\n * @example 달이 떠 있어요\n * @example 아르크투루스가 언제 떠요\n * @example 메시에 십삼\n"
        + " * @counterexample 토성\n */\npublic <sky_question> = <name> [이 | 가] 어디 있어요 {where-now}\n"
        + "                      | <name> [이 | 가] 떠 있어요 {up-now}\n                      | <name> [이 | 가] 언제 떠요 {rises-when}\n"
        + "                      | <name> [이 | 가] 언제 져요 {sets-when}\n"
        + "                      | <name> [이 | 가] 얼마나 높아요 {height-of}\n"
        + "                      | <name> [이 | 가] 얼마나 멀어요 {how-far}\n"
        + "                      | <name> [이 | 가] 얼마나 커요 {how-big}\n"
        + "                      | <name> [은 | 는] 뭐예요 {what-kind}\n"
        + "                      | <name> 이야기해 주세요 {tell-story}\n"
        + "                      | <name> [이 | 가] 왜 좋아요 {why-it}\n"
        + "                      | <object> {where-now};\n\n"
        + "/**\n * @example 토성 보여 주세요\n * @example 안드로메다은하를 볼래요\n * @counterexample 보여 주세요\n */\n"
        + "public <show_me> = <name> [을 | 를] (보여 주세요 | 볼래요) {show-me};\n\n"
        + "<name> = <body> | <showpiece>;\n<object> = <showpiece>;\n"
        + _choice("body", bodies)
        + _choice("showpiece", showpieces)
    )


def _towns() -> str:
    towns = {town.name for town in places.towns()}
    return (
        _HEAD.format(what="The towns with a usual Korean name; others can be spelt, or given by latitude and longitude.", name="towns")
        + "/**\n * @example 서울 근처\n * @example 위도와 경도\n * @example 철자로 말할게요\n * @counterexample 서울\n */\n"
        + "public <town> = <town_name> 근처 {town} | 위도와 경도 {figures} | 철자로 말할게요 {spell};\n"
        + _choice("town_name", {name: said for name, said in known_towns().items() if name in towns})
    )


def _town_letters() -> str:
    return (
        _HEAD.format(
            what="How the towns' names begin, in Latin letters. Live at one question only, and part of no search.", name="town_letters"
        )
        + "/**\n * @example 비 알 아이 에스\n * @counterexample 비\n */\npublic <town_letters> = <letters> {letters};\n"
        + _choice("letters", {beginning: " ".join(letters(beginning)) for beginning in places.town_beginnings()})
    )


def _trade_words() -> str:
    return (
        _HEAD.format(what="What a word of the trade means. Never live beside an open question.", name="trade_words")
        + "/**\n * @example 접안렌즈가 뭐예요\n * @example 동기화가 무슨 뜻이에요\n * @counterexample 뭐예요\n */\n"
        + "public <word_question> = <word> [이 | 가] (뭐예요 | 무슨 뜻이에요) {what-is};\n"
        + _choice("word", {str(word): " | ".join(forms) for word, forms in FORMS.items()})
    )


if __name__ == "__main__":
    for name, text in texts().items():
        (Path(__file__).parent / "ko" / f"{name}.jsgf").write_text(text, "utf-8")
