"""How names are spelled: Greek letters, genitives of the constellations, and the plain form in which names are compared."""

from __future__ import annotations

import re
import unicodedata

from companion.sky.spelt_numbers import spelt_number

GREEK = {
    "alf": "Alpha", "bet": "Beta", "gam": "Gamma", "del": "Delta", "eps": "Epsilon", "zet": "Zeta", "eta": "Eta", "tet": "Theta",
    "iot": "Iota", "kap": "Kappa", "lam": "Lambda", "mu": "Mu", "nu": "Nu", "ksi": "Xi", "omi": "Omicron", "pi": "Pi", "rho": "Rho",
    "sig": "Sigma", "tau": "Tau", "ups": "Upsilon", "phi": "Phi", "chi": "Chi", "psi": "Psi", "ome": "Omega",
}  # fmt: skip

GENITIVES = {
    "And": "Andromedae", "Ant": "Antliae", "Aps": "Apodis", "Aql": "Aquilae", "Aqr": "Aquarii", "Ara": "Arae", "Ari": "Arietis",
    "Aur": "Aurigae", "Boo": "Bootis", "CMa": "Canis Majoris", "CMi": "Canis Minoris", "CVn": "Canum Venaticorum", "Cae": "Caeli",
    "Cam": "Camelopardalis", "Cap": "Capricorni", "Car": "Carinae", "Cas": "Cassiopeiae", "Cen": "Centauri", "Cep": "Cephei",
    "Cet": "Ceti", "Cha": "Chamaeleontis", "Cir": "Circini", "Cnc": "Cancri", "Col": "Columbae", "Com": "Comae Berenices",
    "CrA": "Coronae Australis", "CrB": "Coronae Borealis", "Crt": "Crateris", "Cru": "Crucis", "Crv": "Corvi", "Cyg": "Cygni",
    "Del": "Delphini", "Dor": "Doradus", "Dra": "Draconis", "Equ": "Equulei", "Eri": "Eridani", "For": "Fornacis", "Gem": "Geminorum",
    "Gru": "Gruis", "Her": "Herculis", "Hor": "Horologii", "Hya": "Hydrae", "Hyi": "Hydri", "Ind": "Indi", "LMi": "Leonis Minoris",
    "Lac": "Lacertae", "Leo": "Leonis", "Lep": "Leporis", "Lib": "Librae", "Lup": "Lupi", "Lyn": "Lyncis", "Lyr": "Lyrae",
    "Men": "Mensae", "Mic": "Microscopii", "Mon": "Monocerotis", "Mus": "Muscae", "Nor": "Normae", "Oct": "Octantis",
    "Oph": "Ophiuchi", "Ori": "Orionis", "Pav": "Pavonis", "Peg": "Pegasi", "Per": "Persei", "Phe": "Phoenicis", "Pic": "Pictoris",
    "PsA": "Piscis Austrini", "Psc": "Piscium", "Pup": "Puppis", "Pyx": "Pyxidis", "Ret": "Reticuli", "Scl": "Sculptoris",
    "Sco": "Scorpii", "Sct": "Scuti", "Ser": "Serpentis", "Sex": "Sextantis", "Sge": "Sagittae", "Sgr": "Sagittarii", "Tau": "Tauri",
    "Tel": "Telescopii", "TrA": "Trianguli Australis", "Tri": "Trianguli", "Tuc": "Tucanae", "UMa": "Ursae Majoris",
    "UMi": "Ursae Minoris", "Vel": "Velorum", "Vir": "Virginis", "Vol": "Volantis", "Vul": "Vulpeculae",
}  # fmt: skip

_ABBREVIATIONS = {genitive: short for short, genitive in GENITIVES.items()}
_GREEK_SIGNS = dict(zip("αβγδεζηθικλμνξοπρστυφχψω", GREEK.values(), strict=True))


def bayer_name(letter: str, constellation: str) -> str:
    """Return ``gam02``, ``Vel`` as ``Gamma2 Velorum``; other letters and Flamsteed numbers as they are: ``80 Ursae Majoris``."""
    stem, index = re.fullmatch(r"(.*?)0?(\d?)", letter).groups() if letter[:3].rstrip("0123456789") in GREEK else (letter, "")  # type: ignore[union-attr]
    return f"{GREEK.get(stem, stem)}{index} {GENITIVES[constellation]}"


def with_abbreviation(name: str) -> tuple[str, ...]:
    """Return ``61 Cygni`` with its short form ``61 Cyg``, and any other name alone."""
    star, _, genitive = name.partition(" ")
    short = _ABBREVIATIONS.get(genitive)
    return (name, f"{star} {short}") if short else (name,)


def plain(name: str) -> str:
    """Return a name as names are compared: no case, accents, hyphens, apostrophes or spaces, Greek signs spelled out."""
    name = unicodedata.normalize("NFKD", name.strip().casefold())
    spelled = "".join(_GREEK_SIGNS.get(letter, letter) for letter in name)
    return "".join(letter for letter in spelled.casefold() if letter.isalnum() and letter.isascii())


def number_form(name: str) -> str | None:
    """Return a catalogue number as ``plain`` writes it (``Messier 031`` as ``m31``), None when the name is no such number.

    The number may be spelt out, as it is said: ``Messier thirteen``, ``N G C five one three nine``.
    """
    said = re.fullmatch(r"(messier|m|n ?g ?c|i ?c|caldwell|c)\s([a-z\s-]+)", name.strip().casefold())
    spelt = spelt_number(said[2]) if said else None
    match = re.fullmatch(r"(messier|m|ngc|ic|caldwell|c|hip)0*(\d+)", f"{plain(said[1])}{spelt}" if said and spelt else plain(name))
    return match and {"messier": "m", "caldwell": "c"}.get(match[1], match[1]) + match[2]
